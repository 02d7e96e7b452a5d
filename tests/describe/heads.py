"""Heads made up for the tests: pictures worked out with plain trigonometry, apart from the engine."""

import math
import random
from collections.abc import Sequence
from typing import Literal, NamedTuple

from voicecoach.head.values import Bowl, Called, Game, Head, Holding, Jack, Lie, Picture, State, Sure
from voicecoach.understand.values import Format, Side, Unit

BOWL_M, JACK_M = 0.121, 0.064
METRE: dict[Unit, float] = {"m": 1.0, "cm": 0.01, "in": 0.0254, "ft": 0.3048, "yd": 0.9144}


class Lay(NamedTuple):
    """One bowl as it lies: what a test wants the sentences to say."""

    side: Side
    number: int
    gap_m: float
    hour: float
    unit: Unit = "cm"
    state: State = "live"
    sure: Sure = "plain"
    as_called: bool = True


def lie_of(lay: Lay, jack: Jack) -> Lie:
    """The lie of one bowl."""
    away = lay.gap_m + (BOWL_M + JACK_M) / 2
    across, along = away * math.sin(math.radians(lay.hour * 30)), away * math.cos(math.radians(lay.hour * 30))
    whole = nearest_hour(lay.hour)
    lower = math.floor(lay.hour) or 12
    side: Literal["left", "right"] | None = "right" if across > 0.05 else "left" if across < -0.05 else None
    depth: Literal["past", "short"] | None = "past" if along > 0.05 else "short" if along < -0.05 else None
    return Lie(
        side=lay.side,
        number=lay.number,
        x_m=(jack.x_m or 0.0) + across,
        y_m=(jack.y_m or 0.0) + along,
        gap_m=lay.gap_m,
        hour_exact=lay.hour,
        hour=lay.hour if lay.as_called else float(whole),
        sure=lay.sure,
        between=(lower, lower % 12 + 1) if lay.sure == "between" else None,
        gap_sd_m=max(0.06, 0.15 * lay.gap_m),
        left_right=side,
        depth=depth,
        along_m=along,
        across_m=across,
        said=Called(gap_m=lay.gap_m, hour=lay.hour, unit=lay.unit),
        state=lay.state,
        toucher=lay.state == "ditch",
        unit=lay.unit,
    )


def picture_of(
    lays: Sequence[Lay], jack: Jack | None = None, game: Game | None = None, sure: bool = True
) -> Picture:
    """The picture of a head; who holds is counted the slow and obvious way."""
    jack = jack or Jack()
    lies = tuple(lie_of(lay, jack) for lay in lays)
    bowls = tuple(
        Bowl(
            side=lie.side,
            number=lie.number,
            x_m=lie.x_m,
            y_m=lie.y_m,
            state=lie.state,
            said=lie.said,
            as_called=lay.as_called,
        )
        for lie, lay in zip(lies, lays, strict=True)
    )
    head = Head(jack=jack, bowls=bowls, game=game or Game())
    return Picture(
        head=head,
        lies=lies,
        holding=_holding(lies, sure),
        to_come=_to_come(lays, game.format if game else None),
    )


def _to_come(lays: Sequence[Lay], format_: Format | None) -> tuple[int, int] | None:
    """Bowls a side in one end, derived from the bowls each player has, less those called."""
    if format_ is None:
        return None
    most = {"singles": 4, "pairs": 8, "triples": 9, "fours": 8}[format_]
    sides = [lay.side for lay in lays]
    return most - sides.count("ours"), most - sides.count("theirs")


def random_lays(chance: random.Random, count: int, as_called: bool) -> list[Lay]:
    """A head of so many bowls, the sides taking turns."""
    lays = []
    for index in range(count):
        unit: Unit = chance.choice(["cm", "cm", "m", "m", "ft", "in", "yd"])
        gap_m = _called_gap(chance, unit) if as_called else chance.uniform(0.0, 4.5)
        hour = chance.choice(range(1, 25)) / 2 if as_called else chance.uniform(0.001, 12.0)
        sure: Sure = "plain" if as_called else chance.choice(["plain", "plain", "about", "between"])
        side: Side = "theirs" if index % 2 else "ours"
        state: State = "ditch" if chance.random() < 0.05 else "live"
        lays.append(Lay(side, index // 2 + 1, gap_m, hour, unit, state, sure, as_called))
    return lays


def nearest_hour(hour: float) -> int:
    """The nearest whole hour; half-way goes clockwise."""
    return (math.floor(hour + 0.5) + 11) % 12 + 1


def _called_gap(chance: random.Random, unit: Unit) -> float:
    """A gap as directors call it: round in its own unit."""
    counts: dict[Unit, list[float]] = {
        "cm": list(range(5, 200, 5)),
        "m": [0.5, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4],
        "in": list(range(2, 36)),
        "ft": [half / 2 for half in range(2, 20)],
        "yd": [0.5, 1, 1.5, 2, 3, 4 / 3],
    }
    return chance.choice(counts[unit]) * METRE[unit]


def _holding(lies: Sequence[Lie], sure: bool) -> Holding | None:
    if not lies:
        return None
    gaps = {side: sorted(lie.gap_m or 0.0 for lie in lies if lie.side == side) for side in ("ours", "theirs")}
    ours, theirs = gaps["ours"] or [99.0], gaps["theirs"] or [99.0]
    side: Side = "ours" if ours[0] <= theirs[0] else "theirs"
    mine, other = (ours, theirs) if side == "ours" else (theirs, ours)
    shots = sum(gap < other[0] for gap in mine)
    return Holding(
        side=side, shots=max(1, shots) if sure else None, sure=sure, probability=0.99 if sure else 0.6
    )
