"""A stranger who has only read the guide rebuilds the head from what is spoken."""

import random

import pytest

from tests.describe.heads import Lay, nearest_hour, picture_of, random_lays
from tests.describe.stranger import Told, hear
from voicecoach.describe import Preferences, read_back

# Steps as the guide gives them: five centimetres, ten, half a metre, a metre, as the doubt grows.
METRIC = ((0.08, 0.05), (0.25, 0.1), (0.6, 0.5), (99.0, 1.0))
IMPERIAL = ((0.15, 0.0762), (0.25, 0.1524), (0.6, 0.4572), (99.0, 0.9144))


def tolerance_m(lay: Lay, prefs: Preferences) -> float:
    """Half of the largest step that the doubt allows; nothing for a distance spoken as called."""
    feet = prefs.units == "feet" or (prefs.units == "as called" and lay.unit in ("ft", "in", "yd"))
    other_unit = prefs.units != "as called" and feet != (lay.unit in ("ft", "in", "yd"))
    if lay.as_called and not other_unit:
        return 0.0051 if prefs.terse and not feet else 0.0013
    sd_m = max(0.06, 0.15 * lay.gap_m)
    return next(step for below, step in (IMPERIAL if feet else METRIC) if sd_m < below) / 2 + 0.001


def hours_of(lay: Lay, prefs: Preferences) -> tuple[float, ...]:
    """The hours that a listener should hear."""
    if lay.sure == "between":
        lower = int(lay.hour) or 12
        return (float(lower), float(lower % 12 + 1))
    if lay.as_called and prefs.hours != "whole":
        return (lay.hour,)
    if prefs.hours == "halves" and lay.sure == "plain":
        half = int(lay.hour * 2 + 0.5) / 2 % 12
        return (half or 12.0,)
    return (float(nearest_hour(lay.hour)),)


def check(told: Told, lay: Lay, prefs: Preferences) -> None:
    assert (told.side, told.number) == (lay.side, lay.number)
    assert told.gap_m == pytest.approx(lay.gap_m, abs=tolerance_m(lay, prefs))
    assert told.hours == hours_of(lay, prefs)
    assert told.doubt == lay.sure
    assert told.in_ditch == (lay.state == "ditch")


@pytest.mark.parametrize(
    ("heads", "prefs"),
    [
        (1000, Preferences()),
        (200, Preferences(terse=True)),
        (100, Preferences(hour_first=True, sides="yours")),
        (100, Preferences(units="feet")),
        (100, Preferences(units="metres", hours="whole")),
        (100, Preferences(hours="halves", facing="mat")),
    ],
    ids=["default", "terse", "hour first", "feet", "whole hours", "half hours, facing the mat"],
)
def test_side_number_gap_and_hour_of_every_bowl_come_back_from_random_heads(
    heads: int, prefs: Preferences
) -> None:
    chance = random.Random(6)
    for _ in range(heads):
        lays = random_lays(chance, chance.randint(1, 18), as_called=chance.random() < 0.5)
        bowls: dict[tuple[str, int], Lay] = {(lay.side, lay.number): lay for lay in lays}
        told = [hear(said.text) for said in read_back(picture_of(lays), prefs) if said.group]
        heard = [bowl for bowl in told if bowl is not None]
        assert len(told) - len(heard) == 1, "the jack is told once"
        assert len(heard) == len(bowls)
        for bowl in heard:
            check(bowl, bowls[bowl.side, bowl.number], prefs)


def test_the_side_word_agrees_with_the_hour_and_turns_with_a_listener_who_faces_the_mat() -> None:
    chance = random.Random(7)
    for _ in range(200):
        picture = picture_of(random_lays(chance, 8, as_called=True))
        for said, turned in zip(
            read_back(picture, Preferences())[1:],
            read_back(picture, Preferences(facing="mat"))[2:],
            strict=True,
        ):
            straight, other = hear(said.text), hear(turned.text)
            if straight is None or other is None:
                continue
            (hour,) = straight.hours
            assert not {"left"} & straight.side_words or 6 < hour < 12
            assert not {"right"} & straight.side_words or 0 < hour < 6
            assert not {"short"} & straight.side_words or 3 < hour < 9
            assert not {"past"} & straight.side_words or not 3 <= hour <= 9
            swap = {"left": "right", "right": "left"}
            assert other.side_words == {swap.get(word, word) for word in straight.side_words}
            assert other.hours == straight.hours, "the clock stays the mat's"
