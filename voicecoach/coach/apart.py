"""Bowls that were called too close to lie so: where they were set apart, that is said."""

import math

from voicecoach.head.estimate import of_call
from voicecoach.head.values import Bowl, Head

_NOTICED_M = 0.002
"""What a drawing or a table can show."""


def set_apart(head: Head, bowl: Bowl) -> bool:
    """Whether a bowl lies beside the one place that it was called in, for want of room there."""
    if bowl.x_m is None or bowl.y_m is None or head.jack.x_m is None or head.jack.y_m is None:
        return False
    if not bowl.as_called or len(bowl.calls) != 1 or bowl.calls[0].jack_moves != len(head.jack_moves):
        return False
    call = bowl.calls[0]
    if call.by or call.stood == "tape":
        return False
    right, past = of_call(call, head.game.bowl_mm, head.game.jack_mm).point
    return math.hypot(bowl.x_m - head.jack.x_m - right, bowl.y_m - head.jack.y_m - past) > _NOTICED_M
