"""What both kinds of practice share: their words, how an answer is read, and how a round goes on."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from voicecoach.coach.cues import agreed
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.head import picture
from voicecoach.head.values import Lie
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.shipped import shipped
from voicecoach.phrasebook.wording import capitals
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, turn
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import OpenQuestion, Where

Cue = Literal["again", "skip", "stop", "finished"]


@dataclass(frozen=True)
class Prompt:
    """What is said, and the question that is then open, for the ear."""

    say: Sentences
    open: OpenQuestion | None = None
    unprinted: int = 0
    """How many sentences, from the first on, are to be remembered: none of them stays on the screen."""


Answering = Generator[Prompt, Heard | None, Sentences]
"""A round: prompts go out, answers come in (None once nobody answers any more), last words come back."""


@cache
def data() -> Mapping[str, Any]:
    """The words of practice, as written in the phrase book's folder."""
    found: Mapping[str, Any] = shipped("practice.yaml")
    return found


def say(group: str, key: str, **slots: str) -> Sentence:
    """A sentence of practice, its slots filled."""
    return Sentence(text=capitals(words(group, key, **slots)))


def words(group: str, key: str, **slots: str) -> str:
    """The same as part of a sentence."""
    text: str = data()["say"][group][key]
    return text.format(**slots)


def cue_of(text: str) -> Cue | None:
    """The order to the program that these words are, taken whole."""
    plain = " ".join(text.lower().replace(",", " ").replace(".", " ").split())
    return next((cue for cue, phrases in data()["cues"].items() if plain in phrases), None)


def cue_in(heard: Heard | None) -> Cue | None:
    """The order in an utterance; nobody answering any more is one to stop."""
    return "stop" if heard is None else agreed(heard, cue_of)


@dataclass(frozen=True)
class Placed:
    """What came of words for a place: the talk after them, what to say, and the place once there is one."""

    talk: Talk
    say: Sentences
    lie: Lie | None = None


def placed(talk: Talk, heard: Heard, understanding: Understanding) -> Placed:
    """Read a bowl's place as it is read on the green, questions back and corrections included."""
    after, entry = turn(talk, heard, understanding, When(at=""))
    if entry.outcome in ("asked", "refused"):
        return Placed(after, entry.say)
    name = entry.event.bowl if entry.event else None
    if name is None or not isinstance(entry.note, Where):
        return Placed(talk, ())
    lies = picture(after.play.head).lies
    lie = next((lie for lie in lies if (lie.side, lie.number) == (name.side, name.number)), None)
    return Placed(after, entry.say, lie) if lie and lie.gap_m is not None else Placed(talk, ())
