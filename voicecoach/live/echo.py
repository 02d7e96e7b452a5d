"""The program's own voice, where it comes back through the microphone."""

from collections.abc import Iterable
from difflib import SequenceMatcher
from typing import Literal

from voicecoach.hear.values import Heard
from voicecoach.live.speaking import Speaking
from voicecoach.sound.clock import now_s

LATE_S = 2.0
"""The longest time, seconds, after which the voice's own words come out of the ear: a pause ends them, and
then they are decoded."""

LONG = 4
"""This many words found exactly in what is being spoken are the voice's; fewer may be a short answer."""
ALIKE = 0.75
"""The share of an utterance's words that must stand in what is spoken, in the same order, to be like it.

"Our first in the ditch" after "jack in the ditch" has three of its five words from it, and is a call.
"""

Echo = Literal["none", "own", "like"]
"""none: the listener's words. own: the voice's. like: so like the voice's that nobody can tell."""


class OwnVoice:
    """Compares what the microphones hear with what the voices have said lately.

    Attributes:
        leaks: True once a microphone has heard a voice.
    """

    def __init__(self, *voices: Speaking) -> None:
        self._voices = voices
        self.leaks = False

    def judge(self, heard: Heard) -> Echo:
        """Whose words an utterance holds that has just been heard. Typed words are the listener's."""
        if heard.source == "typed":
            return "none"
        length_s = (heard.ended_s or 0.0) - (heard.started_s or 0.0)
        since_s = now_s() - length_s - LATE_S
        spoken = [text for voice in self._voices for text in voice.said_since(since_s)]
        echo = echo_of(heard.text, spoken, leaks=self.leaks)
        self.leaks = self.leaks or echo == "own"
        return echo


def echo_of(heard: str, spoken: Iterable[str], *, leaks: bool) -> Echo:
    """Whose words they are.

    The voice is often misheard by a word when it comes through the microphone; and somebody who calls a bowl
    again, to put one word right, says almost what the voice just said. Only the words can tell them apart.

    Args:
        heard: The words of an utterance.
        spoken: What each voice was saying at that time.
        leaks: Whether the microphone is known to hear the voice. If it is, a short piece is the voice's own
            too; otherwise it is an answer to a question that is still being asked.
    """
    words = _words(heard)
    said = [_words(text) for text in spoken]
    if len(words) >= (2 if leaks else LONG) and any(_holds(each, words) for each in said):
        return "own"
    if len(words) >= LONG and any(_share(words, each) >= ALIKE for each in said):
        return "like"
    return "none"


def _holds(spoken: list[str], words: list[str]) -> bool:
    return any(spoken[at : at + len(words)] == words for at in range(len(spoken) - len(words) + 1))


def _share(words: list[str], spoken: list[str]) -> float:
    matches = SequenceMatcher(None, words, spoken, autojunk=False).get_matching_blocks()
    runs = [match.size for match in matches]
    return sum(runs) / len(words) if max(runs) > 1 else 0.0


def _words(text: str) -> list[str]:
    return "".join(letter if letter.isalnum() or letter in "' " else " " for letter in text.lower()).split()
