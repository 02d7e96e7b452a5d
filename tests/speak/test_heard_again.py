"""What the voice says is heard again by our own recogniser; the whole table: make bench-listening."""

from collections.abc import Iterator

import numpy as np
import pytest

from tests.bench.listening.forms import Form, forms
from tests.bench.listening.recognised import hear, holds, spoken
from voicecoach.hear.recogniser import Recogniser
from voicecoach.speak.voice import Voice


@pytest.fixture(scope="module")
def voice() -> Iterator[Voice]:
    with Voice() as speaking:
        yield speaking


def one_for_each_hour() -> list[Form]:
    """The first sentence with each hour, and so with many distances."""
    found: dict[str, Form] = {}
    for form in forms():
        found.setdefault(form.hour, form)
    return [found[hour] for hour in sorted(found) if hour.endswith("o'clock") and len(hour.split()) == 2]


def test_every_hour_is_among_the_forms_and_five_and_nine_in_many_distances() -> None:
    assert len(one_for_each_hour()) == 12
    distances = " ".join(form.distance for form in forms())
    assert distances.count("five") > 10
    assert distances.count("nine") > 10


@pytest.mark.parametrize("form", one_for_each_hour(), ids=lambda form: form.hour)
def test_the_hour_and_the_distance_come_back(form: Form, voice: Voice, recogniser: Recogniser) -> None:
    heard = hear(voice, form.text, recogniser).text
    assert holds(heard, form.hour), heard
    assert holds(heard, form.distance), heard


def test_our_first_comes_back_as_our_first_with_some_noise_too(voice: Voice, recogniser: Recogniser) -> None:
    firsts = [form.text for form in forms() if form.name == "our first"][:20]
    noise = np.random.default_rng(1)
    heard = []
    for text in firsts:
        samples = spoken(voice, text)
        noisy = samples + 0.003 * noise.standard_normal(len(samples), np.float32)
        heard += [recogniser.hear(noisy).text]
    assert sum(holds(each, "our first") for each in heard) >= 19, heard


@pytest.mark.parametrize("hour", ["between eight and nine o'clock", "about one o'clock", "about two o'clock"])
def test_hours_that_are_easily_misheard_come_back(hour: str, voice: Voice, recogniser: Recogniser) -> None:
    said = [form for form in forms() if form.hour == hour]
    heard = [hear(voice, form.text, recogniser).text for form in said]
    assert said
    assert [each for each in heard if not holds(each, hour)] == []


def test_singular_and_plural_are_one_but_other_words_are_not() -> None:
    assert holds("our second two and a half metre six o'clock", "two and a half metres")
    assert not holds("our second twenty five metres", "twenty metres")
    assert not holds("our second eighty centimetres nine o'clock", "five o'clock")
