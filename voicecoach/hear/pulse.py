"""Whether sound still comes, told from the times at which it came. The caller's clock is used."""

from __future__ import annotations

from typing import Literal

from voicecoach.errors import DeviceProblem

FIRST_S = 5.0
"""How long the first sound may take: a sound server that has just started gives none for 2 s."""
LOOK_S = 0.1
"""How long one wait for sound takes."""
BEAT_S = 0.8
"""Blocks come every few hundredths of a second; after waiting this long for one the device is gone."""
STOOD_STILL_S = 2.0
"""When a wait of a tenth of a second takes this long, the whole program stood still."""

State = Literal["well", "gone", "stood still"]


class SoundGap(DeviceProblem):
    """No sound came for a while because the computer slept or the program stood still.

    Attributes:
        seconds: How long.
    """

    def __init__(self, seconds: float) -> None:
        super().__init__("The computer slept or stood still, and nothing was heard meanwhile. Try again.")
        self.seconds = seconds


class Pulse:
    """Follows one open microphone. All times are seconds on one clock that goes on in sleep.

    Attributes:
        gap_s: How long no sound had come when it was last looked at.
    """

    def __init__(self, now_s: float) -> None:
        self._waiting_s = self._came_s = now_s
        self._waited_s = 0.0
        self._first = True
        self.gap_s = 0.0

    def waits(self, now_s: float) -> None:
        """Whoever takes the sound begins to wait for more."""
        self._waiting_s = now_s

    def came(self, at_s: float) -> State:
        """Sound was taken that the device had given at this moment, perhaps a while ago."""
        self.gap_s, self._came_s, self._waited_s = at_s - self._came_s, at_s, 0.0
        first, self._first = self._first, False
        return "stood still" if not first and self.gap_s > STOOD_STILL_S else "well"

    def nothing(self, now_s: float) -> State:
        """The wait is over, and no sound has come.

        A wait that took longer than it should counts as no longer than it should: something else kept the
        processor busy, and the sound waited for it as well.
        """
        self.gap_s, wait_s = now_s - self._came_s, now_s - self._waiting_s
        if wait_s > STOOD_STILL_S:
            return "stood still"
        self._waited_s += min(wait_s, 2 * LOOK_S)
        return "gone" if self._waited_s > (FIRST_S if self._first else BEAT_S) else "well"
