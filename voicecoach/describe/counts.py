"""How many bowls lie where, and how many are still to come."""

from voicecoach.describe.bowls import side_name
from voicecoach.describe.numbers import cardinal
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Picture
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import Side

# Bowls of one side in one end: singles four, pairs two players of four, triples three of three,
# fours four of two (derived from the bowls each player has).
_A_SIDE = {"singles": 4, "pairs": 8, "triples": 9, "fours": 8}
_PLAYERS = {"singles": 1, "pairs": 2, "triples": 3, "fours": 4}


def count(picture: Picture, prefs: Preferences) -> tuple[Sentence, ...]:
    """How many of each side are live, in the ditch and dead, and how many are left to play."""
    live = sentence("count.live", ours=_live(picture, "ours", prefs), theirs=_live(picture, "theirs", prefs))
    said = [live]
    for state in ("ditch", "dead"):
        number = sum(lie.state == state for lie in picture.lies)
        if number:
            said.append(sentence(f"count.{state}", count=cardinal(number)))
    return (*(Sentence(text=text) for text in said), *bowls_left(picture, prefs))


def bowls_left(picture: Picture, prefs: Preferences) -> tuple[Sentence, ...]:
    """How many bowls each side has still to play, where the format is known."""
    ours, theirs = left(picture, "ours"), left(picture, "theirs")
    if ours is None or theirs is None:
        return ()
    us, them = side_name("ours", prefs, "ours"), side_name("theirs", prefs, "ours")
    text = sentence("count.left", ours=cardinal(ours), us=us, theirs=cardinal(theirs), them=them)
    return (Sentence(text=text),)


def left(picture: Picture, side: Side) -> int | None:
    """Bowls of a side not yet called in this end; None when the format isn't set."""
    game = picture.head.game
    if game.format is None:
        return None
    total = _A_SIDE[game.format] if game.bowls_each is None else _PLAYERS[game.format] * game.bowls_each
    return max(0, total - sum(lie.side == side for lie in picture.lies))


def _live(picture: Picture, side: Side, prefs: Preferences) -> str:
    number = sum(lie.side == side and lie.state != "dead" for lie in picture.lies)
    return words("count.of side", count=cardinal(number), side=side_name(side, prefs, "ours"))
