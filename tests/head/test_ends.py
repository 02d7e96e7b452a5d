"""The end, the score, the next end; the game set and changed."""

import pytest

from tests.head.acts import asked, bowl, decided, jack, jack_at, lie, played, refused, spoken
from voicecoach.head import begin, decide, evolve, next_up
from voicecoach.head.values import ByPlaces, EndsLeft, Event, Game
from voicecoach.understand.values import Declined, EndFinished, EndStarted, GameSet, JackSet, Note, TakenBack

CLEAR = [bowl(0.3, 3, "our 1"), bowl(3.0, 9, "their 1"), bowl(0.5, 6, "our 2")]
"""Two shots to us beyond doubt."""


def test_an_end_is_scored_as_the_laws_count_where_nothing_was_agreed() -> None:
    # Laws CM3, 23; CM1 39.1 (read).
    play = played([*CLEAR, EndFinished()])
    assert (play.head.score.ours, play.head.score.theirs, play.head.score.ends) == (2, 0, 1)
    assert play.head.finished


def test_an_end_is_scored_as_agreed_and_the_difference_is_pointed_out() -> None:
    play = played(CLEAR)
    agreed = decided(play, EndFinished(side="theirs", shots=1))
    assert ByPlaces(by_places=2, side="ours") in agreed.remarks
    assert evolve(play, agreed).head.score.theirs == 1
    assert decided(play, EndFinished(side="ours", shots=2)).remarks == ()


def test_an_end_without_a_shot_counts_and_leaves_the_score() -> None:
    # Laws CM3, 24 (quoted): 14-9 stays 14-9.
    scored = played([*CLEAR, EndFinished(side="ours", shots=2), EndStarted()])
    level = played([bowl(0.0, 3), bowl(0.0, 9), EndFinished()], play=scored)
    assert (level.head.score.ours, level.head.score.theirs, level.head.score.ends) == (2, 0, 2)
    none = played([bowl(1.0, 3), EndFinished(shots=0)], play=scored)
    assert (none.head.score.ours, none.head.score.ends) == (2, 2)


def test_an_end_too_close_to_call_is_asked_about_before_it_is_scored() -> None:
    play = played([bowl(1.0, 3), bowl(1.05, 9)])
    question = asked(play, EndFinished())
    assert "too close to call" in spoken(question)
    assert "one shot to us" in spoken(question)
    assert played([EndFinished(confirmed=True)], play=play).head.score.ours == 1
    side = asked(play, EndFinished(shots=1))
    assert side.answers == ("ours", "theirs")
    count = asked(play, EndFinished(side="theirs"))
    assert count.slot == "choice"
    assert played([count.choices[1]], play=play).head.score.theirs == 2


def test_an_end_with_nothing_called_needs_its_score_said() -> None:
    assert "who scored" in spoken(refused(begin(), EndFinished()))
    assert played([EndFinished(side="theirs", shots=3)]).head.score.theirs == 3


def test_more_shots_than_bowls_are_asked_about() -> None:
    assert asked(begin(Game(format="singles")), EndFinished(side="ours", shots=5)).slot == "yes or no"
    assert isinstance(decide(begin(Game(format="singles")), EndFinished(side="ours", shots=4)), Event)


def test_who_won_the_last_scoring_end_leads() -> None:
    # Laws CM3, 5.4 (quoted): the winner of the last scoring end places the mat and leads.
    play = played([GameSet(lead="ours"), *CLEAR, EndFinished(side="theirs", shots=1)])
    assert play.head.lead == "theirs"
    second = played([EndStarted()], play=play)
    assert next_up(second.head).side == "theirs"
    third = played([bowl(1.0, 3), EndFinished(shots=0), EndStarted()], play=second)
    assert next_up(third.head).side == "theirs", "an end without a score leaves the lead"


def test_nothing_of_the_last_end_leaks_into_the_next() -> None:
    play = played(
        [JackSet(length_m=26.0), *CLEAR, jack(0.5, 12), EndFinished(side="ours", shots=2), EndStarted()]
    )
    head = play.head
    assert (head.end, head.bowls, head.jack_moves, head.finished) == (2, (), (), False)
    assert (head.last_side, head.nearer, head.scattered) == (None, (), ())
    assert jack_at(head) == (0.0, 27.0)
    assert not head.jack.called
    assert (head.score.ours, head.score.ends) == (2, 1)
    assert played([TakenBack()], play=play).head.bowls != ()


def test_the_first_next_end_begins_the_first_end() -> None:
    assert played([EndStarted()]).head.end == 1
    unscored = played([*CLEAR])
    event = decided(unscored, EndStarted())
    assert event.end == 2
    assert event.remarks == ("no score noted",)


def test_a_dead_end_is_played_again_under_its_own_number_without_a_score() -> None:
    # Laws CM3, 20 (quoted).
    dead = jack(remarks=("dead",))
    for notes in ([EndFinished(replayed=True)], [dead, EndStarted()], [dead, EndFinished()]):
        head = played([GameSet(lead="theirs"), *CLEAR, *notes]).head
        assert (head.end, head.bowls, head.score.ends, head.lead) == (1, (), 0, "theirs")
        assert head.jack.state == "live"
    scored = asked(played([*CLEAR, dead]), EndFinished(side="ours", shots=2))
    assert scored.law == "20"


@pytest.mark.parametrize("note", [bowl(1.0, 3), jack(0.5, 12), JackSet(length_m=26.0), EndFinished()])
def test_after_the_end_only_the_next_one_takes_bowls(note: Note) -> None:
    play = played([*CLEAR, EndFinished()])
    assert "next end" in spoken(refused(play, note))


def test_the_ends_that_are_left_are_said_and_so_is_the_end_of_the_game() -> None:
    play = begin(Game(ends=3))
    assert decided(play, EndFinished(side="ours", shots=1)).remarks == (EndsLeft(ends_left=2),)
    by_shots = begin(Game(up_to=2))
    over = decided(by_shots, EndFinished(side="ours", shots=2))
    assert "game over" in over.remarks
    assert asked(evolve(by_shots, over), EndStarted()).slot == "yes or no"


def test_starting_the_next_end_with_bowls_of_the_format_uncalled_is_asked_about() -> None:
    play = played(CLEAR, Game(format="singles"))
    assert "Five bowls have not been called" in spoken(asked(play, EndStarted()))
    assert played([EndStarted(confirmed=True)], play=play).head.end == 2


def test_an_end_with_bowls_of_the_format_uncalled_is_asked_about() -> None:
    # Laws CM3, 23.1; CM1 40.1 (read): an end is decided once the last bowl rests.
    play = played(CLEAR, Game(format="singles"))
    question = asked(play, EndFinished())
    assert question.law == "23.1"
    assert "Count the end as it lies" in spoken(question)
    assert played([EndFinished(confirmed=True)], play=play).head.score.ours == 2


def test_a_game_is_set_by_voice_and_changed_while_playing() -> None:
    said = GameSet(format="pairs", lead="theirs", mat_m=2.0, jack_m=26.0, rink_m=5.0)
    play = played([said])
    game = play.head.game
    assert (game.format, game.lead, game.mat_m, game.jack_m, game.rink_m) == (
        "pairs",
        "theirs",
        2.0,
        26.0,
        5.0,
    )
    assert next_up(play.head).side == "theirs"
    assert jack_at(play.head) == (0.0, 26.0)
    changed = played([GameSet(format="fours")], play=play).head.game
    assert (changed.format, changed.rink_m) == ("fours", 5.0)
    assert played([TakenBack()], play=play).head == begin().head


@pytest.mark.parametrize(
    ("said", "legal"),
    [
        (GameSet(mat_m=1.99), False),
        (GameSet(mat_m=2.0), True),
        (GameSet(green_m=34.0, mat_m=9.01), False),
        (GameSet(green_m=34.0, mat_m=9.0), True),
    ],
)
def test_the_edges_of_the_mat_line_are_asked_about_with_law_6_1_1(said: GameSet, legal: bool) -> None:
    # Laws CM3, 6.1.1 (quoted): 2 m from the rear ditch, 25 m from the front one (34 - 9).
    if legal:
        assert isinstance(decide(begin(), said), Event)
    else:
        assert asked(begin(), said).law == "6.1.1"
        assert isinstance(decide(begin(), said.model_copy(update={"confirmed": True})), Event)


@pytest.mark.parametrize(
    ("field", "low", "high", "law"),
    [
        ("green_m", 31.0, 40.0, "46.2"),
        ("rink_m", 4.3, 5.8, "49.1"),
        ("bowl_mm", 112.0, 131.0, "52"),
        ("jack_mm", 63.0, 67.0, "51.2"),
    ],
)
def test_sizes_beyond_the_laws_are_asked_about(field: str, low: float, high: float, law: str) -> None:
    # Laws CM3, 46.2, 49.1, 52 (quoted); CM4 51.1 to 51.3 (read). Both ends are included.
    for legal in (low, high):
        assert isinstance(decide(begin(), GameSet.model_validate({field: legal})), Event)
    for beyond in (low - 0.1, high + 0.1):
        assert asked(begin(), GameSet.model_validate({field: beyond})).law == law


def test_several_breaches_are_asked_about_together() -> None:
    question = asked(begin(), GameSet(mat_m=1.0, jack_m=20.0))
    assert question.law == "6.1.1, 10.1.3"
    assert "law six point one point one" in spoken(question)
    assert "law ten point one point three" in spoken(question)


def test_bowls_of_another_size_keep_their_gaps() -> None:
    play = played([bowl(0.8, 2), bowl(0.8, 2), bowl(0.0, 9)])
    larger = played([GameSet(bowl_mm=131.0)], play=play).head
    for name in ("our 1", "their 1", "our 2"):
        assert lie(larger, name).gap_m == pytest.approx(lie(play.head, name).gap_m, abs=1e-6)


def test_a_size_of_nothing_is_refused() -> None:
    assert "nothing" in spoken(refused(begin(), GameSet(bowl_mm=0.0)))


def test_a_question_answered_no_files_nothing() -> None:
    assert spoken(refused(begin(), Declined())).startswith("Not filed")
