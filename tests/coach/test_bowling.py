"""Line and length: where our bowls first came to rest, from the jack as it lay then."""

import pytest

from tests.coach.games import Told, bowl, two_ends
from voicecoach.coach import wording
from voicecoach.coach.bowling import delivered, gap_trend, groups
from voicecoach.coach.moments import moments
from voicecoach.head.values import Bowl, Event, Jack, JackMove
from voicecoach.understand.values import BowlName, Corrected, Where


def _told(*places: tuple[float, float]) -> Told:
    told = Told()
    told.jack(25.0)
    for number, (x_m, y_m) in enumerate(places, start=1):
        told.rested(bowl("ours", number, x_m, y_m))
    return told


def test_our_bowls_are_seen_from_the_jack_as_it_lay_when_they_came_to_rest() -> None:
    told = _told((0.5, 24.0))
    told.jack_moved(Jack(y_m=27.0, called=True), JackMove(dx_m=0, dy_m=2, where=Where(), relative_sd=0.1))
    told.rested(bowl("ours", 2, 0.5, 28.0))
    told.rested(bowl("theirs", 1, 0.0, 28.0))
    found = [
        (one.number, one.across_m, one.along_m, one.length_m) for one in delivered(moments(told.entries))
    ]
    assert found == [(1, 0.5, -1.0, 25.0), (2, 0.5, 1.0, 27.0)]


def test_what_was_taken_back_does_not_count() -> None:
    told = _told((0.5, 24.0), (3.0, 24.0))
    told.taken_back()
    assert [one.number for one in delivered(moments(told.entries))] == [1]


def test_a_correction_takes_the_first_calls_place_with_the_jack_of_that_call() -> None:
    told = _told((0.5, 24.0))
    told.jack_moved(Jack(y_m=27.0, called=True), JackMove(dx_m=0, dy_m=2, where=Where(), relative_sd=0.1))
    name = BowlName(side="ours", number=1)
    event = Event(note=Corrected(target=name), bowl=name, bowls=(bowl("ours", 1, -0.5, 24.0),))
    told.add("no, nine o'clock", event)
    (one,) = delivered(moments(told.entries))
    assert (one.across_m, one.along_m) == (-0.5, -1.0)


def test_a_bowl_that_died_has_no_place() -> None:
    told = _told((0.5, 24.0))
    told.rested(Bowl(side="ours", number=2, x_m=None, y_m=None, state="dead"))
    assert [one.number for one in delivered(moments(told.entries))] == [1]


def test_bowls_are_grouped_by_hand_and_by_length_of_the_jack() -> None:
    found = {group.name: group.line.count for group in groups(delivered(moments(two_ends().entries)))}
    assert found == {
        "All": 6,
        "Forehand": 4,
        "Backhand": 1,
        "Hand not said": 1,
        "Jack under 25 m": 1,
        "Jack 25 to 29 m": 5,
    }


def test_a_lean_is_told_only_when_the_bowls_show_it() -> None:
    right = _told(*[(0.5 + 0.01 * n, 25.0 + 0.3 * (-1) ** n) for n in range(8)])
    line, length, distance = wording.claims(groups(delivered(moments(right.entries)))[0])
    assert line.startswith("Line: 0.54 m right on average, by 8 bowls, known to plus or minus 0.02 m.")
    assert length.startswith("Length: these bowls lean neither past the jack nor short")
    assert distance == "Distance: 0.52 m from the jack on average."


def test_from_too_few_bowls_no_sentence_claims_anything() -> None:
    few = delivered(moments(_told((1.0, 25.0), (1.0, 25.0), (1.0, 25.0), (1.0, 25.0)).entries))
    (group,) = [group for group in groups(few) if group.name == "All"]
    assert wording.claims(group) == ["4 bowls: too few to say anything. From 5 on there are figures."]
    assert wording.signed(group.line, "right", "left") == "too few"
    assert wording.plain(group.line.spread) == "too few"
    assert wording.trend(gap_trend(few)).startswith("Trend: too few bowls or ends to say.")


@pytest.mark.parametrize(("step", "said"), [(-0.1, "0.100 m nearer"), (0.1, "0.100 m farther")])
def test_a_trend_is_told_with_its_way(step: float, said: str) -> None:
    told = Told()
    for end in range(1, 7):
        if end > 1:
            told.next_end(end)
        told.jack(25.0)
        for number in (1, 2, 3):
            told.rested(bowl("ours", number, 2.0 + step * end + 0.001 * number, 25.0))
    sentence = wording.trend(gap_trend(delivered(moments(told.entries))))
    assert sentence.startswith(f"Trend: {said} with each end (18 bowls in 6 ends")
