"""The pitch of a voice, measured from its sound."""

import numpy as np

FRAME_S = 0.04
LOWEST_HZ, HIGHEST_HZ = 60, 400


def pitch_hz(samples: np.ndarray, rate_hz: int) -> float:
    """The median over all voiced moments."""
    frame = round(FRAME_S * rate_hz)
    starts = range(0, len(samples) - 2 * frame, frame // 2)
    found = [_of_frame(samples[start : start + 2 * frame], rate_hz) for start in starts]
    return float(np.median([each for each in found if each is not None]))


def _of_frame(samples: np.ndarray, rate_hz: int) -> float | None:
    """Where a moment is most like itself a little later; None when it isn't, as in an s."""
    half = len(samples) // 2
    lags = np.arange(rate_hz // HIGHEST_HZ, min(half, rate_hz // LOWEST_HZ))
    first = samples[:half].astype(np.float64)
    alike = np.array([_likeness(first, samples[lag : lag + half]) for lag in lags])
    if alike.max() < 0.7:
        return None
    # A sound is as much like itself two periods later: the shortest lag that is nearly as good counts.
    peaks = (alike > 0.9 * alike.max()) & (alike >= np.roll(alike, 1)) & (alike >= np.roll(alike, -1))
    return rate_hz / int(lags[np.flatnonzero(peaks)[0]]) if peaks.any() else None


def _likeness(one: np.ndarray, other: np.ndarray) -> float:
    strength = float(np.sqrt((one @ one) * (other @ other)))
    return float(one @ other) / strength if strength > 1e-6 else 0.0
