"""What every kind of note has besides its fields: traits that the later stages go by."""

from __future__ import annotations

from typing import ClassVar

from voicecoach.value import Value


class AnyNote(Value):
    """The base of all kinds of note. A trait is false unless the kind says otherwise.

    The rules of a kind are found by its name: what it does in `head/decide.py`, how it is confirmed in
    `describe/confirming.py`. Both are complete: mypy names the kind that either of them lacks.
    """

    harmless: ClassVar[bool] = False
    """Changes nothing that stays, so that a mistake costs little. A setting does: in a crowd, "volume down"
    was heard."""
    sets_up: ClassVar[bool] = False
    """Says how the game is played or heard, and nothing of the play: talk holds its words by chance."""
    is_a_link: ClassVar[bool] = True
    """One link in the chain of notes about the head, which taking back removes."""
    is_answered: ClassVar[bool] = False
    """Answered with figures rather than noted."""
    moves_on: ClassVar[bool] = False
    """After it nobody answers a question about another bowl any more."""
    missed_if_left: ClassVar[bool] = False
    """Named aloud where it waits for an answer and another note is filed in its place."""
    places_a_body: ClassVar[bool] = False
    """Whole with a distance and an hour: too much for talk by chance."""
    player_hears: ClassVar[bool] = False
    """The player is told of it unasked."""
    puts_right: ClassVar[bool] = False
    """Changes what was noted before: left unsaid, it would leave the player with a head that isn't there."""
    kept_with_the_end: ClassVar[bool] = False
    """Remembered in the head as it was said, until the next end."""
    shown: ClassVar[tuple[str, ...] | None] = None
    """The fields that leave the program in a JSON line; None for all but `confirmed`."""
