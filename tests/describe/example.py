"""One invented head, from which the list of everything that can be heard takes its examples."""

import math
from typing import Literal

from voicecoach.head.values import Bowl, Called, Game, Head, Holding, Jack, Lie, Picture, Score
from voicecoach.understand.values import BowlName, Side, Unit

_GAME = Game(format="pairs", bowls_each=4, lead="theirs", mat_m=2.0, jack_m=26.0, rink_m=5.0, green_m=36.0)
_Called = tuple[Side, int, float, float, Unit]
_BOWLS: tuple[_Called, ...] = (
    ("theirs", 1, 1.2, 6.0, "m"),
    ("ours", 1, 1.5, 5.0, "m"),
    ("theirs", 2, 0.9, 9.0, "cm"),
    ("ours", 2, 0.8, 2.0, "cm"),
    ("ours", 3, 0.3, 3.5, "cm"),
)
_MEASURABLE_M = 0.06
"""The least doubt of a call, metres: a half-plane nearer than this is not named."""


def example_head(jack_moved_m: float = 0.0) -> Picture:
    """The head as called, or worked out anew after the jack moved so far past."""
    jack = Jack(y_m=26.0 + jack_moved_m, called=True)
    lies = tuple(_lie(bowl, jack_moved_m) for bowl in _BOWLS)
    bowls = tuple(
        Bowl(
            side=lie.side,
            number=lie.number,
            x_m=lie.x_m,
            y_m=lie.y_m,
            said=lie.said,
            as_called=not jack_moved_m,
        )
        for lie in lies
    )
    head = Head(game=_GAME, end=3, jack=jack, bowls=bowls, score=Score(ours=4, theirs=2, ends=2))
    sure = not jack_moved_m
    holding = Holding(side="ours", shots=2 if sure else None, sure=sure, probability=0.97 if sure else 0.7)
    up_next = BowlName(side="theirs", number=3)
    return Picture(head=head, lies=lies, holding=holding, next_up=up_next, to_come=(5, 6))


def without(picture: Picture, count: int) -> Picture:
    """The head before its last bowls lay."""
    lies = picture.lies[: len(picture.lies) - count]
    holding = Holding(side="theirs", shots=1, sure=True, probability=0.95)
    return picture.model_copy(update={"lies": lies, "holding": holding})


def _lie(bowl: _Called, jack_moved_m: float) -> Lie:
    side, number, gap_m, hour, unit = bowl
    called = gap_m + (_GAME.bowl_mm + _GAME.jack_mm) / 2000
    right = called * math.sin(math.radians(hour * 30))
    past = called * math.cos(math.radians(hour * 30)) - jack_moved_m
    exact = math.degrees(math.atan2(right, past)) / 30 % 12 or 12.0
    sides: tuple[Literal["left", "right"], ...] = ("left", "right")
    depths: tuple[Literal["short", "past"], ...] = ("short", "past")
    return Lie(
        side=side,
        number=number,
        x_m=right,
        y_m=26.0 + jack_moved_m + past,
        gap_m=math.hypot(right, past) - called + gap_m,
        hour_exact=exact,
        hour=float(round(exact)) if jack_moved_m else hour,
        gap_sd_m=max(_MEASURABLE_M, 0.2 * gap_m),
        left_right=sides[right > 0] if abs(right) > _MEASURABLE_M else None,
        depth=depths[past > 0] if abs(past) > _MEASURABLE_M else None,
        along_m=past,
        across_m=right,
        said=Called(gap_m=gap_m, hour=hour, unit=unit),
        unit=unit,
    )
