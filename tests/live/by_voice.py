"""A whole end by voice: a story's steps played into the microphone, and the answers heard to their end.

The next sentence is played only when the answer to the one before has fallen silent, unless it is
there to interrupt it.
"""

from __future__ import annotations

import re
import time
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import soundfile

from tests.games.speaking import recordings
from tests.live.listening_in import WITHIN_S, Ears, recorded
from tests.live.session import LiveSession
from tests.virtual_sound import RATE_HZ, VirtualSound
from voicecoach.commands.showing import LABELS
from voicecoach.conversation import Conversation
from voicecoach.hear.decodes import DECODES
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.session.values import Entry
from voicecoach.story import Story, StoryLine

OVER_S = 0.8
"""Silence after which an answer is over, once its stream is closed."""
EDGE_S = 0.2
"""Silence around what is played: the microphone is silent before and after it anyway."""

MAIN_DECODE = DECODES[:1]
"""Enough to hear the voice back with, and much quicker than all of them."""

UNITS = {"metre", "centimetre", "o'clock", "past"}
NUMBERS = {word for number in range(1, 100) for word in cardinal(number).split()} | {"a", "and", "half"}
NAMES, FIGURES = 0.7, 0.85
"""What share of names, and of distances and hours, the main decode alone must recognise in the voice.
A name is short and comes first: "our first" is lost, or taken for "our third", oftenest of all."""


class Turn(NamedTuple):
    """What came of a step that was said."""

    printed: str
    """The sentences of the answer, as printed."""
    begin: int
    """Frame of the recording of the headphones from which the answer may be heard."""
    end: int
    """Frame at which it had fallen silent."""


class EndByVoice:
    """Says the steps of a story and listens to the answers."""

    def __init__(self, sound: VirtualSound, session: LiveSession, ears: Ears) -> None:
        self._sound, self._session, self._ears = sound, session, ears
        self.turns: list[Turn] = []

    def say(self, step: StoryLine, recording: Path) -> None:
        """Say one step, and wait until its answer has been spoken."""
        begin = self._ears.now()
        printed = self.say_only(step, recording)
        if printed:
            self._ears.wait_until_over(begin, OVER_S)
        self.turns.append(Turn(printed, begin, self._ears.now()))

    def say_only(self, step: StoryLine, recording: Path) -> str:
        """Say one step and wait for what is printed: the sentences of the answer."""
        self._sound.play_into_microphone(recording)
        self._session.wait_for("Heard: ", WITHIN_S)
        label = f"{LABELS[step.outcome]}."
        return self._session.wait_for(label, WITHIN_S).text.strip().removeprefix(label).strip()

    def say_to_be_interrupted(self, step: StoryLine, recording: Path, after_s: float) -> None:
        """Say one step, and wait only until its answer has been heard for so long."""
        begin = self._ears.now()
        self.say_only(step, recording)
        self._ears.wait_for_sound(begin, after_s)

    def is_silent(self, within_s: float, for_s: float) -> bool:
        """True when no voice is heard for so long, once `within_s` have passed."""
        begin = self._ears.now() + round(within_s * RATE_HZ)
        while self._ears.now() < begin + for_s * RATE_HZ:
            time.sleep(0.05)
        return not self._ears.loud(begin)


@contextmanager
def end_by_voice(sound: VirtualSound, journal: Path, *options: str) -> Iterator[EndByVoice]:
    """A live session whose headphones are recorded, its greeting heard out."""
    with sound.record_headphones() as recording:
        ears = Ears(recording)
        with LiveSession(sound, journal, *options) as session:
            end = EndByVoice(sound, session, ears)
            ears.wait_until_over(0, OVER_S)
            yield end
    for number, turn in enumerate(end.turns):
        soundfile.write(
            journal.parent / f"answer{number}.wav", recorded(ears.raw, turn.begin, turn.end), RATE_HZ
        )


def spoken_steps(story: Story, steps: Sequence[StoryLine], folder: Path) -> Iterator[tuple[StoryLine, Path]]:
    """Each step with its recording."""
    return zip(steps, recordings(story, steps, folder, EDGE_S), strict=True)


def plain(text: str) -> str:
    """Words as a recogniser writes them, one metre like many."""
    kept = "".join(letter for letter in text.lower() if letter.isalnum() or letter in "' ")
    return " ".join(kept.replace("metres", "metre").split())


def names(sentences: str) -> list[str]:
    """The bowls that were named."""
    return re.findall("(?:our|their) (?:first|second|third|fourth)", plain(sentences))


def figures(sentences: str) -> list[str]:
    """The distances and hours in what was spoken; not a lead, "by so much": no director says that."""
    found = []
    for part in re.split("[:,;.]", sentences):
        words = plain(part).split(" ")
        if words[0] != "by" and UNITS & set(words[1:]):
            found.append(" ".join(word for word in words if word in UNITS | NUMBERS))
    return found


def recognised(turns: Sequence[Turn], folder: Path, recogniser: Recogniser) -> list[str]:
    """The words recognised in each answer."""
    ear = Ear(recogniser)
    return [
        plain(
            " ".join(heard.text for heard in ear.listen(blocks(folder / f"answer{number}.wav"), "headphones"))
        )
        for number in range(len(turns))
    ]


def assert_understood(turns: Sequence[Turn], folder: Path, recogniser: Recogniser) -> None:
    """The names, distances and hours that were spoken can be recognised again, most of them."""
    words = recognised(turns, folder, recogniser)
    for what, share in ((names, NAMES), (figures, FIGURES)):
        wanted = [
            (piece, heard) for turn, heard in zip(turns, words, strict=True) for piece in what(turn.printed)
        ]
        missed = [(piece, heard) for piece, heard in wanted if piece not in heard]
        assert len(wanted) >= 10
        assert len(missed) <= (1 - share) * len(wanted), missed


def as_text(steps: Iterable[StoryLine], kept: Path | None = None) -> tuple[Entry, ...]:
    """The entries of the same steps, typed; in that journal, if one is given."""
    with Conversation(kept) as conversation:
        return tuple(conversation.hear(Heard(text=step.say)) for step in steps)


def said_of(entries: Iterable[Entry]) -> list[tuple[str, str]]:
    """What came of each entry, and what it gave to be spoken."""
    return [(entry.outcome, " ".join(sentence.text for sentence in entry.say)) for entry in entries]
