"""What a profile may say of a button: a key that there is, and words that mean something."""

from __future__ import annotations

from voicecoach import kept_book
from voicecoach.errors import Problem
from voicecoach.hear.values import Heard
from voicecoach.live.button_keys import KEYS, NOTHING, SILENCE
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked


def key(name: str) -> str:
    """The key's name as the table has it.

    Raises:
        Problem: There is none of that name.
    """
    plain = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
    if plain not in KEYS:
        raise Problem(f"No button is called {name!r}. There are: {', '.join(KEYS)}.")
    return plain


def words(said: str) -> str:
    """The words, if they mean something when they are typed.

    Raises:
        Problem: They mean nothing.
    """
    plain = " ".join(said.split())
    if plain.lower() in (SILENCE, NOTHING):
        return plain.lower()
    for walking in (False, True):
        if isinstance(_reading().read(Heard(text=plain), Expected(walking=walking)), Ranked):
            return plain
    raise Problem(
        f"Nobody would understand {plain!r}, so nothing was changed. Take words that can be typed as a note "
        f"or a question, or {SILENCE!r}, or {NOTHING!r}."
    )


def _reading() -> Understanding:
    return Understanding(kept_book.load())
