"""What getting to know a voice is worth: python -m tests.bench.hearing.known.

Each voice says thirty notes of which the truth is known, as in practice, and then others. Those others are
scored twice: as if nobody knew the voice, and with its slips. No note is in both.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import click
import numpy as np

from tests.bench.hearing import corpus
from tests.bench.hearing.__main__ import heard_with
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.hearing.outcomes import judge
from tests.bench.hearing.places import RESULTS
from tests.bench.hearing.trials import Listener, Trial
from voicecoach import phrasebook
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding
from voicecoach.understand.slips import Slips, added
from voicecoach.understand.values import Expected

LEARNED = 30
"""Notes that teach."""


class Bench:
    """Hears voices, learns them, and scores the rest."""

    def __init__(self) -> None:
        book = phrasebook.load()
        self._stranger, self._friend = Understanding(book), Understanding(book)
        plain = self._stranger
        self._ear = Ear(Recogniser(model_path(), book), lambda text: plain.is_final(text, Expected()))
        self._made_with = heard_with(book)

    def heard(self, clips: Sequence[Clip], condition: Condition) -> list[Trial]:
        """Let the ear hear the clips; kept, so that the next run goes on where this one stopped."""
        kept = RESULTS / f"known-{self._made_with}" / f"{condition.replace(' ', '-')}.jsonl"
        return Listener(self._ear, []).run(clips, condition, kept)

    def learn(self, trials: Iterable[Trial]) -> Slips:
        """The slips of a voice, from notes whose truth is known."""
        slips: Slips = ()
        for trial in trials:
            if len(trial.heard) == 1:
                slips = added(slips, self._stranger.voice.taught_by_words(trial.heard[0], trial.text))
        return slips

    def rows(
        self, voice: str, condition: Condition, clips: Sequence[Clip], count: int
    ) -> tuple[str, list[int]]:
        """One voice's line of the table, and its figures."""
        teaching = clips[:LEARNED]
        said = {clip.line.text for clip in teaching}
        scored = [clip for clip in clips[LEARNED:] if clip.line.text not in said][:count]
        corpus.complete(teaching)
        slips = self.learn(self.heard(teaching, condition))
        self._friend.voice.slips = slips
        corpus.complete(scored)
        trials = self.heard(scored, condition)
        figures = [len(trials)]
        for understanding in (self._stranger, self._friend):
            outcomes = [judge(understanding, trial).outcome for trial in trials]
            figures += [outcomes.count("right"), outcomes.count("wrong")]
        named = ", ".join(f"{slip.said!r} as {slip.heard!r} {slip.times}:{slip.right}" for slip in slips[:6])
        return f"| {voice} | {condition} | {_cells(figures)} | {named} |", figures


def _cells(figures: Sequence[int]) -> str:
    count, *rest = figures
    right, wrong, known, known_wrong = (100 * each / max(1, count) for each in rest)
    return f"{count} | {right:.0f} / {wrong:.1f} | {known:.0f} / {known_wrong:.1f}"


@click.command()
@click.option("--part", type=click.Choice(["tuning", "scored"]), default="scored", show_default=True)
@click.option("--voice", "wanted", multiple=True, help="Only voices whose name begins so.")
@click.option("--notes", default=60, show_default=True, help="At most so many scored notes of a voice.")
@click.option("--condition", multiple=True, type=click.Choice(CONDITIONS), default=("outdoors 20 dB",))
def main(part: str, wanted: tuple[str, ...], notes: int, condition: tuple[Condition, ...]) -> None:
    """Print the table; fixed seeds."""
    bench = Bench()
    voices: dict[str, list[Clip]] = {}
    for clip in corpus.usable():
        is_wanted = not wanted or clip.voice.key.startswith(wanted)
        if clip.voice.part == part and clip.line.meaning is not None and is_wanted:
            voices.setdefault(clip.voice.key, []).append(clip)
    print("| voice | condition | notes | right at once / wrong, not known | known | its slips, wrong:right |")
    print("|---|---|---|---|---|---|")
    for each in condition:
        total: list[list[int]] = []
        for voice, clips in sorted(voices.items()):
            if len(clips) > LEARNED:
                row, figures = bench.rows(voice, each, clips, notes)
                total.append(figures)
                print(row, flush=True)
        if total:
            print(f"| all | {each} | {_cells([sum(column) for column in zip(*total, strict=True)])} | |")


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
