"""Many readings of one utterance: accept, ask for just the slot in doubt, or drop."""

import pytest

from tests.understand.reads import UNDERSTANDING, bowl, decodes, note
from voicecoach.hear.values import Heard, Word
from voicecoach.understand.costs import Costs
from voicecoach.understand.deciding import Belief, choose
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.notes.settings import Rate
from voicecoach.understand.plausible import Odds, plausibility
from voicecoach.understand.values import (
    BowlRested,
    Expected,
    JackSet,
    Note,
    Question,
    Ranked,
    Unclear,
    Walk,
)

FIVE = "our second eighty centimetres five o'clock"
NINE = "our second eighty centimetres nine o'clock"


def decide(utterance: Heard, expected: Expected | None = None) -> Ranked | Unclear:
    return UNDERSTANDING.read(utterance, expected or Expected())


def ranked(utterance: Heard) -> Ranked:
    meaning = decide(utterance)
    assert isinstance(meaning, Ranked)
    assert sum(meaning.probabilities) <= 1 + 1e-9
    assert list(meaning.probabilities) == sorted(meaning.probabilities, reverse=True)
    return meaning


def test_what_every_decode_hears_is_accepted() -> None:
    meaning = ranked(decodes(FIVE, FIVE, FIVE, FIVE))
    assert meaning.doubt is None
    assert meaning.notes[0] == note(FIVE)


def test_what_is_typed_is_certain() -> None:
    meaning = ranked(Heard(text=FIVE))
    assert (meaning.notes, meaning.probabilities, meaning.doubt) == ((note(FIVE),), (1.0,), None)


def test_both_spellings_of_metres_are_one_meaning() -> None:
    meaning = ranked(
        decodes("ours a metre at two", "ours a meter at two", "ours one metre at to", "ours a meter at too")
    )
    assert meaning.doubt is None
    assert len(meaning.notes) == 1


def test_eighty_centimetres_and_point_eight_metres_are_one_meaning() -> None:
    meaning = ranked(decodes("ours eighty centimetres at two", "ours nought point eight metres at two"))
    assert meaning.doubt is None


@pytest.mark.parametrize(
    ("one", "other", "slot", "answers"),
    [
        (FIVE, NINE, "hour", ("five o'clock", "nine o'clock")),
        (
            FIVE,
            "our second eighteen centimetres five o'clock",
            "gap",
            ("eighty centimetres", "eighteen centimetres"),
        ),
        (FIVE, "their second eighty centimetres five o'clock", "side", ("ours", "theirs")),
        (FIVE, "our third eighty centimetres five o'clock", "number", ("second", "third")),
        ("ours a metre left", "ours a metre right", "left or right", ("left", "right")),
        ("ours a metre short", "ours a metre left", "choice", ("short", "left")),
        ("jack at twenty metres", "jack at thirty metres", "gap", ("twenty metres", "thirty metres")),
        ("no five o'clock", "no nine o'clock", "hour", ("five o'clock", "nine o'clock")),
    ],
)
def test_the_one_slot_in_doubt_is_asked_for(
    one: str, other: str, slot: str, answers: tuple[str, str]
) -> None:
    meaning = ranked(decodes(one, one, one, other, other))
    assert meaning.doubt is not None
    assert meaning.doubt.slot == slot
    assert meaning.doubt.answers == answers
    assert meaning.doubt.choices == (note(one), note(other))
    assert meaning.doubt.pending == note(one)
    asked = Expected(open=meaning.doubt)
    assert [note(answer, asked) for answer in answers] == [note(one), note(other)]


def test_notes_that_differ_in_more_than_a_slot_are_said_back_for_yes_or_no() -> None:
    meaning = ranked(decodes(FIVE, FIVE, FIVE, "their third a metre at nine"))
    assert meaning.doubt is not None
    assert meaning.doubt.slot == "yes or no"
    assert meaning.doubt.ask == "Our second eighty centimetres five o'clock: yes or no?"
    assert note("yes", Expected(open=meaning.doubt)) == note(FIVE)


def test_yes_to_what_was_heard_confirms_nothing_that_a_law_may_ask_about() -> None:
    meaning = ranked(decodes(*["jack at twenty metres"] * 3, FIVE))
    assert meaning.doubt is not None
    assert note("yes", Expected(open=meaning.doubt)) == JackSet(length_m=20.0, confirmed=False)


def test_talk_is_dropped_and_so_is_talk_that_one_decode_takes_for_a_note() -> None:
    for utterance in (
        decodes("lovely bowl", "[unk] bowl"),
        decodes("[unk]", "[unk] at two", "the [unk]", FIVE),
    ):
        meaning = decide(utterance)
        assert isinstance(meaning, Unclear)
        assert meaning.why == "chatter"


def test_a_place_that_is_not_whole_is_asked_about_when_every_decode_agrees() -> None:
    meaning = decide(decodes("our second eighty centimetres", "our second eighty centimeters"))
    assert isinstance(meaning, Unclear)
    assert meaning.why == "incomplete"


def belief(text: str, probability: float) -> Belief:
    return Belief(Meaning(note(text)), probability, text)


def test_a_wrong_note_costs_more_than_a_wrong_answer() -> None:
    costs = Costs()
    assert choose([belief(FIVE, 0.8), belief(NINE, 0.2)], costs) == "ask"
    assert choose([belief("who's holding", 0.8), belief("the head", 0.2)], costs) == "accept"


def test_the_dearer_a_wrong_note_the_surer_it_must_be() -> None:
    beliefs = [belief(FIVE, 0.97), belief(NINE, 0.03)]
    assert choose(beliefs, Costs(wrong_note=20)) == "accept"
    assert choose(beliefs, Costs(wrong_note=100)) == "ask"


def test_words_that_are_another_note_s_with_one_left_out_are_asked_about_in_noise() -> None:
    short, full = "our third one foot seven o'clock", "our third one foot seven one o'clock"
    other = "our third two foot seven o'clock"
    costs = Costs().over("noisy")
    assert choose([belief(short, 0.92), belief(full, 0.08)], costs) == "ask"
    assert choose([belief(full, 0.92), belief(short, 0.08)], costs) == "accept"
    assert choose([belief(short, 0.92), belief(other, 0.08)], costs) == "accept"
    assert choose([belief(short, 0.97), belief(full, 0.03)], costs) == "accept"
    meant = belief(short, 0.92)
    assert choose([meant, belief(full, 0.08)], costs, {meant.meaning.note}) == "accept", "it was asked"
    assert choose([meant, belief(full, 0.08)], Costs().over("good")) == "accept"


def test_nothing_is_called_nine_metres_from_the_jack() -> None:
    odds = Odds()
    shares = [plausibility(BowlRested(gap_m=gap, hour=2.0), Expected(), odds) for gap in (0.3, 4.9, 5.1, 9.0)]
    assert shares[0] == shares[1] == 1.0
    assert shares[1] > shares[2] > shares[3] > 0


def test_what_fits_the_order_of_play_is_likelier() -> None:
    odds = Odds()
    lying = Expected(next_side="theirs", lying=(bowl("ours", 1),))
    theirs = BowlRested(side="theirs", number=1, gap_m=1.0, hour=2.0)
    again = BowlRested(side="ours", number=1, gap_m=1.0, hour=2.0)
    skips = BowlRested(side="ours", number=4, gap_m=1.0, hour=2.0)
    assert plausibility(theirs, lying, odds) == 1.0
    assert plausibility(again, lying, odds) < 1.0
    assert plausibility(skips, lying, odds) < 1.0
    assert plausibility(JackSet(length_m=26.0), lying, odds) < plausibility(
        JackSet(length_m=26.0), Expected(), odds
    )
    assert plausibility(Question(ask="head"), lying, odds) == 1.0


def test_a_walk_that_is_under_way_is_not_started_again() -> None:
    torn = decodes("stop the walk", "start the walk", "start the walk", "stop the walk")
    for walking, step in ((True, "stop"), (False, "start")):
        meaning = decide(torn, Expected(walking=walking))
        assert isinstance(meaning, Ranked)
        assert isinstance(meaning.notes[0], Walk)
        assert meaning.notes[0].step == step


def test_a_setting_stays_and_so_must_be_surer_than_stop() -> None:
    costs = Costs()
    assert choose([belief("volume down", 0.8), belief("the head", 0.2)], costs) == "ask"
    assert choose([belief("stop", 0.8), belief("the head", 0.2)], costs) == "accept"


@pytest.mark.parametrize(
    ("took_s", "kept"), [(None, True), (0.6, True), (1.2, True), (1.6, False), (4.0, False)]
)
def test_one_word_that_took_long_was_more_than_that_word(took_s: float | None, kept: bool) -> None:
    end = None if took_s is None else 10 + took_s
    said = decodes("louder", "louder", "louder", "louder").model_copy(
        update={"started_s": 10.0 if end else None, "ended_s": end}
    )
    meaning = decide(said)
    assert (isinstance(meaning, Ranked) and meaning.doubt is None) is kept


def test_a_setting_must_be_surer_than_a_note() -> None:
    three_of_four = decodes("call word on", "call word on", "call word on", "call word on", "[unk]", "[unk]")
    assert choose([Belief(Meaning(Rate(value="faster")), 0.88, "faster")], Costs()) != "accept"
    assert choose([Belief(Meaning(note(FIVE)), 0.88, FIVE)], Costs()) == "accept"
    assert not (isinstance(decide(three_of_four), Ranked) and decide(three_of_four).doubt is None)


def test_a_note_of_which_the_main_decode_heard_nothing_is_asked_about() -> None:
    """Its words are the text; the other decodes come after it."""
    read = decide(decodes("lovely day for it", FIVE, FIVE, FIVE))
    assert isinstance(read, Ranked)
    assert read.notes[0] == note(FIVE)
    assert read.doubt is not None
    assert ranked(decodes(FIVE, FIVE, FIVE, "lovely day for it")).doubt is None


def test_what_was_cut_out_of_talk_without_end_files_nothing() -> None:
    heard = decodes(FIVE, FIVE, FIVE, FIVE)
    assert ranked(heard).doubt is None
    read = decide(heard.model_copy(update={"cut": True}))
    assert isinstance(read, Unclear)
    assert read.say == "Not understood. Please say it again, plainly."


def test_with_the_call_word_it_does() -> None:
    line = f"director {FIVE}"
    heard = decodes(line, line, line, line).model_copy(update={"cut": True})
    read = decide(heard, Expected(call_word="director"))
    assert isinstance(read, Ranked)
    assert read.doubt is None


@pytest.mark.parametrize(("words", "other"), [("we lead", "lead feet up"), ("read the head in stereo", "")])
def test_a_setting_that_half_the_decodes_heard_in_noise_is_not_filed(words: str, other: str) -> None:
    heard = surely(words, words, other, other)
    assert filed(heard) == note(words)
    assert filed(noisy(heard)) is None
    assert filed(noisy(surely(words, words, words, words))) == note(words)


def test_a_bowl_that_half_the_decodes_heard_surely_in_noise_is_filed() -> None:
    """What guards a setting would cost many a note in wind."""
    assert filed(noisy(surely(FIVE, FIVE, "", ""))) == note(FIVE)


def surely(*texts: str) -> Heard:
    """As many decodes, the main one sure of every word."""
    words = tuple(Word(text=word, confidence=1.0) for word in texts[0].split())
    return decodes(*texts).model_copy(update={"words": words})


def noisy(heard: Heard) -> Heard:
    return heard.model_copy(update={"link": "noisy"})


def filed(heard: Heard) -> Note | None:
    meaning = decide(heard)
    return meaning.notes[0] if isinstance(meaning, Ranked) and meaning.doubt is None else None


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("what's at two o'clock", "what's at three o'clock"),
        (
            "our first measured forty centimetres at two o'clock",
            "our first measured forty centimetres at three o'clock",
        ),
        ("our first measured forty centimetres", "our first measured fifty centimetres"),
    ],
)
def test_notes_whose_hour_is_no_place_on_the_green_are_weighed_against_each_other_too(
    one: str, other: str
) -> None:
    read = UNDERSTANDING.read(decodes(one, other), Expected())
    assert read.doubt is not None
    assert len(read.doubt.answers) == 2
