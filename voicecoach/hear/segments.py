"""Blocks in, utterances out: where speech begins and where it has ended."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from voicecoach.hear.activity import Activity, VoiceActivity
from voicecoach.hear.blocks import BLOCK_S, Block, Samples, even, silence

PRE_ROLL_S = 0.7
"""Sound kept from before the detector noticed speech. Without it first words are lost. A short first word and
the pause after it ("theirs, a metre") go by before it notices: 0.5 s lost such words, 0.7 s did not."""
WHOLE_S = 0.24
"""Silence after a note that is already whole. With the detector's own lag it is mostly 0.3 s at most."""
USUAL_S = 0.5
"""Silence where nobody can say whether the note is whole: 0.4 s cut 3 of 70 notes in two, 0.5 s none."""
PART_S = 0.62
"""Silence after a note that is not yet whole; with the detector's own lag about 0.7 s."""
LONGEST_S = 8.0
"""No note is longer. Talk that goes on is cut here, so that nothing listens for ever."""
IsWholeNow = Callable[[], bool | None]
"""True when what was said so far is a whole note, False when it isn't yet, None when nobody can say."""
_BEGINS = 0.4
_GOES_ON = 0.5
"""Probability of speech that begins an utterance, and below which a pause begins.

Measured on spoken notes: with 0.35 the end came up to 0.6 s late outdoors at 5 dB, with 0.5 up to 0.2 s.
"""
_SHORTEST_S = 0.1
"""Less speech than this is a click, not a word."""


@dataclass(frozen=True)
class Utterance:
    """One stretch of speech with the silence round it."""

    samples: Samples
    started_s: float
    """When speech began, seconds on the audio clock."""
    ended_s: float
    """When speech ended, seconds on the audio clock."""
    first_s: float
    """When its first sample was heard."""
    cut: bool = False
    """True when it was cut because it went on for too long."""


@dataclass(frozen=True)
class BlockResult:
    """What one block did."""

    fresh: Samples
    """Samples that joined the utterance with this block, the pre-roll with the first."""
    ended: Utterance | None = None
    dropped: bool = False
    """True when what had begun was too short to be a word."""


@dataclass
class _Open:
    """The utterance under way."""

    blocks: list[Block]
    started_s: float
    ended_s: float
    spoken: int = 1


class Segmenter:
    """Finds utterances in a stream of blocks of 512 samples."""

    def __init__(self, is_whole: IsWholeNow | None = None, activity: Activity | None = None) -> None:
        self._is_whole = is_whole
        self._activity = activity or VoiceActivity()
        self._before: deque[Block] = deque(maxlen=round(PRE_ROLL_S / BLOCK_S))
        self._open: _Open | None = None

    @property
    def speaking(self) -> bool:
        """True while an utterance is under way."""
        return self._open is not None

    @property
    def so_far(self) -> Utterance | None:
        """The utterance under way, as far as it was heard; None between utterances."""
        return self._utterance(self._open) if self._open is not None else None

    def follow(self, block: Block) -> BlockResult:
        """Follow the sound through the next block."""
        probability = self._activity(block.samples)
        if self._open is None:
            return self._idle(block, probability)
        return self._under_way(self._open, block, probability)

    def finish(self) -> Utterance | None:
        """End what is under way: the sound has ended."""
        return self._close(self._open).ended if self._open else None

    def segment(self, blocks: Iterable[Block]) -> Iterator[Utterance]:
        """Give each utterance of a whole stream."""
        for block in even(blocks):
            ended = self.follow(block).ended
            if ended:
                yield ended
        last = self.finish()
        if last:
            yield last

    def _idle(self, block: Block, probability: float) -> BlockResult:
        self._before.append(block)
        if probability < _BEGINS:
            return BlockResult(silence(0))
        self._open = _Open(list(self._before), block.at_s, block.at_s + BLOCK_S)
        return BlockResult(_joined(self._before))

    def _under_way(self, now: _Open, block: Block, probability: float) -> BlockResult:
        now.blocks.append(block)
        end_s = block.at_s + BLOCK_S
        if probability >= _GOES_ON:
            now.ended_s = end_s
            now.spoken += 1
        if end_s - now.started_s >= LONGEST_S:
            return self._close(now, block.samples, cut=True)
        pause_s = end_s - now.ended_s
        if pause_s >= WHOLE_S and pause_s >= self._patience_s():
            return self._close(now, block.samples)
        return BlockResult(block.samples)

    def _patience_s(self) -> float:
        """How much silence ends what has been said so far."""
        whole = self._is_whole() if self._is_whole else None
        if whole is None:
            return USUAL_S
        return WHOLE_S if whole else PART_S

    def _close(self, now: _Open, fresh: Samples | None = None, cut: bool = False) -> BlockResult:
        self._open = None
        self._keep_pause(now)
        fresh = silence(0) if fresh is None else fresh
        if now.spoken * BLOCK_S < _SHORTEST_S:
            return BlockResult(fresh, dropped=True)
        return BlockResult(fresh, self._utterance(now, cut))

    @staticmethod
    def _utterance(now: _Open, cut: bool = False) -> Utterance:
        return Utterance(_joined(now.blocks), now.started_s, now.ended_s, now.blocks[0].at_s, cut)

    def _keep_pause(self, now: _Open) -> None:
        """Keep the pause just heard as the pre-roll of what may follow at once; speech isn't kept."""
        self._before.clear()
        self._before.extend(block for block in now.blocks if block.at_s >= now.ended_s)


def _joined(blocks: Iterable[Block]) -> Samples:
    return np.concatenate([block.samples for block in blocks])
