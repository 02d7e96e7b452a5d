"""Talk without end is heard sparingly, and a note after it as well as ever."""

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from tests.hear.spoken import padded, stream, words_of
from voicecoach import phrasebook
from voicecoach.hear.blocks import RATE_HZ, Samples, silence
from voicecoach.hear.decodes import DECODES, MAIN
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import load
from voicecoach.hear.values import Heard
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected

NOTE = AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac"
EVERY = {decode.name for decode in DECODES}
TALK_S = 42.0


def crowd(length_s: float) -> Samples:
    """Many voices at once, each saying one thing over and over."""
    size = round(length_s * RATE_HZ)
    talk: Samples = silence(length_s)
    for at, path in enumerate(sorted(AUDIO.glob("*.flac"))):
        said = load(path)
        talk += np.resize(np.roll(said, at * 7_919), size)
    return np.asarray(talk * (0.07 / np.sqrt(np.mean(talk**2))), np.float32)


def listen(recogniser: Recogniser, sound: Samples) -> list[Heard]:
    understanding = Understanding(phrasebook.load())
    ear = Ear(recogniser, lambda text: understanding.is_final(text, Expected()))
    return list(ear.listen(stream(sound, [512]), "green"))


def decodes(heard: Heard) -> set[str]:
    return {reading.decode for reading in heard.readings}


def test_in_a_crowd_only_the_main_decode_listens_until_a_pause(recogniser: Recogniser) -> None:
    *talk, note = listen(recogniser, np.concatenate([crowd(TALK_S), silence(1.5), padded(NOTE)]))
    assert len(talk) >= 5
    assert decodes(talk[0]) == EVERY
    assert {MAIN.name} in [decodes(heard) for heard in talk[1:]]
    assert decodes(note) == EVERY
    assert note.text == words_of(NOTE)


def test_decodes_that_hear_it_later_hear_the_same(recogniser: Recogniser) -> None:
    heard = []
    for sparing in (False, True):
        hearing = recogniser.start(sparing=sparing)
        hearing.accept(padded(NOTE))
        heard.append(hearing.finish())
    assert heard[0] == heard[1]


@pytest.mark.parametrize(("may_be_a_note", "by"), [(True, EVERY), (False, {MAIN.name})])
def test_what_may_be_a_note_is_heard_by_all_and_other_talk_is_not(
    recogniser: Recogniser, may_be_a_note: bool, by: set[str]
) -> None:
    hearing = recogniser.start(sparing=True)
    hearing.accept(padded(NOTE))
    said = hearing.finish(lambda _text: may_be_a_note)
    assert decodes(said) == by
    assert said.text == words_of(NOTE)
