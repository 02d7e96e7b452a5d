"""The jack: set, moved, in the ditch, dead, placed again; edges are inclusive (CM1, Foreword, read)."""

import math

import pytest

from tests.head.acts import asked, bowl, decided, jack, jack_at, lie, place, played, refused, spoken
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.bounds import jack_fate
from voicecoach.head.values import Event, Game, Point
from voicecoach.understand.values import EndFinished, GameSet, JackSet, Note, TakenBack

SET_OUT = Game(green_m=34.0, mat_m=2.0)
"""The edge of the front ditch is 32 m from the mat line."""


@pytest.mark.parametrize(("length_m", "legal"), [(22.99, False), (23.0, True), (27.0, True)])
def test_the_shortest_jack_is_twenty_three_metres(length_m: float, legal: bool) -> None:
    # Laws CM3, 10.1.3 (quoted).
    decision = decide(begin(), JackSet(length_m=length_m))
    assert isinstance(decision, Event) == legal
    if not legal:
        question = asked(begin(), JackSet(length_m=length_m))
        assert question.law == "10.1.3"
        assert "law ten point one point three" in spoken(question)
        assert question.slot == "yes or no"
    taken = played([JackSet(length_m=length_m, confirmed=True)]).head
    assert jack_at(taken) == (0.0, length_m)


def test_a_club_that_plays_a_shorter_jack_is_asked_once() -> None:
    play = played([JackSet(length_m=21.0, confirmed=True), bowl(1.0, 3), EndFinished(side="ours", shots=1)])
    assert play.head.game.shortest_jack_m == 21.0
    assert isinstance(decide(begin(play.head.game), JackSet(length_m=21.0)), Event)
    assert asked(begin(play.head.game), JackSet(length_m=20.0)).law == "10.1.3"


@pytest.mark.parametrize(("length_m", "legal"), [(30.0, True), (30.01, False)])
def test_a_jack_under_two_metres_from_the_front_ditch_is_asked_about(length_m: float, legal: bool) -> None:
    # Laws CM3, 9.2 (quoted).
    if legal:
        assert isinstance(decide(begin(SET_OUT), JackSet(length_m=length_m)), Event)
    else:
        assert asked(begin(SET_OUT), JackSet(length_m=length_m)).law == "9.2"


def test_a_mat_as_far_up_as_the_laws_allow_leaves_one_legal_jack() -> None:
    # 25 m from the front ditch leaves exactly 23 m, on any green (derived from 6.1.1, 9.2 and 10.1.3).
    for green_m in (31.0, 36.0, 40.0):
        game = Game(green_m=green_m, mat_m=green_m - 25)
        legal = [
            cm
            for cm in range(2200, 2500)
            if isinstance(decide(begin(game), JackSet(length_m=cm / 100)), Event)
        ]
        assert legal == [2300]


def test_a_jack_set_after_the_first_bowls_takes_them_along() -> None:
    play = played([bowl(0.8, 2), JackSet(length_m=25.0)])
    assert lie(play.head, "our 1").gap_m == pytest.approx(0.8)
    assert place(play.head, "our 1")[1] == pytest.approx(25.0 + 0.8925 / 2)
    assert lie(play.head, "our 1").hour == 2


def test_a_jack_set_again_after_a_move_corrects_its_length_and_keeps_the_move() -> None:
    play = played([JackSet(length_m=26.0), bowl(0.8, 2), jack(0.5, 12), JackSet(length_m=28.0)])
    assert jack_at(play.head) == pytest.approx((0.0, 28.5))
    assert lie(play.head, "our 1").gap_m == pytest.approx(0.6823, abs=5e-5)


@pytest.mark.parametrize(
    ("note", "where"),
    [
        (jack(0.5, 12), (0.0, 27.5)),
        (jack(0.5, 3), (0.5, 27.0)),
        (jack(0.5, remarks=("left",)), (-0.5, 27.0)),
        (jack(0.5, remarks=("past",)), (0.0, 27.5)),
        (jack(length_m=28.0), (0.0, 28.0)),
        (jack(along_m=0.4, across_m=-0.3), (-0.3, 27.4)),
    ],
)
def test_a_jack_move_displaces_its_centre_exactly(note: Note, where: tuple[float, float]) -> None:
    assert jack_at(played([note]).head) == pytest.approx(where)


def test_a_jack_move_needs_how_far_and_which_way() -> None:
    assert spoken(asked(begin(), jack(0.5))) == "Towards which hour did it move?"
    assert spoken(asked(begin(), jack(None, 12))) == "How far did it move?"


def test_a_jack_never_lies_on_a_bowl() -> None:
    play = played([bowl(0.5, 12), jack(0.55, 12)])
    assert lie(play.head, "our 1").gap_m == pytest.approx(0.0, abs=1e-6)
    assert math.dist(jack_at(play.head), (0.0, 27.55)) < 0.1


@pytest.mark.parametrize(("back_m", "lives"), [(7.0, True), (7.01, False)])
def test_a_jack_that_comes_back_dies_under_twenty_metres_and_lives_at_twenty(
    back_m: float, lives: bool
) -> None:
    # Laws CM3, 19; World Bowls Championships 2023, Conditions of Play 5.2 (read). 27 m less 7 m is 20 m.
    assert (jack_fate(Game(), Point(0.0, 27.0 - back_m)) is None) == lives
    if lives:
        assert isinstance(decide(begin(), jack(back_m, 6)), Event)
        return
    question = asked(begin(), jack(back_m, 6))
    assert (question.law, question.answers) == ("19", ("dead", "live"))
    dead, live = (evolve(begin(), decided(begin(), choice)).head for choice in question.choices)
    assert dead.jack.state == "dead"
    assert dead.jack.x_m is None
    assert live.jack.state == "live"


def test_a_jack_outside_the_rink_is_asked_about_once_the_rink_is_set() -> None:
    assert isinstance(decide(begin(), jack(2.6, 3)), Event)
    assert asked(begin(Game(rink_m=5.0)), jack(2.6, 3)).law == "19"
    in_the_ditch = jack(None, 2, remarks=("in the ditch",))
    assert asked(begin(Game(rink_m=5.0, green_m=34.0, mat_m=2.0)), in_the_ditch).law == "19"
    assert "length" in spoken(refused(begin(), jack(length_m=500.0)))


def test_a_jack_in_the_ditch_is_live_and_lies_on_the_ditchs_edge() -> None:
    # Laws CM3, 18.1 (quoted).
    play = played([JackSet(length_m=28.0), bowl(1.0, 12), jack(remarks=("in the ditch",))], SET_OUT)
    assert play.head.jack.state == "ditch"
    assert jack_at(play.head) == pytest.approx((0.0, 32.0))
    assert picture(play.head).holding is not None
    assert lie(play.head, "our 1").gap_m == pytest.approx(32 - 28 - 1.0925 - 0.0925)
    aside = played([jack(None, 1, remarks=("in the ditch",))], SET_OUT).head
    assert jack_at(aside) == pytest.approx((5 * math.tan(math.pi / 6), 32.0))
    beyond = asked(begin(SET_OUT), jack(length_m=33.0))
    assert beyond.answers == ("in the ditch", "live")
    assert jack_at(played([beyond.choices[0]], SET_OUT).head) == pytest.approx((0.0, 32.0))


@pytest.mark.parametrize(
    ("game", "least_m", "most_m"),
    [
        # Laws CM3, 6.1.1 and 46.2 (quoted): 25 m or more to the front ditch, a green of 31 to 40 m.
        (Game(), 27.0, 38.0),
        (Game(mat_m=2.0), 29.0, 38.0),
        (Game(green_m=36.0), 27.0, 34.0),
    ],
)
def test_a_jack_in_a_ditch_whose_place_nobody_said_lies_amid_what_the_laws_allow(
    game: Game, least_m: float, most_m: float
) -> None:
    event = decided(begin(game), jack(remarks=("in the ditch",)))
    head = evolve(begin(game), event).head
    assert head.jack.state == "ditch"
    assert jack_at(head) == pytest.approx((0.0, (least_m + most_m) / 2))
    back_m = (most_m - least_m) / 2 + least_m - 27.0
    spread_m = (most_m - least_m) / math.sqrt(12)  # the standard deviation of an even spread
    assert head.jack_moves[0].relative_sd * back_m == pytest.approx(spread_m)
    assert "ditch guessed" in event.remarks


def test_a_dead_jack_leaves_the_bowls_without_a_gap_until_it_is_placed_again() -> None:
    play = played([bowl(1.0, 3), jack(remarks=("dead",))])
    found = lie(play.head, "our 1")
    assert (found.gap_m, found.hour) == (None, None)
    holding = picture(play.head).holding
    assert holding is not None
    assert (holding.side, holding.shots) == (None, 0)
    assert "dead" in spoken(refused(play, bowl(1.0, 6)))
    assert "dead" in spoken(refused(play, jack(1.0, 6)))
    placed = played([jack(remarks=("respotted",), length_m=27.0)], play=play)
    assert lie(placed.head, "our 1").gap_m == pytest.approx(1.0)
    assert played([TakenBack()], play=placed).head == play.head


def test_a_dead_jack_is_placed_on_its_spot_where_the_conditions_say_so() -> None:
    # World Bowls Championships 2023, Conditions of Play 5.2 (read): on the centre line, nearest point to
    # the mat line 2 m from the front ditch: 32 - 2 + 0.032.
    play = played(
        [bowl(1.0, 3), jack(2.0, 3), jack(remarks=("dead",))], Game(green_m=34.0, mat_m=2.0, respot=True)
    )
    assert jack_at(play.head) == pytest.approx((0.0, 30.032))
    assert play.head.jack.state == "live"
    event = decided(played([bowl(1.0, 3)], SET_OUT), jack(remarks=("respotted",)))
    assert "respotted" in event.remarks


@pytest.mark.parametrize("beside_m", [0.0, 0.05, -0.08])
def test_a_covered_spot_brings_the_jack_back_along_the_centre_line_touching_no_bowl(beside_m: float) -> None:
    # World Bowls Championships 2023, Conditions of Play 5.2 (read).
    game = Game(green_m=34.0, mat_m=2.0, respot=True)
    spot = 30.032
    covering = bowl(along_m=spot - 27.0 - 0.0925, across_m=0.0)
    play = played([covering], game)
    moved = play.head.bowls[0].model_copy(update={"x_m": beside_m, "y_m": spot})
    covered = evolve(play, Event(note=covering, bowls=(moved,)))
    event = decided(covered, jack(remarks=("dead",)))
    assert "spot covered" in event.remarks
    head = evolve(covered, event).head
    x, y = jack_at(head)
    gap = math.dist((x, y), (beside_m, spot)) - 0.0925
    assert x == 0.0
    assert y < spot
    assert 0 < gap < 0.002, "as near as possible, touching no bowl"


def test_a_spot_nobody_can_work_out_is_asked_for_in_words() -> None:
    assert "how many metres" in spoken(refused(begin(), jack(remarks=("respotted",))))
    assert jack_at(played([jack(remarks=("respotted",), length_m=29.0)]).head) == (0.0, 29.0)


@pytest.mark.parametrize(
    ("game", "missing"),
    [
        (Game(green_m=36.0), "the mat line isn't set"),
        (Game(mat_m=2.0), "the green's length isn't set"),
        (Game(), "neither the green's length nor the mat line is set"),
    ],
)
def test_what_is_missing_to_find_the_spot_is_named(game: Game, missing: str) -> None:
    assert missing in spoken(refused(begin(game), jack(remarks=("respotted",))))


def test_a_bowl_lies_as_surely_after_a_re_spot_as_it_was_called() -> None:
    # The spot is exact, so a bowl called before two moves and one re-spot keeps only its own doubt.
    moved: list[Note] = [bowl(1.0, 3), jack(1.0, 6), jack(1.0, 12)]
    doubtful = lie(played(moved).head, "our 1").gap_sd_m
    certain = lie(played([*moved, jack(remarks=("respotted",), length_m=27.0)]).head, "our 1").gap_sd_m
    assert certain < doubtful
    assert certain == pytest.approx(lie(played(moved[:1]).head, "our 1").gap_sd_m, rel=0.01)


def test_a_game_can_set_the_jack_too() -> None:
    assert jack_at(played([bowl(1.0, 3), GameSet(jack_m=26.0)]).head) == (0.0, 26.0)
    assert asked(begin(), GameSet(jack_m=22.0)).law == "10.1.3"
