"""Lengths for the eye: metres, or feet and inches where the game is called in them."""

from dataclasses import dataclass

from voicecoach.describe.distances import FOOT_M, INCH_M

NARROW = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True)
class Measure:
    """The units of a page."""

    feet: bool = False

    @property
    def ring_m(self) -> float:
        """Radius of the clock face from the jack's edge: a metre, or three feet."""
        return 3 * FOOT_M if self.feet else 1.0

    @property
    def ring(self) -> str:
        """The same in words."""
        return f"3{NARROW}ft" if self.feet else f"1{NARROW}m"

    @property
    def ring_words(self) -> str:
        """The same, said."""
        return "three feet" if self.feet else "one metre"

    def length(self, metres: float) -> str:
        """To the centimetre or the inch, without its sign."""
        if not self.feet:
            return f"{abs(metres):.2f}{NARROW}m"
        feet, inches = divmod(round(abs(metres) / INCH_M), 12)
        parts = [f"{feet}{NARROW}ft"] if feet else []
        return NARROW.join([*parts, f"{inches}{NARROW}in"] if inches or not feet else parts)

    def small(self, metres: float) -> str:
        """To the millimetre or a tenth of an inch, without its sign: for a change from end to end."""
        if self.feet:
            return f"{abs(metres) / INCH_M:.1f}{NARROW}in"
        return f"{abs(metres) * 100:.1f}{NARROW}cm"

    def far(self, metres: float) -> str:
        """A jack's length, to the metre or the foot."""
        return f"{metres / FOOT_M:.0f}{NARROW}ft" if self.feet else f"{metres:.0f}{NARROW}m"
