"""One vosk recogniser with its phrase list and what is done to the sound before it."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from voicecoach.errors import ModelProblem
from voicecoach.hear.blocks import RATE_HZ, Samples
from voicecoach.hear.decodes import Decode
from voicecoach.hear.fronts import Fronts
from voicecoach.sound.libraries import library


def model_at(path: Path) -> Any:
    """Load the speech model. Naming its path is the only way that never uses the network."""
    vosk = library("vosk")
    vosk.SetLogLevel(-2)  # errors alone: warnings name each word of the book that a model lacks, each time
    if not path.is_dir():
        raise ModelProblem(f"There is no speech model at {path}. Run: voicecoach setup")
    try:
        return vosk.Model(model_path=str(path))
    except Exception as problem:  # vosk raises nothing narrower
        raise ModelProblem(f"The speech model at {path} can't be loaded. Run: voicecoach setup") from problem


class Decoder:
    """Carries out one decode: it listens to one utterance after another in that way."""

    def __init__(self, model: Any, decode: Decode, phrases: str | None) -> None:
        self.decode = decode
        self._front = Fronts().of(decode.front)
        vosk = library("vosk")
        self._recogniser = (
            vosk.KaldiRecognizer(model, RATE_HZ)
            if phrases is None
            else vosk.KaldiRecognizer(model, RATE_HZ, phrases)
        )
        self._under_way = False
        self._taken = 0
        self._recogniser.SetMaxAlternatives(decode.alternatives)
        self._recogniser.SetWords(decode.alternatives == 0)

    def begin(self, fronts: Fronts | None = None) -> None:
        """Forget what was heard before, and take the next utterance's sound through one of its fronts.

        vosk's Reset keeps sound that is not yet decoded and hears it again with the next utterance. Asking
        for a final result and throwing it away leaves nothing behind.
        """
        if self._under_way:
            self.finish()
        self._taken = 0
        self._front = (fronts or Fronts()).of(self.decode.front)

    def accept(self, samples: Samples) -> None:
        """Take the next samples. vosk also says when it thinks that speech has ended; that is ignored."""
        self._feed(self._front.process(samples))

    def follow(self, pieces: Sequence[Samples]) -> None:
        """Take those pieces of this utterance that it has not taken yet."""
        for samples in pieces[self._taken :]:
            self.accept(samples)
        self._taken = len(pieces)

    def so_far(self) -> str:
        """The words heard up to now, as the recogniser spells them."""
        return str(json.loads(self._recogniser.PartialResult()).get("partial", ""))

    def finish(self) -> dict[str, Any]:
        """End the utterance and give the recogniser's own result."""
        self._feed(self._front.rest())
        result: dict[str, Any] = json.loads(self._recogniser.FinalResult())
        self._under_way = False
        return result

    def _feed(self, samples: Samples) -> None:
        if samples.size:
            whole = np.round(samples * 32_767).astype("<i2")
            self._recogniser.AcceptWaveform(whole.tobytes())
            self._under_way = True
