"""An afternoon by script, and what was filed for nothing: python -m tests.bench.soak."""

from __future__ import annotations

import contextlib
import random
import statistics
import time
from collections.abc import Callable, Iterator, Sequence
from multiprocessing import get_context
from pathlib import Path

import click
import numpy as np

from tests.bench.hearing import corpus
from tests.bench.hearing.corpus import Clip
from tests.bench.soak_sittings import Afternoon, Minute, RealNote, Sitting
from tests.bench.soak_sounds import MINUTE, SCENES, Scene, clip, minute, phrases
from voicecoach import phrasebook
from voicecoach.hear.blocks import BLOCK, RATE_HZ, Block, Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.session.turn import CALL_WORD, expected
from voicecoach.understand.reading import Understanding

NOTE = "our second bowl, eighty centimetres, two o'clock."
"""Said now and then, so that an ear which has gone deaf doesn't pass for a careful one."""
NOTE_EVERY = 5
"""Minutes from one real note to the next."""
HALF_HOUR = 30
"""Minutes."""
WARM = 10
"""Minutes until memory is first looked at: models and caches are full by then."""
STRETCH = 10
"""Minutes that one of several processes hears in one go: each begins with a new game."""


class Soak:
    """The ear and two sessions behind it."""

    def __init__(self, model: Path, talk: list[Samples], seed: int) -> None:
        book = phrasebook.load()
        self.understanding = Understanding(book)
        self.came = Afternoon()
        self.ear = Ear(Recogniser(model, book), self._is_whole)
        self._answers, self._talk, self._seed = book.answers, talk, seed
        self._notes = [_note(text).sound() for text in (NOTE, f"{CALL_WORD}, {NOTE}")]
        self.fed = 0

    def _is_whole(self, text: str) -> bool | None:
        return self.understanding.is_final(text, expected(self.came.open.talk, Heard(text=text)))

    def hear(self, number: int) -> Minute:
        """One minute; in the middle of every fifth a real note, each time in a new game."""
        scene = SCENES[number % len(SCENES)]
        dice = np.random.default_rng([self._seed, number])
        sound, real = self._sound(number, scene, dice)
        self.came.begin(scene.name, real)
        started, found = time.process_time(), []
        for heard in self._heard(sound):
            found.append(heard)
            self.came.hear(heard, scene.name, real, self.understanding)
            self.ear.expect(self._answers(self.came.open.talk.open))
        work_s = time.process_time() - started
        self.came.work_s[scene.name] += work_s
        return Minute(number=number, scene=scene.name, real=real, heard=tuple(found), work_s=work_s)

    def _sound(self, number: int, scene: Scene, dice: np.random.Generator) -> tuple[Samples, RealNote | None]:
        if number % NOTE_EVERY < NOTE_EVERY - 1:
            return minute(scene, dice, self._talk, None), None
        called = number // NOTE_EVERY % 2
        note, starts_s = self._notes[called], self.fed / RATE_HZ + 30.0
        ends_s = starts_s + note.size / RATE_HZ
        real = RealNote(call_word=bool(called), started_s=starts_s, ended_s=ends_s)
        return minute(scene, dice, self._talk, (note, 30.0)), real

    def _heard(self, sound: Samples) -> Iterator[Heard]:
        for start in range(0, sound.size, BLOCK):
            block = Block(sound[start : start + BLOCK], self.fed / RATE_HZ)
            self.fed += BLOCK
            yield from self.ear.hear_block(block, "soak")


def _note(text: str) -> Clip:
    return clip(text, random.Random(3), "rms")


def resident_mb() -> float:
    """Resident memory now, megabytes."""
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1]) * 4_096 / 1e6


def talk_of(count: int, seed: int) -> list[Clip]:
    """What is said close by, phrases of the soak's own and the chatter that the hearing bench has spoken."""
    dice = random.Random(seed)
    said = [clip(text, dice) for text in phrases(count, seed)]
    return said + [one for one in corpus.clips() if one.line.meaning is None and one.path.exists()]


@click.command()
@click.option("--hours", default=5.0, show_default=True, help="Hours of sound.")
@click.option("--seed", default=8, show_default=True, help="The same seed gives the same sound.")
@click.option("--phrases", "count", default=400, show_default=True, help="Different things that are said.")
@click.option("--processes", default=1, show_default=True, help=f"Each hears {STRETCH} minutes in one go.")
@click.option(
    "--model", type=click.Path(path_type=Path), help="A speech model's folder; else the one in use."
)
@click.option("--keep", type=click.Path(path_type=Path), help="Write what was heard to this file.")
@click.option("--again", type=click.Path(path_type=Path), help="Only decide anew of what such a file holds.")
def main(
    hours: float,
    seed: int,
    count: int,
    processes: int,
    model: Path | None,
    keep: Path | None,
    again: Path | None,
) -> None:
    """Wind, mowers, crowds and talk through the ear: false filings an hour, memory, the clocks."""
    if again:
        lines = again.read_text(encoding="utf-8").splitlines()
        came = decided_anew([Minute.model_validate_json(line) for line in lines])
        print("\n".join(report(came)))
        return
    numbers, folder, said = range(round(hours * 60)), model or model_path(), talk_of(count, seed)
    print(f"{len(said)} things said by {len({one.voice.key for one in said})} voices, seed {seed}; {folder}")
    with keep.open("w", encoding="utf-8") if keep else contextlib.nullcontext() as file:

        def kept(minute_: Minute) -> None:
            if file:
                file.write(minute_.model_dump_json() + "\n")

        if processes > 1:
            came = Afternoon()
            for part, minutes in _side_by_side(numbers, folder, said, seed, processes):
                came.add(part)
                for one in minutes:
                    kept(one)
            print("\n".join(report(came)))
        else:
            _in_one_go(numbers, Soak(folder, [one.sound() for one in said], seed), kept)


def _in_one_go(numbers: Sequence[int], soak: Soak, kept: Callable[[Minute], None]) -> None:
    """One process hears it all, so that memory and clocks can be told too."""
    memory: list[float] = []
    with contextlib.suppress(KeyboardInterrupt):  # stopped early, it reports what it heard
        for number in numbers:
            kept(soak.hear(number))
            memory.append(resident_mb())
    if not memory:
        raise click.ClickException("Not a minute was heard: nothing can be told.")
    print("\n".join([*report(soak.came), *_told_of_the_process(soak, memory)]))


def _side_by_side(
    numbers: Sequence[int], model: Path, said: Sequence[Clip], seed: int, processes: int
) -> Iterator[tuple[Afternoon, list[Minute]]]:
    work = [
        (model, said, seed, numbers[start : start + STRETCH]) for start in range(0, len(numbers), STRETCH)
    ]
    with get_context("spawn").Pool(processes, maxtasksperchild=1) as pool:
        yield from pool.imap(_stretch, work, chunksize=1)


def _stretch(work: tuple[Path, Sequence[Clip], int, Sequence[int]]) -> tuple[Afternoon, list[Minute]]:
    model, said, seed, numbers = work
    soak = Soak(model, [one.sound() for one in said], seed)
    minutes = [soak.hear(number) for number in numbers]
    return soak.came, minutes


def decided_anew(minutes: Sequence[Minute]) -> Afternoon:
    """Decide anew; each stretch in its own sessions, as it was heard."""
    came, understanding = Afternoon(), Understanding(phrasebook.load())
    for start in range(0, len(minutes), STRETCH):
        part = Afternoon()
        for one in minutes[start : start + STRETCH]:
            part.take(one, understanding)
        came.add(part)
    return came


def report(came: Afternoon) -> Iterator[str]:
    """The table, in plain lines."""
    hours = came.minutes.total() / 60
    yield f"{came.minutes.total()} minutes of sound"
    yield from _filings("without the call word", came.open, hours)
    yield from _filings("with the call word", came.called, hours)
    for scene, minutes in came.minutes.items():
        share = 100 * came.work_s[scene] / (minutes * 60)
        counts = sorted(came.open.outcomes[scene].items())
        what = ", ".join(f"{count} {kind}" for kind, count in counts) or "nothing heard"
        yield f"  {scene}: {minutes} minutes, {share:.1f} % of one core; {what}"
    yield f"real notes: {came.said} said, {came.taken} filed, {came.twice} filed twice"


def _filings(name: str, sitting: Sitting, hours: float) -> Iterator[str]:
    filed = sitting.total("noted")
    others = (("asked", "questions back"), ("refused", "refusals"), ("answered", "answers"))
    counts = ", ".join(f"{sitting.total(outcome)} {words}" for outcome, words in others)
    yield f"{name}: {filed} false filings, {filed / hours:.2f} an hour; {counts}"
    yield from (f"  filed in {one}" for one in sitting.filed)


def _told_of_the_process(soak: Soak, memory: list[float]) -> Iterator[str]:
    """Its memory, one figure for each minute, and its clocks."""
    warm = min(WARM, len(memory) // 2)
    later = ", ".join(f"{one:.0f}" for one in memory[HALF_HOUR - 1 :: HALF_HOUR])
    every = f", every half hour {later}" if later else ""
    yield f"memory: {memory[warm]:.0f} MB after {warm} minutes of sound{every}, {memory[-1]:.0f} at the end"
    yield f"clocks: {1000 * (soak.ear.clock_s - soak.fed / RATE_HZ):.1f} ms between ear and sound at the end"
    late_s = soak.came.late_s
    half = len(late_s) // 2
    if half:
        early, late = statistics.median(late_s[:half]), statistics.median(late_s[half:])
        yield f"ends of notes, from the truth: {early:+.3f} s in the first half, {late:+.3f} s in the second"


if __name__ == "__main__":
    assert MINUTE % BLOCK == 0
    main()
