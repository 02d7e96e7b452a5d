"""A director's eye in plain lines."""

from collections.abc import Iterator

from voicecoach.coach.eye import ENOUGH, FAR_M, FEWEST, Band, Figure, Found
from voicecoach.understand.notes.eye import Judging

PLACES = {"mat": "From behind the mat", "head": "From the head"}
_DEGREES = 30
"""In an hour of the clock face."""


def eye_lines(stood: str, count: int, eye: Found, taken: Judging | None) -> Iterator[str]:
    """Everything found from one place, and what the geometry takes of it."""
    yield f"{PLACES[stood]}: {count} {'call' if count == 1 else 'calls'} beside the tape."
    yield f"Distance, {FAR_M:g} metres or more: {band_words(eye.far)}."
    if eye.floor_m is not None:
        yield f"Distance close to the jack: spread {_range(eye.floor_m, 100)} centimetres."
    if eye.hours.hour_shift is not None and eye.hour_sd is not None:
        yield f"Hour: {_counted(eye.hours.hours)}, {_hours(eye.hours)}."
        yield f"The eye alone, without the width of the hour: spread {_range(eye.hour_sd, _DEGREES)} degrees."
    for band in eye.bands:
        yield f"{_between(band)}: {band_words(band)}."
    yield _taken(eye.far.count, taken)


def _taken(count: int, taken: Judging | None) -> str:
    if taken is None:
        return (
            f"The working values stay: {ENOUGH} calls of {FAR_M:g} metres or more are needed beside the "
            f"tape, and there are {count}."
        )
    return (
        f"In place of the working values: calls {taken.says:.2f} metres for each metre; spread "
        f"{taken.relative_sd:.2f} of the distance, never under {taken.floor_m * 100:.0f} centimetres; "
        f"hour {taken.hour_shift * _DEGREES:+.0f} degrees, spread {taken.hour_sd * _DEGREES:.0f} degrees."
    )


def _between(band: Band) -> str:
    if band.to_m is None:
        return f"{band.from_m:g} metres and more"
    return f"{band.from_m:g} to {band.to_m:g} metres" if band.from_m else f"Under {band.to_m:g} metres"


def band_words(band: Band) -> str:
    """How many calls, their bias and their spread."""
    counted = _counted(band.count)
    if band.says is None or band.relative_sd is None:
        return f"{counted}, too few to tell ({FEWEST} are needed)"
    hours = f"; hour {_hours(band)}" if band.hour_shift is not None and band.from_m != FAR_M else ""
    return f"{counted}, {_bias(band.says)}, spread {_range(band.relative_sd, 100)} per cent{hours}"


def _counted(count: int) -> str:
    return f"{count} call" if count == 1 else f"{count} calls"


def _bias(says: Figure) -> str:
    off = Figure(**{name: (value - 1) * 100 for name, value in says})
    return _off(off, "per cent", "too short", "too long")


def _hours(band: Band) -> str:
    if band.hour_shift is None or band.hour_spread is None:
        return "not measured"
    off = Figure(**{name: value * _DEGREES for name, value in band.hour_shift})
    bias = _off(off, "degrees", "anticlockwise", "clockwise")
    return f"{bias}, spread {_range(band.hour_spread, _DEGREES)} degrees"


def _off(off: Figure, unit: str, below: str, above: str) -> str:
    way = below if off.value < 0 else above
    chance = ", which may be chance" if off.holds(0.0) else ""
    return f"{abs(off.value):.0f} {unit} {way} (from {off.low:+.0f} to {off.high:+.0f}{chance})"


def _range(figure: Figure, scale: float) -> str:
    return f"{figure.value * scale:.0f} (from {figure.low * scale:.0f} to {figure.high * scale:.0f})"
