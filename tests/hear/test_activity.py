"""The voice detector rests where a quiet place gives nothing but its own sound, and misses no voice by it."""

from pathlib import Path

import numpy as np
import pytest

from tests.hear.spoken import stream
from voicecoach.hear.activity import VoiceActivity
from voicecoach.hear.blocks import BLOCK, RATE_HZ, Samples, even
from voicecoach.hear.recordings import load
from voicecoach.hear.segments import PRE_ROLL_S, Segmenter
from voicecoach.hear.silero import Silero

QUIET_S = 6.0


def hiss(seconds: float, level_db: float) -> Samples:
    """Steady noise so far below full scale."""
    size = round(seconds * RATE_HZ)
    return np.random.default_rng(4).normal(0, 10 ** (level_db / 20), size).astype(np.float32)


class Counted(VoiceActivity):
    """A detector that counts how often it was asked."""

    def __init__(self) -> None:
        super().__init__()
        self.asked = 0

        class Asked(Silero):
            def __call__(detector, samples: Samples) -> float:  # noqa: N805 - it counts for another
                self.asked += 1
                return super().__call__(samples)

        self._detector = Asked()

    def over(self, samples: Samples) -> int:
        """How many blocks of this sound it was asked about."""
        before = self.asked
        for start in range(0, samples.size - BLOCK + 1, BLOCK):
            self(samples[start : start + BLOCK])
        return self.asked - before


@pytest.fixture
def detector() -> Counted:
    return Counted()


def test_in_a_quiet_room_it_rests_after_a_second(detector: Counted) -> None:
    assert detector.over(hiss(2.0, -70)) > 20
    assert detector.over(hiss(10.0, -70)) == 0


def test_in_noise_that_may_hold_a_voice_it_never_rests(detector: Counted) -> None:
    detector.over(hiss(2.0, -50))
    sound = hiss(10.0, -50)
    assert detector.over(sound) == sound.size // BLOCK


def test_what_stands_out_of_the_quiet_is_listened_to_at_once(detector: Counted) -> None:
    detector.over(hiss(5.0, -75))
    assert detector.over(hiss(0.1, -66)) >= 3


def test_a_room_that_grows_a_little_louder_is_a_quiet_room_again(detector: Counted) -> None:
    detector.over(hiss(5.0, -75))
    detector.over(hiss(8.0, -66))
    assert detector.over(hiss(5.0, -66)) == 0


@pytest.mark.parametrize("level_db", [0, -20, -35])
def test_a_note_after_long_quiet_is_found_with_its_first_word(second_bowl: Path, level_db: float) -> None:
    speech = load(second_bowl) * np.float32(10 ** (level_db / 20))
    sound = np.concatenate([hiss(QUIET_S, -75), speech, hiss(1.5, -75)])
    sound[round(QUIET_S * RATE_HZ) : -round(1.5 * RATE_HZ)] += hiss(speech.size / RATE_HZ, -75)
    found = list(Segmenter().segment(even(stream(sound, [1_024]))))
    assert len(found) == 1
    assert found[0].first_s < QUIET_S < found[0].started_s + PRE_ROLL_S
    assert abs(found[0].started_s - QUIET_S) < PRE_ROLL_S
