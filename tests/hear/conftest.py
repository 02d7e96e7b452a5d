"""One recogniser for all tests of the ear, and the spoken files beside them, named by their words."""

from pathlib import Path

import pytest

from voicecoach import phrasebook
from voicecoach.hear.recogniser import Recogniser

AUDIO = Path(__file__).parent / "audio"


@pytest.fixture(scope="session")
def recogniser(model_path: Path) -> Recogniser:
    return Recogniser(model_path, phrasebook.load())


@pytest.fixture
def second_bowl() -> Path:
    return AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac"
