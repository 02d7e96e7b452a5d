"""An afternoon by script, and what was filed for nothing: python -m tests.bench.soak."""

from __future__ import annotations

import contextlib
import random
import statistics
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import click
import numpy as np

from tests.bench.hearing import corpus
from tests.bench.soak_sounds import MINUTE, SCENES, Scene, clip, minute, phrases
from voicecoach import phrasebook
from voicecoach.hear.blocks import BLOCK, RATE_HZ, Block, Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.session.settings import Manner
from voicecoach.session.talk import Talk
from voicecoach.session.turn import CALL_WORD, When, expected, lapse, turn
from voicecoach.session.values import Entry
from voicecoach.understand.reading import Understanding

NOTE = "our second bowl, eighty centimetres, two o'clock."
"""Said now and then, so that an ear which has gone deaf doesn't pass for a careful one."""
NOTE_EVERY = 5
"""Minutes from one real note to the next."""
HALF_HOUR = 30
"""Minutes."""
WARM = 10
"""Minutes until memory is first looked at: models and caches are full by then."""


@dataclass
class Sitting:
    """One session that hears everything: what it made of it, by kind of minute."""

    call_word: bool
    talk: Talk = field(default_factory=Talk)
    outcomes: dict[str, Counter[str]] = field(default_factory=lambda: defaultdict(Counter))
    filed: list[str] = field(default_factory=list)
    """What was filed for nothing: where, the words heard, the kind of note."""

    def begin(self) -> None:
        """A new game: nothing on the head, no question open."""
        self.talk = Talk(manner=Manner(call_word=self.call_word))

    def hear(self, heard: Heard, understanding: Understanding) -> Entry:
        """One utterance, after whatever question has lapsed."""
        self.talk, _ = lapse(self.talk, at="", now_s=heard.started_s or 0.0)
        self.talk, entry = turn(self.talk, heard, understanding, When(at=""))
        return entry

    def count(self, scene: str, entry: Entry) -> None:
        """Talk was heard, and this came of it."""
        self.outcomes[scene][entry.outcome] += 1
        if entry.outcome == "noted" and entry.note:
            self.filed.append(f"{scene}: {entry.heard.text} -> {entry.note.kind}")

    def total(self, outcome: str) -> int:
        """How often something came of talk, over all kinds of minute."""
        return sum(counts[outcome] for counts in self.outcomes.values())


@dataclass(frozen=True)
class RealNote:
    """A real note: for whom it is, and where it lies on the audio clock."""

    call_word: bool
    started_s: float
    ended_s: float

    def holds(self, heard: Heard) -> bool:
        """True when the utterance is this note."""
        return heard.ended_s is not None and self.started_s < heard.ended_s < self.ended_s + 1


class Soak:
    """The ear and two sessions behind it, one of them with the call word on."""

    def __init__(self, talk: list[Samples]) -> None:
        book = phrasebook.load()
        self.understanding = Understanding(book)
        self.open, self.called = Sitting(call_word=False), Sitting(call_word=True)
        self.ear = Ear(Recogniser(model_path(), book), self._is_whole)
        self.talk = talk
        self.fed = 0
        self.work_s: dict[str, float] = defaultdict(float)
        self.late_s: list[float] = []
        self.said = self.taken = self.twice = 0

    def _is_whole(self, text: str) -> bool | None:
        return self.understanding.is_final(text, expected(self.open.talk, Heard(text=text)))

    def hear(self, scene: Scene, dice: np.random.Generator, note: Samples | None, called: bool) -> None:
        """One minute; at its middle a real note, if there is one, each time in a new game."""
        began_s = self.fed / RATE_HZ
        sound = minute(scene, dice, self.talk, None if note is None else (note, 30.0))
        real = None
        if note is not None:
            real = RealNote(called, began_s + 30.0, began_s + 30.0 + note.size / RATE_HZ)
            self.open.begin()
            self.called.begin()
            self.said += 1
        started, taken = time.process_time(), 0
        for heard in self._heard(sound):
            taken += self._both_hear(heard, scene, real)
        self.work_s[scene.name] += time.process_time() - started
        self.taken += taken > 0
        self.twice += taken > 1

    def _heard(self, sound: Samples) -> Iterator[Heard]:
        for start in range(0, sound.size, BLOCK):
            block = Block(sound[start : start + BLOCK], self.fed / RATE_HZ)
            self.fed += BLOCK
            yield from self.ear.hear_block(block, "soak")

    def _both_hear(self, heard: Heard, scene: Scene, real: RealNote | None) -> int:
        """Both sessions take the utterance; 1 when it was the real note and was filed."""
        taken = 0
        for sitting in (self.open, self.called):
            entry = sitting.hear(heard, self.understanding)
            if not (real and real.holds(heard)):
                sitting.count(scene.name, entry)
            elif sitting.call_word != real.call_word:
                if sitting.call_word:
                    sitting.count(scene.name, entry)
            elif entry.outcome == "noted":
                taken = 1
                self.late_s.append((heard.ended_s or 0.0) - real.ended_s)
        self.ear.expect(phrasebook.load().answers(self.open.talk.open))
        return taken


def resident_mb() -> float:
    """Resident memory now, megabytes."""
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1]) * 4_096 / 1e6


@click.command()
@click.option("--hours", default=5.0, show_default=True, help="Hours of sound.")
@click.option("--seed", default=8, show_default=True, help="The same seed gives the same sound.")
@click.option("--phrases", "count", default=400, show_default=True, help="Different things that are said.")
def main(hours: float, seed: int, count: int) -> None:
    """Wind, mowers, crowds and talk through the ear: false filings an hour, memory, the clocks."""
    dice = random.Random(seed)
    said = [clip(text, dice) for text in phrases(count, seed)]
    said += [one for one in corpus.clips() if one.line.meaning is None and one.path.exists()]
    soak = Soak([one.sound() for one in said])
    notes = [clip(text, random.Random(3), "rms").sound() for text in (NOTE, f"{CALL_WORD}, {NOTE}")]
    memory: list[float] = []
    with contextlib.suppress(KeyboardInterrupt):  # stopped early, it reports what it heard
        for number in range(round(hours * 60)):
            real = number // NOTE_EVERY % 2 if number % NOTE_EVERY == NOTE_EVERY - 1 else None
            soak.hear(
                SCENES[number % len(SCENES)],
                np.random.default_rng([seed, number]),
                None if real is None else notes[real],
                bool(real),
            )
            memory.append(resident_mb())
    if not memory:
        raise click.ClickException("Not a minute was heard: nothing can be told.")
    voices = len({one.voice.key for one in said})
    print(f"{len(memory)} minutes of sound, {len(said)} things said by {voices} voices, seed {seed}")
    print("\n".join(report(soak, memory)))


def report(soak: Soak, memory: list[float]) -> Iterator[str]:
    """The table, in plain lines; one figure of memory for each minute that was heard."""
    yield from _filings("without the call word", soak.open, len(memory) / 60)
    yield from _filings("with the call word", soak.called, len(memory) / 60)
    for place, scene in enumerate(SCENES):
        minutes = len(range(place, len(memory), len(SCENES)))
        share = 100 * soak.work_s[scene.name] / max(1, minutes * 60)
        counts = sorted(soak.open.outcomes[scene.name].items())
        came = ", ".join(f"{count} {kind}" for kind, count in counts) or "nothing heard"
        yield f"  {scene.name}: {minutes} minutes, {share:.1f} % of one core; {came}"
    yield f"real notes: {soak.said} said, {soak.taken} filed, {soak.twice} filed twice"
    warm = min(WARM, len(memory) // 2)
    later = ", ".join(f"{one:.0f}" for one in memory[HALF_HOUR - 1 :: HALF_HOUR])
    every = f", every half hour {later}" if later else ""
    yield f"memory: {memory[warm]:.0f} MB after {warm} minutes of sound{every}, {memory[-1]:.0f} at the end"
    yield f"clocks: {1000 * (soak.ear.clock_s - soak.fed / RATE_HZ):.1f} ms between ear and sound at the end"
    half = len(soak.late_s) // 2
    if half:
        early, late = statistics.median(soak.late_s[:half]), statistics.median(soak.late_s[half:])
        yield f"ends of notes, from the truth: {early:+.3f} s in the first half, {late:+.3f} s in the second"


def _filings(name: str, sitting: Sitting, hours: float) -> Iterator[str]:
    filed = sitting.total("noted")
    others = (("asked", "questions back"), ("refused", "refusals"), ("answered", "answers"))
    counts = ", ".join(f"{sitting.total(outcome)} {words}" for outcome, words in others)
    yield f"{name}: {filed} false filings, {filed / hours:.2f} an hour; {counts}"
    yield from (f"  filed in {one}" for one in sitting.filed)


if __name__ == "__main__":
    assert MINUTE % BLOCK == 0
    main()
