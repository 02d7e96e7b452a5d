"""Distances in words: exactly as called, or rounded as a person would at that doubt."""

from typing import Literal

from voicecoach.phrasebook.numbers import cardinal, spoken
from voicecoach.phrasebook.wording import words
from voicecoach.understand.values import Unit

Family = Literal["metric", "feet", "yards"]
Wanted = Literal["as called", "metres", "feet"]

YARD_M = 0.9144  # International Yard and Pound agreement, 1959: exactly; the foot and inch follow from it.
FOOT_M = YARD_M / 3
INCH_M = FOOT_M / 12
MAT_M = 0.6  # CM4 law 50: the mat is 600 mm long.

_ARITHMETIC_M = 1e-7
"""Distances nearer than this to one another differ by the arithmetic alone."""
_LOOKS_LIKE_AN_HOUR = 12
"""Up to here a bare number could be taken for an hour."""

# The step is at most about twice the doubt, so that rounding adds little to it, and never finer
# than people say: spoken estimates heap on round numbers (Randolph 2023).
_METRIC_STEPS = ((0.01, 0.01), (0.08, 0.05), (0.25, 0.1), (0.6, 0.5))
_FEET_STEPS = ((0.02, INCH_M), (0.15, 3 * INCH_M), (0.3, 6 * INCH_M), (0.6, FOOT_M))
_YARD_STEPS = ((0.02, INCH_M), (0.15, 3 * INCH_M), (0.25, 6 * INCH_M), (0.6, YARD_M / 2))


def family(unit: Unit | None, wanted: Wanted = "as called") -> Family:
    """The family of units to speak in: the called one (mat and bowl are metric), unless another is wanted."""
    if wanted != "as called":
        return "metric" if wanted == "metres" else "feet"
    if unit == "yd":
        return "yards"
    return "feet" if unit in ("ft", "in") else "metric"


def own_unit(distance_m: float, unit: Unit | None, bowl_m: float) -> Unit | None:
    """The unit of a distance whose note keeps no unit for it alone: the first in which it is round."""
    units: tuple[Unit | None, ...] = (unit, "m", "ft", "bowl")
    return next((each for each in units if _is_on(distance_m, _round_step_m(each, bowl_m))), unit)


def can_be_called(distance_m: float, unit: Unit | None, bowl_m: float) -> bool:
    """True for a distance that somebody can have said; False for one that was worked out."""
    hundredth_m = {"yd": YARD_M, "ft": FOOT_M, "mat": MAT_M, "bowl": bowl_m}.get(unit or "", 1.0) / 100
    return any(_is_on(distance_m, step_m) for step_m in (0.001, INCH_M / 10, hundredth_m))


def as_called(distance_m: float, unit: Unit | None, bowl_m: float) -> str:
    """A called distance in the called unit, nothing rounded away."""
    if distance_m == 0:
        return words("distance.touching")
    if unit in ("mat", "bowl"):
        return _multiple(distance_m / (MAT_M if unit == "mat" else bowl_m), unit)
    inches = distance_m / INCH_M
    if unit == "in":
        return _counted(inches, "inch")
    if unit in ("ft", "yd"):
        return _feet(inches) if unit == "ft" else _yards(inches)
    return _metric(distance_m * 100, halves=unit == "m")


def rounded(distance_m: float, sd_m: float, kind: Family) -> float:
    """The distance as it would be said at that doubt, metres."""
    if kind == "metric":
        step = _step(sd_m, _METRIC_STEPS, 1.0)
    else:
        step = _step(sd_m, _FEET_STEPS if kind == "feet" else _YARD_STEPS, YARD_M)
    return int(distance_m / step + 0.5) * step


def worked_out(distance_m: float, sd_m: float, kind: Family) -> str:
    """A recomputed distance in words: never a decimal."""
    distance_m = rounded(distance_m, sd_m, kind)
    if distance_m < INCH_M / 4:
        return words("distance.nearly touching")
    inches = round(distance_m / INCH_M)
    if kind == "yards" or (kind == "feet" and sd_m >= _FEET_STEPS[-1][0]):
        return _yards(inches) if inches % 18 == 0 else _feet(inches)
    if kind == "feet":
        return _feet(inches)
    return _metric(round(distance_m * 100), halves=sd_m >= _METRIC_STEPS[2][0])


def bare(distance_m: float, sd_m: float, kind: Family) -> str:
    """A recomputed metric distance with no unit below a metre, for the terse list: `eighty`, `one twenty`."""
    if kind != "metric":
        return worked_out(distance_m, sd_m, kind)
    metres, rest = divmod(round(rounded(distance_m, sd_m, kind) * 100), 100)
    if not metres:
        if rest <= _LOOKS_LIKE_AN_HOUR:
            return worked_out(distance_m, sd_m, kind)
        return cardinal(rest)
    if not rest:
        return _counted(metres, "metre")
    key = "distance.terse metres" if rest >= 10 else "distance.terse metres and few"
    return words(key, metres=cardinal(metres), rest=cardinal(rest))


def _round_step_m(unit: Unit | None, bowl_m: float) -> float:
    """What people call round numbers of in a unit: whole centimetres, half inches, half mats and bowls."""
    if unit in ("in", "ft", "yd"):
        return INCH_M / 2
    return {"mat": MAT_M / 2, "bowl": bowl_m / 2}.get(unit or "", 0.01)


def _is_on(distance_m: float, step_m: float) -> bool:
    return abs(distance_m - round(distance_m / step_m) * step_m) < _ARITHMETIC_M


def _step(sd_m: float, steps: tuple[tuple[float, float], ...], last: float) -> float:
    return next((step for below, step in steps if sd_m < below), last)


def _metric(centimetres: float, halves: bool) -> str:
    """Metres and centimetres; `halves` says "one and a half metres" for a metre fifty."""
    tenths = round(centimetres * 10)
    metres, rest = divmod(tenths, 1000)
    if rest == 500 and halves:
        return _and_a_half(metres, "metre")
    if not metres:
        return _counted(centimetres, "centimetre")
    if not rest:
        return _counted(metres, "metre")
    key = "many" if rest % 10 == 0 and rest >= 100 else "few" if rest % 10 == 0 else "parts"
    return words(f"distance.metres and {key}", metres=_counted(metres, "metre"), rest=spoken(rest / 10))


def _feet(inches: float) -> str:
    feet, rest = divmod(round(inches, 1), 12)
    if not feet:
        return _counted(rest, "inch")
    return _and_rest(_counted(feet, "foot"), rest, "inch")


def _yards(inches: float) -> str:
    yards, rest = divmod(round(inches, 1), 36)
    if rest == 18:
        return _and_a_half(int(yards), "yard")
    if not yards:
        return _feet(rest)
    start = _counted(yards, "yard")
    return words("distance.and less", start=start, rest=_feet(rest)) if rest else start


def _and_rest(start: str, rest: float, unit: str) -> str:
    return words("distance.and less", start=start, rest=_counted(rest, unit)) if rest else start


def _and_a_half(whole: int, unit: str) -> str:
    if not whole:
        return words("distance.half a", unit=words(f"units.{unit}.one"))
    return words("distance.and a half", whole=cardinal(whole), unit=words(f"units.{unit}.many"))


def _multiple(count: float, unit: str) -> str:
    """So many mat lengths or bowl's widths."""
    if round(count, 2) == 1:
        return words(f"units.{unit}.a")
    if round(count, 2) == 0.5:
        return words("distance.half a", unit=words(f"units.{unit}.one"))
    return _counted(count, unit)


def _counted(count: float, unit: str) -> str:
    """A count with its unit, in the singular for one."""
    form = "one" if round(count, 1) == 1 else "many"
    return words("distance.counted", count=spoken(count), unit=words(f"units.{unit}.{form}"))
