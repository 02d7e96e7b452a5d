"""The player's lines by voice: set, timed, asked about; what if; kept in the journal; as JSON."""

import json

import jsonschema
import pytest

from tests.schemas import schema
from tests.session.test_turn import Told
from voicecoach.head import picture
from voicecoach.head.angle import angle
from voicecoach.head.learning import bowling_now
from voicecoach.head.pace import pace
from voicecoach.head.values import Bowling
from voicecoach.session.replay import end_under_way
from voicecoach.session.talk import resume
from voicecoach.session.values import Entry
from voicecoach.session.view import json_line, replay_line, turn_line


@pytest.fixture
def told() -> Told:
    return Told()


def bowling(told: Told) -> Bowling:
    return told.talk.play.head.game.bowling


def test_a_pace_said_changes_the_angle_and_one_beyond_any_green_is_refused(told: Told) -> None:
    assert told.spoken("the green is seventeen seconds") == "The green: seventeen seconds."
    assert angle(bowling(told), "forehand").deg == pytest.approx(14.57, abs=0.01)
    assert told.say("the green is thirty seconds").outcome == "refused"
    assert bowling(told).pace_s == 17.0


def test_a_bowl_is_timed_from_away_to_stopped_and_the_mean_is_kept_with_its_spread(told: Told) -> None:
    told.say("jack at twenty seven metres")
    assert told.spoken("bowl away") == "Behind the mat."
    # The next word begins two seconds of speech and twelve of silence later.
    assert told.spoken("stopped", after_s=12.0) == "Fourteen seconds: a green of fourteen."
    assert pace(bowling(told)) == pytest.approx(14.0)
    told.say("away")
    assert told.spoken("it has stopped", after_s=11.0) == (
        "Thirteen seconds: two timed, a green of thirteen and a half, give or take nought point seven."
    )
    assert bowling(told).timed.count == 2
    assert bowling(told).timed.spread == pytest.approx(0.5**0.5)


def test_a_time_to_a_shorter_jack_is_brought_to_27_m(told: Told) -> None:
    told.say("jack at twenty three metres")
    told.say("bowl away")
    told.say("stopped", after_s=11.0)
    assert bowling(told).timed.mean == pytest.approx(13.0 * (27 / 23) ** 0.5)


def test_stopped_is_no_note_when_nothing_is_timed_or_it_was_long_ago(told: Told) -> None:
    assert told.say("stopped").outcome != "noted"
    told.say("bowl away")
    assert told.say("stopped", after_s=60.0).outcome != "noted"
    assert bowling(told).timed.count == 0


def test_an_aim_named_is_an_angle_and_is_said_back_as_both(told: Told) -> None:
    assert told.spoken("I aim ninety centimetres wide at the mark on the forehand") == (
        "Forehand: ten point two degrees, ninety centimetres wide at five metres."
    )
    assert bowling(told).forehand.angle_deg == pytest.approx(10.204, abs=1e-3)
    assert bowling(told).backhand.angle_deg is None
    assert bowling(told).on_hand == "forehand"
    told.say("my line is eleven degrees")
    assert bowling(told).backhand.angle_deg == bowling(told).forehand.angle_deg == 11.0


def test_a_line_that_no_bowl_takes_is_refused(told: Told) -> None:
    assert "No bowl takes such a line" in told.spoken("my line is sixty degrees")
    assert bowling(told).forehand.angle_deg is None


def test_called_bowls_teach_the_angle_and_a_journal_gives_it_back(told: Told) -> None:
    told.say("my line is ten degrees on the forehand")
    for note in ("our first ninety centimetres three o'clock", "our second ninety centimetres three o'clock"):
        told.say(note)
    shown = angle(bowling_now(told.talk.play.head), "forehand")
    assert (shown.by, shown.bowls) == ("shown", 2)
    assert told.spoken("what's my line on the forehand").startswith("Forehand: eight point")
    assert (
        told.spoken("what's my backhand")
        == "Backhand: ten degrees, as is usual on a green of fourteen seconds."
    )
    assert shown.deg < 10.0, "they came to rest wide, so they bend less than was named"
    told.say("end over two to us")
    told.say("next end")
    kept = [Entry.model_validate_json(entry.model_dump_json()) for entry in told.entries]
    again = resume(kept).play.head
    assert again == told.talk.play.head
    assert angle(bowling_now(again), "forehand") == shown


def test_settings_of_the_line_stay_when_a_note_is_taken_back(told: Told) -> None:
    told.say("our first one metre three o'clock")
    told.say("the green is twelve seconds")
    told.say("my line is nine degrees")
    told.say("take that back")
    assert told.talk.play.head.bowls == ()
    assert bowling(told).pace_s == 12.0
    assert bowling(told).backhand.angle_deg == 9.0


def test_what_is_open_is_asked_in_many_ways_and_files_nothing(told: Told) -> None:
    told.say("right handed")
    told.say("their first one and a half metres five o'clock")
    before = told.talk.play.head
    heard = told.spoken("what's open")
    assert heard == (
        "Roughly: backhand clear. Forehand perhaps blocked: their first, one metre thirty short, "
        "on the right of your line."
    )
    for words in ("which hand", "what's in the way"):
        assert told.spoken(words) == heard
    assert told.spoken("is the backhand open") == "Roughly: backhand clear."
    assert told.talk.play.head == before


def test_the_path_to_a_bowl_or_a_place_names_its_target(told: Told) -> None:
    told.say("their second one metre twelve o'clock")
    assert told.spoken("the path to their second").startswith("To their second, for a right hander, roughly:")
    assert told.spoken("the path to a metre past").startswith(
        "To one metre past, for a right hander, roughly:"
    )
    assert told.spoken("the path to our third") == "There is no place to go by: say where it lies."


def test_it_is_the_bowl_that_was_spoken_of_last(told: Told) -> None:
    for note in ("their first one and a half metres five o'clock", "our first half a metre nine o'clock"):
        told.say(note)
    told.say("what's open")
    assert told.spoken("what if it's taken away").startswith("Without their first:")
    assert told.spoken("what if our first was taken away").startswith("Without our first: they hold one shot")
    assert told.spoken("what if their fourth was gone") == "Their fourth has not been called in this end."
    assert len(told.talk.play.head.bowls) == 2


def test_a_jack_moved_in_thought_is_told_and_not_filed(told: Told) -> None:
    told.say("our first thirty centimetres six o'clock")
    told.say("their first one metre twenty twelve o'clock")
    before = told.talk.play.head
    assert told.spoken("if the jack went one metre back").startswith(
        "If the jack went one metre back: they hold one"
    )
    assert told.talk.play.head == before
    assert told.say("if the jack went one metre back").outcome == "answered"


def test_the_hands_follow_my_turn_only_where_they_are_wanted(told: Told) -> None:
    told.say("their first one and a half metres five o'clock")
    assert "hand" not in told.spoken("my turn").replace("hander", "")
    told.say("tell me the hands")
    assert (
        told.say("my turn").say[-1].text.startswith("For a right hander, roughly: backhand clear; forehand")
    )
    told.say("don't tell me the hands")
    assert "backhand" not in told.spoken("my turn")


def test_weight_speed_and_what_a_miss_was(told: Told) -> None:
    assert told.spoken("weight") == "There is no bowl of ours to go by: call it first."
    told.say("our first two metres six o'clock")
    assert told.spoken("weight") == "Two metres longer than our first."
    assert told.spoken("how much faster") == "Four per cent faster than our first."
    assert told.spoken("was it line or weight") == "It was weight: two metres short, on its line."


def test_the_hands_are_a_list_in_the_json_of_such_a_question_alone(told: Told) -> None:
    told.say("their first one and a half metres five o'clock")
    asked = told.say("what's open")
    now = picture(told.talk.play.head)
    line = json.loads(json_line(turn_line(asked, now)))
    assert [hand["hand"] for hand in line["hands"]] == ["backhand", "forehand"]
    clear, blocked = line["hands"]
    assert clear == {
        "hand": "backhand",
        "angle_deg": 10.0,
        "state": "clear",
        "by": None,
        "short_m": None,
        "clearance_m": pytest.approx(1.33, abs=0.01),
        "sure": pytest.approx(1.0, abs=0.01),
    }
    assert blocked["by"] == {"side": "theirs", "number": 1}
    assert blocked["short_m"] == pytest.approx(1.287, abs=0.001)
    assert blocked["clearance_m"] < 0 < blocked["sure"] < 0.9
    jsonschema.validate(line, json.loads(schema("turn")))
    replayed = json.loads(json_line(replay_line([], now, [], asked)))
    assert replayed["hands"] == line["hands"]
    jsonschema.validate(replayed, json.loads(schema("replay")))
    other = told.say("who holds")
    assert "hands" not in json.loads(json_line(turn_line(other, now)))
    assert "hands" not in json.loads(json_line(replay_line([], now, [], other)))


def test_the_jack_in_the_way_is_named_as_the_jack_in_json(told: Told) -> None:
    told.say("their first thirty centimetres eleven o'clock")
    asked = told.say("the path to their first on the forehand")
    line = json.loads(json_line(turn_line(asked, picture(told.talk.play.head))))
    assert [(hand["hand"], hand["by"]) for hand in line["hands"]] == [("forehand", "jack")]


def test_an_end_cut_out_as_a_story_keeps_the_pace_and_the_lines(told: Told) -> None:
    for note in (
        "the green is twelve seconds",
        "my line is nine degrees",
        "our first one metre three o'clock",
    ):
        told.say(note)
    for note in ("end over one to us", "next end", "their first one metre five o'clock"):
        told.say(note)
    kept = [entry.heard.text for entry in end_under_way(told.entries)]
    assert kept[:2] == ["the green is twelve seconds", "my line is nine degrees"]
    assert kept[-1] == "their first one metre five o'clock"
    assert "our first one metre three o'clock" not in kept
