"""Weather of many kinds: in parts that share nothing, drawn by dice, at a level that others mean too."""

from importlib import resources

import numpy as np
import pytest
import yaml

from tests.bench.hearing import corpus, poor_links, weather
from tests.bench.hearing.lines import Part
from tests.bench.hearing.noise import LEAD_S, Condition, heard_through
from tests.bench.hearing.speech_level import active_level
from tests.bench.hearing.voices import VOICES
from tests.bench.hearing.weather import FAMILIES, Family
from tests.hear.conftest import AUDIO
from voicecoach.hear.blocks import RATE_HZ, Samples
from voicecoach.hear.recordings import load

ALL = [family for families in FAMILIES.values() for family in families]
SECONDS = 4
TALK = [load(str(path)) for path in sorted(AUDIO.glob("*.flac"))[:4]]


def dice(seed: int) -> np.random.Generator:
    return np.random.default_rng(seed)


def share_between(sound: Samples, low_hz: float, high_hz: float) -> float:
    power = np.square(np.abs(np.fft.rfft(sound)))
    hertz = np.fft.rfftfreq(sound.size, 1 / RATE_HZ)
    return float(power[(hertz >= low_hz) & (hertz < high_hz)].sum() / power.sum())


def test_a_scored_note_shares_no_voice_wording_or_noise_with_what_is_fitted_on() -> None:
    assert not set(FAMILIES["tuning"]) & set(FAMILIES["scored"])
    assert not set(poor_links.LINKS["tuning"]) & set(poor_links.LINKS["scored"])
    voices = {part: {voice.key for voice in VOICES if voice.part == part} for part in FAMILIES}
    assert not voices["tuning"] & voices["scored"]
    text = resources.files(corpus.__package__).joinpath("templates.yaml").read_text(encoding="utf-8")
    book = yaml.safe_load(text)
    said = {part: {one["say"] for one in book["notes"] if one["part"] == part} for part in FAMILIES}
    assert not said["tuning"] & said["scored"]
    assert not set(book["chatter"]["tuning"]) & set(book["chatter"]["scored"])


def test_every_clip_says_its_voices_own_part() -> None:
    assert {clip.line.part == clip.voice.part for clip in corpus.clips()} == {True}


@pytest.mark.parametrize("part", ["tuning", "scored"])
def test_only_the_families_of_a_part_are_drawn_and_each_of_them_is(part: Part) -> None:
    families = {family for seed in range(200) for family in weather.drawn(part, dice(seed))}
    links = {poor_links.drawn_link(part, dice(seed)) for seed in range(200)}
    assert families == set(FAMILIES[part])
    assert links == set(poor_links.LINKS[part])


@pytest.mark.parametrize("part", ["tuning", "scored"])
@pytest.mark.parametrize("condition", ["weather 10 dB", "poor link"])
def test_the_same_dice_give_the_same_sound_and_others_give_another(condition: Condition, part: Part) -> None:
    first, again, other = (heard_through(TALK[0], condition, dice(seed), TALK, part) for seed in (1, 1, 2))
    assert np.array_equal(first, again)
    assert not np.array_equal(first, other)


@pytest.mark.parametrize("family", ALL, ids=lambda family: family.__name__)
def test_every_family_is_sound_of_level_one_that_never_comes_twice(family: Family) -> None:
    size = SECONDS * RATE_HZ
    drawn = [family(size, dice(seed), TALK) for seed in range(3)]
    for sound in drawn:
        assert sound.shape == (size,)
        assert float(np.sqrt(np.mean(np.square(sound, dtype=np.float64)))) == pytest.approx(1, abs=1e-3)
    assert not np.allclose(drawn[0], drawn[1])


def mean_share(family: Family, low_hz: float, high_hz: float) -> float:
    drawn = [family(SECONDS * RATE_HZ, dice(seed), TALK) for seed in range(6)]
    return float(np.mean([share_between(sound, low_hz, high_hz) for sound in drawn]))


def test_wind_rumbles_and_rain_does_not() -> None:
    assert mean_share(weather.open_wind, 0, 300) > 0.6
    assert mean_share(weather.shielded_wind, 0, 450) > 0.9
    assert mean_share(weather.rain_on_a_hood, 900, 8_000) > 0.7
    assert mean_share(weather.leaves, 1_000, 8_000) > 0.6


@pytest.mark.parametrize("ratio_db", [5, 10, 20])
@pytest.mark.parametrize("part", ["tuning", "scored"])
def test_so_many_decibels_lie_between_the_active_level_and_the_noise(ratio_db: int, part: Part) -> None:
    speech = TALK[1] * np.float32(0.05)  # quiet enough that nothing is cut at full scale
    condition: Condition = {5: "weather 5 dB", 10: "weather 10 dB", 20: "weather 20 dB"}[ratio_db]  # type: ignore[assignment]
    heard = heard_through(speech, condition, dice(4), TALK, part)
    noise = heard.copy()
    start = round(LEAD_S * RATE_HZ)
    noise[start : start + speech.size] -= speech
    noise_db = 10 * np.log10(np.mean(np.square(noise, dtype=np.float64)))
    assert active_level(speech).active_db - noise_db == pytest.approx(ratio_db, abs=0.05)


def test_a_voice_over_bluetooth_is_narrow_and_loses_pieces() -> None:
    sound = np.asarray(dice(1).standard_normal(SECONDS * RATE_HZ) * 0.1, np.float32)
    arrives = poor_links.lost_packets(sound, 0.1, dice(2))
    assert share_between(arrives, 4_100, 8_000) < 0.001
    packet = round(0.0075 * RATE_HZ)
    packets = arrives[: arrives.size // packet * packet].reshape(-1, packet)
    before, after = packets[:-1], packets[1:]
    alike = np.sum(before * after, axis=1) / np.sqrt(np.sum(before**2, axis=1) * np.sum(after**2, axis=1))
    assert 0.01 < float(np.mean(alike > 0.9)) < 0.15


def test_a_hall_rings_on_after_the_voice_has_stopped() -> None:
    click = np.zeros(2 * RATE_HZ, np.float32)
    click[0] = 1
    for link in (poor_links.small_hall, poor_links.large_hall):
        late = link(click, 0.1, dice(1))[RATE_HZ // 5 :]
        assert float(np.sum(late**2)) > 1e-4


def test_a_voice_turned_up_too_far_is_flat_at_the_top() -> None:
    speech = TALK[0]
    level = 10 ** (active_level(speech).active_db / 20)
    flat = poor_links.clipped(speech, level, dice(1))
    assert float(np.mean(np.abs(flat) >= 0.999)) > 0.01
    squeezed = poor_links.overdriven(speech, level, dice(1))
    assert float(np.max(squeezed)) < 1
    assert float(np.min(squeezed)) > -0.801
