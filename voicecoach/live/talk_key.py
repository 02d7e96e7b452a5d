"""The talk key: the microphone counts only while it is held down.

A terminal tells of a held key only by its repeats: a first press, a pause of 0.25 to 1 s, then 10 to 30
presses a second. It never tells that a key was let go, so that is judged by how long none has come. A button
that is read as an input device does tell.
"""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Iterator
from math import inf

from voicecoach.hear.blocks import RATE_HZ, Block
from voicecoach.hear.ear import Ear, IsWhole
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard

FIRST_S = 1.2
"""How long one press counts as held, seconds: the slowest keyboards begin to repeat after a second."""
REPEAT_S = 0.25
"""How long a repeat counts as held, seconds: the next one is due within a tenth, or later on a slow link."""
TAIL_S = 0.3
"""How much sound is still taken after that, seconds: people let go while they finish the word."""
PRE_ROLL_S = 0.3
"""How much sound is taken from before the press, seconds: people press late."""
DELAYS = 500
"""Blocks (some seconds) whose delays are compared. The least is the device's own, any more is our lag."""


class TalkKey:
    """When the key was held, by the times of its presses. Times are seconds on the machine's clock."""

    def __init__(self) -> None:
        self._pressed_s = -inf
        self._from_s, self._until_s = inf, -inf

    def press(self, now_s: float) -> None:
        """A press or a repeat has come; the two look alike."""
        repeats = now_s - self._pressed_s <= REPEAT_S
        if not self.open_at(now_s):
            self._from_s = now_s
        self._pressed_s = now_s
        self._until_s = now_s + (REPEAT_S if repeats else FIRST_S)

    def hold(self, now_s: float) -> None:
        """A real button went down: unlike a terminal's key, it will tell when it comes up."""
        if not self.open_at(now_s):
            self._from_s = now_s
        self._until_s = inf

    def let_go(self, now_s: float) -> None:
        """It came up."""
        self._until_s = now_s

    def open_at(self, at_s: float) -> bool:
        """True when sound of this moment counts: the key was held, or had only just been let go."""
        return self._from_s <= at_s <= self._until_s + TAIL_S


class KeyGate:
    """Lets sound through while the talk key is held, with a little from before the press."""

    def __init__(self, key: TalkKey) -> None:
        self._key = key
        self.begin()

    def begin(self) -> None:
        """Another stream of sound begins, whose blocks have another clock."""
        self._before: deque[Block] = deque()
        self._delays_s: deque[float] = deque(maxlen=DELAYS)
        self._open = False

    def let_through(self, block: Block, now_s: float) -> tuple[tuple[Block, ...], bool]:
        """Let the next block of the microphone through, or keep it back.

        Returns:
            The blocks that may be heard, and whether the key was let go: what was being said ends here.
        """
        self._before.append(block)
        if self._key.open_at(self._came_s(block, now_s)):
            heard, self._open = tuple(self._before), True
            self._before.clear()
            return heard, False
        while self._before and block.at_s - self._before[0].at_s >= PRE_ROLL_S:
            self._before.popleft()
        let_go, self._open = self._open, False
        return (), let_go

    def _came_s(self, block: Block, now_s: float) -> float:
        """When the block's last sample came, however late it is taken because much is being recognised."""
        end_s = block.at_s + block.samples.size / RATE_HZ
        self._delays_s.append(now_s - end_s)
        return end_s + min(self._delays_s)


class TalkEar(Ear):
    """An ear that hears nothing but what is said while the talk key is held."""

    def __init__(self, recogniser: Recogniser, is_whole: IsWhole | None, key: TalkKey) -> None:
        super().__init__(recogniser, is_whole)
        self._gate = KeyGate(key)

    def hear_block(self, block: Block, source: str) -> Iterator[Heard]:
        """Hear the next block; give the utterances that ended in it, or with the key."""
        heard, let_go = self._gate.let_through(block, time.monotonic())
        for each in heard:
            yield from super().hear_block(each, source)
        if let_go:
            yield from super().finish(source)
        if not heard:
            self._clock_s = block.at_s + block.samples.size / RATE_HZ

    def finish(self, source: str) -> Iterator[Heard]:
        """The sound has ended: give what is still under way."""
        self._gate.begin()
        yield from super().finish(source)
