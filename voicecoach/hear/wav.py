"""Sound as the bytes of a WAV."""

import io
import wave

import numpy as np

from voicecoach.hear.blocks import RATE_HZ, Samples


def as_wav(sound: Samples) -> bytes:
    """A WAV of 16 bits, one channel, at the ear's own rate; what is beyond full scale is clipped."""
    written = io.BytesIO()
    with wave.open(written, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        file.writeframes(np.round(np.clip(sound, -1, 1) * 32_767).astype("<i2").tobytes())
    return written.getvalue()
