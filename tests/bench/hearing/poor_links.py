"""Poor ways from a mouth to the program: halls, telephone sound, lost packets, too loud, too faint.

Split into parts as the weather is. Each takes a voice with silence round it and gives what arrives.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import soxr

from tests.bench.hearing.colours import Dice, coloured, even, room
from tests.bench.hearing.lines import Part
from voicecoach.hear.blocks import RATE_HZ, Samples

PoorLink = Callable[[Samples, float, Dice], Samples]
"""The sound with its noise, the voice's active level as a root mean square, and dice."""
_PACKET_S = 0.0075
"""A synchronous Bluetooth link carries 7.5 ms at a time (Hands-Free Profile; from memory)."""


def small_hall(sound: Samples, level: float, dice: Dice) -> Samples:
    """An indoor green of wood and carpet."""
    return room(sound, dice, dice.uniform(0.4, 0.9), 0.004, dice.uniform(3, 9))


def telephone(sound: Samples, level: float, dice: Dice) -> Samples:
    """A wired headset of telephone grade: 300 to 3,400 Hz, eight bits on a logarithmic scale."""
    low = soxr.resample(_between(sound, 300, 3_400), RATE_HZ, 8_000)
    steps = np.round(np.sign(low) * np.log1p(255 * np.minimum(np.abs(low), 1)) / np.log(256) * 127) / 127
    opened = np.sign(steps) * np.expm1(np.abs(steps) * np.log(256)) / 255
    return np.asarray(np.resize(soxr.resample(opened, 8_000, RATE_HZ), sound.size), np.float32)


def clipped(sound: Samples, level: float, dice: Dice) -> Samples:
    """Turned up until the voice's usual level is near full scale: every loud sound is cut flat."""
    return np.asarray(np.clip(sound / level * dice.uniform(0.4, 0.8), -1, 1), np.float32)


def faint(sound: Samples, level: float, dice: Dice) -> Samples:
    """Turned down until little is left above the steps of sixteen bits."""
    return _in_steps(sound / level * 10 ** (dice.uniform(-58, -46) / 20))


def large_hall(sound: Samples, level: float, dice: Dice) -> Samples:
    """A steel hall of several rinks: an echo off the far wall, then a long tail."""
    wall = round(dice.uniform(0.03, 0.09) * RATE_HZ)
    echoed = np.asarray(sound, np.float32).copy()
    echoed[wall:] += dice.uniform(0.15, 0.4) * sound[:-wall]
    return room(echoed, dice, dice.uniform(1.0, 1.8), 0.02, dice.uniform(5, 11))


def lost_packets(sound: Samples, level: float, dice: Dice) -> Samples:
    """A narrow Bluetooth link at the edge of its reach: packets are lost, and the last one is said again."""
    low = np.asarray(soxr.resample(_between(sound, 120, 3_700), RATE_HZ, 8_000), np.float32)
    size, lost = round(_PACKET_S * 8_000), False
    share, burst = dice.uniform(0.01, 0.05), dice.uniform(0.3, 0.7)
    for start in range(size, low.size - size, size):
        lost = bool(dice.random() < (burst if lost else share))
        if lost:
            low[start : start + size] = 0.7 * low[start - size : start]
    return np.asarray(np.resize(soxr.resample(low, 8_000, RATE_HZ), sound.size), np.float32)


def overdriven(sound: Samples, level: float, dice: Dice) -> Samples:
    """An amplifier driven too far: loud sounds are squeezed, more on one side than on the other."""
    driven = sound / level * dice.uniform(0.8, 2.0)
    return np.asarray(np.where(driven > 0, np.tanh(driven), 0.8 * np.tanh(driven / 0.6)), np.float32)


def far_off(sound: Samples, level: float, dice: Dice) -> Samples:
    """A microphone at arm's length in a pocket of air: faint, dull, and with its own hiss."""
    dull = room(_between(sound, 150, dice.uniform(2_800, 5_000)), dice, 0.15, 0.002, 6)
    quiet = dull / level * 10 ** (dice.uniform(-52, -42) / 20)
    return _in_steps(quiet + 10 ** (-72 / 20) * even(coloured(sound.size, dice, 0.0, 50, 7_900)))


LINKS: dict[Part, tuple[PoorLink, ...]] = {
    "tuning": (small_hall, telephone, clipped, faint),
    "scored": (large_hall, lost_packets, overdriven, far_off),
}


def drawn_link(part: Part, dice: Dice) -> PoorLink:
    """One poor link of a part."""
    links = LINKS[part]
    return links[int(dice.integers(len(links)))]


def _between(sound: Samples, low_hz: float, high_hz: float) -> Samples:
    """The sound without what lies below and above."""
    hertz = np.maximum(np.fft.rfftfreq(sound.size, 1 / RATE_HZ), 1.0)
    gain = 1 / (1 + (low_hz / hertz) ** 6) / (1 + (hertz / high_hz) ** 24)
    return np.asarray(np.fft.irfft(np.fft.rfft(sound) * gain, sound.size), np.float32)


def _in_steps(sound: np.ndarray) -> Samples:
    return np.asarray(np.round(sound * 32_767) / 32_767, np.float32)
