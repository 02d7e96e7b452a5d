"""Mutated settings, profiles, stories and model manifests: each is taken whole, or refused in words."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path, PurePosixPath

from tests.bench import fuzz_mutate
from tests.bench.fuzz_mutate import written_anew
from tests.bench.fuzz_watch import only
from voicecoach import places
from voicecoach.coach.profile import Profile, lines
from voicecoach.coach.profile_notes import notes
from voicecoach.errors import Problem
from voicecoach.game_file import read_game
from voicecoach.head import picture
from voicecoach.model_store.manifest import read
from voicecoach.personal import read_profile, write_profile
from voicecoach.places import scenarios
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, file_note
from voicecoach.session.view import json_line, turn_line
from voicecoach.story import read_story, write_story
from voicecoach.understand.values import Note

SLOWEST_S = 2.0
"""Processor time that no file may take."""
LONGEST = 10_000
"""Letters in what is said about a bad file."""
GAME = (
    "format: pairs\nlead: ours\nmat_m: 2.0\njack_m: 23.5\nrink_m: 5\ngreen_m: 34\nhand: right\nrespot: true\n"
)
PROFILE = (
    "player: Mary\nhand: left\nsight_body: IBSA\nsight_class: B2\nunits: feet\nhours: whole\n"
    "rate: 2\nvolume: -1\norder: hour first\nform: nearest four\nterse: true\nunasked: false\n"
    "sides: yours\npace_m: 0.7\nbowl_mm: 120\n"
    "microphone: USB\neye:\n  mat: {says: 1.1, relative_sd: 0.2, hour_shift: 0.1, hour_sd: 0.4}\n"
)
BOMBS = (
    "a: &a [x, x, x, x]\n"
    + "".join(f"b{n}: &b{n} [*{'a' if n == 0 else f'b{n - 1}'}, *a]\n" for n in range(40)),
    "a: &a {x: 1}\n"
    + "".join(f"b{n}: &b{n} {{<<: [*{'a' if not n else f'b{n - 1}'}, *a]}}\n" for n in range(40)),
    "[" * 5000,
    "{a: " * 4000,
    "- " * 4000,
    "!!python/object/apply:os.system ['touch pwned']\n",
    "format: !!python/name:os.system\n",
    "mat_m: 2026-99-99\n",
    "mat_m: .nan\n",
    "mat_m: 1e999\n",
    "mat_m: 0x_\n",
    "? {a: b}\n: c\n",
    'format: "\\uD800\\e[2J"\n',
)
"""What a few lines of YAML can do to a careless reader."""


def run(count: int, seed: int, folder: Path) -> Counter[str]:
    """So many files of each kind, one after another under one name; raises where one isn't handled."""
    dice, came = random.Random(seed), Counter[str]()
    story = (scenarios() / "first_end" / "story.yaml").read_text(encoding="utf-8")
    manifest = places.manifest().read_text(encoding="utf-8")
    kinds: tuple[tuple[str, str, Callable[[Path], None]], ...] = (
        ("game", GAME, _game),
        ("profile", PROFILE, _profile),
        ("story", story, _story),
        ("manifest", manifest, _manifest),
    )
    for kind, sample, use in kinds:
        for number in range(count):
            path = folder / f"{kind}.file"
            written_anew(path, _mutated(sample, dice, number))
            where = f"seed {seed}, {kind} {number}, kept as {path}"
            came[f"{kind} {_used(use, path, where)}"] += 1
    return came


def _mutated(sample: str, dice: random.Random, number: int) -> bytes:
    if number < len(BOMBS):
        return BOMBS[number].encode("utf-8", "surrogatepass")
    if dice.random() < 0.2:
        return fuzz_mutate.data(sample.encode(), dice, header=len(sample))
    return fuzz_mutate.text(sample, dice).encode("utf-8", "surrogatepass")


def _used(use: Callable[[Path], None], path: Path, where: str) -> str:
    began = time.process_time()
    try:
        with only(path.parent):
            use(path)
        said = ""
    except Problem as problem:
        said = str(problem)
    except Exception as problem:
        raise AssertionError(f"{where}: {problem!r}") from problem
    assert time.process_time() - began < SLOWEST_S, where
    assert len(said) < LONGEST, f"{where}: {len(said)} letters are said about it"
    return "refused" if said else "taken"


def _game(path: Path) -> None:
    _filed(read_game(path))


def _filed(note: Note) -> None:
    talk, entry = file_note(Talk(), note, "a file", When(at=""))
    json_line(turn_line(entry, picture(talk.play.head)))
    entry.model_dump_json()


def _profile(path: Path) -> None:
    profile = read_profile(path)
    assert Profile.model_validate(profile.model_dump()) == profile
    lines(profile)
    for note in notes(profile):
        _filed(note)
    written = path.with_suffix(".again")
    write_profile(profile, written)
    assert read_profile(written) == profile
    assert written.stat().st_mode & 0o777 == 0o600


def _story(path: Path) -> None:
    story = read_story(path)
    write_story(story)
    for step in story.steps:
        assert step.audio is None or (path.parent / step.audio).parent == path.parent


def _manifest(path: Path) -> None:
    manifest = read(path)
    for name in (manifest.name, manifest.maven.file_name, *(file.path for file in manifest.files)):
        pure = PurePosixPath(name)
        assert not pure.is_absolute(), name
        assert ".." not in pure.parts, name
        assert pure.parts, name
    assert manifest.size_bytes >= 0
