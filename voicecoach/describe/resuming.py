"""What is said of what was under way: a game that goes on, another that is wanted, a note left behind."""

from voicecoach.describe.answers import answer
from voicecoach.describe.bowls import side_name
from voicecoach.describe.sums import sum_up
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Picture
from voicecoach.phrasebook.numbers import ordinal
from voicecoach.phrasebook.wording import sentence
from voicecoach.understand.values import BowlName, Question


def resumed(picture: Picture, prefs: Preferences, *, another: bool) -> Sentences:
    """Where the game is: the end, the score, who holds, whose bowl is next; then how to begin another.

    Args:
        picture: The head as the journal left it.
        prefs: How the listener wants to hear.
        another: Whether another game can be begun by saying so.
    """
    said = [Sentence(text=sentence("resumed.going on"))]
    for ask in ("end", "score"):
        said += answer(Question(ask=ask), picture, prefs, None)
    said.append(sum_up(picture, prefs))
    said += answer(Question(ask="next up"), picture, prefs, None)
    if another:
        said.append(Sentence(text=sentence("resumed.another")))
    return tuple(dict.fromkeys(said))  # that the end is over answers two of the questions


def left_behind(name: BowlName, prefs: Preferences) -> Sentences:
    """A bowl that was asked about, and isn't filed because something else was said."""
    called = f"{side_name(name.side, prefs, 'our')} {ordinal(name.number)}"
    return (Sentence(text=sentence("left behind", name=called)),)


def ends_by_itself() -> Sentences:
    """Why a session isn't ended by saying so: it takes the notes that it was given, and ends."""
    return (Sentence(text=sentence("resumed.ends by itself")),)


def one_ear() -> Sentences:
    """Why nothing is placed left and right: these headphones give one ear's sound."""
    return (Sentence(text=sentence("resumed.one ear")),)


def no_other_game(*, under_way: bool) -> Sentences:
    """Why another game isn't begun: bowls have been called in this one, or there is no place for it."""
    return (Sentence(text=sentence("resumed.under way" if under_way else "resumed.no place")),)
