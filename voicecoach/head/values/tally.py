"""A mean and its spread, kept as three figures so that each further one can be taken in (Welford, 1962)."""

from __future__ import annotations

import math

from voicecoach.value import Value


class Tally(Value):
    """What some figures come to."""

    count: int = 0
    mean: float = 0.0
    squares: float = 0.0
    """The sum of the squared differences from the mean."""

    def with_figure(self, figure: float) -> Tally:
        """The same with one figure more."""
        count = self.count + 1
        mean = self.mean + (figure - self.mean) / count
        squares = self.squares + (figure - self.mean) * (figure - mean)
        return Tally(count=count, mean=mean, squares=squares)

    @property
    def spread(self) -> float | None:
        """Standard deviation of the figures; None for fewer than two."""
        return math.sqrt(self.squares / (self.count - 1)) if self.count > 1 else None
