"""The program's own voice, come back through the microphone."""

from difflib import SequenceMatcher

ECHO = 0.6
"""Share of an utterance's words that must stand in the same order in what is being spoken."""


def is_echo(heard: str, saying: str) -> bool:
    """True when most of what was heard is what the voice is saying at this moment.

    A word said to stop or correct the voice isn't in what it says, so it is never taken for an echo.
    """
    words, spoken = _words(heard), _words(saying)
    if len(words) < 2 or not spoken:
        return False
    matches = SequenceMatcher(None, words, spoken, autojunk=False).get_matching_blocks()
    return sum(match.size for match in matches if match.size > 1) / len(words) >= ECHO


def _words(text: str) -> list[str]:
    return "".join(letter if letter.isalnum() or letter in "' " else " " for letter in text.lower()).split()
