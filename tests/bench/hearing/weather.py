"""Weather of many kinds: families of noise whose figures are drawn anew each time.

Each family stands in one part only, as voices and wordings do: what is fitted on one part is scored on
families that it has never met. The figures are common practice, no source: chosen by ear and by spectrum.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tests.bench.hearing.colours import Dice, coloured, drops, engine, even, room, swell, wandering
from tests.bench.hearing.lines import Part
from voicecoach.hear.blocks import RATE_HZ, Samples

Family = Callable[[int, Dice, list[Samples]], Samples]
"""So many samples, drawn with dice, at a root mean square of 1; the talk of other people comes along."""


def open_wind(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Wind over a bare microphone: rumble in gusts, with a hiss above."""
    rumble = coloured(
        size, dice, dice.uniform(-1.7, -0.8), dice.uniform(15, 60), 10 ** dice.uniform(2.4, 3.2)
    )
    hiss = coloured(size, dice, dice.uniform(-0.8, -0.2), 80, 7_000)
    gusts = swell(size, dice, dice.uniform(0.5, 3), dice.uniform(3, 9))
    return even(gusts * (rumble + 10 ** (dice.uniform(-30, -3) / 20) * hiss))


def leaves(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """A breeze in trees: a soft, bright rustle that swells."""
    rustle = coloured(
        size, dice, dice.uniform(-0.5, 0.2), dice.uniform(250, 1_200), dice.uniform(2_500, 7_000)
    )
    return even(rustle * swell(size, dice, dice.uniform(0.4, 2), dice.uniform(2, 6)))


def mower(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """A petrol mower some rinks away: its firing rate wanders, its blades hiss."""
    rate = wandering(size, dice, dice.uniform(40, 95), 0.05)
    tones = engine(size, dice, rate, dice.uniform(0.5, 1.1), 60)
    blades = coloured(size, dice, dice.uniform(-0.7, -0.2), 150, 6_000)
    return even(tones + 10 ** (dice.uniform(-14, 2) / 20) * blades)


def road(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """A road behind the hedge: tyres, car after car."""
    tyres = coloured(size, dice, dice.uniform(-0.3, 0.2), dice.uniform(250, 600), dice.uniform(900, 1_800))
    rumble = coloured(size, dice, -1.0, 30, 400)
    return even(tyres * swell(size, dice, dice.uniform(0.2, 0.8), dice.uniform(2, 6)) + rumble)


def next_rink(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """People talking on the next rinks, as many as eight at once; without talk to hand, their murmur."""
    if not talk:
        return even(coloured(size, dice, -0.6, 150, 3_000) * swell(size, dice, 4, 4))
    mixed = np.zeros(size, np.float32)
    for _ in range(int(dice.integers(2, 9))):
        said = np.concatenate([talk[index] for index in dice.integers(0, len(talk), 5)])
        mixed += dice.uniform(0.3, 1) * even(np.resize(np.roll(said, dice.integers(said.size)), size))
    return even(room(even(mixed), dice, dice.uniform(0.2, 0.5), 0.005, dice.uniform(2, 12)))


def rain_on_a_hood(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Rain on a hood close to the ear: sharp drops over a steady hiss."""
    sharp = drops(size, dice, dice.uniform(15, 150), (900, 4_500), dice.uniform(0.002, 0.008))
    return even(sharp + dice.uniform(0.2, 1) * coloured(size, dice, -0.1, 700, 7_500))


def anything(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Noise of no kind in particular: an uneven spectrum of its own, whose loudness wanders."""
    low_hz, high_hz = 10 ** dice.uniform(1, 2.7), 10 ** dice.uniform(3.0, 3.9)
    steady = coloured(size, dice, dice.uniform(-1.5, 0.3), low_hz, high_hz)
    pitches = np.linspace(0, 8_000, size // 2 + 1)
    knots_hz = np.geomspace(40, 8_000, 12)
    uneven_db = np.interp(pitches, knots_hz, dice.uniform(0, 8) * dice.standard_normal(12))
    uneven = np.fft.irfft(np.fft.rfft(steady) * 10 ** (uneven_db / 20), size)
    return even(even(uneven) * swell(size, dice, 10 ** dice.uniform(-0.4, 1), dice.uniform(0, 7)))


def shielded_wind(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Wind that beats on foam or fur: dull thuds, one after the other, and little above."""
    dull = coloured(size, dice, dice.uniform(-1.4, -0.5), dice.uniform(20, 50), dice.uniform(120, 450))
    beats = np.full(size, 0.15, np.float32)
    for start in dice.integers(0, size, max(1, dice.poisson(dice.uniform(0.8, 3) * size / RATE_HZ))):
        left = np.arange(size - start) / RATE_HZ
        beats[start:] += np.asarray(
            dice.uniform(0.3, 1.5) * np.exp(-left / dice.uniform(0.1, 0.6)), np.float32
        )
    whisper = coloured(size, dice, -0.4, 300, 3_000)
    return even(beats * dull + 10 ** (dice.uniform(-32, -12) / 20) * beats * whisper)


def flags(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Bunting and awnings that flap: a flutter several times a second, over wind in reeds."""
    rate = wandering(size, dice, dice.uniform(4, 11), 0.3)
    flutter = np.maximum(np.sin(2 * np.pi * np.cumsum(rate) / RATE_HZ), 0) ** dice.uniform(1, 4)
    cloth = coloured(size, dice, dice.uniform(-0.9, -0.3), 120, dice.uniform(1_200, 5_000))
    reeds = coloured(size, dice, 0.0, dice.uniform(1_000, 2_500), 7_500)
    return even(even(flutter * cloth) + dice.uniform(0.1, 0.7) * reeds * swell(size, dice, 1, 4))


def blower(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """A leaf blower whose trigger is worked: revs that rise and fall, a whine and a rush of air."""
    revs = dice.uniform(90, 150) * (1 + dice.uniform(0, 0.35) * (swell(size, dice, 1.2, 3) - 1).clip(-0.6, 1))
    whine = engine(size, dice, revs * dice.integers(7, 13), 1.2, 4)
    air = coloured(size, dice, dice.uniform(-0.2, 0.2), dice.uniform(200, 700), 6_000)
    tones = engine(size, dice, revs, dice.uniform(0.6, 1.0), 50)
    return even(tones + dice.uniform(0.1, 0.6) * whine + dice.uniform(0.4, 1.5) * air)


def lorry(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """A lorry or a bus that drives past: a diesel's knock, its pitch falling as it goes by."""
    seconds = np.arange(size) / RATE_HZ
    nearest_s, near_m, speed = dice.uniform(0, seconds[-1]), dice.uniform(10, 30), dice.uniform(8, 20)
    along_m = speed * (seconds - nearest_s)
    away_m = np.hypot(near_m, along_m)
    doppler = 1 - speed * along_m / away_m / 340
    diesel = engine(size, dice, dice.uniform(22, 45) * doppler, 0.7, 80)
    tyres = coloured(size, dice, -0.6, 100, 2_500)
    return even((diesel + dice.uniform(0.3, 1.2) * tyres) * near_m / away_m)


def applause(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Another rink claps, thinning out, and somebody calls."""
    claps = drops(size, dice, dice.uniform(12, 90), (700, 2_800), dice.uniform(0.002, 0.006))
    thins = np.exp(-np.arange(size) / RATE_HZ / dice.uniform(1.5, 8))
    heard = even(room(np.asarray(claps * thins, np.float32), dice, 0.4, 0.003, dice.uniform(0, 8)))
    if talk:
        call = np.roll(np.resize(talk[int(dice.integers(len(talk)))], size), dice.integers(size))
        heard = heard + dice.uniform(0, 0.7) * even(call)
    return even(heard)


def rain_on_a_jacket(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Rain on a stiff jacket: a dense, dull patter."""
    dull = drops(size, dice, dice.uniform(150, 500), (180, 1_100), dice.uniform(0.004, 0.015))
    return even(
        dull * swell(size, dice, 0.5, 2) + dice.uniform(0.05, 0.5) * coloured(size, dice, -0.4, 300, 5_000)
    )


def clothes(size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """A collar that rubs over the microphone: strokes with pauses, and crackles in them."""
    strokes = np.full(size, 0.03, np.float32)
    for start in dice.integers(0, size, max(1, dice.poisson(dice.uniform(0.7, 2.5) * size / RATE_HZ))):
        length = min(size - start, round(dice.uniform(0.1, 0.5) * RATE_HZ))
        strokes[start : start + length] += dice.uniform(0.3, 1) * np.hanning(length).astype(np.float32)
    rub = coloured(size, dice, dice.uniform(-0.8, -0.1), dice.uniform(60, 300), dice.uniform(1_500, 6_000))
    crackle = drops(size, dice, 120, (1_500, 6_000), 0.001)
    return even(strokes * (rub + dice.uniform(0, 0.8) * crackle))


FAMILIES: dict[Part, tuple[Family, ...]] = {
    "tuning": (open_wind, leaves, mower, road, next_rink, rain_on_a_hood, anything),
    "scored": (shielded_wind, flags, blower, lorry, applause, rain_on_a_jacket, clothes),
}
_TWO_AT_ONCE = 0.3


def drawn(part: Part, dice: Dice) -> tuple[Family, ...]:
    """One family of a part, or sometimes two at once."""
    families = FAMILIES[part]
    first, second = dice.permutation(len(families))[:2]
    return (families[first], families[second]) if dice.random() < _TWO_AT_ONCE else (families[first],)


def weather(part: Part, size: int, dice: Dice, talk: list[Samples]) -> Samples:
    """Some weather of a part, through a microphone whose lowest pitch differs; root mean square 1."""
    mixed = np.zeros(size, np.float32)
    for family in drawn(part, dice):
        mixed += 10 ** (dice.uniform(-6, 0) / 20) * family(size, dice, talk)
    spectrum = np.fft.rfft(mixed)
    ratio = np.fft.rfftfreq(size, 1 / RATE_HZ) / 10 ** dice.uniform(1.3, 2.1)
    return even(np.fft.irfft(spectrum * ratio**2 / (1 + ratio**2), size))
