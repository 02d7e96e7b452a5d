"""Line and length: where bowls first came to rest, from the jack as it lay then, and what they show."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.coach.games import Told, bowl, two_ends
from tests.coach.oddities import told as told_in_words
from voicecoach import journal
from voicecoach.coach import bowling
from voicecoach.coach.deliveries import Delivered, delivered
from voicecoach.coach.game_view import sideways
from voicecoach.coach.measure import Measure
from voicecoach.coach.moments import moments, sections
from voicecoach.coach.record import record
from voicecoach.coach.wording import Words
from voicecoach.describe import Preferences
from voicecoach.head.values import Bowl, Event, Game, Jack, JackMove
from voicecoach.understand.values import BowlName, Corrected, Where

WORDS = Words(Preferences(), Measure())


def ours(told: Told) -> list[Delivered]:
    return [one for one in delivered(sections(moments(told.entries))) if one.side == "ours"]


def groups(kind: str, bowls: Sequence[Delivered], game: Game | None = None) -> dict[str, bowling.Group]:
    return {group.name: group for group in bowling.groups(kind, game or Game(), bowls)}


def trend_words(told: Told) -> str:
    found = record(told.entries)
    return WORDS.trend(bowling.gap_trend(found.of("ours"), found.order))


def _told(*places: tuple[float, float]) -> Told:
    told = Told()
    told.jack(25.0)
    for number, (x_m, y_m) in enumerate(places, start=1):
        told.rested(bowl("ours", number, x_m, y_m))
    return told


def test_bowls_are_seen_from_the_jack_as_it_lay_when_they_came_to_rest() -> None:
    told = _told((0.5, 24.0))
    told.jack_moved(Jack(y_m=27.0, called=True), JackMove(dx_m=0, dy_m=2, where=Where(), relative_sd=0.1))
    told.rested(bowl("ours", 2, 0.5, 28.0))
    told.rested(bowl("theirs", 1, 0.0, 28.0))
    found = [(one.number, one.across_m, one.along_m, one.length_m) for one in ours(told)]
    assert found == [(1, 0.5, -1.0, 25.0), (2, 0.5, 1.0, 27.0)]
    theirs = [one for one in delivered(sections(moments(told.entries))) if one.side == "theirs"]
    assert [(one.across_m, one.along_m) for one in theirs] == [(0.0, 1.0)]


def test_what_was_taken_back_does_not_count() -> None:
    told = _told((0.5, 24.0), (3.0, 24.0))
    told.taken_back()
    assert [one.number for one in ours(told)] == [1]


def test_a_correction_takes_the_first_calls_place_with_the_jack_of_that_call() -> None:
    told = _told((0.5, 24.0))
    told.jack_moved(Jack(y_m=27.0, called=True), JackMove(dx_m=0, dy_m=2, where=Where(), relative_sd=0.1))
    name = BowlName(side="ours", number=1)
    event = Event(note=Corrected(target=name), bowl=name, bowls=(bowl("ours", 1, -0.5, 24.0),))
    told.add("no, nine o'clock", event)
    (one,) = ours(told)
    assert (one.across_m, one.along_m) == (-0.5, -1.0)


def delivered_in_words(path: Path, *words: str) -> list[tuple[str, int, str, float | None]]:
    entries, _ = journal.read(told_in_words(path, *words))
    found = delivered(sections(moments(entries)))
    return [(one.side, one.number, one.came, one.gap_m and round(one.gap_m, 3)) for one in found]


def test_a_correction_of_whose_bowl_it_was_takes_it_with_it(tmp_path: Path) -> None:
    found = delivered_in_words(
        tmp_path / "game.jsonl",
        "our first, one metre, six o'clock",
        "their first, two metres, twelve o'clock",
        "our second, three metres, three o'clock",
        "no, theirs",
    )
    assert found == [
        ("ours", 1, "short", 1.0),
        ("theirs", 1, "past", 2.0),
        ("theirs", 2, "level", 3.0),
    ]


def test_where_a_bowl_was_knocked_to_is_no_delivery_and_neither_is_a_correction_of_that(
    tmp_path: Path,
) -> None:
    found = delivered_in_words(
        tmp_path / "game.jsonl",
        "our first, one metre, six o'clock",
        "their first, fifty centimetres, nine o'clock",
        "our first moved, two metres, one o'clock",
        "correction, our first three metres",
    )
    assert found == [("ours", 1, "short", 1.0), ("theirs", 1, "level", 0.5)]


def test_bowls_without_a_place_are_counted_as_what_became_of_them(tmp_path: Path) -> None:
    found = delivered_in_words(
        tmp_path / "game.jsonl",
        "our first, one metre, six o'clock",
        "their first in the ditch",
        "our second out of the rink",
        "their second dead",
    )
    assert [came for _, _, came, _ in found] == ["short", "ditch", "lost", "lost"]
    told = _told((0.5, 24.0))
    told.rested(Bowl(side="ours", number=2, x_m=None, y_m=None, state="dead"))
    (group,) = groups("all", ours(told)).values()
    assert (group.count, group.line.count, dict(group.came)) == (2, 1, {"short": 1, "lost": 1})


def test_a_dead_ends_bowls_are_kept_beside_those_of_the_end_played_again(tmp_path: Path) -> None:
    entries, _ = journal.read(
        told_in_words(
            tmp_path / "game.jsonl",
            "our first, one metre, six o'clock",
            "their first, two metres, six o'clock",
            "dead end",
            "our first, three metres, twelve o'clock",
        )
    )
    plays = sections(moments(entries))
    assert [(play.end, play.play, play.replayed) for play in plays] == [(1, 1, True), (1, 2, False)]
    found = [(one.play, one.side, one.number, one.came) for one in delivered(plays)]
    assert found == [(1, "ours", 1, "short"), (1, "theirs", 1, "short"), (2, "ours", 1, "past")]


def test_a_dead_end_that_was_taken_back_never_was(tmp_path: Path) -> None:
    entries, _ = journal.read(
        told_in_words(
            tmp_path / "game.jsonl",
            "our first, one metre, six o'clock",
            "dead end",
            "take that back",
            "their first, two metres, six o'clock",
        )
    )
    (play,) = sections(moments(entries))
    assert (play.end, play.play, play.replayed) == (1, 1, False)
    assert len(delivered([play])) == 2


def test_bowls_are_parted_by_hand_and_by_length_of_the_jack() -> None:
    found = ours(two_ends())
    assert {name: group.count for name, group in groups("hand", found).items()} == {
        "Forehand": 4,
        "Backhand": 1,
        "Hand not said": 1,
    }
    assert {name: group.count for name, group in groups("length", found).items()} == {
        "Short jack": 1,
        "Middling jack": 5,
    }


def test_bowls_are_parted_by_player_and_by_the_players_own_bowl() -> None:
    # Pairs, two players with four bowls each: bowls five to eight are the skip's (common practice).
    found = ours(_told(*[(0.1 * number, 24.0) for number in range(8)]))
    pairs = Game(format="pairs")
    assert {name: group.count for name, group in groups("player", found, pairs).items()} == {
        "Lead": 4,
        "Skip": 4,
    }
    assert {name: group.count for name, group in groups("bowl", found, pairs).items()} == {
        f"Bowl {number}": 2 for number in (1, 2, 3, 4)
    }
    assert groups("player", found, Game(format="singles")) == {}
    assert len(groups("bowl", found)) == 8


@pytest.mark.parametrize(
    ("name", "hand", "right"),
    [
        ("Forehand", "right", "wide"),
        ("Backhand", "right", "narrow"),
        ("Forehand", "left", "narrow"),
        ("Backhand", "left", "wide"),
        ("Forehand", None, "right"),
        ("Hand not said", "right", "right"),
    ],
)
def test_right_of_the_jack_is_wide_or_narrow_by_the_hand(name: str, hand: str | None, right: str) -> None:
    # A right-hander's forehand runs out to the right and bends back (common practice, no source).
    assert sideways(name, Game.model_validate({"hand": hand}))[0] == right


def test_a_lean_is_told_only_when_the_bowls_show_it() -> None:
    told = _told(*[(0.5 + 0.01 * n, 25.0 + 0.3 * (-1) ** n) for n in range(8)])
    (group,) = groups("all", ours(told)).values()
    line = WORDS.line("", group, "right", "left").replace("\N{NO-BREAK SPACE}", " ")
    assert line == "Line: our bowls finish right: 0.54 m on average, give or take 0.02 m (8 bowls)."
    length = WORDS.length(group).replace("\N{NO-BREAK SPACE}", " ")
    assert length.startswith(
        "Length: can\N{RIGHT SINGLE QUOTATION MARK}t tell whether our bowls finish short"
    )
    assert "give or take 0.27 m" in length
    for word in ("no change", "neither"):
        assert word not in length


def test_from_too_few_bowls_no_sentence_claims_anything() -> None:
    told = _told((1.0, 25.0), (1.0, 25.0), (1.0, 25.0), (1.0, 25.0))
    (group,) = groups("all", ours(told)).values()
    few = "too few bowls to say (4 with a place; it takes 5)."
    assert WORDS.length(group) == f"Length: {few}"
    assert WORDS.line("", group, "right", "left") == f"Line: {few}"
    assert WORDS.signed(group.line, "right", "left") == "too few"
    assert WORDS.plain(group.line.spread) == "too few"
    assert trend_words(told).startswith("Over the ends: too few bowls or ends to say")


@pytest.mark.parametrize(
    ("step", "said"),
    [(-0.1, "our bowls come nearer: 10.0 cm nearer"), (0.1, "our bowls come farther: 10.0 cm farther")],
)
def test_a_trend_is_told_with_its_way(step: float, said: str) -> None:
    told = Told()
    for end in range(1, 7):
        if end > 1:
            told.next_end(end)
        told.jack(25.0)
        for number in (1, 2, 3):
            told.rested(bowl("ours", number, 2.0 + step * end + 0.001 * number, 25.0))
    sentence = trend_words(told).replace("\N{NO-BREAK SPACE}", " ")
    assert sentence.startswith(f"Over the ends: {said} with each end, give or take 0.0 cm (18 bowls)")


def test_a_trend_that_may_be_none_is_called_what_cannot_be_told() -> None:
    told = Told()
    for end in range(1, 7):
        if end > 1:
            told.next_end(end)
        told.jack(25.0)
        for number in (1, 2, 3):
            told.rested(bowl("ours", number, 2.0 + 0.3 * ((end + number) % 2), 25.0))
    sentence = trend_words(told)
    assert "t tell whether our bowls come nearer the jack" in sentence
    assert "no change" not in sentence
