"""Numbers, distances and hours, on both sides of every bound."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.understand.reads import BOOK, fields, is_no_note, note
from voicecoach.understand.pieces import METRES
from voicecoach.understand.values import BowlRested, JackSet
from voicecoach.understand.words import Writer

WRITER = Writer(BOOK)
UNHURRIED = settings(deadline=None)  # a busy machine is no fault of the parser


def gap(said: str) -> float | None:
    rested = note(f"our second {said} at two")
    assert isinstance(rested, BowlRested)
    assert (rested.side, rested.number, rested.hour) == ("ours", 2, 2.0)
    return rested.gap_m


def hour(said: str) -> tuple[float | None, float]:
    rested = note(f"our second a metre {said}")
    assert isinstance(rested, BowlRested)
    assert (rested.side, rested.number, rested.gap_m) == ("ours", 2, 1.0)
    return rested.hour, rested.hour_width


# Exact since the international yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 ft = 0.3048 m,
# 1 in = 0.0254 m (read). A mat is 600 mm long (World Bowls, Laws of the Sport of Bowls, CM4, law 50; read).
@pytest.mark.parametrize(
    ("said", "metres"),
    [
        ("a metre", 1.0),
        ("one metre", 1.0),
        ("one meter", 1.0),
        ("two metres", 2.0),
        ("too meters", 2.0),
        ("four metres", 4.0),
        ("for meters", 4.0),
        ("half a metre", 0.5),
        ("a quarter of a metre", 0.25),
        ("three quarters of a metre", 0.75),
        ("a metre and a half", 1.5),
        ("one and a half metres", 1.5),
        ("two metres and a half", 2.5),
        ("a metre and a quarter", 1.25),
        ("one point two metres", 1.2),
        ("one point two five metres", 1.25),
        ("point five metres", 0.5),
        ("nought point eight metres", 0.8),
        ("zero point zero five metres", 0.05),
        ("one metre twenty", 1.2),
        ("a metre twenty", 1.2),
        ("a metre twenty five", 1.25),
        ("one metre ten", 1.1),
        ("two metres oh five", 2.05),
        ("a metre and twenty centimetres", 1.2),
        ("one centimetre", 0.01),
        ("nine centimetres", 0.09),
        ("ten centimetres", 0.1),
        ("twelve centimetres", 0.12),
        ("nineteen centimetres", 0.19),
        ("twenty centimetres", 0.2),
        ("twenty one centimetres", 0.21),
        ("ninety nine centimetres", 0.99),
        ("a hundred centimetres", 1.0),
        ("one hundred and one centimetres", 1.01),
        ("a hundred and twenty centimeters", 1.2),
        ("two hundred centimetres", 2.0),
        ("a foot", 0.3048),
        ("one foot", 0.3048),
        ("two feet", 0.6096),
        ("two foot", 0.6096),
        ("a couple of feet", 0.6096),
        ("two feet six", 0.762),
        ("two foot six inches", 0.762),
        ("two feet and six inches", 0.762),
        ("a foot and a half", 0.4572),
        ("one foot eleven", 0.5842),
        ("an inch", 0.0254),
        ("six inches", 0.1524),
        ("half an inch", 0.0127),
        ("a yard", 0.9144),
        ("two yards", 1.8288),
        ("a yard and a half", 1.3716),
        ("a yard and a foot", 1.2192),
        ("two yards one foot", 2.1336),
        ("a mat length", 0.6),
        ("half a mat length", 0.3),
        ("two mat lengths", 1.2),
        ("a bowl's width", 0.121),
        ("two bowl widths", 0.242),
        ("1 m", 1.0),
        ("1.2 metres", 1.2),
        ("1.25m", 1.25),
        ("0.5 m", 0.5),
        (".5 m", 0.5),
        ("80cm", 0.8),
        ("80 cm", 0.8),
        ("2'6\"", 0.762),
        ("2' 6\"", 0.762),
        ("2 ft 6 in", 0.762),
        ("6 in", 0.1524),
        ("3 yds", 2.7432),
    ],
)
def test_a_distance_is_exact_in_metres(said: str, metres: float) -> None:
    assert gap(said) == pytest.approx(metres, abs=1e-6)


@pytest.mark.parametrize(
    "said", ["zero metres", "nought centimetres", "no metres", "eighty", "ten eleven metres"]
)
def test_what_is_no_distance_makes_no_note(said: str) -> None:
    assert is_no_note(f"our second {said} at two")


@UNHURRIED
@given(st.integers(1, 399))
def test_every_whole_number_of_centimetres_is_read_as_it_is_written(centimetres: int) -> None:
    said = WRITER.number(str(centimetres))
    assert gap(f"{said} centimetres") == pytest.approx(centimetres / 100)
    assert gap(f"{centimetres} cm") == pytest.approx(centimetres / 100)


@UNHURRIED
@given(st.integers(0, 9), st.integers(1, 99))
def test_every_decimal_of_metres_is_read_as_it_is_written(whole: int, hundredths: int) -> None:
    figure = f"{whole}.{hundredths:02d}"
    assert gap(f"{figure} metres") == pytest.approx(float(figure))


@UNHURRIED
@given(st.integers(1, 9), st.integers(1, 11))
def test_feet_and_inches_add_up(feet: int, inches: int) -> None:
    said = f"{WRITER.number(str(feet))} feet {WRITER.number(str(inches))}"
    assert gap(said) == pytest.approx(feet * METRES["ft"] + inches * METRES["in"], abs=1e-6)


CLOCK = list(enumerate(BOOK.lists["clock"], start=1))


@pytest.mark.parametrize(("number", "word"), CLOCK)
def test_every_hour_in_every_form(number: int, word: str) -> None:
    for said in (
        f"{word} o'clock",
        f"at {word}",
        f"at {word} o'clock",
        f"towards {word} o'clock",
        f"at {number}",
    ):
        assert hour(said) == (float(number), 1.0)
    half = number + 0.5 if number < 12 else 0.5
    for said in (
        f"half past {word}",
        f"half {word}",
        f"{word} thirty",
        f"at half past {word}",
        f"at {number}:30",
    ):
        assert hour(said) == (half, 0.5)
    for said in (f"dead on {word}", f"exactly {word} o'clock", f"bang on {word}"):
        assert hour(said) == (float(number), 0.25)
    following = BOOK.lists["clock"]
    after = list(following)[number % 12]
    assert hour(f"between {word} and {after}") == (half, 1.0)


@pytest.mark.parametrize(
    "said", ["zero o'clock", "nought o'clock", "thirteen o'clock", "at thirteen", "13 o'clock", "0 o'clock"]
)
def test_there_is_no_hour_before_one_or_after_twelve(said: str) -> None:
    assert is_no_note(f"our second a metre {said}")


@pytest.mark.parametrize("said", ["between four and six", "between five and four", "between twelve and two"])
def test_between_takes_neighbours_only(said: str) -> None:
    assert is_no_note(f"our second a metre {said}")


@pytest.mark.parametrize(("number", "word"), list(enumerate(BOOK.lists["ordinal"], start=1)))
def test_bowls_are_numbered_from_first_to_ninth(number: int, word: str) -> None:
    counted = WRITER.number(str(number))
    for said in (f"our {word}", f"our {word} bowl", f"ours number {counted}", f"our bowl {number}"):
        assert fields(f"{said} a metre at two")["number"] == number


@pytest.mark.parametrize(
    "said", ["our tenth", "our 10th", "our zeroth", "our bowl ten", "our number 0", "our bowl 10"]
)
def test_there_is_no_bowl_before_the_first_or_after_the_ninth(said: str) -> None:
    assert is_no_note(f"{said} a metre at two")


# Common practice, no source: nothing nearer than 10 m or farther than 50 m is a jack's length.
@pytest.mark.parametrize("metres", [10, 19.99, 22.99, 23, 27, 40, 50])
def test_a_jack_s_length_is_taken_whatever_the_laws_say_of_it(metres: float) -> None:
    assert note(f"jack at {metres} metres") == JackSet(length_m=metres)


@pytest.mark.parametrize("metres", [9, 51, 400])
def test_what_is_no_length_of_a_jack_is_dropped(metres: int) -> None:
    assert is_no_note(f"jack at {metres} metres")


@pytest.mark.parametrize(
    ("line", "gap_m", "said_hour"),
    [
        ("two feet six o'clock", 0.6096, 6.0),
        ("two feet six six o'clock", 0.762, 6.0),
        ("two metres ten o'clock", 2.0, 10.0),
        ("two metres ten ten o'clock", 2.1, 10.0),
        ("a metre half past three", 1.0, 3.5),
        ("a metre and a half half past three", 1.5, 3.5),
        ("one metre thirty three thirty", 1.3, 3.5),
        ("one metre three thirty", 1.0, 3.5),
        ("a metre twenty two o'clock", 1.2, 2.0),
        ("twenty two centimetres two o'clock", 0.22, 2.0),
        ("twelve centimetres twelve o'clock", 0.12, 12.0),
        ("to metres to to o'clock", 2.0, 2.0),
    ],
)
def test_figures_that_run_together_are_told_apart(line: str, gap_m: float, said_hour: float) -> None:
    rested = note(line)
    assert isinstance(rested, BowlRested)
    assert rested.gap_m == pytest.approx(gap_m)
    assert rested.hour == said_hour
