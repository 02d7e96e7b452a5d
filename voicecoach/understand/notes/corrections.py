"""Notes about notes: corrected, taken back, declined."""

from typing import Literal

from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.notes.bowls import PLACED, BowlNote
from voicecoach.understand.vocabulary import BowlName, Side, Where


class TakenBack(AnyNote):
    """The last note is taken back."""

    player_hears = puts_right = True

    kind: Literal["taken_back"] = "taken_back"


class Corrected(AnyNote, Where):
    """A correction: only what was said is changed; `side` and `number` are the new owner and number."""

    player_hears = puts_right = True
    shown = (*PLACED, "target")

    kind: Literal["corrected"] = "corrected"
    side: Side | None = None
    number: int | None = None
    target: BowlName | Literal["jack"] | None = None
    """The bowl meant (or the jack); None for the last note."""
    swapped: bool = False
    """True where the target and the bowl of that side and number change names."""
    confirmed: bool = False


class Declined(AnyNote):
    """The answer no to an open yes-or-no question: nothing is filed."""

    kind: Literal["declined"] = "declined"


Correction = TakenBack | Corrected | Declined
AboutABowl = BowlNote | Corrected
"""What says where a bowl lies."""
