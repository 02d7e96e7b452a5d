"""Blocks of sound in, utterances as `Heard` out, in order, with their times."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from voicecoach.hear.blocks import RATE_HZ, Block, Evener, Samples, silence
from voicecoach.hear.link import above_noise_db, in_noise, judge
from voicecoach.hear.memory import give_back
from voicecoach.hear.recogniser import PAD_S, Hearing, Recogniser
from voicecoach.hear.segments import Segmenter, Utterance
from voicecoach.hear.values import Heard

IsWhole = Callable[[str], bool | None]
"""True when the words heard so far are already a whole note; None when nobody can say."""

_MEASURED_S = 0.3
"""Speech that is needed to tell how loud it is against the noise before it, seconds."""
_MEASURED_AGAIN_S = 0.25
"""It is measured so far apart while speech goes on: each time all of it is gone through."""


class Ear:
    """Listens to one stream of sound.

    Pull: `for heard in ear.listen(blocks, source)`. Push, where time matters between
    utterances: `ear.hear_block(block)` for each block, `ear.finish()` at the end.
    """

    def __init__(self, recogniser: Recogniser, is_whole: IsWhole | None = None) -> None:
        self._recogniser = recogniser
        self._is_whole = is_whole
        self._answers: tuple[str, ...] = ()
        self._clock_s = 0.0
        self._keeps_sound, self._sounds = False, dict[float, Samples]()
        self._begin()

    def expect(self, answers: Iterable[str]) -> None:
        """Say what may answer the open question; nothing where none is open. All else is heard as well."""
        self._answers = tuple(answers)

    def keep_sound(self, keep: bool) -> None:
        """Hold the sound of each utterance from now on until `sound_of` takes it, or hold none any more.

        While it does, utterances without a word are given as well: a note that was lost is one of them.
        """
        self._keeps_sound = keep
        self._sounds.clear()

    def sound_of(self, heard: Heard) -> Samples | None:
        """The sound of an utterance, once, from before its first word; None where it isn't held."""
        return self._sounds.pop(heard.started_s or 0.0, None)

    @property
    def speech_under_way(self) -> bool:
        """True while somebody is speaking, so that no question lapses in the middle of its answer."""
        return self._segmenter.speaking

    @property
    def so_far(self) -> str:
        """The words of the utterance under way, as far as they are heard; empty between utterances."""
        return self._hearing.so_far() if self._hearing is not None else ""

    def is_note(self, heard: Heard) -> bool:
        """True when the words that were heard are a whole note or may be one."""
        return self._is_whole is not None and self._may_be_whole(heard.text)

    @property
    def clock_s(self) -> float:
        """The end of the last block taken, seconds on the audio clock."""
        return self._clock_s

    def listen(self, blocks: Iterable[Block], source: str) -> Iterator[Heard]:
        """Give each utterance of a stream as soon as it has ended."""
        self._begin()
        self._clock_s = 0.0
        for block in blocks:
            yield from self.hear_block(block, source)
        yield from self.finish(source)

    def hear_block(self, block: Block, source: str) -> Iterator[Heard]:
        """Hear the next block, of any length; give the utterances that ended in it."""
        for piece in self._evener.regroup(block):
            heard = self._hear_even(piece, source)
            if heard is not None:
                yield heard
                give_back()  # after the words are on their way

    def finish(self, source: str) -> Iterator[Heard]:
        """The sound has ended: give the utterance under way. Whatever goes wrong, the ear begins afresh."""
        try:
            last = list(self._rest(source))
        finally:
            self._begin()
        yield from last

    def _rest(self, source: str) -> Iterator[Heard]:
        for piece in self._evener.rest(self._clock_s):
            heard = self._hear_even(piece, source)
            if heard is not None:
                yield heard
        if self._hearing is not None:
            self._hearing.accept(silence(PAD_S))
        last = self._segmenter.finish()
        heard = self._heard(last, source) if last else None
        if heard is not None:
            yield heard

    def _begin(self) -> None:
        """Begin a fresh stream and forget the one before."""
        self._evener = Evener()
        self._segmenter = Segmenter(self._whole_now if self._is_whole else None)
        self._hearing: Hearing | None = None
        self._endless = False
        self._in_noise, self._measured_s = False, -_MEASURED_AGAIN_S

    def _start(self) -> Hearing:
        """Begin to hear an utterance. After one that had to be cut, endless talk is expected, as in a crowd.

        All decodes of such talk would cost half a core. So only the main one listens at first, and the others
        afterwards, where the talk ended in a pause or may be a note.
        """
        return self._recogniser.start(self._answers, sparing=self._endless)

    def _hear_even(self, block: Block, source: str) -> Heard | None:
        self._clock_s = block.at_s + block.samples.size / RATE_HZ
        step = self._segmenter.follow(block)
        if step.fresh.size:
            if self._hearing is None:
                self._hearing = self._start()
                self._hearing.accept(silence(max(0.0, PAD_S - step.fresh.size / RATE_HZ)))
            self._hearing.in_noise = self._in_noise_now()
            self._hearing.accept(step.fresh)
        if step.dropped:
            self._hearing = None
        return self._heard(step.ended, source) if step.ended else None

    def _heard(self, utterance: Utterance, source: str) -> Heard | None:
        """The words of an utterance that has ended; None where there were none."""
        if self._hearing is None:
            return None
        judged = judge(utterance)
        self._in_noise = self._hearing.in_noise = in_noise(judged.above_noise_db)
        heard = self._hearing.finish(lambda text: not utterance.cut or self._may_be_whole(text))
        span_s, self._hearing = self._hearing.span_s, None
        self._endless = utterance.cut
        if heard.is_wordless and not self._keeps_sound:
            return None
        if self._keeps_sound:
            self._sounds[round(utterance.started_s, 3)] = utterance.samples
        return heard.model_copy(
            update={
                "source": source,
                "started_s": round(utterance.started_s, 3),
                "ended_s": round(utterance.ended_s, 3),
                "unheard_s": _unheard_s(utterance, span_s),
                "cut": utterance.cut,
                **judged._asdict(),
            }
        )

    def _in_noise_now(self) -> bool:
        """Whether there is noise. Until enough of this utterance is heard, the one before tells."""
        if self._clock_s < self._measured_s + _MEASURED_AGAIN_S:
            return self._in_noise
        so_far = self._segmenter.so_far
        if so_far is not None and so_far.ended_s - so_far.started_s >= _MEASURED_S:
            self._in_noise, self._measured_s = in_noise(above_noise_db(so_far)), self._clock_s
        return self._in_noise

    def _may_be_whole(self, text: str) -> bool:
        return self._is_whole is None or self._is_whole(text) is not False

    def _whole_now(self) -> bool | None:
        """Ask whether what was said so far is a whole note; the segmenter asks in a pause."""
        if self._hearing is None or self._is_whole is None:
            return False
        return self._is_whole(self._hearing.so_far())


def _unheard_s(utterance: Utterance, span_s: float | None) -> float | None:
    """How much of the speech lies before the first word or after the last."""
    if span_s is None:
        return None
    return round(max(0.0, utterance.ended_s - utterance.started_s - span_s), 2)
