"""A place or a move said back exactly as it was called."""

from collections.abc import Sequence

from voicecoach.describe.distances import as_called, own_unit
from voicecoach.describe.hours import may_be_misheard, side_of_hour, spoken_hour
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import listed, wording, words
from voicecoach.understand.values import DIRECTIONS, Unit, Where


def called_words(where: Where, bowl_m: float) -> str:
    """Distance, hour and the trade's words, such as `eighty centimetres, two o'clock`.

    Directions follow the distance; the words that say what became of the bowl come last.
    """
    hour = [] if where.hour is None else [called_hour(where.hour, where.hour_width)]
    distances = [_with_digits(distance) for distance in _distances(where, bowl_m)]
    parts = [*distances, *hour, *_rest(where)]
    return words("called.joint").join(part for part in parts if part)


def called_hour(hour: float, width: float = 1.0) -> str:
    """A called hour, with a word for its side where the ear may mistake it.

    A half as wide as an hour was called as lying between two hours.
    """
    if hour % 1 and width >= 1.0:
        return words("hour.between", first=cardinal(int(hour) or 12), second=cardinal(int(hour) % 12 + 1))
    text = spoken_hour(hour)
    if not may_be_misheard(text):
        return text
    depth, side = side_of_hour(hour)
    return words("hour.with side", hour=text, side=words(f"side.{side or depth}"))


def _distances(where: Where, bowl_m: float) -> list[str]:
    """The distance with the directions that came in words."""
    directions = [remark for remark in where.remarks if remark in DIRECTIONS]
    if where.along_m is not None and where.across_m is not None:
        along = "short" if where.along_m < 0 else "past"
        across = "left" if where.across_m < 0 else "right"
        both = ((abs(where.along_m), along), (abs(where.across_m), across))
        return [_directed(m, own_unit(m, where.unit, bowl_m), bowl_m, [way]) for m, way in both]
    if where.hour is not None:
        return [_distance(where.gap_m, where.unit, bowl_m, where.remarks)]
    return [_directed(where.gap_m, where.unit, bowl_m, directions, where.remarks)]


def _directed(
    gap_m: float | None,
    unit: Unit | None,
    bowl_m: float,
    directions: Sequence[str],
    remarks: tuple[str, ...] = (),
) -> str:
    distance = _distance(gap_m, unit, bowl_m, remarks)
    level = [words(f"remark.{word}") for word in directions if word == "jack high"]
    direction = words("called.and").join(
        words(f"remark.{word}") for word in directions if word != "jack high"
    )
    directed = words("called.directed", distance=distance, direction=direction).strip()
    return words("called.joint").join([*level, *([directed] if directed else [])])


def _distance(gap_m: float | None, unit: Unit | None, bowl_m: float, remarks: tuple[str, ...]) -> str:
    if gap_m is None:
        return words("distance.touching") if "touching" in remarks else ""
    return as_called(gap_m, unit, bowl_m)


def _with_digits(distance: str) -> str:
    """The distance, and the figures of a teen in it, which the ear mistakes for its ten."""
    small = listed("numbers.small")
    teens = [word for word in distance.split() if word in small[13:20]]
    if not teens:
        return distance
    return words("distance.teen", distance=distance, digit=small[small.index(teens[-1]) - 10])


def _rest(where: Where) -> list[str]:
    known = wording()
    rest = [remark for remark in where.remarks if remark not in (*DIRECTIONS, "touching", "about")]
    return [known[f"remark.{remark}"] for remark in rest]
