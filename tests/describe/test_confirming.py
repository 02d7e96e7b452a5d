"""Confirmations: what was filed, said back in a few words."""

import pytest

from tests.describe.heads import Lay, picture_of
from voicecoach.describe import Preferences, confirm, confirm_setting
from voicecoach.head.values import AimAdvice, EndScore, Event, Game, Head, Jack, Picture, Score
from voicecoach.understand.notes.settings import PaceSet
from voicecoach.understand.values import (
    Aim,
    BowlMoved,
    BowlName,
    BowlRested,
    Corrected,
    EndFinished,
    EndStarted,
    GameSet,
    JackMoved,
    JackSet,
    Measured,
    Note,
    TakenBack,
    Unit,
)

OUR_SECOND = BowlName(side="ours", number=2)
LAY = Lay("ours", 2, 0.8, 2.0)
EMPTY = Picture(head=Head())


def confirmed(
    note: Note,
    before: Picture = EMPTY,
    after: Picture | None = None,
    bowl: BowlName | None = OUR_SECOND,
    prefs: Preferences | None = None,
) -> str:
    event = Event(note=note, bowl=bowl)
    return confirm(event, before, after or picture_of([LAY]), prefs or Preferences())[0].text


def test_a_bowl_at_rest_is_confirmed_in_the_trades_shape() -> None:
    note = BowlRested(side="ours", number=2, gap_m=0.8, unit="cm", hour=2.0)
    assert confirmed(note) == "Our second: eighty centimetres, two o'clock."


def test_the_side_of_an_unnamed_bowl_is_named_in_the_listeners_words() -> None:
    note = BowlRested(gap_m=0.8, unit="cm", hour=2.0)
    assert confirmed(note) == "Our second: eighty centimetres, two o'clock."
    assert (
        confirmed(note, prefs=Preferences(sides="yours")) == "Your second: eighty centimetres, two o'clock."
    )


def test_a_confirmation_must_be_said_within_two_and_a_half_seconds() -> None:
    event = Event(note=BowlRested(gap_m=0.8, unit="cm", hour=2.0), bowl=OUR_SECOND)
    (said,) = confirm(event, EMPTY, picture_of([LAY]), Preferences())
    assert said.within_s == 2.5
    assert said.about == OUR_SECOND


@pytest.mark.parametrize(
    ("note", "said"),
    [
        (BowlRested(gap_m=1.2, unit="m", hour=9.0), "one metre twenty, nine o'clock, left"),
        (BowlRested(gap_m=1.2, unit="m", hour=5.0), "one metre twenty, five o'clock, right"),
        (BowlRested(gap_m=1.0, unit="m", remarks=("short",)), "one metre short"),
        (BowlRested(gap_m=0.5, unit="m", remarks=("jack high", "left")), "jack high, half a metre left"),
        (BowlRested(gap_m=0.5, unit="m", remarks=("short", "right")), "half a metre short and right"),
        (BowlRested(gap_m=0.0, hour=3.0, remarks=("touching",)), "touching, three o'clock"),
        (BowlRested(hour=3.0, remarks=("touching",)), "touching, three o'clock"),
        (BowlRested(along_m=-1.0, across_m=0.5, unit="m"), "one metre short, half a metre right"),
        (BowlRested(along_m=1.0, across_m=-0.5, unit="m"), "one metre past, half a metre left"),
        (BowlRested(gap_m=0.6, unit="mat", remarks=("wide",)), "a mat length wide"),
        (
            BowlRested(gap_m=0.1, unit="cm", hour=1.0, remarks=("toucher",)),
            "ten centimetres, one o'clock, a toucher",
        ),
    ],
)
def test_a_place_is_said_back_as_it_was_called(note: BowlRested, said: str) -> None:
    after = picture_of([LAY._replace(hour=note.hour or 2.0)])
    assert confirmed(note, after=after) == f"Our second: {said}."


@pytest.mark.parametrize(
    ("gap_m", "unit", "said"),
    [
        (0.16, "cm", "sixteen centimetres, one six"),
        (0.6, "cm", "sixty centimetres"),
        (1.13, "m", "one metre thirteen, one three"),
        (0.12, "cm", "twelve centimetres"),
        (14 * 0.0254, "in", "fourteen inches, one four"),
    ],
)
def test_a_teen_is_said_back_with_its_figures_since_it_sounds_like_its_ten(
    gap_m: float, unit: Unit, said: str
) -> None:
    note = BowlRested(side="ours", number=2, gap_m=gap_m, unit=unit, hour=2.0)
    assert confirmed(note) == f"Our second: {said}, two o'clock."


def test_the_figures_of_a_teen_come_after_its_direction() -> None:
    note = BowlRested(side="ours", number=2, gap_m=0.16, unit="cm", remarks=("left",))
    assert confirmed(note) == "Our second: sixteen centimetres left, one six."


def test_a_caller_at_the_head_is_confirmed_in_the_mats_frame() -> None:
    # Someone facing the mat from behind the head reads every hour plus six (derived).
    note = BowlRested(gap_m=0.8, unit="cm", hour=8.0)
    assert confirmed(note) == "Our second: eighty centimetres, two o'clock."


def test_a_bowl_that_is_dead_is_said_to_be_dead_once() -> None:
    # A non-toucher at rest in the ditch is dead (law 17.1.1, quoted).
    after = picture_of([LAY._replace(state="dead")])
    assert confirmed(BowlRested(remarks=("in the ditch",)), after=after) == "Our second: in the ditch, dead."
    assert confirmed(BowlRested(remarks=("dead",)), after=after) == "Our second: dead."


def test_moves_and_corrections() -> None:
    move = BowlMoved(gap_m=0.5, unit="m", hour=3.0)
    assert confirmed(move) == "Our second now at half a metre, three o'clock."
    assert (
        confirmed(move.model_copy(update={"by": True})) == "Our second moved by half a metre, three o'clock."
    )
    assert confirmed(BowlMoved(scattered=True)) == "Scattered: call the bowls again."
    assert confirmed(Corrected(hour=2.0)) == "Our second: eighty centimetres, two o'clock."


def test_a_correction_after_the_jack_moved_says_where_the_bowl_is_now() -> None:
    after = picture_of([LAY._replace(gap_m=0.683, hour=3.13, as_called=False)])
    assert confirmed(Corrected(hour=2.0), after=after) == "Our second: seventy centimetres, three o'clock."


def test_the_jack() -> None:
    assert confirmed(JackSet(length_m=26.0), bowl=None) == "Jack set: twenty six metres."
    assert confirmed(JackSet(length_m=25.5), bowl=None) == "Jack set: twenty five and a half metres."
    assert confirmed(JackSet(), bowl=None) == "Jack set."
    past = JackMoved(gap_m=0.5, unit="m", remarks=("past",))
    assert confirmed(past, bowl=None) == "Jack half a metre past."
    assert confirmed(JackMoved(gap_m=0.5, unit="m", hour=2.0), bowl=None) == "Jack half a metre, two o'clock."
    assert confirmed(JackMoved(length_m=28.0), bowl=None) == "Jack: now twenty eight metres."
    assert confirmed(JackMoved(remarks=("in the ditch",)), bowl=None) == "Jack in the ditch."
    assert confirmed(JackMoved(remarks=("respotted",)), bowl=None) == "Jack back on the spot."
    assert confirmed(JackMoved(), bowl=None) == "Jack moved."


def test_a_jack_back_on_its_spot_is_said_once() -> None:
    event = Event(note=JackMoved(remarks=("respotted",)), remarks=("respotted", "the spot is covered"))
    said = [each.text for each in confirm(event, EMPTY, EMPTY, Preferences())]
    assert said == ["Jack back on the spot.", "The spot is covered."]
    placed = Event(note=JackMoved(length_m=27.0), remarks=("respotted",))
    assert [each.text for each in confirm(placed, EMPTY, EMPTY, Preferences())] == [
        "Jack: now twenty seven metres.",
        "Respotted.",
    ]


@pytest.mark.parametrize("unit", ["m", "ft"])
def test_two_distances_called_together_are_said_each_in_its_own_unit(unit: Unit) -> None:
    # A foot is 0.3048 m exactly (International Yard and Pound agreement, 1959); a note keeps one unit.
    move = JackMoved(along_m=0.5, across_m=-0.3048, unit=unit)
    assert confirmed(move, bowl=None) == "Jack half a metre past, one foot left."
    rested = BowlRested(along_m=-1.0, across_m=0.127, unit=unit)
    assert confirmed(rested) == "Our second: one metre short, five inches right."


def test_a_length_in_feet_is_said_in_feet() -> None:
    assert confirmed(JackSet(length_m=80 * 0.3048), bowl=None) == "Jack set: eighty feet."
    assert confirmed(JackMoved(length_m=82 * 0.3048), bowl=None) == "Jack: now eighty two feet."
    assert confirmed(GameSet(rink_m=18 * 0.3048), bowl=None) == "Rink eighteen feet wide."


@pytest.mark.parametrize(("measured", "said"), [(False, "seventy centimetres"), (True, "sixty eight point")])
def test_a_gap_that_a_correction_kept_from_after_the_jack_moved_is_as_rough_as_any_estimate(
    measured: bool, said: str
) -> None:
    picture = picture_of([LAY._replace(gap_m=0.68299, hour=9.0)])
    taped = picture.model_copy(
        update={"lies": tuple(lie.model_copy(update={"measured": measured}) for lie in picture.lies)}
    )
    assert confirmed(Corrected(hour=9.0), after=taped).startswith(f"Our second: {said}")
    called = picture_of([LAY._replace(gap_m=0.374, hour=9.0)])
    assert confirmed(Corrected(hour=9.0), after=called).startswith("Our second: thirty seven point four")


def test_taking_back_the_order_that_a_tape_found_names_the_two_bowls() -> None:
    plain = picture_of([LAY, Lay("theirs", 1, 0.9, 3.0)])
    order = ((OUR_SECOND, BowlName(side="theirs", number=1)),)
    taped = plain.model_copy(update={"head": plain.head.model_copy(update={"nearer": order})})
    said = "Taken back: the measure of our second and their first."
    assert confirmed(TakenBack(), taped, plain) == said


def test_taking_back_a_setting_of_the_game_says_so() -> None:
    game = picture_of([LAY], game=Game(hand="right"))
    assert confirmed(TakenBack(), game, picture_of([LAY])) == "Taken back: the setting of the game."


def test_a_pace_is_said_back_so_that_a_wrong_one_is_noticed() -> None:
    for value, said in ((0.7, "seventy centimetres"), (20.0, "twenty metres"), (0.6096, "sixty one")):
        assert confirm_setting(PaceSet(value=value), False)[0].text.startswith(f"Pace: {said}")
    assert confirm_setting(PaceSet(), False)[0].text == "Metres in place of paces."


def test_why_an_early_measure_is_spoken_of_is_said() -> None:
    # Law 23.3 (CM3): nothing is measured before the last bowl has come to rest.
    note = Measured(gap_m=0.42, unit="cm")
    event = Event(note=note, bowl=OUR_SECOND, remarks=("still to come",))
    assert confirm(event, EMPTY, EMPTY, Preferences())[1].text == (
        "Bowls are still to come: by law nothing is measured until the last is at rest."
    )


def test_taking_back_names_what_is_gone_or_as_it_was() -> None:
    filed, moved = picture_of([LAY]), picture_of([LAY._replace(gap_m=0.5)])
    assert confirmed(TakenBack(), filed, EMPTY) == "Taken back: our second."
    back = "Taken back. Our second: eighty centimetres, two o'clock."
    assert confirmed(TakenBack(), moved, filed) == back
    assert confirmed(TakenBack(), EMPTY, filed) == back
    jack_moved = picture_of([LAY._replace(as_called=False)], jack=Jack(y_m=27.5))
    assert confirmed(TakenBack(), jack_moved, filed) == "Taken back: the jack."
    assert confirmed(TakenBack(), filed, filed) == "Taken back."


def test_ends_and_score() -> None:
    before = EMPTY
    brought = Score(ours=2, ends=3, by_end=(EndScore(end=3, side="ours", shots=2),))
    after = EMPTY.model_copy(update={"head": Head(end=3, score=brought, lead="ours")})
    note = EndFinished(side="ours", shots=2)
    assert confirmed(note, before, after, bowl=None) == "End three: two to us. Ours two, theirs nought."
    assert (
        confirmed(EndFinished(shots=0, end=2), after, after, bowl=None)
        == "End two: no score. Ours two, theirs nought."
    )
    assert confirmed(EndFinished(replayed=True), after, after, bowl=None) == "End three is dead."
    assert confirmed(EndStarted(), before, after, bowl=None) == "End three: we lead."
    assert confirmed(EndStarted(), before, EMPTY, bowl=None) == "End one."


def test_the_game_is_said_back_part_by_part_and_not_hurried() -> None:
    note = GameSet(format="pairs", lead="theirs", mat_m=2.0, rink_m=5.0, bowl_mm=116)
    event = Event(note=note)
    (said,) = confirm(event, EMPTY, EMPTY, Preferences())
    assert said.text == (
        "Pairs. They lead. Mat line at two metres. Rink five metres wide. "
        "Bowls one hundred and sixteen millimetres."
    )
    assert said.within_s is None


def test_only_a_tape_is_called_a_measure() -> None:
    note = Measured(gap_m=0.374, unit="cm")
    assert confirmed(note) == "Measured, our second: thirty seven point four centimetres."
    nearer = Measured(nearer_than=BowlName(side="theirs", number=1))
    assert confirmed(nearer) == "Measured: our second is nearer than their first."


def test_the_aim_says_how_far_which_way_and_its_spread_or_to_leave_it() -> None:
    # A bowl 1 m wide at 27 m: 0.185 m at a mark 5 m in front of the mat (similar triangles, derived).
    advice = AimAdvice(shift_m=0.185, towards="left", at_m=5.0, spread_m=0.05)
    said = confirm(Event(note=Aim(), aim=advice), EMPTY, EMPTY, Preferences())[0].text
    assert said == (
        "Move the mark five metres out nineteen centimetres to the left. Give or take five centimetres."
    )
    leave = Event(note=Aim(), aim=advice.model_copy(update={"leave_it": True}))
    assert confirm(leave, EMPTY, EMPTY, Preferences())[0].text.startswith("Leave it")


def test_facts_worth_saying_follow_as_sentences_without_figures() -> None:
    event = Event(note=JackSet(length_m=26.0), remarks=("law 10.1.3 was passed over",))
    assert [said.text for said in confirm(event, EMPTY, EMPTY, Preferences())] == [
        "Jack set: twenty six metres.",
        "Law ten point one point three was passed over.",
    ]
