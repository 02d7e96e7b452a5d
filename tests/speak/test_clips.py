"""Clips for a page: each clause once, small, and sounding as long as the voice does."""

import io

import pytest
import soundfile

from voicecoach.describe.values import Sentence
from voicecoach.speak.clips import RATE_HZ, Clips
from voicecoach.speak.voice import Voice

SAID = (
    Sentence(text="Our second: eighty centimetres, two o'clock.", pause_s=0.7),
    Sentence(text="Their second: eighty centimetres, four o'clock.", pause_s=0.3),
)


def test_a_clause_that_is_said_twice_is_one_clip() -> None:
    with Clips() as clips:
        playing = clips.playing(SAID)
        files = clips.files()
    assert [number for number, _ in playing] == [0, 1, 2, 3, 1, 4]
    assert len(files) == 5


def test_the_silence_after_a_clause_is_the_voices_and_after_a_sentence_its_own() -> None:
    with Clips() as clips:
        silences = [silent_ms for _, silent_ms in clips.playing(SAID)]
    assert silences == [200, 120, 700, 200, 120, 300]


def test_a_clip_lasts_as_long_as_the_voice_and_is_small() -> None:
    with Clips() as clips, Voice() as voice:
        clips.playing(SAID)
        for clause, file in zip(
            ["Our second:", "eighty centimetres,", "two o'clock."], clips.files(), strict=False
        ):
            samples, rate_hz = soundfile.read(io.BytesIO(file))
            assert rate_hz == RATE_HZ
            seconds = voice.render(clause).seconds
            assert len(samples) / rate_hz == pytest.approx(seconds, abs=0.06)
            assert len(file) < 2000 + 6000 * seconds
            assert abs(samples).max() > 0.1
