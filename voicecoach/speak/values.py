"""What speaking gives: sound, as samples."""

import numpy as np
from numpy.typing import NDArray
from pydantic import ConfigDict

from voicecoach.value import Value

Samples = NDArray[np.float32]


class Sound(Value):
    """Sound for one ear or for both alike."""

    model_config = ConfigDict(arbitrary_types_allowed=True)

    samples: Samples
    """Samples within -1 to 1, one dimension."""
    rate_hz: int
    """Samples a second."""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / self.rate_hz


class StereoSound(Value):
    """Sound that differs between the ears."""

    model_config = ConfigDict(arbitrary_types_allowed=True)

    samples: Samples
    """Samples within -1 to 1, two dimensions: one row for each moment, left ear first."""
    rate_hz: int
    """Samples a second."""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / self.rate_hz
