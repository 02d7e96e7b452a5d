"""Says a note in one of the usual ways, for reading it back. Written for the tests alone."""

from voicecoach.understand.values import BowlRested, Corrected, JackMoved, JackSet, Where

UNITS = {"m": 1.0, "cm": 0.01, "yd": 0.9144, "ft": 0.3048, "in": 0.0254}
WORDS = {"m": "metres", "cm": "centimetres", "yd": "yards", "ft": "feet", "in": "inches"}
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
HOURS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def say_gap(note: Where) -> str:
    """A distance in figures, in its unit."""
    assert note.gap_m is not None
    assert note.unit is not None
    return f"{note.gap_m / UNITS[note.unit]:.3g} {WORDS[note.unit]}"


def say_hour(note: Where) -> str:
    """An hour in words."""
    assert note.hour is not None
    whole = HOURS[(int(note.hour) or 12) - 1]
    if note.hour != int(note.hour):
        after = HOURS[int(note.hour) % 12]
        return f"half past {whole}" if note.hour_width == 0.5 else f"between {whole} and {after}"
    return f"dead on {whole}" if note.hour_width == 0.25 else f"{whole} o'clock"


def say_where(note: Where) -> list[str]:
    """The pieces that say where, as far as they were said."""
    pieces = [say_gap(note)] if note.gap_m is not None else []
    pieces += [say_hour(note)] if note.hour is not None else []
    return [*pieces, *note.remarks]


def say_name(side: str | None, number: int | None) -> str:
    """A bowl's name, or as much of it as is known."""
    if side is None:
        return ORDINALS[number - 1] if number else ""
    return f"{'our' if side == 'ours' else 'their'} {ORDINALS[number - 1]}" if number else side


def say(note: BowlRested | JackMoved | JackSet | Corrected) -> list[str]:
    """The note's pieces, in the usual order."""
    if isinstance(note, JackSet):
        return [f"jack at {note.length_m:g} metres"]
    if isinstance(note, JackMoved):
        return ["jack moved", *say_where(note)]
    name = say_name(note.side, note.number)
    opener = ["no"] if isinstance(note, Corrected) else []
    return [*opener, *([name] if name else []), *say_where(note)]
