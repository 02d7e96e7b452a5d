"""The lesson in noise: what it says shares nothing with the bench, and it reads and writes the model truly.

What needs PyTorch is tried by the lesson itself: no test may need a graphics processor.
"""

import random
import re
from importlib import resources
from itertools import product
from pathlib import Path

import numpy as np
import pytest
import yaml

from tests.bench.hearing import corpus
from tests.bench.hearing.voices import VOICES
from tests.bench.lesson import kaldi, speaking, wordings
from tests.bench.lesson.words import edits, plain_words
from voicecoach import places
from voicecoach.model_store.manifest import load
from voicecoach.model_store.taught import laid_over, packed, unpacked


@pytest.fixture(scope="module")
def original() -> bytes:
    return (places.models() / load().name / "am" / "final.mdl").read_bytes()


def _plain(wording: str) -> str:
    return " ".join(plain_words(re.sub(r"\{\w+\}", "x", wording)))


def test_nothing_that_the_lesson_says_stands_among_the_benchs_wordings() -> None:
    text = resources.files(corpus.__package__).joinpath("templates.yaml").read_text(encoding="utf-8")
    bench = yaml.safe_load(text)
    scored = {_plain(one["say"]) for one in bench["notes"]}
    scored |= {_plain(line) for lines in bench["chatter"].values() for line in lines}
    lesson = wordings.book()
    assert not scored & {_plain(one) for one in lesson["notes"]}
    talk = lesson["talk"]
    said = {" ".join(parts) for parts in product(*(talk[part] for part in ("who", "did", "what")))}
    assert not [line for line in scored for start in said if line.startswith(_plain(start))]


def test_none_of_the_lessons_voices_is_one_of_the_benchs() -> None:
    bench = {voice.name for voice in VOICES}
    assert not bench & {*speaking.KOKORO, *speaking.ESPEAK}
    accents = {name.split("+")[0] for name in speaking.ESPEAK}
    scored = {
        voice.name.split("+")[0] for voice in VOICES if voice.engine == "espeak" and voice.part == "scored"
    }
    assert accents & scored <= {"en-us"}  # whose voices there are others of: +f1 is none of +m3


def test_the_same_dice_say_the_same_and_every_gap_is_filled() -> None:
    said = wordings.sentences(200, 3)
    assert said == wordings.sentences(200, 3)
    assert len(set(said)) > 150
    assert not [one for one in said if "{" in one]


def test_a_job_is_read_as_it_was_written(tmp_path: Path) -> None:
    jobs = [
        speaking.Job(text="go on.", styles=(("af_sky", 0.4), ("am_onyx", 0.6)), tokens=(1, 2), speed=1.1),
        speaking.Job(text="go on.", espeak="en-us+f1"),
    ]
    speaking.write(tmp_path / "jobs.json", jobs)
    assert speaking.read(tmp_path / "jobs.json") == jobs


def test_the_network_is_read_to_its_end(original: bytes) -> None:
    found = kaldi.components(original)
    weights = [one for part in found.values() for one in part.weights().values()]
    assert sum(one.values.size for one in weights) == 3_900_192
    assert found["output.affine"].arrays["LinearParams"].values.shape[0] == 2_192
    assert found["tdnnf2.linear"].offsets == (-1, 0)
    assert found["tdnn1.batchnorm"].numbers["TargetRms"] == 1.0
    assert all(np.isfinite(one.values).all() for one in weights)


def test_weights_written_back_change_nothing_else(original: bytes) -> None:
    found = kaldi.components(original)
    bias = found["output.affine"].arrays["BiasParams"]
    written = kaldi.written(original, {bias.offset: bias.values + 1})
    again = kaldi.components(written)
    assert np.array_equal(again["output.affine"].arrays["BiasParams"].values, bias.values + 1)
    assert kaldi.written(written, {bias.offset: bias.values}) == original


def test_what_is_no_model_is_refused(original: bytes) -> None:
    with pytest.raises(ValueError, match="not found"):
        kaldi.components(b"no model at all")
    start = original.index(b"<NumComponents> ")
    with pytest.raises((ValueError, IndexError)):
        kaldi.components(original[: start + 4_000])


def test_the_extractor_of_a_voice_is_read(original: bytes) -> None:
    found = kaldi.speaker_model(places.models() / load().name / "ivector")
    assert found.splice.shape == (40, 281)
    assert found.means.shape == (512, 40, 30)
    assert np.allclose(found.precisions, found.precisions.transpose(0, 2, 1))


def test_the_weights_that_come_with_the_program_move_every_weight_of_the_network(original: bytes) -> None:
    weights = (places.manifest().parent / "outdoors.weights").read_bytes()
    moved, differences = unpacked(weights)
    parts = kaldi.components(original).values()
    arrays = [one for part in parts for one in part.weights().values() if one.values.size]
    assert moved == [(one.offset, one.values.size) for one in arrays]
    assert float(np.mean(differences != 0)) > 0.99
    made = laid_over(original, weights)
    assert len(made) == len(original)
    assert kaldi.components(made).keys() == kaldi.components(original).keys()


def test_packed_differences_are_unpacked_as_they_were() -> None:
    dice = random.Random(2)
    differences = np.array([dice.gauss(0, 1) for _ in range(37)], np.float16)
    found, again = unpacked(packed([(8, 30), (200, 7)], differences))
    assert found == [(8, 30), (200, 7)]
    assert np.array_equal(again, differences)


@pytest.mark.parametrize(
    ("said", "heard", "wrong"),
    [
        ("our second", "our second", 0),
        ("our second", "second", 1),
        ("our second", "a second one", 2),
        ("", "well", 1),
        ("six at nine", "nine at six", 2),
    ],
)
def test_words_wrong_are_the_fewest_to_put_right(said: str, heard: str, wrong: int) -> None:
    assert edits(said.split(), heard.split()) == wrong


def test_marks_and_hesitations_are_no_words() -> None:
    assert plain_words("Um, our second, er, two o'clock. [unk]") == ["our", "second", "two", "o'clock"]
