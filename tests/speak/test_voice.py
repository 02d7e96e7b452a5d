"""The voice: what comes of a text, and how fast."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from tests.speak.pitches import pitch_hz
from voicecoach.speak.helper import COMMAND, Helper
from voicecoach.speak.pace import FASTEST_WPM, SLOWEST_WPM
from voicecoach.speak.voice import ORDINARY_PITCH, Voice, split

SENTENCES = (
    "Our second: eighty centimetres, two o'clock.",
    "Their third: one metre twenty, five o'clock, short and right.",
    "Our fourth: forty centimetres, nine o'clock, left.",
    "Our first: about two metres, between four and five o'clock.",
)


@pytest.fixture(scope="module")
def voice() -> Iterator[Voice]:
    with Voice() as speaking:
        yield speaking


def measured_wpm(voice: Voice) -> float:
    """Words a minute, from the sound."""
    sounds = [voice.render(text) for text in SENTENCES]
    words = sum(len(text.split()) for text in SENTENCES)
    return 60 * words / sum(sound.seconds for sound in sounds)


def processor_s(voice: Voice) -> float:
    """Processor time that its process has used, which other programs don't change."""
    assert voice._helper is not None
    fields = Path(f"/proc/{voice._helper.pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def gaps_s(samples: np.ndarray, rate_hz: int) -> float:
    """All silences of 60 ms and longer inside a sound."""
    loud = np.flatnonzero(np.abs(samples) > 0.003)
    steps = np.diff(loud) / rate_hz
    return float(steps[steps > 0.06].sum())


def test_a_sentence_becomes_sound_that_starts_and_ends_with_speech(voice: Voice) -> None:
    sound = voice.render(SENTENCES[0])
    edge = round(0.03 * sound.rate_hz)
    assert sound.samples.dtype == np.float32
    assert 1.5 < sound.seconds < 4.0
    assert np.abs(sound.samples[:edge]).max() > 0.003
    assert np.abs(sound.samples[-edge:]).max() > 0.003


def test_a_warm_voice_takes_a_small_share_of_real_time(voice: Voice) -> None:
    voice.render("Warm.")
    before_s = processor_s(voice)
    sound = voice.render("Their fourth: one metre ninety, half past eleven.")
    assert processor_s(voice) - before_s < 0.2 * sound.seconds


def test_what_was_said_before_comes_at_once(voice: Voice) -> None:
    first = voice.render(SENTENCES[1])
    second = voice.render(SENTENCES[1])
    # The engine's own noise makes no two renderings alike to the sample.
    assert np.array_equal(first.samples, second.samples)


@pytest.mark.parametrize("name", ["gmw/en", "gmw/en-us"])
def test_another_voice_has_the_same_pace(name: str) -> None:
    with Voice(voice=name) as other:
        assert measured_wpm(other) == pytest.approx(160, rel=0.08)


@pytest.mark.parametrize("wanted", [SLOWEST_WPM, 120, 160, 220, FASTEST_WPM])
def test_the_pace_measured_from_the_sound_is_the_pace_asked_for(voice: Voice, wanted: int) -> None:
    voice.words_per_minute = wanted
    assert measured_wpm(voice) == pytest.approx(wanted, rel=0.08)


def test_a_slower_voice_has_longer_gaps_and_the_same_words(voice: Voice) -> None:
    voice.words_per_minute = 160
    usual = voice.render(SENTENCES[0])
    voice.words_per_minute = 125
    slower = voice.render(SENTENCES[0])
    voice.words_per_minute = 160
    more_gap = gaps_s(slower.samples, slower.rate_hz) - gaps_s(usual.samples, usual.rate_hz)
    assert more_gap == pytest.approx(slower.seconds - usual.seconds, rel=0.2)


def test_a_higher_pitch_is_heard_as_one_and_the_next_sentence_has_the_ordinary_one_again(
    voice: Voice,
) -> None:
    sounds = [voice.render("Nine o'clock.", pitch=pitch) for pitch in (25, ORDINARY_PITCH, 75)]
    low, ordinary, high = (pitch_hz(sound.samples, sound.rate_hz) for sound in sounds)
    assert high > 1.1 * ordinary > 1.2 * low
    again = voice.render("Nine o'clock!")
    assert pitch_hz(again.samples, again.rate_hz) == pytest.approx(ordinary, rel=0.1)


@pytest.mark.parametrize("text", ["", "   ", "...", "?!", "\x00\n"])
def test_a_text_with_nothing_to_say_is_no_sound_and_no_error(voice: Voice, text: str) -> None:
    assert voice.render(text).seconds == 0


@pytest.mark.parametrize(
    "text", ["<speak>Bob</speak>", "[[bA:d]]", "Ann\x00\x1b[2J Lee", "José", "🎳 Eve", "\u202eeve", "a" * 500]
)
def test_a_strange_name_is_spoken_without_harm(voice: Voice, text: str) -> None:
    assert voice.render(text).seconds > 0
    assert voice.render("Still here.").seconds > 0


def test_a_text_is_cut_at_its_marks() -> None:
    assert split("Our second: one point five metres, two o'clock.") == [
        "Our second:",
        "one point five metres,",
        "two o'clock.",
    ]


def test_our_first_is_not_run_together_in_one_breath() -> None:
    assert split("We hold one: our first.") == ["We hold one:", "our", "first."]
    assert split("Our firsthand third: four first yards.") == ["Our firsthand third:", "four first yards."]


def test_hours_that_sound_like_others_are_not_run_together_either() -> None:
    assert split("Between eight and nine o'clock, left.") == ["Between eight and", "nine o'clock,", "left."]
    assert split("About one o'clock.") == ["About", "one o'clock."]
    assert split("Ours: one metre, about two o'clock.") == ["Ours:", "one metre,", "about", "two o'clock."]
    assert split("Ours: about one metre, about three o'clock.") == [
        "Ours:",
        "about one metre,",
        "about three o'clock.",
    ]


def test_the_engine_in_the_wheel_speaks_on_a_machine_without_one() -> None:
    helper = Helper(options=("--bundled",))
    try:
        helper.ready(120)
        assert helper.ask({"text": "Our first.", "settings": {"rate": 185}}, 120)["file"]
    finally:
        helper.end()


def test_the_helper_ends_and_leaves_no_folder_when_its_parent_is_gone(tmp_path: object) -> None:
    folder = f"{tmp_path}/voice"
    subprocess.run(["mkdir", folder], check=True)
    worker = subprocess.Popen(
        [sys.executable, *COMMAND[1:], folder], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert worker.stdout is not None
    assert b"ready" in worker.stdout.readline()
    worker.communicate(timeout=120)  # closes its standard input, as the parent's death does
    assert worker.returncode == 0
    assert subprocess.run(["ls", folder], capture_output=True, check=False).returncode != 0
