"""Whose bowl is next, and how many there are."""

from math import dist

from voicecoach.head.values import Game, Head
from voicecoach.understand.values import BowlName, Side

PLAYERS = {"singles": 1, "pairs": 2, "triples": 3, "fours": 4}
"""Players a side in each format."""
BOWLS_EACH = {"singles": 4, "pairs": 4, "triples": 3, "fours": 2}
"""Bowls a player in each format, where nothing else was said."""
WITHOUT_A_FORMAT = 9
"""Bowls a side taken while no format is set: the most that any format has (triples)."""


def bowls_a_side(game: Game) -> int:
    """How many bowls a side plays in an end."""
    if game.format is None:
        return WITHOUT_A_FORMAT
    return PLAYERS[game.format] * (game.bowls_each or BOWLS_EACH[game.format])


def other(side: Side) -> Side:
    """The side playing against it."""
    return "theirs" if side == "ours" else "ours"


def highest(head: Head, side: Side) -> int:
    """The highest number filed for a side; 0 for none."""
    return max((bowl.number for bowl in head.bowls if bowl.side == side), default=0)


def nearest_first(head: Head) -> tuple[BowlName, ...]:
    """The bowls that have a place, the nearest to the jack first: for "their shot bowl"."""
    jack = head.jack.place
    if jack is None:
        return ()
    placed = [(dist(bowl.place, jack), bowl) for bowl in head.bowls if bowl.place is not None]
    placed.sort(key=lambda one: one[0])
    return tuple(BowlName(side=bowl.side, number=bowl.number) for _, bowl in placed)


def next_up(head: Head) -> BowlName:
    """Whose bowl an unnamed one is: the side that didn't bowl last, ours (or who leads) first.

    Bowls of a scattered head come first; a side whose bowls are all called leaves its turn to the other.
    """
    if head.scattered:
        return head.scattered[0]
    side: Side = other(head.last_side) if head.last_side else head.lead or "ours"
    most = bowls_a_side(head.game)
    if highest(head, side) >= most > highest(head, other(side)):
        side = other(side)
    return BowlName(side=side, number=next_number(head, side))


def still_to_come(head: Head) -> BowlName | None:
    """The next bowl, unless all of the end's bowls are called or the end is over."""
    name, most = next_up(head), bowls_a_side(head.game)
    if head.finished or (not head.scattered and name.number > most):
        return None
    return name


def to_come(head: Head) -> tuple[int, int] | None:
    """How many bowls of ours and of theirs are still to be played in this end; None without a format.

    They follow the highest number called: an earlier one that nobody called was played all the same.
    """
    if head.game.format is None:
        return None
    most = bowls_a_side(head.game)
    return max(0, most - _played(head, "ours")), max(0, most - _played(head, "theirs"))


def _played(head: Head, side: Side) -> int:
    """The highest number of a side, with the bowls of a scattered head that are to be called again."""
    again = [name.number for name in head.scattered if name.side == side]
    return max([highest(head, side), *again])


def next_number(head: Head, side: Side) -> int:
    """The number of a side's next bowl."""
    for name in head.scattered:
        if name.side == side:
            return name.number
    return highest(head, side) + 1
