"""How fast a voice really speaks at the rates its engine is asked for; no two voices do the same.

At the rate of 185 words a minute espeak-ng's own voices were measured at 180, its female variants at 150
to 165, and the faster they were asked to be, the farther off they were. Two measurements and a power law
between them come within a few in a hundred of what is asked for, from 80 to 400.
"""

import math
from collections.abc import Callable

from voicecoach.speak.values import Sound
from voicecoach.value import Value

CLAUSES = ("Their third:", "sixty centimetres out,", "two o'clock.")
"""Words of the length that is usual in what is spoken. Each clause ends in a hard sound: where a soft one
ends, as in "centimetres", is a matter of chance, and now and then that made the whole voice faster.
"""
SLOW, FAST = 150, 300
LOWEST, HIGHEST = 80, 450
"""What espeak-ng takes."""

Speak = Callable[[str, int], Sound]
"""A clause at an engine's rate."""


class Calibration(Value):
    """What one voice was measured to do."""

    slow_wpm: float
    """Words a minute at the slower rate."""
    power: float
    """How its words a minute grow with the rate; 1 means in step with it."""

    def engine_rate(self, words_per_minute: float) -> int:
        """The rate to ask for in order to hear this many words a minute."""
        rate = SLOW * math.pow(words_per_minute / self.slow_wpm, 1 / self.power)
        return round(min(max(rate, LOWEST), HIGHEST))


def calibrate(speak: Speak) -> Calibration:
    """Measure a voice."""
    slow, fast = (_words_per_minute(speak, rate) for rate in (SLOW, FAST))
    power = math.log(fast / slow) / math.log(FAST / SLOW)
    return Calibration(slow_wpm=slow, power=min(max(power, 0.5), 1.5))


def _words_per_minute(speak: Speak, rate: int) -> float:
    words = sum(len(clause.split()) for clause in CLAUSES)
    return 60 * words / sum(speak(clause, rate).seconds for clause in CLAUSES)
