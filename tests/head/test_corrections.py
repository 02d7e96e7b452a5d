"""Corrections and taking back: nothing is erased, and exactly one note is undone."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.bench.random_notes import Notes
from tests.head.acts import asked, bowl, decided, jack, jack_at, lie, named, place, played, refused, spoken
from voicecoach.head import begin, decide, evolve, next_up, picture
from voicecoach.head.values import AskBack, Event, Play
from voicecoach.understand.notes.settings import Rate, Stands
from voicecoach.understand.values import (
    BowlMoved,
    Corrected,
    EndFinished,
    GameSet,
    JackSet,
    Question,
    TakenBack,
)


def filed(play: Play) -> list[tuple[str, int]]:
    return [(each.side, each.number) for each in play.head.bowls]


@pytest.mark.parametrize(
    ("said", "right"),
    [
        (Corrected(hour=4.0), bowl(0.8, 4, "our 2")),
        (Corrected(gap_m=1.0), bowl(1.0, 2, "our 2")),
        (Corrected(gap_m=1.0, hour=4.0), bowl(1.0, 4, "our 2")),
        (Corrected(side="theirs"), bowl(0.8, 2, "their 2")),
        (Corrected(side="theirs", number=4), bowl(0.8, 2, "their 4")),
        (Corrected(number=3), bowl(0.8, 2, "our 3")),
        (Corrected(remarks=("short", "left")), bowl(0.8, name="our 2", remarks=("short", "left"))),
        (Corrected(along_m=-0.5, across_m=0.2), bowl(name="our 2", along_m=-0.5, across_m=0.2)),
    ],
)
def test_a_correction_of_the_last_note_is_as_if_it_had_been_said_right(said: Corrected, right: Any) -> None:
    before = played([bowl(1.0, 9, "our 1"), bowl(2.0, 9, "their 1")])
    wrong = played([bowl(0.8, 2, "our 2")], play=before)
    event = decided(wrong, said)
    assert event.note == said.model_copy(update={"target": named("our 2")})
    assert evolve(wrong, event).head == played([right], play=before).head


def test_a_corrected_note_counts_as_one_note() -> None:
    play = played([bowl(0.8, 2), Corrected(hour=4.0), Corrected(gap_m=1.0)])
    assert play.head == played([bowl(1.0, 4)]).head
    back = played([TakenBack()], play=play)
    assert back.head == played([bowl(0.8, 4)]).head
    assert played([TakenBack(), TakenBack()], play=back).head == begin().head


def test_a_jack_move_and_a_jack_set_can_be_corrected_as_the_last_note() -> None:
    lying = played([bowl(0.8, 2), bowl(3.0, 9)])
    moved = played([jack(0.5, 12), Corrected(gap_m=0.7)], play=lying)
    assert moved.head == played([jack(0.7, 12)], play=lying).head
    turned = played([jack(0.5, 12), Corrected(hour=1.0)], play=lying)
    assert turned.head == played([jack(0.5, 1)], play=lying).head
    event = decided(played([jack(0.5, 12)], play=lying), Corrected(gap_m=0.7))
    assert getattr(event.note, "target", None) == "jack"
    assert played([JackSet(length_m=26.0), Corrected(gap_m=28.0)]).head.jack.y_m == 28.0


def test_an_earlier_bowl_is_changed_by_name_and_counts_from_the_jack_as_it_lies_now() -> None:
    play = played([bowl(0.8, 2, "our 2"), bowl(2.0, 9, "their 1"), jack(0.5, 12)])
    kept = place(play.head, "their 1")
    event = decided(play, Corrected(target=named("our 2"), hour=4.0))
    after = evolve(play, event).head
    found = lie(after, "our 2")
    assert found.hour == 4
    assert found.gap_m == pytest.approx(0.6823, abs=5e-5), "the gap as it is from the jack now"
    assert place(after, "their 1") == kept
    assert filed(evolve(play, event)) == [("ours", 2), ("theirs", 1)]


def test_an_earlier_bowl_keeps_its_called_gap_where_nothing_has_moved() -> None:
    play = played(
        [bowl(0.8, 2.5, "our 1", hour_width=0.5), bowl(2.0, 9), Corrected(target=named("our 1"), gap_m=1.0)]
    )
    found = lie(play.head, "our 1")
    assert found.hour == 2.5
    assert found.gap_m == pytest.approx(1.0)


def test_a_change_of_owner_renames_the_bowl_and_keeps_its_place_in_the_order() -> None:
    play = played([bowl(0.8, 2, "our 1"), bowl(2.0, 9, "our 2"), bowl(3.0, 6, "their 4")])
    where = place(play.head, "our 2")
    event = decided(play, Corrected(target=named("our 2"), side="theirs"))
    after = evolve(play, event)
    assert filed(after) == [("ours", 1), ("theirs", 2), ("theirs", 4)]
    assert place(after.head, "their 2") == where
    assert event.bowl == named("their 2")
    assert event.dropped == (named("our 2"),)


def test_a_name_that_is_taken_is_asked_about() -> None:
    play = played([bowl(0.8, 2, "our 1"), bowl(2.0, 9, "their 1"), bowl(3.0, 6, "our 2")])
    assert asked(play, Corrected(target=named("our 2"), number=1)).slot == "number"
    assert asked(play, Corrected(side="theirs", number=1)).slot == "number"
    renamed = played([Corrected(target=named("our 1"), side="theirs")], play=play)
    assert filed(renamed) == [("theirs", 2), ("theirs", 1), ("ours", 2)]


def test_correcting_an_earlier_jack_move_takes_along_the_bowls_called_since_and_no_others() -> None:
    play = played([bowl(0.8, 2, "our 1"), jack(0.5, 12), bowl(1.0, 9, "their 1")])
    old, new = place(play.head, "our 1"), place(play.head, "their 1")
    after = played([Corrected(target="jack", gap_m=0.9)], play=play).head
    assert jack_at(after) == pytest.approx((0.0, 27.9))
    assert place(after, "our 1") == old
    assert place(after, "their 1") == pytest.approx((new[0], new[1] + 0.4))
    assert lie(after, "their 1").gap_m == pytest.approx(1.0)


def test_a_correction_without_a_name_after_one_by_name_means_the_same_bowl() -> None:
    play = played(
        [bowl(0.8, 2, "our 1"), bowl(2.0, 9, "their 1"), Corrected(target=named("our 1"), hour=4.0)]
    )
    again = played([Corrected(gap_m=1.0)], play=play).head
    found = lie(again, "our 1")
    assert found.hour == 4
    assert found.gap_m == pytest.approx(1.0)


def test_the_answer_to_a_question_about_a_correction_corrects_the_last_note() -> None:
    play = played([JackSet(length_m=26.0)])
    question = asked(play, Corrected(gap_m=22.0))
    assert question.law == "10.1.3"
    assert isinstance(question.pending, Corrected)
    agreed = question.pending.model_copy(update={"confirmed": True})
    after = played([agreed], play=play)
    assert after.head.jack.y_m == 22.0
    assert played([TakenBack(), TakenBack()], play=after).head == begin().head


@pytest.mark.parametrize(
    "note",
    [TakenBack(), Corrected(hour=3.0), Corrected(target=named("our 1"), hour=3.0), Corrected(target="jack")],
)
def test_with_nothing_noted_there_is_nothing_to_change(note: Any) -> None:
    assert spoken(refused(begin(), note)).endswith(".")


def test_a_part_that_the_last_note_lacks_is_refused() -> None:
    assert "take it back" in spoken(refused(played([GameSet(format="pairs")]), Corrected(hour=3.0)))


def test_questions_and_settings_cannot_be_taken_back() -> None:
    play = played([bowl(0.8, 2), Question(ask="head"), Rate(value="faster")])
    assert played([TakenBack()], play=play).head == begin().head


def test_where_the_caller_stands_outlives_taking_back() -> None:
    play = played([bowl(0.8, 2), Stands(value="head"), TakenBack(), bowl(0.8, 2)])
    assert lie(play.head, "our 1").hour == 8


def test_a_corrected_score_is_the_score() -> None:
    play = played([bowl(0.8, 2), EndFinished(side="ours", shots=1), Corrected(side="theirs")])
    assert (play.head.score.ours, play.head.score.theirs, play.head.lead) == (0, 1, "theirs")


def test_a_moved_bowl_is_corrected_like_a_bowl_at_rest() -> None:
    lying = played([bowl(0.8, 2), bowl(2.0, 9)])
    move = BowlMoved(side="ours", number=1, gap_m=1.5, hour=12.0)
    play = played([move, Corrected(hour=1.0)], play=lying)
    assert play.head == played([move.model_copy(update={"hour": 1.0})], play=lying).head


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10_000_000))
def test_taking_back_undoes_exactly_one_note_whatever_came_before(seed: int) -> None:
    notes = Notes(seed)
    play = begin(notes.game())
    for _ in range(12):
        decision = decide(play, notes.draw())
        if not isinstance(decision, Event) or decision.undoes:
            continue
        before, play = play, evolve(play, decision)
        if decision.note.kind in ("question", "setting", "walk", "aim"):
            continue
        back = evolve(play, decided(play, TakenBack()))
        assert back.head == before.head
        assert (back.before, back.note, back.bowl) == (before.before, before.note, before.bowl)


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10_000_000))
def test_replay_of_the_events_equals_what_was_live(seed: int) -> None:
    notes = Notes(seed)
    game = notes.game()
    live = begin(game)
    journal: list[str] = []
    for _ in range(15):
        decision = decide(live, notes.draw())
        if isinstance(decision, AskBack):
            answer = notes.answer(decision)
            decision = decide(live, answer) if answer else decision
        if isinstance(decision, Event):
            live = evolve(live, decision)
            journal.append(decision.model_dump_json())
    replayed = begin(game)
    for line in journal:
        replayed = evolve(replayed, Event.model_validate_json(line))
    assert replayed.head == live.head
    assert picture(replayed.head) == picture(live.head)
    assert next_up(replayed.head) == next_up(live.head)
