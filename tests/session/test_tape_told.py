"""What a tape says, told as a director reads it off, and said back whole."""

import pytest

from tests.session.told import Told

OURS = "our first, half a metre, two o'clock"


@pytest.mark.parametrize(
    ("line", "gap_m", "said"),
    [
        (
            "our first measured forty centimetres at nine o'clock left",
            0.4,
            "Measured, our first: forty centimetres, nine o'clock, left.",
        ),
        ("our first measured one metre nine", 1.09, "Measured, our first: one metre nine centimetres."),
        (
            "our first measured ten feet six, half past six",
            3.2004,  # International Yard and Pound agreement, 1959: 126 inches of 25.4 mm
            "Measured, our first: ten feet six inches, half past six.",
        ),
        (
            "our first is forty centimetres at three by the tape",
            0.4,
            "Measured, our first: forty centimetres, three o'clock.",
        ),
    ],
)
def test_a_tapes_figure_and_its_hour_are_taken_and_said_back(line: str, gap_m: float, said: str) -> None:
    told = Told(OURS, line)
    assert told.said == said
    assert told.lie().gap_m == pytest.approx(gap_m, abs=1e-6)
    assert told.lie().measured


def test_a_tape_at_the_hour_is_no_centimetres() -> None:
    told = Told(OURS, "our first measured one metre nine o'clock")
    assert told.said == "Measured, our first: one metre, nine o'clock, left."


def test_a_side_that_is_not_the_hours_is_not_taken() -> None:
    told = Told(OURS, "our first measured forty centimetres at nine o'clock right")
    assert told.outcomes[-1] != "noted"
    assert not told.lie().measured


def test_a_taped_hour_is_said_back_in_the_mats_frame() -> None:
    told = Told("calling from the head", OURS, "our first measured forty centimetres at three o'clock")
    assert told.said == "Measured, our first: forty centimetres, nine o'clock, left."
