"""What is said when a session goes on with a game that was under way, and when another is wanted."""

from voicecoach.describe.answers import answer
from voicecoach.describe.sums import sum_up
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Picture
from voicecoach.phrasebook.wording import sentence
from voicecoach.understand.values import Question


def resumed(picture: Picture, prefs: Preferences, *, another: bool) -> tuple[Sentence, ...]:
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
    return tuple(said)


def no_other_game(*, under_way: bool) -> tuple[Sentence, ...]:
    """Why another game isn't begun: bowls have been called in this one, or there is no place for it."""
    return (Sentence(text=sentence("resumed.under way" if under_way else "resumed.no place")),)
