"""What can't wait breaks into a read-back, which then goes on from the sentence that was broken."""

import threading
import time
from collections.abc import Iterator, Sequence

import pytest

from tests.virtual_sound import VirtualSound
from voicecoach.describe.values import Sentence
from voicecoach.live.speaking import Speaking
from voicecoach.speak.mouth import Mouth

HEAD = tuple(
    Sentence(text=f"Our {nth}: a metre and a half, three o'clock, right.")
    for nth in ("first", "second", "third", "fourth")
)
GONE = Sentence(text="The microphone has gone.")


class Remembers(Mouth):
    """A mouth that remembers what it said to its end."""

    def __init__(self, device: str) -> None:
        super().__init__(device)
        self.said: list[Sentence] = []

    def say(self, sentences: Sequence[Sentence], stopped: threading.Event | None = None) -> int:
        spoken = super().say(sentences, stopped)
        self.said += sentences[:spoken]
        return spoken


@pytest.fixture
def speaking(sound_server: VirtualSound) -> Iterator[Speaking]:
    speaking = Speaking(Remembers(sound_server.headphones), pytest.fail, lambda: None)
    speaking.start()
    yield speaking
    speaking.cut()
    speaking.mouth.close()


def said(speaking: Speaking) -> list[Sentence]:
    assert isinstance(speaking.mouth, Remembers)
    return speaking.mouth.said


def test_what_breaks_in_is_said_before_the_rest(speaking: Speaking) -> None:
    speaking.say(HEAD)
    time.sleep(4)
    speaking.say_aside((GONE,))
    assert speaking.finish(60)
    before = said(speaking).index(GONE)
    assert before < len(HEAD), "it did not wait for the end"
    assert said(speaking) == [*HEAD[:before], GONE, *HEAD[before:]]


def test_a_voice_that_is_silent_says_it_like_anything_else(speaking: Speaking) -> None:
    speaking.say_aside((GONE,))
    assert speaking.finish(30)
    assert said(speaking) == [GONE]


def test_stop_ends_what_was_broken_into_as_well_and_tells_where_to_go_on(speaking: Speaking) -> None:
    speaking.say(HEAD)
    time.sleep(4)
    speaking.say_aside((GONE,))
    time.sleep(0.5)
    unfinished = speaking.cut()
    assert unfinished in HEAD
    assert speaking.finish(30)
    assert HEAD[-1] not in said(speaking)
