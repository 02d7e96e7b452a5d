"""What both hear when something is put right, and a walk in yards."""

from voicecoach.conversation import Conversation
from voicecoach.describe.lengths import ahead_words
from voicecoach.describe.values import Preferences
from voicecoach.hear.values import Heard
from voicecoach.session.values import Entry


def told(*notes: str) -> Entry:
    """The last of the entries."""
    conversation = Conversation()
    entries = [conversation.hear(Heard(text=note)) for note in notes]
    return entries[-1]


def said(entry: Entry) -> str:
    return " ".join(sentence.text for sentence in entry.say)


def to_player(entry: Entry) -> str:
    return " ".join(sentence.text for sentence in entry.say_to_player)


BOTH = ("our first, one metre, three o'clock", "their first, eighty centimetres, seven o'clock")


def test_the_player_hears_unasked_of_a_bowl_that_was_corrected() -> None:
    assert to_player(told(*BOTH, "no, eight o'clock")).startswith(
        "Their first: eighty centimetres, eight o'clock, short and left"
    )


def test_the_player_hears_unasked_of_a_bowl_that_was_taken_back() -> None:
    assert to_player(told(*BOTH, "take that back")) == "Taken back: their first."


def test_a_player_who_wants_only_answers_hears_of_no_correction() -> None:
    assert to_player(told("only when asked", *BOTH, "take that back")) == ""
    assert to_player(told("only when asked", *BOTH, "no, eight o'clock")) == ""


def test_an_owner_given_back_is_named_with_the_bowl_that_lies_there_again() -> None:
    entry = told(BOTH[1], "sorry, ours", "take that back")
    assert said(entry) == "Taken back. Their first: eighty centimetres, seven o'clock."


def test_a_score_taken_back_says_the_score_as_it_stands_again() -> None:
    entry = told(*BOTH, "the end is finished, one shot to them", "take that back")
    assert said(entry) == "Taken back: end one again. Ours nought, theirs nought."


def test_a_next_end_taken_back_names_the_end_and_no_bowl_of_it() -> None:
    entry = told(*BOTH, "the end is finished, one shot to them", "next end", "take that back")
    assert said(entry) == "Taken back: end one again. Ours nought, theirs one."


def test_a_dead_end_taken_back_brings_all_its_bowls_again() -> None:
    assert said(told(*BOTH, "dead end", "take that back")) == "Taken back: the bowls lie as before."


def test_a_bowl_that_is_found_to_be_a_toucher_is_not_said_to_have_moved() -> None:
    assert said(told(BOTH[0], "our first is a toucher")) == "Our first: a toucher."


def test_a_long_way_is_said_in_yards_to_whoever_wants_feet_and_a_short_one_in_feet() -> None:
    feet = Preferences(units="feet")
    # 1 yd = 0.9144 m exactly (International Yard and Pound agreement, 1959; memory): 23 yd are 21.03 m.
    assert ahead_words(21.03, feet) == "twenty three yards"
    assert ahead_words(1.52, feet) == "five feet"


def test_a_half_hour_put_right_is_said_back_as_it_was_called() -> None:
    half, between = "half past four", "between four and five o'clock"
    assert said(told(BOTH[0], f"no, {half}")) == f"Our first: one metre, {half}."
    assert said(told(BOTH[0], f"no, {between}")) == f"Our first: one metre, {between}."
    assert said(told(f"our first, one metre, {half}", "no, two o'clock", "take that back")).endswith(
        half + "."
    )


def test_an_answer_may_say_again_what_was_understood() -> None:
    hour = told(*BOTH, "their fourth, sixty centimetres", "sixty centimetres at nine")
    assert said(hour).startswith("Their fourth: sixty centimetres, nine")
    gap = told(*BOTH, "our third, two o'clock", "a metre at two o'clock")
    assert said(gap) == "Our third: one metre, two o'clock."


def test_another_place_is_no_answer_but_the_next_bowl() -> None:
    entry = told(*BOTH, "their fourth, sixty centimetres", "a metre at nine")
    assert said(entry).startswith("Our second: one metre, nine")


JACK_IN_THE_DITCH = (
    "green thirty six metres long, mat line at two metres",
    "jack at thirty one metres",
    "our first, toucher, twenty centimetres, eleven o'clock",
    "jack in the ditch",
)


def test_a_toucher_in_the_ditch_beside_the_jack_is_asked_for_its_place() -> None:
    asked = told(*JACK_IN_THE_DITCH, "our first in the ditch")
    assert asked.outcome == "asked"
    noted = told(*JACK_IN_THE_DITCH, "our first in the ditch", "forty centimetres, nine o'clock")
    assert said(noted) == "Our first now at forty centimetres, nine o'clock, left, in the ditch."


def test_the_player_hears_how_a_dead_bowl_missed() -> None:
    assert to_player(told(*BOTH, "ours in the ditch")).startswith("Our second: in the ditch, dead; ")
    assert to_player(told(*BOTH, "ours out of the rink")).startswith("Our second: out of the rink, dead; ")


def test_the_player_is_not_told_unasked_of_a_score_taken_back() -> None:
    assert to_player(told(*BOTH, "the end is finished, one shot to them", "take that back")) == ""


def test_a_remark_that_names_no_bowl_is_pinned_to_the_last_one_until_the_end_is_over() -> None:
    remarks = ("remark: shoulder dropped", "the end is finished, one shot to them", "remark: a good end")
    entry = told(BOTH[1], BOTH[0], *remarks, "read the remarks")
    assert said(entry) == "Our first: shoulder dropped. A good end."
    assert said(told("remark: windy", "read the remarks")) == "Windy."
