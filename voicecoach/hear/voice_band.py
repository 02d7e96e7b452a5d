"""How far a voice stands above the noise where a voice is understood by, so that rumble doesn't count."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from voicecoach.hear.blocks import RATE_HZ, Samples

IMPORTANCE = {
    160: 0.0083,
    200: 0.0095,
    250: 0.0150,
    315: 0.0289,
    400: 0.0440,
    500: 0.0578,
    630: 0.0653,
    800: 0.0711,
    1_000: 0.0818,
    1_250: 0.0844,
    1_600: 0.0882,
    2_000: 0.0898,
    2_500: 0.0868,
    3_150: 0.0844,
    4_000: 0.0771,
    5_000: 0.0527,
    6_300: 0.0364,
    8_000: 0.0185,
}
"""How much each third of an octave, by its middle in hertz, adds to what is understood of average speech.

Source: ANSI S3.5-1997, Methods for Calculation of the Speech Intelligibility Index, Table 3 (quoted: the
table in speech_intelligibility_index 1.0.2 for Python, which implements the standard).
"""
MOST_DB = 15.0
"""A band this far above the noise adds all it can, and one as far below adds nothing.

Source: ANSI S3.5-1997, where the audibility of a band goes from 0 at -15 dB to 1 at 15 dB (memory).
"""
_FRAME = 1_024
_LEAST = 1e-12


def above_noise_in_voice_band_db(noise: Samples, speech: Samples) -> float:
    """How far speech stands above noise, decibels, as the mean of its bands by their importance.

    The noise is taken out of the speech first. Each band counts for between -15 and 15 dB, so that one that
    is drowned takes away no more than one that is clear adds. The speech intelligibility index would be this,
    divided by 30, plus a half.

    Args:
        noise: Sound without the voice, at least 64 ms of it.
        speech: The voice with the noise.
    """
    quiet, loud = _bands(noise), _bands(speech)
    ratio_db = 10 * np.log10(np.maximum(loud / quiet - 1, 1e-9))
    weights = np.array(list(IMPORTANCE.values()))
    return float(np.sum(weights * np.clip(ratio_db, -MOST_DB, MOST_DB)))


def _bands(sound: Samples) -> npt.NDArray[np.float64]:
    """The mean power in each band."""
    padded = np.pad(sound, (0, max(0, _FRAME - sound.size)))
    frames = np.lib.stride_tricks.sliding_window_view(padded, _FRAME)[:: _FRAME // 2]
    spectra = np.abs(np.fft.rfft(frames * np.hanning(_FRAME).astype(np.float32)))
    power = np.mean(np.square(spectra, dtype=np.float64), axis=0)
    hertz = np.fft.rfftfreq(_FRAME, 1 / RATE_HZ)
    edge = 2 ** (1 / 6)
    return np.array(
        [np.sum(power[(hertz >= middle / edge) & (hertz < middle * edge)]) + _LEAST for middle in IMPORTANCE]
    )
