"""The head in stereo: where each thing is heard, measured from the samples."""

import math
from collections.abc import Iterator

import numpy as np
import pytest

from tests.speak.pitches import pitch_hz
from voicecoach.describe.values import Sentence
from voicecoach.speak import stereo
from voicecoach.speak.placing import FULL_LEVEL_DB, azimuth, placed
from voicecoach.speak.values import StereoSound
from voicecoach.speak.voice import Voice

RATE_HZ = 48_000


@pytest.fixture(scope="module")
def voice() -> Iterator[Voice]:
    with Voice() as speaking:
        yield speaking


def right_ear_leads_us(rows: np.ndarray) -> float:
    """How much earlier the right ear hears it, microseconds: the slope of the phase between the ears."""
    left, right = (np.fft.rfft(rows[:, ear], 2 * len(rows)) for ear in (0, 1))
    hz = np.fft.rfftfreq(2 * len(rows), 1 / RATE_HZ)
    speech = (hz > 100) & (hz < 700)  # half a turn is 714 us at 700 Hz: no phase is ambiguous
    across = right[speech] * np.conj(left[speech])
    turns = np.angle(across) / (2 * np.pi)
    return float(1e6 * np.average(turns / hz[speech], weights=np.abs(across) * hz[speech] ** 2))


def right_ear_louder_db(rows: np.ndarray) -> float:
    power = np.mean(rows.astype(np.float64) ** 2, axis=0)
    return float(10 * np.log10(power[1] / power[0]))


def at(hour: float, metres: float = 1.0) -> tuple[float, float]:
    """The place on an hour of the clock."""
    return metres * math.sin(math.radians(30 * hour)), metres * math.cos(math.radians(30 * hour))


def say(voice: Voice, place: tuple[float, float] | None) -> StereoSound:
    return stereo.render([Sentence(text="Our second: eighty centimetres.", place=place)], voice)


# Woodworth's formula, (a/c)(theta + sin theta), a = 0.0875 m, c = 343 m/s (read; values derived).
@pytest.mark.parametrize(("hour", "expected_us"), [(1, 261.1), (2, 488.1), (3, 655.8)])
@pytest.mark.parametrize("behind", [False, True])
@pytest.mark.parametrize("left", [False, True])
def test_the_time_between_the_ears_is_that_of_woodworths_formula(
    hour: float, expected_us: float, behind: bool, left: bool, voice: Voice
) -> None:
    hour = 6 - hour if behind else hour
    hour = 12 - hour if left else hour
    measured = right_ear_leads_us(say(voice, at(hour)).samples)
    assert measured == pytest.approx(-expected_us if left else expected_us, abs=2.0)


@pytest.mark.parametrize("place", [None, (0.0, 0.0), at(12), at(6)])
def test_what_is_in_line_with_the_jack_is_heard_in_the_middle(
    place: tuple[float, float] | None, voice: Voice
) -> None:
    rows = say(voice, place).samples
    assert right_ear_leads_us(rows) == pytest.approx(0, abs=0.5)
    assert right_ear_louder_db(rows) == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize(("hour", "share"), [(3, 1.0), (9, -1.0), (1, 0.5), (5, 0.5), (11, -0.5)])
def test_the_nearer_ear_hears_it_louder(hour: float, share: float, voice: Voice) -> None:
    measured = right_ear_louder_db(say(voice, at(hour)).samples)
    assert measured == pytest.approx(share * FULL_LEVEL_DB, abs=0.05)


def test_a_delay_of_part_of_a_sample_changes_no_frequencys_strength() -> None:
    chirp = np.sin(2 * np.pi * np.cumsum(np.linspace(100, 10_000, 48_000)) / RATE_HZ).astype(np.float32)
    rows = placed(chirp, RATE_HZ, math.radians(17))
    left, right = (np.abs(np.fft.rfft(rows[:, ear])) for ear in (0, 1))
    hz = np.fft.rfftfreq(len(rows), 1 / RATE_HZ)
    middle = (hz > 200) & (hz < 9_000)
    ratio_db = 20 * np.log10(right[middle] / left[middle])
    assert ratio_db == pytest.approx(
        np.full(ratio_db.shape, FULL_LEVEL_DB * math.sin(math.radians(17))), abs=0.2
    )


def test_the_listener_faces_away_from_the_mat() -> None:
    assert azimuth((0.0, 2.0)) == 0
    assert azimuth((1.0, 0.0)) == pytest.approx(math.pi / 2)
    assert azimuth((-1.0, 0.0)) == pytest.approx(-math.pi / 2)
    assert abs(azimuth((0.0, -2.0))) == pytest.approx(math.pi)


def test_what_lies_past_the_jack_is_spoken_higher_and_what_is_short_lower(voice: Voice) -> None:
    # The jack is said last: after what is past it, its pitch must be the ordinary one again.
    sounds = {hour: say(voice, at(hour, 2.0)).samples.sum(axis=1) for hour in (6, 12, 3)}
    short, past, level = (pitch_hz(sound[::3], RATE_HZ // 3) for sound in sounds.values())
    assert short < 0.9 * level
    assert past > 1.1 * level


def test_sentences_keep_their_order_and_their_pauses(voice: Voice) -> None:
    first = Sentence(text="One.", pause_s=1.0, place=at(9))
    second = Sentence(text="Two.", pause_s=9.0, place=at(3))
    both = stereo.render([first, second], voice)
    apart = [stereo.render([each], voice).seconds for each in (first, second)]
    assert both.seconds == pytest.approx(sum(apart) + 1.0, abs=0.03)
    half = round(apart[0] * RATE_HZ)
    assert right_ear_louder_db(both.samples[:half]) < -5
    assert right_ear_louder_db(both.samples[-half:]) > 5


PLACES = [at(5, 2.0), at(7, 1.5), at(9, 0.5), (0.0, 0.0), at(2, 0.8), at(12, 2.0)]
SIDES: list[stereo.Piece] = ["ours", "theirs", "ours", "jack", "theirs", "ours"]


def steps_of(sound: StereoSound, count: int) -> list[np.ndarray]:
    step = round(min(0.5, 4.0 / count) * RATE_HZ)
    return [sound.samples[step * number : step * (number + 1)] for number in range(count)]


def test_the_sound_picture_lasts_four_seconds_and_has_one_sound_a_bowl_in_the_order_given() -> None:
    sound = stereo.picture(PLACES, SIDES)
    assert sound.seconds == 4.0
    for place, rows in zip(PLACES, steps_of(sound, len(PLACES)), strict=True):
        assert np.abs(rows).max() > 0.02
        assert right_ear_louder_db(rows) == pytest.approx(FULL_LEVEL_DB * math.sin(azimuth(place)), abs=0.1)


def test_a_full_head_of_nine_bowls_a_side_and_the_jack_fits_into_the_picture() -> None:
    places = [at(hour / 2, 1.0) for hour in range(1, 20)]
    sides: list[stereo.Piece] = ["jack"] * 19
    sides[:9], sides[9:18] = ["ours"] * 9, ["theirs"] * 9
    sound = stereo.picture(places, sides)
    assert sound.seconds == 4.0
    assert all(np.abs(rows).max() > 0.01 for rows in steps_of(sound, 19))


def test_ours_theirs_and_the_jack_differ_in_timbre_at_the_same_place() -> None:
    spectra = []
    kinds: tuple[stereo.Piece, ...] = ("ours", "theirs", "jack")
    for side in kinds:
        rows = steps_of(stereo.picture([(0.0, 0.0)], [side]), 1)[0]
        spectrum = np.abs(np.fft.rfft(rows[:, 0]))
        spectra.append(spectrum / np.linalg.norm(spectrum))
    for one, other in ((0, 1), (0, 2), (1, 2)):
        assert spectra[one] @ spectra[other] < 0.9


def test_an_empty_head_is_four_seconds_of_silence() -> None:
    sound = stereo.picture([], [])
    assert sound.seconds == 4.0
    assert not sound.samples.any()
