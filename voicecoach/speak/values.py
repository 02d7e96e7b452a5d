"""What speaking gives: sound, as samples."""

import numpy as np
from numpy.typing import NDArray
from pydantic import ConfigDict

from voicecoach.value import Value

Samples = NDArray[np.float32]


class _Sampled(Value):
    """What both kinds of sound have."""

    model_config = ConfigDict(arbitrary_types_allowed=True)

    samples: Samples
    """Samples within -1 to 1, one row or figure for each moment."""
    rate_hz: int
    """Samples a second."""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / self.rate_hz


class Sound(_Sampled):
    """Sound for one ear or for both alike: its samples have one dimension."""


class StereoSound(_Sampled):
    """Sound that differs between the ears: its samples are rows, the left ear first."""
