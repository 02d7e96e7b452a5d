"""The voice come back through the microphone, told from somebody who says almost the same."""

import time
from collections.abc import Iterator

import pytest

from tests.virtual_sound import VirtualSound
from voicecoach.describe.values import Sentence
from voicecoach.hear.values import Heard
from voicecoach.live.echo import LATE_S, Echo, OwnVoice, echo_of
from voicecoach.live.speaking import Speaking
from voicecoach.sound.clock import now_s
from voicecoach.speak.mouth import Mouth

CONFIRMED = "Our second: eighty centimetres, two o'clock."
ASKED = "Two o'clock or three o'clock?"
HEAD = "The jack is dead centre. Our first: one metre, four o'clock. Their first: two metres, six o'clock."


@pytest.mark.parametrize(
    ("heard", "spoken", "leaks", "whose"),
    [
        # The voice's own words, whole and in pieces.
        ("our second eighty centimetres two o'clock", CONFIRMED, False, "own"),
        ("eighty centimetres two o'clock", CONFIRMED, False, "own"),
        ("one metre four o'clock their first two metres", HEAD, False, "own"),
        # A bowl called again to put one word right.
        ("our second eighty centimetres three o'clock", CONFIRMED, False, "like"),
        ("their second eighty centimetres two o'clock", CONFIRMED, False, "like"),
        ("our second eighteen centimetres two o'clock", CONFIRMED, True, "like"),
        # An answer while the question is still being asked, and the voice in the same words.
        ("two o'clock", ASKED, False, "none"),
        ("two o'clock", ASKED, True, "own"),
        ("three o'clock", ASKED, False, "none"),
        ("two", ASKED, True, "none"),
        # A correction, another bowl, a question: the listener's.
        ("no two o'clock", CONFIRMED, False, "none"),
        ("no two o'clock", CONFIRMED, True, "none"),
        ("no three o'clock", CONFIRMED, True, "none"),
        ("their third two feet nine o'clock", CONFIRMED, True, "none"),
        ("where is our second", CONFIRMED, True, "none"),
        ("our first in the ditch", "Jack in the ditch.", False, "none"),
        # Single words that stand in it here and there are no run of words.
        ("second two our o'clock", CONFIRMED, False, "none"),
        ("[unk] [unk] [unk] [unk]", CONFIRMED, True, "none"),
        ("our second eighty centimetres two o'clock", "", True, "none"),
        ("", CONFIRMED, True, "none"),
    ],
)
def test_each_utterance_is_the_listeners_the_voices_own_or_too_like_it_to_tell(
    heard: str, spoken: str, leaks: bool, whose: Echo
) -> None:
    assert echo_of(heard, [spoken], leaks=leaks) == whose


def test_it_is_the_voices_own_if_any_of_the_voices_said_it() -> None:
    said = [HEAD, CONFIRMED]
    assert echo_of("our second eighty centimetres two o'clock", said, leaks=False) == "own"
    assert echo_of("our second eighty centimetres two o'clock", [], leaks=False) == "none"


def test_words_of_two_sayings_that_only_together_hold_them_are_the_listeners() -> None:
    said = ["Our second: eighty centimetres.", "At two o'clock."]
    assert echo_of("our third at two o'clock", said, leaks=False) != "own"


@pytest.fixture
def speaking(sound_server: VirtualSound) -> Iterator[Speaking]:
    speaking = Speaking(Mouth(sound_server.headphones), pytest.fail, lambda: None)
    speaking.start()
    speaking.say((Sentence(text=CONFIRMED),))
    yield speaking
    speaking.cut()
    speaking.finish(30)
    speaking.mouth.close()


def from_the_microphone(text: str, length_s: float) -> Heard:
    """An utterance of that length, as the ear has just given it; its clock is not the voice's."""
    return Heard(text=text, source="microphone", started_s=70.0, ended_s=70.0 + length_s)


def test_what_was_spoken_to_its_end_a_second_ago_is_still_known_and_later_it_is_forgotten(
    speaking: Speaking,
) -> None:
    assert speaking.finish(30)
    time.sleep(1)
    assert speaking.saying == ""
    assert speaking.said_since(now_s() - 60) == (CONFIRMED,)
    assert speaking.said_since(now_s() - 0.5) == ()
    own_voice = OwnVoice(speaking)
    again = "our second eighty centimetres two o'clock"
    assert own_voice.judge(Heard(text=again)) == "none", "typed words are the listener's"
    assert not own_voice.leaks
    assert own_voice.judge(from_the_microphone(again, 60.0)) == "own"
    assert own_voice.leaks
    time.sleep(LATE_S + 0.5)
    assert own_voice.judge(from_the_microphone(again, 0.5)) == "none", "the voice was silent by then"


def test_what_is_being_spoken_is_known_and_only_what_leaks_makes_two_words_the_voices(
    speaking: Speaking,
) -> None:
    deadline = time.monotonic() + 120
    while not speaking.saying and time.monotonic() < deadline:
        time.sleep(0.01)
    own_voice = OwnVoice(speaking)
    assert own_voice.judge(from_the_microphone("two o'clock", 0.6)) == "none"
    assert own_voice.judge(from_the_microphone("second eighty centimetres two", 0.9)) == "own"
    assert own_voice.judge(from_the_microphone("two o'clock", 0.6)) == "own"
    assert own_voice.judge(from_the_microphone("no three o'clock", 0.6)) == "none"
