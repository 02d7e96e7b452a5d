"""How well the ear hears: python -m tests.bench.hearing. Speaks what isn't spoken yet, then listens."""

from __future__ import annotations

import hashlib
import inspect
import resource
from collections.abc import Iterator, Sequence

import click
import numpy as np

from tests.bench.hearing import colours, corpus, noise, poor_links, rivals, speech_level, weather
from tests.bench.hearing.carried import carried
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.hearing.outcomes import answered, judge
from tests.bench.hearing.places import RESULTS
from tests.bench.hearing.replies import Replies
from tests.bench.hearing.table import Result, doubts, grouped, line, once_known, reliability, timing
from tests.bench.hearing.trials import AnEar, Listener, Trial
from voicecoach import phrasebook
from voicecoach.hear.blocks import Samples
from voicecoach.hear.decodes import DECODES, PhraseLists
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.phrasebook.book import PhraseBook
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected

_RIVALS = ("free dictation", "flat word list", "pocketsphinx")
_AGAINST: tuple[Condition, ...] = ("clean", "outdoors 10 dB")
"""The other ways to hear are compared under these."""


class Bench:
    """The scored part of the corpus, heard in several ways."""

    def __init__(self, part: str, notes: int, *, as_spoken: bool = False) -> None:
        clips = corpus.spoken() if as_spoken else corpus.usable()
        every = [clip for clip in clips if clip.voice.part == part]
        talk = [clip for clip in every if clip.line.meaning is None]
        self.part = part
        said = [clip for clip in every if clip.line.meaning is not None]
        self.clips = [*_mixed(said, notes), *_mixed(talk, notes // 3)]
        corpus.complete([*self.clips, *talk[:20]])
        self.talk: list[Samples] = [clip.sound() for clip in talk[:20]]
        self.book = phrasebook.load()
        self.understanding = Understanding(self.book)
        self._book_and_decodes = heard_with(self.book)

    def heard(self, name: str, ear: AnEar, condition: Condition, clips: Sequence[Clip]) -> list[Trial]:
        """Let one ear hear the clips; kept, so that the next run goes on where this one stopped."""
        folder = f"{name.replace(' ', '-')}-{self._book_and_decodes}"
        kept = RESULTS / folder / f"{self.part}-{condition.replace(' ', '-')}.jsonl"
        return Listener(ear, self.talk).run(clips, condition, kept)

    def ours(self, conditions: Sequence[Condition]) -> Iterator[Result]:
        """This program."""
        recogniser = Recogniser(model_path(), self.book)
        ear = Ear(recogniser, lambda text: self.understanding.is_final(text, Expected()))
        for condition in conditions:
            replies = Replies(recogniser, condition, self.talk)
            for clip, trial in zip(
                self.clips, self.heard("this program", ear, condition, self.clips), strict=True
            ):
                yield self._judged(clip, trial, replies)

    def _judged(self, clip: Clip, trial: Trial, replies: Replies) -> Result:
        verdict = judge(self.understanding, trial)
        if trial.meaning is None:
            return Result(trial=trial, verdict=verdict)
        after = answered(
            self.understanding, trial, verdict, lambda words, open_: replies.hear(clip, words, open_)
        )
        known = judge(self.understanding, trial, "theirs")
        return Result(trial=trial, verdict=verdict, after=after, caller_known=known)

    def theirs(self, name: str, condition: Condition, count: int) -> list[Result]:
        """Another way to hear, with the same parser; what it parses is filed."""
        clips = [clip for clip in self.clips if clip.voice.natural][:count]
        trials = self.heard(name, rivals.PlainEar(self._words(name)), condition, clips)
        return [Result(trial=trial, verdict=judge(self.understanding, trial)) for trial in trials]

    def _words(self, name: str) -> rivals.Words:
        if name == "pocketsphinx":
            return rivals.pocketsphinx(self.book)
        return rivals.one_decode(model_path(), self.book, "anything" if "free" in name else "words")


@click.command()
@click.option("--part", type=click.Choice(["tuning", "scored"]), default="scored", show_default=True)
@click.option(
    "--notes",
    default=10_000,
    help="At most so many notes by natural-sounding voices, and a third of chatter.",
)
@click.option("--condition", multiple=True, type=click.Choice(CONDITIONS), help="Only these conditions.")
@click.option(
    "--rival",
    "rival_clips",
    type=(click.Choice(_RIVALS), int),
    multiple=True,
    default=[(name, 200) for name in _RIVALS],
    help="Another way to hear, and how many clips at most; 0 for none.  [default: each of them, 200]",
)
@click.option(
    "--as-spoken", is_flag=True, help="Only what has been spoken before: speaking it all takes hours."
)
def main(
    part: str,
    notes: int,
    condition: tuple[Condition, ...],
    rival_clips: tuple[tuple[str, int], ...],
    *,
    as_spoken: bool,
) -> None:
    """Speak what isn't spoken yet, and measure; fixed seeds, plain lines."""
    bench = Bench(part, notes, as_spoken=as_spoken)
    print(f"{len(bench.clips)} lines of the {part} part, {len(set(map(_voice, bench.clips)))} voices")
    results = list(bench.ours(condition or CONDITIONS))
    natural = [one for one in results if one.trial.natural]
    print("\n".join(_report(results, natural)))
    windy = [one for one in natural if one.trial.condition == "outdoors 10 dB"]
    print("\n".join(carried(windy, bench.book.spelling.canonical) if windy else []))
    for name, count in rival_clips:
        for against in [one for one in _AGAINST if count and one in (condition or CONDITIONS)]:
            theirs = bench.theirs(name, against, count)
            print(f"{line(f'{name}, {against}', theirs)}; {timing(theirs)}", flush=True)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1_024
    print(f"at most {memory:.0f} MB of memory, the bench included")


def heard_with(book: PhraseBook) -> str:
    """What the kept results hang on, as a short name: the decodes, their phrase lists, and the noise."""
    lists = PhraseLists(book)
    whole = "".join(f"{decode}{lists.grammar(decode)}" for decode in DECODES) + _made_with()
    return hashlib.sha256(whole.encode()).hexdigest()[:8]


def _made_with() -> str:
    """What else the kept results hang on: how the noise is made, and the speech model's weights."""
    scripts = "".join(
        inspect.getsource(script) for script in (colours, noise, poor_links, speech_level, weather)
    )
    return scripts + hashlib.sha256((model_path() / "am" / "final.mdl").read_bytes()).hexdigest()


def _report(results: list[Result], natural: list[Result]) -> list[str]:
    calm = [one for one in natural if one.trial.condition in ("clean", "outdoors 20 dB")]
    return [
        *grouped("natural-sounding voices, by condition", natural, lambda one: one.trial.condition),
        *grouped("robotic and strongly accented voices, by condition", _rest(results), _condition),
        *grouped("by voice, clean and 20 dB", _calm(results), lambda one: one.trial.voice),
        *grouped("by form, natural-sounding voices, clean and 20 dB", calm, lambda one: one.trial.form),
        *reliability(natural),
        timing(results),
        *doubts(natural, _condition),
        *once_known(natural, _condition),
    ]


def _mixed(clips: list[Clip], count: int) -> list[Clip]:
    """So many by natural-sounding voices, and a third of that by the others."""
    natural = [clip for clip in clips if clip.voice.natural]
    return natural[:count] + [clip for clip in clips if not clip.voice.natural][: count // 3]


def _voice(clip: Clip) -> str:
    return clip.voice.key


def _condition(result: Result) -> str:
    return result.trial.condition


def _rest(results: list[Result]) -> list[Result]:
    return [one for one in results if not one.trial.natural]


def _calm(results: list[Result]) -> list[Result]:
    return [one for one in results if one.trial.condition in ("clean", "outdoors 20 dB")]


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
