"""What a tape says, and how far the mark moves for a miss."""

import math
from collections.abc import Sequence

import pytest

from tests.head.acts import asked, bowl, decided, jack, lie, named, place, played, refused, spoken
from voicecoach.head import begin, picture
from voicecoach.head.values import AimAdvice, Game, Head
from voicecoach.understand.values import Aim, BowlName, EndFinished, Measured, Note


def taped(name: str, gap_m: float | None = None, nearer_than: BowlName | None = None) -> Measured:
    bowl_name = named(name)
    return Measured(side=bowl_name.side, number=bowl_name.number, gap_m=gap_m, nearer_than=nearer_than)


def aimed(notes: Sequence[Note], game: Game | None = None, at_m: float | None = None) -> AimAdvice:
    advice = decided(played(notes, game), Aim(at_m=at_m)).aim
    assert advice is not None
    return advice


def holder(head: Head) -> tuple[str | None, bool]:
    found = picture(head).holding
    assert found is not None
    return found.side, found.sure


def test_a_tape_takes_the_doubt_out_of_a_gap() -> None:
    play = played([bowl(1.0, 3, "our 1"), bowl(1.05, 9, "their 1")])
    assert not holder(play.head)[1]
    measured = played([taped("our 1", 0.97), taped("their 1", 1.01)], play=play).head
    assert holder(measured) == ("ours", True)
    found = lie(measured, "our 1")
    assert found.measured
    assert found.gap_m == pytest.approx(0.97)
    assert found.gap_sd_m == pytest.approx(0.005, rel=0.1)
    assert found.hour == 3
    assert not lie(play.head, "our 1").measured, "an estimate is not a measure"


def test_a_tape_that_only_says_which_is_nearer_decides_the_shot() -> None:
    play = played([bowl(1.05, 3, "our 1"), bowl(1.0, 9, "their 1")])
    decided_by_tape = played([taped("our 1", nearer_than=named("their 1"))], play=play).head
    assert holder(decided_by_tape) == ("ours", True)
    ours, theirs = lie(decided_by_tape, "our 1").gap_m, lie(decided_by_tape, "their 1").gap_m
    assert ours is not None
    assert theirs is not None
    assert 1.0 < ours < theirs < 1.05
    other_way = played([taped("their 1", nearer_than=named("our 1"))], play=play).head
    assert holder(other_way) == ("theirs", True)
    assert place(other_way, "our 1") == place(play.head, "our 1"), "what agrees stays as called"


def test_a_tape_before_the_last_bowl_is_pointed_out() -> None:
    # Laws CM3, 23.3; CM1 40.3 (read).
    play = played([bowl(1.0, 3, "our 1")], Game(format="singles"))
    early = decided(play, taped("our 1", 0.97))
    assert early.law == "23.3"
    assert early.remarks == ("still to come",)
    assert decided(played([bowl(1.0, 3, "our 1")]), taped("our 1", 0.97)).law is None


def test_a_tape_that_turns_a_noted_score_says_so() -> None:
    play = played([bowl(1.0, 3, "our 1"), bowl(1.05, 9, "their 1"), EndFinished(side="ours", shots=1)])
    assert decided(play, taped("our 1", 1.2)).remarks == ("holder changed",)


def test_a_tape_lacks_a_figure_or_a_bowl() -> None:
    play = played([bowl(1.0, 3, "our 1")])
    assert asked(play, taped("our 1")).slot == "gap"
    assert "has not been called" in spoken(refused(play, taped("our 2", 1.0)))
    assert "nothing to compare" in spoken(refused(play, taped("our 1", nearer_than=named("their 1"))))


@pytest.mark.parametrize(("at_m", "shift_m"), [(3.0, 0.111), (5.0, 0.185)])
def test_a_metre_wide_moves_the_mark_the_other_way_by_similar_triangles(at_m: float, shift_m: float) -> None:
    # A bowl 1 m wide at 27 m (derived): 0.111 m at 3 m, 0.185 m at 5 m.
    advice = aimed([bowl(1.0 - 0.0925, 3, "our 1")], at_m=at_m)
    assert advice.shift_m == pytest.approx(shift_m, abs=5e-4)
    assert (advice.towards, advice.at_m, advice.leave_it) == ("left", at_m, False)
    assert 0 < advice.spread_m < advice.shift_m


def test_without_a_mark_said_the_settings_own_is_meant() -> None:
    assert aimed([bowl(1.0, 9, "our 1")]).at_m == 5.0
    assert aimed([bowl(1.0, 9, "our 1")], Game(aim_at_m=3.0)).at_m == 3.0
    assert aimed([bowl(1.0, 9, "our 1")]).towards == "right"


def test_a_bowl_short_on_the_right_line_needs_no_shift() -> None:
    # Bowls sent on one line at different speeds finish on one straight line (Judson, "Taking Aim", 2002,
    # read), so the aiming angle does not change with length.
    assert aimed([bowl(3.0, 6, "our 1")]).shift_m == pytest.approx(0.0)
    on_the_way = bowl(along_m=-2.7, across_m=-0.05)
    assert aimed([jack(0.5, 3), on_the_way], Game(bowl_mm=1e-6, jack_mm=1e-6)).shift_m < 1e-6


def test_a_jack_off_its_place_is_what_is_aimed_at() -> None:
    advice = aimed([jack(0.54, 3), bowl(along_m=0.0, across_m=-0.54 + 0.0925)])
    assert advice.shift_m == pytest.approx(0.54 / 27 * 5, abs=1e-6)
    assert advice.towards == "right"


def test_a_shift_smaller_than_the_players_own_scatter_is_left() -> None:
    assert aimed([bowl(0.1, 3, "our 1")]).leave_it
    wild = [bowl(2.0 + number / 5, 3 if number % 2 else 9, f"our {number}") for number in range(1, 8)]
    last = bowl(0.9, 3, "our 8", confirmed=True)
    assert aimed([*wild, last]).leave_it
    assert not aimed([*wild[:6], last]).leave_it, "seven bowls don't yet show a player's own scatter"


def test_the_spread_joins_the_calls_doubt_with_the_players_scatter() -> None:
    advice = aimed([bowl(1.0, 3, "our 1")])
    # Across: the gap's 0.15 of a metre, with next to nothing of the hour; scatter 0.3 m at the jack.
    assert advice.spread_m == pytest.approx(math.hypot(0.15, 0.3) / 27 * 5, rel=0.02)


def test_the_aim_agrees_with_what_is_said_of_line_and_weight() -> None:
    wide_and_short = aimed([bowl(along_m=-2.0, across_m=1.0, name="our 1")])
    assert wide_and_short.miss is not None
    assert (wide_and_short.miss.line, wide_and_short.miss.weight) == (True, True)
    # Derived: the line through the mat that a bowl at (1.0925, 24.9075) lies on passes the jack by 1.184 m.
    assert wide_and_short.miss.right_m == pytest.approx(1.0925 / 24.9075 * 27)
    assert wide_and_short.shift_m == pytest.approx(wide_and_short.miss.right_m * 5 / 27)
    short = aimed([bowl(2.0, 6, "our 1")])
    assert short.miss is not None
    assert (short.leave_it, short.miss.line, short.miss.weight) == (True, False, True)


def test_with_no_miss_there_is_no_aim() -> None:
    assert "no miss" in spoken(refused(begin(), Aim()))
    assert "no place" in refused(played([bowl(name="our 1", remarks=("dead",))]), Aim()).why
    assert "no miss" in spoken(refused(played([bowl(1.0, 3, "their 1")]), Aim()))
