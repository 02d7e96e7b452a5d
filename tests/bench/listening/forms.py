"""Every form a bowl's sentence can take, with the words that a listener must come away with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from voicecoach import describe, head
from voicecoach.head.values import Event, Picture
from voicecoach.understand.values import BowlRested, JackMoved, Note, Unit

_METRE: dict[Unit, float] = {"m": 1.0, "cm": 0.01, "in": 0.0254, "ft": 0.3048, "yd": 0.9144}
_CALLED: tuple[tuple[float, Unit], ...] = (
    *((count, "cm") for count in (5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 59, 60, 65, 70, 75, 80, 90, 95)),
    *((count, "m") for count in (1, 1.05, 1.1, 1.2, 1.35, 1.5, 1.59, 1.8, 1.9, 2, 2.25, 2.5, 3, 4, 5)),
    *((count, "in") for count in (2, 5, 6, 9, 11)),
    *((count, "ft") for count in (1, 1.25, 1.5, 2, 2.75, 3, 5)),
    *((count, "yd") for count in (0.5, 1, 1.5, 2, 3, 5)),
)
"""Distances as directors call them: five and nine in every place where they can be confused."""
_HOURS = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0)
_HALVES = (1.5, 4.5, 5.5, 8.5, 9.5, 12.5)


@dataclass(frozen=True)
class Form:
    """One sentence, and the three pieces of it that matter."""

    kind: str
    text: str
    name: str
    distance: str
    hour: str


def forms() -> list[Form]:
    """Every form; each hour and each distance comes in several."""
    every = [*_of(_whole_hours(), "list"), *_of(_half_hours(), "half hours")]
    every += _of(_whole_hours()[::3], "hour first", describe.Preferences(hour_first=True))
    every += [form for picture in _moved_heads() for form in _of([picture], "jack moved")]
    return list({form.text: form for form in every}.values())


def _whole_hours() -> list[Picture]:
    called = [(gap, unit, _HOURS[(5 * index) % 12]) for index, (gap, unit) in enumerate(_CALLED)]
    called += [(gap, unit, _HOURS[(5 * index + 7) % 12]) for index, (gap, unit) in enumerate(_CALLED)]
    return [_head([called[start], *called[start + 1 : start + 6]]) for start in range(0, len(called), 6)]


def _half_hours() -> list[Picture]:
    return [_head([(gap, unit, hour)]) for hour, (gap, unit) in zip(_HALVES, _CALLED[::8], strict=False)]


def _moved_heads() -> Iterator[Picture]:
    """Heads whose jack has moved: their hours are doubtful, "about" or "between two"."""
    for start, towards in enumerate((1.0, 2.0, 4.0, 5.0, 8.0, 9.0, 11.0)):
        bowls: list[tuple[float, Unit, float]] = [
            (0.7 + 0.4 * index, "m", _HOURS[(5 * index + start) % 12]) for index in range(5)
        ]
        yield _head(bowls, JackMoved(gap_m=0.6, unit="m", hour=towards))


def _head(called: list[tuple[float, Unit, float]], *after: Note) -> Picture:
    play = head.begin()
    notes: list[Note] = [
        BowlRested(gap_m=gap * _METRE[unit], unit=unit, hour=hour) for gap, unit, hour in called
    ]
    for note in [*notes, *after]:
        event = head.decide(play, note)
        if isinstance(event, Event):
            play = head.evolve(play, event)
    return head.picture(play.head)


def _of(
    pictures: list[Picture], kind: str, preferences: describe.Preferences | None = None
) -> Iterator[Form]:
    for picture in pictures:
        for sentence in describe.read_back(picture, preferences or describe.Preferences()):
            if sentence.about is not None:
                yield _taken_apart(kind, sentence.text)


def _taken_apart(kind: str, text: str) -> Form:
    """The pieces between the commas: the name, then distance and hour in either order."""
    name, *pieces = [piece.strip() for piece in text.rstrip(".").replace(":", ",").split(",")]
    hour = next(piece for piece in pieces if _is_hour(piece))
    distance = next(piece for piece in pieces if piece != hour and _is_distance(piece))
    return Form(kind, text, name.lower(), distance, hour)


def _is_hour(piece: str) -> bool:
    return "o'clock" in piece or "half past" in piece


def _is_distance(piece: str) -> bool:
    return not {"left", "right", "short", "past"} & set(piece.split())
