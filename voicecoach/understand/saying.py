"""The words for a piece of a note, in the phrase book's spelling: for questions back and their answers."""

from __future__ import annotations

from voicecoach.phrasebook.numbers import ordinal
from voicecoach.understand.pieces import METRES
from voicecoach.understand.values import BowlName, Side, Unit
from voicecoach.understand.words import Writer

ORDINALS = tuple(ordinal(number) for number in range(1, 10))
WHOSE: dict[Side, str] = {"ours": "our", "theirs": "their"}
UNIT_WORDS: dict[Unit, str] = {
    "m": "metres",
    "cm": "centimetres",
    "yd": "yards",
    "ft": "feet",
    "in": "inches",
}
HALF = 0.5


class Sayer:
    """Says pieces of notes so that the phrase book reads them back as they were."""

    def __init__(self, writer: Writer) -> None:
        self._writer = writer

    def hour(self, hour: float, width: float = 1.0) -> str:
        """An hour, a half-hour, minutes before or after one, or between two hours."""
        if hour == int(hour):
            said = self._writer.whole(int(hour))
            return f"{said} o'clock" if width > HALF / 2 else f"dead on {said}"
        before = int(hour) or 12
        if width > HALF:
            return f"between {self._writer.whole(before)} and {self._writer.whole(before % 12 + 1)}"
        minutes = round((hour - int(hour)) * 60)
        if minutes == 30:
            return f"half past {self._writer.whole(before)}"
        if minutes < 30:
            return f"{self._minutes(minutes)} past {self._writer.whole(before)}"
        return f"{self._minutes(60 - minutes)} to {self._writer.whole(before % 12 + 1)}"

    def _minutes(self, count: int) -> str:
        return "quarter" if count == 15 else self._writer.whole(count)

    def gap(self, metres: float, unit: Unit | None) -> str:
        """A distance in the unit it was said in."""
        if unit in ("mat", "bowl"):
            return "a mat length" if unit == "mat" else "a bowl's width"
        if unit == "ft":
            return self._feet(metres)
        unit = unit or "m"
        figure = metres / METRES[unit]
        if abs(figure - HALF) < 1e-6:
            return f"half a {UNIT_WORDS[unit].removesuffix('s')}"
        said = self._writer.number(f"{figure:.2f}".rstrip("0").rstrip("."))
        word = UNIT_WORDS[unit]
        return f"{said} {word.removesuffix('s') if said == 'one' and unit != 'in' else word}"

    def _feet(self, metres: float) -> str:
        inches = round(metres / METRES["in"])
        feet, inches = divmod(inches, 12)
        said = "a foot" if feet == 1 else f"{self._writer.whole(feet)} feet" if feet else ""
        return f"{said} {self._writer.whole(inches)} inches".strip() if inches else said

    def figure(self, figure: float) -> str:
        """A number without its unit."""
        whole, rest = int(figure), figure % 1
        if whole and rest == HALF:
            return f"{self._writer.whole(whole)} and a half"
        return self._writer.number(f"{figure:g}")

    def name(self, bowl: BowlName) -> str:
        """A bowl's name."""
        return f"{WHOSE[bowl.side]} {ORDINALS[bowl.number - 1]}"
