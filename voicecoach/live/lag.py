"""When to tell that recognising falls behind the sound: people repeat themselves where no answer comes."""

from __future__ import annotations

BEHIND_S = 5.0
"""How old sound may be that is not yet recognised before that is told, seconds."""
CAUGHT_UP_S = 1.0


class Lag:
    """Follows how old the sound is that is recognised now.

    The microphone is opened while the program is still loaded, so the first sound may be old already: on a
    slow or busy device that is caught up with in silence.
    """

    def __init__(self) -> None:
        self._excused_s: float | None = None
        self._told = False

    def tells(self, behind_s: float) -> bool:
        """True when it is to be told now; once until it has caught up again.

        Args:
            behind_s: How old the sound is, seconds.
        """
        if self._excused_s is None:
            self._excused_s = behind_s
        if behind_s < CAUGHT_UP_S:
            self._told, self._excused_s = False, 0.0
        elif behind_s > self._excused_s + BEHIND_S and not self._told:
            self._told = True
            return True
        return False
