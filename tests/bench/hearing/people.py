"""People's own recordings: python -m tests.bench.hearing.people FOLDER.

Spoken figures (named FIGURE_SPEAKER_COUNT.wav, as the Free Spoken Digit Dataset names them) answer "Which
hour?"; whatever else is in a folder is talk, of which nothing may be filed.
"""

from __future__ import annotations

import re
import zlib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import click
import numpy as np

from tests.bench.hearing.corpus import loud
from tests.bench.hearing.noise import CONDITIONS, Condition, heard_through
from voicecoach import phrasebook
from voicecoach.errors import DataProblem
from voicecoach.hear.blocks import RATE_HZ, Block, Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import load
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, OpenQuestion, Ranked, Unclear

_FIGURE = re.compile(r"(?P<figure>[1-9])_(?P<speaker>[^_]+)_(?P<count>\d+)")
_NOT_SPLIT_OFF = 5
"""The dataset's own recordings for testing are those counted from nought to four."""


class People:
    """Hears recordings of people, one after the other, under one condition."""

    def __init__(self, condition: Condition) -> None:
        book = phrasebook.load()
        self._understanding = Understanding(book)
        self._ear = Ear(
            Recogniser(model_path(), book), lambda text: self._understanding.is_final(text, Expected())
        )
        self._condition = condition

    def hour(self, path: Path) -> float | str:
        """The hour that a figure is taken for; "asked" or "nothing" where none is taken."""
        open_ = self._which_hour()
        for read in self._read(path, open_):
            if isinstance(read, Ranked) and read.doubt is None:
                note = read.notes[0]
                return note.hour if isinstance(note, BowlRested) and note.hour else str(note.kind)
            if isinstance(read, Ranked) or read.why != "chatter":
                return "asked"
        return "nothing"

    def filed(self, path: Path) -> list[str]:
        """What is filed, or asked about, of talk."""
        return [
            f"filed: {read.notes[0]}" if isinstance(read, Ranked) and read.doubt is None else "asked"
            for read in self._read(path, None)
            if isinstance(read, Ranked) or read.why != "chatter"
        ]

    def _which_hour(self) -> OpenQuestion:
        """What the program asks when a bowl was called without its hour."""
        read = self._understanding.read(Heard(text="our second eighty centimetres"), Expected())
        if not isinstance(read, Unclear) or read.doubt is None:
            raise AssertionError("a bowl without an hour must be asked about")
        return read.doubt

    def _read(self, path: Path, open_: OpenQuestion | None) -> Iterator[Ranked | Unclear]:
        dice = np.random.default_rng(zlib.crc32(f"{path.name}|{self._condition}".encode()))
        sound = heard_through(loud(_samples(path)), self._condition, dice, [])
        self._ear.expect(phrasebook.load().answers(open_))
        for heard in self._ear.listen([Block(sound, 0.0)], "bench"):
            yield self._understanding.read(heard, Expected(open=open_))


def _samples(path: Path) -> Samples:
    """A recording's samples; a file without a header has sixteen bits at 16 kHz."""
    if path.suffix != ".raw":
        return load(path)
    return np.asarray(np.fromfile(path, "<i2") / 32_768, np.float32)


def _seconds(path: Path) -> float:
    """How long a recording is; nought, with the reason printed, for one that can't be read."""
    try:
        return _samples(path).size / RATE_HZ
    except DataProblem as problem:
        print(f"  passed over: {problem}")
        return 0.0


def _spoken_figures(people: People, paths: Sequence[Path]) -> Iterator[str]:
    """How many figures were taken for their hour, for another, or asked about again; by speaker."""
    counts: dict[str, Counter[str]] = {}
    for path in paths:
        said = _FIGURE.fullmatch(path.stem)
        if said is None or int(said["count"]) >= _NOT_SPLIT_OFF:
            continue
        hour = people.hour(path)
        came = hour if isinstance(hour, str) else "right" if hour == int(said["figure"]) else "wrong"
        counts.setdefault(said["speaker"], Counter())[came] += 1
        if came == "wrong":
            yield f"  {path.name}: taken for {hour}"
    for speaker, count in sorted(counts.items()):
        yield f"  {speaker}: {_counted(count)}"
    yield f"  all figures: {_counted(sum(counts.values(), Counter()))}"


def _counted(count: Counter[str]) -> str:
    total = count.total()
    shares = ", ".join(f"{name} {100 * number / total:.1f} %" for name, number in count.most_common())
    return f"{total} recordings: {shares}" if total else "no recordings"


def _talk(people: People, lengths_s: Mapping[Path, float]) -> Iterator[str]:
    """What came of talk, and how long it was."""
    filed, asked = 0, 0
    for path in lengths_s:
        for came in people.filed(path):
            filed, asked = filed + came.startswith("filed"), asked + (came == "asked")
            yield f"  {path.name}: {came}"
    minutes = sum(lengths_s.values()) / 60
    yield f"  {len(lengths_s)} recordings of talk, {minutes:.1f} minutes: filed {filed}, asked about {asked}"


@click.command()
@click.argument("folders", nargs=-1, required=True, type=click.Path(exists=True, path_type=Path))
@click.option(
    "--condition", multiple=True, type=click.Choice(CONDITIONS), default=("clean", "outdoors 10 dB")
)
def main(folders: tuple[Path, ...], condition: tuple[Condition, ...]) -> None:
    """Hear people's own recordings (WAV, FLAC, or raw at 16 kHz) and print what came of them."""
    files = sorted(path for folder in folders for path in folder.rglob("*") if path.suffix in _KINDS)
    figures = [path for path in files if _FIGURE.fullmatch(path.stem)]
    lengths_s = {path: _seconds(path) for path in files if not re.match(r"\d_", path.stem)}
    talk = {path: length for path, length in lengths_s.items() if length > 1}
    for each in condition:
        people = People(each)
        print(each)
        print("\n".join([*_spoken_figures(people, figures), *_talk(people, talk)]), flush=True)


_KINDS = frozenset({".wav", ".flac", ".raw"})


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
