"""Recordings of any kind come out alike; damaged ones are named in a sentence."""

import struct
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile
import soxr

from tests.hear.spoken import padded, words_of
from voicecoach.errors import DataProblem
from voicecoach.hear.blocks import BLOCK
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks, load


def header(rate: int = 16_000, channels: int = 1, promised: int = 1_000) -> bytes:
    """A RIFF/WAVE header for 16-bit samples (Multimedia Programming Interface, 1.0; memory)."""
    frame = (2 * channels) & 0xFFFF
    form = struct.pack("<HHIIHH", 1, channels, rate, (rate * frame) & 0xFFFFFFFF, frame, 16)
    return (
        b"RIFF"
        + struct.pack("<I", (36 + promised) & 0xFFFFFFFF)
        + b"WAVEfmt "
        + struct.pack("<I", 16)
        + form
        + b"data"
        + struct.pack("<I", promised)
    )


@pytest.mark.parametrize("rate", [8_000, 11_025, 22_050, 44_100, 48_000])
@pytest.mark.parametrize("channels", [1, 2])
def test_every_rate_and_channel_count_gives_the_same_words(
    rate: int, channels: int, recogniser: Recogniser, second_bowl: Path, tmp_path: Path
) -> None:
    samples = soxr.resample(padded(second_bowl), 16_000, rate)
    path = tmp_path / "note.wav"
    soundfile.write(path, np.column_stack([samples] * channels), rate)
    assert [heard.text for heard in Ear(recogniser).listen(blocks(path), "x")] == [words_of(second_bowl)]


def test_a_voice_in_one_channel_of_two_is_as_loud_as_in_one(second_bowl: Path, tmp_path: Path) -> None:
    samples = load(second_bowl)
    path = tmp_path / "left.wav"
    soundfile.write(path, np.column_stack([samples, np.zeros_like(samples)]), 16_000, subtype="FLOAT")
    assert np.allclose(load(path), samples, atol=1e-4)


@pytest.mark.parametrize("rate", [8_000, 16_000, 48_000])
def test_a_recording_keeps_its_length_and_comes_in_blocks_of_512(rate: int, tmp_path: Path) -> None:
    path = tmp_path / "tone.wav"
    soundfile.write(path, np.sin(np.arange(rate * 2) / 7).astype(np.float32) * 0.3, rate)
    found = list(blocks(path))
    assert {block.samples.size for block in found} == {BLOCK}
    assert len(found) * BLOCK == pytest.approx(32_000, abs=2 * BLOCK)
    assert [block.at_s for block in found] == pytest.approx([i * 0.032 for i in range(len(found))], abs=1e-6)


def test_samples_that_no_sound_has_become_silence(tmp_path: Path) -> None:
    path = tmp_path / "damaged.wav"
    soundfile.write(path, np.array([0.1, np.nan, np.inf, -np.inf, 1e30, 0.1] * 500), 16_000, subtype="FLOAT")
    samples = load(path)
    assert np.isfinite(samples).all()
    assert np.abs(samples).max() <= 1


def missing(path: Path) -> None:
    """Write nothing."""


def empty(path: Path) -> None:
    path.write_bytes(b"")


def text(path: Path) -> None:
    path.write_text("our second, eighty centimetres, two o'clock\n")


def cut_header(path: Path) -> None:
    path.write_bytes(header()[:30])


def impossible_rate(path: Path) -> None:
    path.write_bytes(header(rate=0xFFFFFFF0) + b"\0" * 1_000)


def impossible_channels(path: Path) -> None:
    path.write_bytes(header(channels=0xFFFF) + b"\0" * 1_000)


@pytest.mark.parametrize("make", [missing, empty, text, cut_header, impossible_rate, impossible_channels])
def test_what_is_no_recording_is_named_in_one_sentence(make: Callable[[Path], None], tmp_path: Path) -> None:
    path = tmp_path / "note.wav"
    make(path)
    with pytest.raises(DataProblem, match=r"note\.wav") as told:
        list(blocks(path))
    assert str(told.value).endswith(".")
    assert "\n" not in str(told.value)


def test_a_header_that_promises_hours_costs_nothing_and_what_is_there_is_read(tmp_path: Path) -> None:
    path = tmp_path / "promises.wav"
    path.write_bytes(header(promised=0xFFFFFFF0) + struct.pack("<1600h", *([1_000] * 1_600)))
    assert load(path).size == 1_600


def test_a_folder_is_no_recording(tmp_path: Path) -> None:
    with pytest.raises(DataProblem):
        list(blocks(tmp_path))


def mp3(path: Path) -> bytes:
    """A second and a half of noise as MP3; the decoder has something to say about it, sound as it is."""
    sound = np.random.default_rng(0).uniform(-0.3, 0.3, 24_000)
    soundfile.write(path, sound, 16_000, format="MP3")
    return path.read_bytes()


def as_it_is(path: Path) -> None:
    mp3(path)


def cut_off(path: Path) -> None:
    path.write_bytes(mp3(path)[:4_000])


def with_a_hole(path: Path) -> None:
    whole = mp3(path)
    path.write_bytes(whole[:2_000] + b"\0" * 400 + whole[2_400:])


def without_sound(path: Path) -> None:
    path.write_bytes(b"\xff\xfb\x90\x00" + b"\0" * 2_000)


def a_bad_tag(path: Path) -> None:
    path.write_bytes(b"ID3" + b"\0" * 500)


READ = """
import sys
from voicecoach.errors import DataProblem
from voicecoach.hear.recordings import blocks
try:
    print(sum(block.samples.size for block in blocks(sys.argv[1])))
except DataProblem as problem:
    print(problem, file=sys.stderr)
print("the last line", file=sys.stderr)
"""


@pytest.mark.parametrize("make", [as_it_is, cut_off, with_a_hole, without_sound, a_bad_tag])
def test_nothing_but_our_own_words_reaches_standard_error_for_an_mp3(
    make: Callable[[Path], None], tmp_path: Path
) -> None:
    path = tmp_path / "note.mp3"
    make(path)
    done = subprocess.run(
        [sys.executable, "-c", READ, str(path)], capture_output=True, text=True, check=True, timeout=1_200
    )
    *told, last = done.stderr.splitlines()
    assert last == "the last line"
    if done.stdout:
        assert int(done.stdout) > 5_000
        assert told == []
    else:
        assert told == [
            f"The recording {path} can't be read: it is damaged. Save it again as WAV or FLAC.",
        ]


def test_a_recording_is_read_where_standard_error_is_closed(tmp_path: Path) -> None:
    path = tmp_path / "note.mp3"
    mp3(path)
    done = subprocess.run(
        ["sh", "-c", 'exec "$@" 2>&-', "sh", sys.executable, "-c", READ.rsplit("print", 1)[0], str(path)],
        stdout=subprocess.PIPE,
        text=True,
        check=True,
        timeout=1_200,
    )
    assert int(done.stdout) > 20_000
