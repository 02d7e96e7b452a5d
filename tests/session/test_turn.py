"""One turn after the other: questions back, lapses, repeats, groups, settings, remarks, privacy."""

from dataclasses import replace

import pytest

from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.session.settings import Manner
from voicecoach.session.talk import Talk, resume, step
from voicecoach.session.turn import ANSWER_WITHIN_S, WALK_WITHIN_S, When, interrupted, lapse, turn
from voicecoach.session.values import Entry, without_private_talk
from voicecoach.understand.notes.settings import BeSilent
from voicecoach.understand.reading import Understanding

UNDERSTANDING = Understanding(phrasebook.load())


class Told:
    """A session told note by note, a second between them."""

    def __init__(self) -> None:
        self.talk = Talk()
        self.entries: list[Entry] = []
        self.clock_s = 0.0

    def say(self, text: str, after_s: float = 3.0) -> Entry:
        self.clock_s += after_s
        heard = Heard(text=text, started_s=self.clock_s, ended_s=self.clock_s + 2.0)
        self.clock_s += 2.0
        self.talk, entry = turn(self.talk, heard, UNDERSTANDING, When(at="2026-11-24T10:00:00+00:00"))
        self.entries.append(entry)
        return entry

    def spoken(self, text: str, after_s: float = 3.0) -> str:
        return " ".join(sentence.text for sentence in self.say(text, after_s).say)


@pytest.fixture
def told() -> Told:
    return Told()


def test_an_answer_completes_the_note_that_was_asked_about(told: Told) -> None:
    assert told.say("our second, eighty centimetres").outcome == "asked"
    assert told.spoken("two o'clock") == "Our second: eighty centimetres, two o'clock."
    assert told.talk.open is None


def test_a_caller_who_says_your_is_asked_once_whose_that_is(told: Told) -> None:
    def hear(text: str) -> Entry:
        reading = (Hypothesis(decode="sentences", text=text, weight=1.0),)
        told.talk, entry = turn(told.talk, Heard(text=text, readings=reading), UNDERSTANDING, When(at=""))
        return entry

    first = hear("your second eighty centimetres two o'clock")
    assert first.open is not None
    assert {*first.open.answers} == {"ours", "theirs"}
    assert hear("ours").say[0].text == "Our second: eighty centimetres, two o'clock."
    assert hear("your third one metre four o'clock").outcome == "noted"
    assert hear("their first one metre five o'clock").outcome == "noted"
    assert told.talk.your.side == "ours"


def test_a_caller_whose_their_is_heard_as_your_is_asked_about_it_twice(told: Told) -> None:
    def hear(text: str) -> Entry:
        reading = (Hypothesis(decode="sentences", text=text, weight=1.0),)
        told.talk, entry = turn(told.talk, Heard(text=text, readings=reading), UNDERSTANDING, When(at=""))
        return entry

    for which in ("first", "second"):
        assert hear(f"your {which} one metre five o'clock").outcome == "asked"
        assert hear("theirs").outcome == "noted"
    third = hear("your third one metre seven o'clock")
    assert third.say[0].text == "Their third: one metre, seven o'clock."
    told.say("no, ours")
    assert told.talk.your.side == "ours"
    assert hear("your fourth two metres seven o'clock").say[0].text.startswith("Our fourth")


def test_a_caller_of_their_bowls_whose_words_were_misheard_is_not_taken_to_say_your(told: Told) -> None:
    reading = (Hypothesis(decode="sentences", text="your second a metre two o'clock", weight=1.0),)
    told.talk, _ = turn(told.talk, Heard(text=reading[0].text, readings=reading), UNDERSTANDING, When(at=""))
    told.say("theirs")
    assert told.talk.your.side is None
    told.say("our third, a metre, two o'clock")
    assert told.talk.your.side is None


@pytest.mark.parametrize(("pause_s", "outcome"), [(0.9, "asked"), (3.0, "noted")])
def test_a_place_without_a_name_is_asked_about_right_after_a_word_that_nobody_understood(
    told: Told, pause_s: float, outcome: str
) -> None:
    def hear(text: str, at_s: float) -> Entry:
        readings = tuple(Hypothesis(decode=str(at), text=text, weight=1) for at in range(4))
        said = Heard(text=text, readings=readings, started_s=at_s, ended_s=at_s + 1, unheard_s=0.0)
        told.talk, entry = turn(told.talk, said, UNDERSTANDING, When(at=""))
        return entry

    assert hear("hours forth", 10.0).outcome == "dropped"
    place = hear("one metre sixty two o'clock", 11.0 + pause_s)
    assert place.outcome == outcome
    assert outcome == "noted" or place.say[0].text == "Ours or theirs?"


@pytest.mark.parametrize(("pause_s", "outcome"), [(2.0, "noted"), (9.0, "asked")])
def test_a_note_said_again_is_weighed_with_what_was_asked_about_while_that_is_open(
    told: Told, pause_s: float, outcome: str
) -> None:
    five, nine = (f"our second eighty centimetres {hour} o'clock" for hour in ("five", "nine"))

    def hear(second: str, at_s: float) -> Entry:
        texts = (five, five, second, "nice day")
        readings = tuple(Hypothesis(decode=str(at), text=text, weight=1) for at, text in enumerate(texts))
        said = Heard(text=five, readings=readings, started_s=at_s, ended_s=at_s + 3)
        told.talk, entry = turn(told.talk, said, UNDERSTANDING, When(at=""))
        return entry

    assert hear(nine, 10.0).outcome == "asked"
    told.talk, _ = lapse(told.talk, at="", now_s=13.0 + pause_s)
    assert hear(five.replace("five", "one"), 13.0 + pause_s).outcome == outcome


def test_a_caller_who_types_your_is_known_to_say_it(told: Told) -> None:
    told.say("Yours, a metre, two o'clock")
    assert told.talk.your.side == "ours"


def test_a_question_that_nobody_answers_lapses_aloud_and_files_nothing(told: Told) -> None:
    told.say("our second, eighty centimetres")
    assert lapse(told.talk, at="", now_s=told.clock_s + ANSWER_WITHIN_S - 0.1)[1] is None
    talk, entry = lapse(told.talk, at="", now_s=told.clock_s + ANSWER_WITHIN_S)
    assert entry is not None
    assert entry.say[0].text == "No answer: nothing filed."
    assert talk.open is None
    assert talk.play.head.bowls == ()
    assert lapse(talk, at="", now_s=told.clock_s + 100)[1] is None


def test_a_whole_note_said_meanwhile_is_taken_and_the_question_lapses(told: Told) -> None:
    told.say("our second, eighty centimetres")
    said = "Their first: one metre, six o'clock. Our second: not filed."
    assert told.spoken("theirs, a metre, six o'clock") == said
    assert told.talk.open is None
    assert len(told.talk.play.head.bowls) == 1


def test_chatter_and_a_listeners_question_leave_a_question_open(told: Told) -> None:
    told.say("our second, eighty centimetres")
    told.say("lovely morning for it")
    assert told.say("who holds").outcome == "answered"
    assert told.spoken("two o'clock") == "Our second: eighty centimetres, two o'clock."


def test_no_to_a_law_files_nothing_and_says_so(told: Told) -> None:
    assert "law ten point one point three" in told.spoken("jack at twenty two metres")
    assert told.say("no").outcome == "refused"
    assert not told.talk.play.head.jack.called


def test_a_tail_that_only_adds_whose_it_was_amends_the_note_just_filed(told: Told) -> None:
    told.say("eighty centimetres, two o'clock")
    tail = told.say("theirs", after_s=0.8)
    assert tail.note is not None
    assert tail.note.kind == "corrected"
    assert [(bowl.side, bowl.number) for bowl in told.talk.play.head.bowls] == [("theirs", 1)]


def test_the_same_word_later_asks_for_that_sides_bowls(told: Told) -> None:
    told.say("eighty centimetres, two o'clock")
    assert told.spoken("ours", after_s=5.0) == "Our first: eighty centimetres, two o'clock, past and right."


def test_say_it_again_repeats_what_was_said_last(told: Told) -> None:
    assert told.spoken("say it again") == "Nothing to say again."
    first = told.spoken("our first, a metre, nine o'clock")
    told.say("tea at four then")
    assert told.spoken("say it again") == first
    assert told.spoken("say it again") == first


def test_go_on_begins_in_the_sentence_that_was_cut_off(told: Told) -> None:
    for side in ("our", "their"):
        for nth, hour in (("first", "six"), ("second", "nine"), ("third", "three")):
            told.say(f"{side} {nth}, {'a metre' if side == 'our' else 'two metres'}, {hour} o'clock")
    head = told.say("read the head")
    told.talk = interrupted(told.talk, head.say[3])
    assert told.say("go on").say == head.say[3:]
    assert told.spoken("go on") == "Nothing to go on with."


def test_in_groups_the_head_comes_a_group_at_a_time_forward_and_back(told: Told) -> None:
    for number, hour in (("first", "six"), ("second", "nine"), ("third", "three"), ("fourth", "twelve")):
        told.say(f"our {number}, one metre, {hour} o'clock")
    whole = told.say("read the head").say
    told.say("a group at a time")
    parts = [told.say("read the head").say]
    while (part := told.say("next")).say[0].text != "Nothing more to read.":
        parts.append(part.say)
    assert tuple(sentence for part in parts for sentence in part) == whole
    assert all(len(part) <= 3 for part in parts)
    assert told.say("back").say == parts[-2]


def test_what_changed_is_told_since_the_head_was_last_heard(told: Told) -> None:
    told.say("our first, a metre, nine o'clock")
    told.say("read the head")
    assert told.spoken("what changed") == "Nothing has changed."
    told.say("their first, half a metre, three o'clock")
    assert "Their first" in told.spoken("what changed")
    assert told.spoken("what changed") == "Nothing has changed."


def test_settings_change_how_the_head_is_heard_and_are_remembered_in_a_replay(told: Told) -> None:
    told.say("our first, a metre, nine o'clock")
    told.say("use feet and inches")
    told.say("faster")
    told.say("faster")
    assert "feet" in told.spoken("where is our first")
    assert told.talk.manner.rate == 2
    assert resume(told.entries).manner == told.talk.manner


def test_remarks_are_read_back_with_their_bowl(told: Told) -> None:
    told.say("our first, a metre, nine o'clock")
    told.say("remark on our first: shoulder dropped")
    assert told.spoken("read the remarks") == "Our first: shoulder dropped."
    told.say("the end is finished, one shot to us")
    told.say("next end")
    assert told.spoken("read the remarks") == "No remarks."


def test_the_words_of_dropped_talk_are_not_kept(told: Told) -> None:
    dropped = told.say("did you hear about the treasurer")
    assert dropped.outcome == "dropped"
    assert without_private_talk(dropped).heard.text == ""
    noted = told.say("our first, a metre, nine o'clock")
    assert without_private_talk(noted) == noted


def test_replaying_the_entries_gives_the_same_head_as_living_them(told: Told) -> None:
    for text in (
        "jack at twenty six metres", "our first, a metre, nine o'clock", "no, ten o'clock", "who holds",
        "their first, half a metre, three o'clock", "jack moved half a metre back", "take that back",
        "jack moved a metre to one o'clock", "our second, eighty centimetres", "two o'clock",
    ):  # fmt: skip
        told.say(text)
    replayed = Talk()
    for entry in told.entries:
        replayed = step(replayed, entry)
    assert replayed.play.head == told.talk.play.head
    assert resume(told.entries).play.head == told.talk.play.head


@pytest.mark.parametrize("text", ["theirs touching at three", "theirs, on the jack at three"])
def test_touching_says_how_far(text: str, told: Told) -> None:
    told.say(text)
    (bowl,) = told.talk.play.head.bowls
    assert (bowl.side, bowl.number) == ("theirs", 1)
    assert bowl.x_m == pytest.approx((0.121 + 0.064) / 2)
    assert bowl.y_m == pytest.approx(27.0)


def test_a_walk_that_nobody_goes_on_with_is_over_in_time(told: Told) -> None:
    told.say("our first a metre at two")
    told.say("start the walk")
    soon, _ = lapse(told.talk, at="", now_s=told.clock_s + WALK_WITHIN_S - 10)
    assert soon.walking is not None
    late, entry = lapse(told.talk, at="", now_s=told.clock_s + WALK_WITHIN_S + 10)
    assert (late.walking, entry) == (None, None)


@pytest.mark.parametrize("pace", ["twenty metres", "seven metres", "half a foot"])
def test_a_pace_that_nobody_has_is_refused(told: Told, pace: str) -> None:
    entry = told.say(f"my pace is {pace}")
    assert entry.outcome == "refused"
    assert entry.say[0].text == "A pace is between twenty centimetres and a metre and a half. Say it again."
    assert told.talk.manner.prefs.pace_m is None
    assert told.say("my pace is seventy centimetres").outcome == "noted"


def test_a_remark_is_kept_with_its_end_whatever_is_taken_back(told: Told) -> None:
    for text in (
        "ours a metre at three",
        "remark: shoulder dropped",
        "take that back",
        "ours a metre at six",
    ):
        told.say(text)
    assert [words for _, words in told.talk.remarks] == ["shoulder dropped"]
    told.say("dead end")
    assert [words for _, words in told.talk.remarks] == ["shoulder dropped"]
    told.say("next end")
    assert told.talk.remarks == ()


def test_every_setting_that_can_be_said_is_answered_in_words(told: Told) -> None:
    said = [text for kind, text in phrasebook.load().drawn(each=1, seed=3) if kind == "setting"]
    said += [each.sentence for each in phrasebook.load().examples() if each.kind == "setting"]
    silent = set()
    for text in said:
        entry = told.say(text, after_s=20.0)
        if entry.outcome == "noted" and not entry.say:
            silent.add(type(entry.note))
        told.talk = replace(told.talk, manner=Manner())  # else only what begins with the call word is heard
    noted = sum(entry.outcome == "noted" for entry in told.entries)
    assert noted > 0.9 * len(said)  # in noise "stop" is heard as other words, which alone are talk
    assert silent == {BeSilent}
