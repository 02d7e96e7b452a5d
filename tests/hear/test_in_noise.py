"""In noise other decodes count, and they hear the sound with the noise turned down."""

from collections import Counter
from pathlib import Path

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from tests.hear.spoken import in_noise, stream, words_of
from voicecoach import phrasebook
from voicecoach.hear.blocks import Samples
from voicecoach.hear.decoder import Decoder
from voicecoach.hear.decodes import DECODES, MOST
from voicecoach.hear.ear import Ear
from voicecoach.hear.gate import NoiseGate
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard

NOTE = AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac"
NOISY_DB = 10.5
LOST_NOTE = AUDIO / "no_five_oclock.slt.flac"
"""Gated sound is heard as it was said in so much noise; of the same as it is, "no" is lost."""
ABOVE_NOISE_DB = {"in noise": NOISY_DB, "clear": 22.0, "drowned": 5.0}


def heard(recogniser: Recogniser, sound: Samples) -> Heard:
    (only,) = Ear(recogniser).listen(stream(sound, [512]), "green")
    return only


def likeliest(note: Heard) -> dict[str, str]:
    """What each decode heard; the weights change a little from one time to the next."""
    return {reading.decode: reading.text for reading in reversed(note.readings)}


def asked(recogniser: Recogniser, sound: Samples) -> list[str]:
    """The words of which the ear asks in a pause whether they are a whole note."""
    texts: list[str] = []

    def is_whole(text: str) -> None:
        texts.append(text)

    list(Ear(recogniser, is_whole).listen(stream(sound, [512]), "green"))
    return texts


@pytest.fixture(scope="module", params=ABOVE_NOISE_DB)
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def noisy(name: str) -> bool:
    return name == "in noise"


@pytest.fixture
def sound(name: str) -> Samples:
    return in_noise(LOST_NOTE, ABOVE_NOISE_DB[name])


@pytest.fixture(scope="module")
def alone(noisy: bool, model_path: Path) -> Recogniser:
    """A recogniser of nothing but the decodes that count."""
    own = tuple(
        decode.model_copy(update={"in_noise": None}) for decode in DECODES if decode.counts(in_noise=noisy)
    )
    assert len(own) == MOST
    return Recogniser(model_path, phrasebook.load(), own)


def test_what_counts_is_what_those_decodes_hear_by_themselves(
    sound: Samples, recogniser: Recogniser, alone: Recogniser
) -> None:
    assert likeliest(heard(recogniser, sound)) == likeliest(heard(alone, sound))


def test_whether_a_note_is_whole_is_asked_of_the_words_that_will_count(
    sound: Samples, recogniser: Recogniser, alone: Recogniser
) -> None:
    assert asked(recogniser, sound) == asked(alone, sound) != []


def test_a_decode_that_does_not_count_hardly_listens(
    noisy: bool, sound: Samples, recogniser: Recogniser, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken: Counter[bool | None] = Counter()
    accept = Decoder.accept

    def counted(decoder: Decoder, samples: Samples) -> None:
        taken[decoder.decode.in_noise] += samples.size
        accept(decoder, samples)

    monkeypatch.setattr(Decoder, "accept", counted)
    heard(recogniser, sound)
    assert taken[noisy] == 2 * taken[None], (
        "two of them are for noise alone, two for a clear voice, one for both"
    )
    assert taken[not noisy] < 0.5 * taken[noisy]


def test_where_the_sound_as_it_is_loses_a_word_gated_sound_keeps_it(recogniser: Recogniser) -> None:
    assert heard(recogniser, in_noise(LOST_NOTE, NOISY_DB)).text == words_of(LOST_NOTE)


def test_a_note_in_noise_is_heard_and_measured(recogniser: Recogniser) -> None:
    note = heard(recogniser, in_noise(NOTE, NOISY_DB))
    assert note.text == words_of(NOTE)
    assert note.above_noise_db == pytest.approx(NOISY_DB, abs=2)


def test_decodes_that_hear_noise_later_hear_the_same(recogniser: Recogniser) -> None:
    found = []
    for sparing in (False, True):
        hearing = recogniser.start(sparing=sparing)
        hearing.accept(in_noise(NOTE, NOISY_DB))
        hearing.in_noise = True
        found.append(hearing.finish())
    assert likeliest(found[0]) == likeliest(found[1])


def test_a_harder_gate_leaves_less_of_the_noise() -> None:
    hiss = np.random.default_rng(5).normal(0, 0.02, 32_000).astype(np.float32)
    left = [float(np.std(gate.process(hiss)[8_000:])) for gate in (NoiseGate(), NoiseGate(harder=True))]
    assert left[1] < 0.8 * left[0]
