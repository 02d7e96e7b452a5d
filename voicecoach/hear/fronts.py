"""What is done to the sound before a decode: nothing, or noise is turned down, a little or more."""

from __future__ import annotations

from threading import Lock
from typing import Literal, Protocol

from voicecoach.hear.blocks import Samples, silence
from voicecoach.hear.gate import NoiseGate

Front = Literal["plain", "gated", "gated harder"]


class Stage(Protocol):
    """Takes samples and gives samples; at the end it gives the rest of them."""

    def process(self, samples: Samples) -> Samples:
        """Process the next samples and give what is ready."""
        ...

    def rest(self) -> Samples:
        """Give what was kept back."""
        ...


class Plain:
    """Leaves the sound as it is."""

    def process(self, samples: Samples) -> Samples:
        """Give back the same samples."""
        return samples

    def rest(self) -> Samples:
        """Nothing is ever kept back."""
        return silence(0)


class _Shared:
    """A gate for several decodes of the same pieces: each is gated once, for the first that needs it."""

    def __init__(self, gate: NoiseGate) -> None:
        self._gate = gate
        self._made: list[Samples] = []
        self._left: Samples | None = None
        self._lock = Lock()

    def piece(self, at: int, samples: Samples) -> Samples:
        """The piece of this number, gated."""
        with self._lock:
            if at == len(self._made):
                self._made.append(self._gate.process(samples))
            return self._made[at]

    def rest(self) -> Samples:
        """What the gate kept back, once every piece has been through."""
        with self._lock:
            if self._left is None:
                self._left = self._gate.rest()
            return self._left


class _Gated:
    """One decode's way through a gate that it shares with others, at its own pace."""

    def __init__(self, shared: _Shared) -> None:
        self._shared = shared
        self._taken = 0

    def process(self, samples: Samples) -> Samples:
        """Give what is ready."""
        self._taken += 1
        return self._shared.piece(self._taken - 1, samples)

    def rest(self) -> Samples:
        """Give what was kept back."""
        return self._shared.rest()


class Fronts:
    """The fronts for all decodes of one utterance, which all take it in the same pieces.

    In noise two decodes gate alike: the work is done once.
    """

    def __init__(self) -> None:
        self._gates = {harder: _Shared(NoiseGate(harder=harder)) for harder in (False, True)}

    def of(self, name: Front) -> Stage:
        """A fresh front of this name."""
        if name == "plain":
            return Plain()
        return _Gated(self._gates[name == "gated harder"])
