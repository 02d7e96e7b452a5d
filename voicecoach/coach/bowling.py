"""Line and length: what each part of the bowls shows, by hand, by jack length, by bowl and by player."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from voicecoach.coach.deliveries import Came, Delivered
from voicecoach.coach.figures import Ellipse, Figure, Trend, ellipse, figure, trend
from voicecoach.head.order import BOWLS_EACH, PLAYERS
from voicecoach.head.values import Game
from voicecoach.understand.values import Format

SHORT_M, LONG_M = 25.0, 29.0
"""Lengths below, between and from these are called short, middling and long (our own choice: from 23 m, the
shortest that the laws allow, to about 34 m)."""
PLACES: dict[Format, tuple[str, ...]] = {
    "pairs": ("lead", "skip"),
    "triples": ("lead", "second", "skip"),
    "fours": ("lead", "second", "third", "skip"),
}
"""The players of a side in the order in which they play (common practice, no source)."""


@dataclass(frozen=True)
class Group:
    """What one part of the bowls shows."""

    name: str
    count: int
    """Bowls delivered, those without a place among them."""
    came: Counter[Came]
    """How many came short, past, level, into the ditch, were lost or not placed: together all of them."""
    line: Figure
    """Right of the jack, metres."""
    length: Figure
    """Past the jack, metres."""
    gap: Figure
    ellipse: Ellipse | None
    """Where the mean lies."""


Part = tuple[str, Callable[[Delivered], bool]]


def parts(kind: str, game: Game, bowls: Sequence[Delivered]) -> tuple[Part, ...]:
    """How bowls are parted by `hand`, `length`, `bowl` or `player`; `all` doesn't part them."""
    return tuple(_PARTS[kind](game, bowls))


def _all(_game: Game, _bowls: Sequence[Delivered]) -> Iterator[Part]:
    yield "All", lambda _: True


def _by_hand(_game: Game, _bowls: Sequence[Delivered]) -> Iterator[Part]:
    yield "Forehand", lambda one: one.hand == "forehand"
    yield "Backhand", lambda one: one.hand == "backhand"
    yield "Hand not said", lambda one: one.hand is None


def length_name(length_m: float | None) -> str:
    """The part that a jack length belongs to."""
    if length_m is None:
        return "Jack not set"
    return "Short jack" if length_m < SHORT_M else "Middling jack" if length_m < LONG_M else "Long jack"


def _by_length(_game: Game, _bowls: Sequence[Delivered]) -> Iterator[Part]:
    for name in ("Short jack", "Middling jack", "Long jack", "Jack not set"):
        yield name, lambda one, name=name: length_name(one.length_m) == name  # type: ignore[misc]


def bowls_each(game: Game) -> int:
    """How many bowls a player has; where no format is set all are taken to be one player's."""
    if game.format is None:
        return max(BOWLS_EACH.values()) * max(PLAYERS.values())
    return game.bowls_each or BOWLS_EACH[game.format]


def players_bowl(game: Game, number: int) -> int:
    """Which of the player's own bowls a side's bowl is, from 1."""
    return (number - 1) % bowls_each(game) + 1


def place(game: Game, number: int) -> str | None:
    """The player whose bowl it is, in a team game; None for one more than there are."""
    names = PLACES.get(game.format, ()) if game.format else ()
    at = (number - 1) // bowls_each(game)
    return names[at] if at < len(names) else None


def _by_bowl(game: Game, bowls: Sequence[Delivered]) -> Iterator[Part]:
    for at in sorted({players_bowl(game, one.number) for one in bowls}):
        yield f"Bowl {at}", lambda one, at=at: players_bowl(game, one.number) == at  # type: ignore[misc]


def _by_player(game: Game, _bowls: Sequence[Delivered]) -> Iterator[Part]:
    for name in PLACES.get(game.format, ()) if game.format else ():
        yield name.capitalize(), lambda one, name=name: place(game, one.number) == name  # type: ignore[misc]


_PARTS: dict[str, Callable[[Game, Sequence[Delivered]], Iterator[Part]]] = {
    "all": _all,
    "hand": _by_hand,
    "length": _by_length,
    "bowl": _by_bowl,
    "player": _by_player,
}
KINDS = tuple(_PARTS)
_ORDER = {
    "hand": ("Forehand", "Backhand", "Hand not said"),
    "length": ("Short jack", "Middling jack", "Long jack", "Jack not set"),
    "player": ("Lead", "Second", "Third", "Skip"),
}


def names(kind: str) -> tuple[str, ...]:
    """The names of the parts in their order, where they are known beforehand."""
    return _ORDER.get(kind, ())


def groups(kind: str, game: Game, bowls: Sequence[Delivered]) -> tuple[Group, ...]:
    """What each part shows; parts without a bowl are left out."""
    chosen = ((name, [one for one in bowls if belongs(one)]) for name, belongs in parts(kind, game, bowls))
    return tuple(group(name, part) for name, part in chosen if part)


def group(name: str, part: Sequence[Delivered]) -> Group:
    """What these bowls show together."""
    places = [
        (one.across_m, one.along_m) for one in part if one.across_m is not None and one.along_m is not None
    ]
    return Group(
        name=name,
        count=len(part),
        came=Counter(one.came for one in part),
        line=figure([across for across, _ in places]),
        length=figure([along for _, along in places]),
        gap=figure([one.gap_m for one in part if one.gap_m is not None]),
        ellipse=ellipse(places),
    )


def gap_trend(bowls: Sequence[Delivered], order: dict[tuple[int, int], int]) -> Trend:
    """How the distance from the jack changes; `order` is the place of each play of an end in the game."""
    return trend([(order[one.end, one.play], one.gap_m) for one in bowls if one.gap_m is not None])
