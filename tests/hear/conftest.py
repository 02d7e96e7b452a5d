"""One recogniser for all tests of the ear, and the spoken files beside them, named by their words."""

from pathlib import Path

import pytest

AUDIO = Path(__file__).parent / "audio"


@pytest.fixture
def second_bowl() -> Path:
    return AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac"
