"""Loud noise without end is told once, and wind that lets words through never."""

import numpy as np

from voicecoach.hear.blocks import BLOCK, BLOCK_S, Block
from voicecoach.hear.noise import LASTS_S, LOUD_DB, NoiseWatch

CHANCE = np.random.default_rng(7)
LOUD, SOFT = LOUD_DB + 6, LOUD_DB - 6
"""Levels, decibels below full scale."""


class Told:
    """A watch that is given noise, and when it told."""

    def __init__(self) -> None:
        self.watch = NoiseWatch()
        self.clock_s = 0.0
        self.at_s: list[float] = []

    def hear(self, level_db: float, seconds: float) -> None:
        """White noise of that level for so long."""
        until_s = self.clock_s + seconds
        while self.clock_s < until_s:
            samples = CHANCE.normal(0, 10 ** (level_db / 20), BLOCK).astype(np.float32)
            if self.watch.measure(Block(samples, self.clock_s)):
                self.at_s.append(self.clock_s)
            self.clock_s += BLOCK_S


def test_loud_noise_is_told_once_after_it_has_lasted() -> None:
    told = Told()
    told.hear(LOUD, LASTS_S - 1)
    assert told.at_s == []
    told.hear(LOUD, 200)
    (at_s,) = told.at_s
    assert LASTS_S <= at_s <= LASTS_S + 3


def test_once_it_has_stopped_it_is_told_anew() -> None:
    told = Told()
    told.hear(LOUD, 100)
    told.hear(SOFT, 5)
    told.hear(LOUD, 100)
    assert len(told.at_s) == 2
    assert told.at_s[1] > 105 + LASTS_S - 1


def test_noise_that_is_softer_than_a_voice_is_never_told() -> None:
    told = Told()
    told.hear(SOFT, 300)
    assert told.at_s == []


def test_wind_with_lulls_is_never_told() -> None:
    told = Told()
    for _ in range(6):
        told.hear(LOUD, 65)
        told.hear(SOFT, 3)
    assert told.at_s == []


def test_loud_noise_through_which_words_are_heard_is_never_told() -> None:
    told = Told()
    for _ in range(6):
        told.hear(LOUD, 65)
        told.watch.words_came()
    assert told.at_s == []


def test_a_second_of_noise_counts_by_its_mean_so_that_a_knock_is_no_noise() -> None:
    told = Told()
    for _ in range(150):
        told.hear(SOFT - 30, 0.992)
        told.hear(LOUD, 0.032)
    assert told.at_s == []
