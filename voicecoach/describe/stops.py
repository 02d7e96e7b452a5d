"""The stops of a walk from the mat up the centre line, in walking order."""

from typing import Any, Literal

from voicecoach.describe.order import Body, levels
from voicecoach.describe.values import Beside, BesideJack, Stop
from voicecoach.head.values import Picture

IN_PATH_M = 0.5
"""A body with a part this near to the line that is walked is warned about."""
_ON_THE_LINE_M = 0.0005


def stops(picture: Picture) -> tuple[Stop, ...]:
    """One stop for each level of the head; it is at the level's body nearest the mat."""
    found = levels(picture)
    if not found:
        return ()
    places = [min(body.y_m for body in level) for level in found]
    ditch_y = ditch_m(picture)
    return tuple(
        Stop(
            at_m=at_m,
            far_m=max(body.y_m for body in level),
            ahead_m=after - at_m if after is not None else None,
            level=tuple(_beside(body, picture) for body in level),
            ditch_m=None if ditch_y is None else ditch_y - at_m,
        )
        for level, at_m, after in zip(found, places, [*places[1:], None], strict=True)
    )


def ditch_m(picture: Picture) -> float | None:
    """From the mat line to the edge of the front ditch, metres, when the game says so."""
    game = picture.head.game
    return None if game.green_m is None or game.mat_m is None else game.green_m - game.mat_m


def stop_json(stop: Stop) -> dict[str, Any]:
    """A stop as `walk --json` prints it."""
    return {
        "at_m": round(stop.at_m, 3),
        "ahead_m": None if stop.ahead_m is None else round(stop.ahead_m, 3),
        "level": [_item_json(item) for item in stop.level],
    }


def _item_json(item: Beside | BesideJack) -> dict[str, Any] | str:
    if isinstance(item, BesideJack):
        return "jack"
    return {"side": item.side, "number": item.number, "aside_m": round(item.aside_m, 3), "on": item.on}


def _beside(body: Body, picture: Picture) -> Beside | BesideJack:
    game = picture.head.game
    aside_m = abs(body.x_m)
    on: Literal["left", "right"] | None = "left" if body.x_m < 0 else "right"
    width_mm = game.jack_mm if body.lie is None else game.bowl_mm
    shared = {
        "aside_m": aside_m,
        "on": None if aside_m < _ON_THE_LINE_M else on,
        "in_path": aside_m - width_mm / 2000 <= IN_PATH_M,
    }
    if body.lie is None:
        return BesideJack.model_validate({**shared, "in_ditch": picture.head.jack.state == "ditch"})
    lie = body.lie
    named = {"side": lie.side, "number": lie.number, "in_ditch": lie.state == "ditch"}
    return Beside.model_validate({**shared, **named})
