"""Any note that is said in the usual words is read back as the same note."""

import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.understand.reads import BOOK, fields, note
from tests.understand.saying import UNITS, say
from voicecoach.understand.meaning import fits
from voicecoach.understand.saying import Sayer
from voicecoach.understand.values import BowlRested, Corrected, JackMoved, JackSet, Unit
from voicecoach.understand.words import Writer

UNHURRIED = settings(deadline=None)  # a busy machine is no fault of the parser
SIDES = st.sampled_from(["ours", "theirs", None])
NUMBERS = st.none() | st.integers(1, 9)
COUNTS: dict[Unit, st.SearchStrategy[float]] = {
    "m": st.integers(1, 60).map(lambda tenths: tenths / 10),
    "cm": st.integers(1, 199).map(float),
    "yd": st.integers(1, 9).map(float),
    "ft": st.integers(1, 20).map(float),
    "in": st.integers(1, 40).map(float),
}
WORDS = ("short", "past", "left", "right", "wide", "narrow", "forehand", "backhand", "toucher")
HOURS = st.one_of(
    st.tuples(st.integers(1, 12).map(float), st.sampled_from([1.0, 0.25])),
    st.tuples(st.integers(0, 11).map(lambda hour: hour + 0.5), st.sampled_from([1.0, 0.5])),
)


@st.composite
def places(draw: st.DrawFn) -> dict[str, Any]:
    """A distance and a direction that agree: an hour, words, or an hour and a word that fits it."""
    unit = draw(st.sampled_from(sorted(COUNTS)))
    place: dict[str, Any] = {"gap_m": round(draw(COUNTS[unit]) * UNITS[unit], 6), "unit": unit}
    if draw(st.booleans()):
        hour, width = draw(HOURS)
        agreeing = [word for word in WORDS if fits(hour, width, word)]
        words = draw(st.lists(st.sampled_from(agreeing), max_size=1))
        return place | {"hour": hour, "hour_width": width, "remarks": tuple(words)}
    return place | {"remarks": (draw(st.sampled_from(WORDS[:-1])),)}


def near(read: dict[str, Any], meant: dict[str, Any]) -> bool:
    gap, meant_gap = read.pop("gap_m", None), meant.pop("gap_m", None)
    return read == meant and gap == pytest.approx(meant_gap, abs=1e-5)


def meant(made: BowlRested | JackMoved | Corrected) -> dict[str, Any]:
    return {"kind": made.kind, **made.model_dump(exclude_defaults=True, exclude={"kind"})}


@UNHURRIED
@given(SIDES, NUMBERS, places(), st.randoms())
def test_a_bowl_at_rest(side: Any, number: int | None, place: dict[str, Any], rng: random.Random) -> None:
    rested = BowlRested(side=side, number=number, **place)
    pieces = say(rested)
    assert near(fields(" ".join(pieces)), meant(rested))
    if not rested.remarks:
        rng.shuffle(pieces)
        assert near(fields(" um ".join(pieces)), meant(rested))


@UNHURRIED
@given(places())
def test_a_jack_that_moved(place: dict[str, Any]) -> None:
    if "toucher" not in place["remarks"]:
        moved = JackMoved(**place)
        assert near(fields(" ".join(say(moved))), meant(moved))


@UNHURRIED
@given(SIDES, NUMBERS, places())
def test_a_correction(side: Any, number: int | None, place: dict[str, Any]) -> None:
    corrected = Corrected(side=side, number=number, **place)
    assert near(fields(" ".join(say(corrected))), meant(corrected))


@UNHURRIED
@given(st.integers(100, 500))
def test_the_jack_set(decimetres: int) -> None:
    jack = JackSet(length_m=decimetres / 10)
    assert note(say(jack)[0]) == jack


@UNHURRIED
@given(HOURS, places())
def test_the_words_of_a_question_back_are_read_as_what_they_stand_for(
    hour: tuple[float, float], place: dict[str, Any]
) -> None:
    sayer = Sayer(Writer(BOOK))
    gap = sayer.gap(place["gap_m"], place["unit"])
    read = fields(f"ours {gap} {sayer.hour(*hour)}")
    assert (read["hour"], read.get("hour_width", 1.0)) == hour
    assert read["gap_m"] == pytest.approx(place["gap_m"], abs=0.006)
