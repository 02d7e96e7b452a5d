"""How many bowls lie where, and how many are still to come."""

from voicecoach.describe.bowls import side_name
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import Side


def count(picture: Picture, prefs: Preferences) -> Sentences:
    """How many of each side are live, in the ditch and dead, and how many are left to play."""
    live = sentence("count.live", ours=_live(picture, "ours", prefs), theirs=_live(picture, "theirs", prefs))
    said = [live]
    for state in ("ditch", "dead"):
        number = sum(lie.state == state for lie in picture.lies)
        if number:
            said.append(sentence(f"count.{state}", count=cardinal(number)))
    return (*(Sentence(text=text) for text in said), *bowls_left(picture, prefs))


def bowls_left(picture: Picture, prefs: Preferences) -> Sentences:
    """How many bowls each side has still to play, where the format is known."""
    if picture.to_come is None:
        return ()
    ours, theirs = picture.to_come
    us, them = side_name("ours", prefs, "ours"), side_name("theirs", prefs, "ours")
    text = sentence("count.left", ours=cardinal(ours), us=us, theirs=cardinal(theirs), them=them)
    return (Sentence(text=text),)


def _live(picture: Picture, side: Side, prefs: Preferences) -> str:
    number = sum(lie.side == side and lie.state != "dead" for lie in picture.lies)
    return words("count.of side", count=cardinal(number), side=side_name(side, prefs, "ours"))
