"""The book as data: sound in itself, and in words that the recogniser has."""

import json
import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
import vosk
import yaml

from tests.understand.reads import BOOK, UNDERSTANDING, note
from voicecoach import phrasebook
from voicecoach.hear.decodes import MAIN, PhraseLists
from voicecoach.model_store import manifest
from voicecoach.phrasebook.book import SPEECH_MODEL, DefinedTwice, PhraseBook, merge, read
from voicecoach.phrasebook.grammar import references
from voicecoach.understand.values import BowlRested, Expected, Note, OpenQuestion, Slot

WHOLE = BowlRested(side="ours", number=2, gap_m=0.8, unit="cm", hour=2.0)
PENDING: dict[Slot, Note] = {
    "side": WHOLE,
    "number": WHOLE,
    "gap": BowlRested(hour=2.0),
    "hour": BowlRested(gap_m=0.8, unit="cm"),
    "left or right": BowlRested(gap_m=0.8, unit="cm", remarks=("jack high",)),
    "yes or no": WHOLE,
    "choice": WHOLE,
}
"""For each slot, a note that needs only that."""


@pytest.fixture(scope="module")
def model(model_path: Path) -> vosk.Model:
    vosk.SetLogLevel(-1)
    return vosk.Model(model_path=str(model_path))


def _twice(node: yaml.Node) -> Iterator[str]:
    """The keys that stand twice in one mapping: YAML keeps the last, and the first is lost without a word."""
    if isinstance(node, yaml.MappingNode):
        yield from (key for key, times in Counter(key.value for key, _ in node.value).items() if times > 1)
        for _, value in node.value:
            yield from _twice(value)
    elif isinstance(node, yaml.SequenceNode):
        for each in node.value:
            yield from _twice(each)


@pytest.mark.parametrize(
    "file", sorted(Path(phrasebook.__file__).parent.rglob("*.yaml")), ids=lambda file: file.name
)
def test_no_key_stands_twice_in_a_file_of_the_book(file: Path) -> None:
    whole = yaml.compose(file.read_text(encoding="utf-8"), Loader=yaml.SafeLoader)
    assert whole is not None
    assert list(_twice(whole)) == []


def test_a_name_that_two_files_define_is_refused_in_plain_words() -> None:
    data = {"rules": {"side": "(our|their)"}, "decoys": ["tea"]}
    merge(data, "rules", {"hour": "{clock:h}"}, "numbers.yaml")
    merge(data, "decoys", ["tea"], "numbers.yaml")
    assert data["rules"] == {"side": "(our|their)", "hour": "{clock:h}"}
    with pytest.raises(DefinedTwice, match=r"numbers\.yaml defines 'side' under rules.*another name"):
        merge(data, "rules", {"side": "(mine|yours)"}, "numbers.yaml")
    assert data["rules"]["side"] == "(our|their)"


def test_no_template_names_a_rule_that_is_nowhere() -> None:
    named = {name for node in BOOK.nodes() for name in references(node)}
    assert named
    assert named <= {*BOOK.rules, *BOOK.lists}


def test_the_speech_model_has_every_word_of_the_book(model: vosk.Model) -> None:
    assert [word for word in sorted(BOOK.words()) if model.vosk_model_find_word(word) < 0] == []


# The words that questions about the head offer: moved or corrected, a law's fate or live.
OFFERED = (
    "moved",
    "corrected",
    "dead",
    "live",
    "in the ditch",
    "left",
    "right",
    "short",
    "past",
    "ours",
    "theirs",
)


def test_the_speech_model_has_every_answer_that_is_offered(model: vosk.Model) -> None:
    question = OpenQuestion(
        slot="choice", choices=(WHOLE,) * len(OFFERED), answers=OFFERED, pending=WHOLE, ask="?"
    )
    words = {word for phrase in BOOK.answers(question) for word in phrase.split()}
    assert {word for answer in OFFERED for word in answer.split()} <= words
    assert [word for word in sorted(words) if model.vosk_model_find_word(word) < 0] == []


def test_the_speech_model_has_every_decoy(model: vosk.Model) -> None:
    words = {word for decoy in BOOK.decoys() for word in decoy.split()}
    assert [word for word in words if model.vosk_model_find_word(word) < 0] == []


def test_about_five_hundred_decoys_are_words_that_the_book_does_not_have() -> None:
    assert 450 < len(set(BOOK.decoys())) < 700
    assert not BOOK.words() & set(BOOK.decoys())


def test_samples_are_made_of_the_book_s_words_and_are_the_same_for_the_same_seed() -> None:
    sample = BOOK.sample(23, seed=1)
    assert 2_500 < len(set(sample)) == len(sample)
    assert {word for sentence in sample for word in sentence.split()} <= BOOK.words()
    assert BOOK.sample(23, seed=1) == sample
    assert BOOK.sample(23, seed=2) != sample


def _phrases(book: PhraseBook) -> list[str]:
    grammar = PhraseLists(book).grammar(MAIN)
    assert grammar is not None
    return [phrase for phrase in json.loads(grammar) if " " in phrase]


def test_one_template_more_adds_its_own_sentences_to_the_phrase_list_and_moves_no_other() -> None:
    data = read()
    added = {"kind": "bowl_rested", "say": ["<bowl_said> <plain_gap> dead on <at_hour>"]}
    before = _phrases(BOOK)
    after = _phrases(PhraseBook({**data, "orders": [added, *data["orders"]]}))
    others = [phrase for phrase in after if phrase in set(before)]
    assert others == before
    assert {" dead on " in phrase for phrase in set(after) - set(before)} == {True}


def test_ten_sentences_fewer_leave_every_other_line_of_the_phrase_list_as_it_is() -> None:
    data = read()
    at_once = random.Random(1).sample(range(len(data["sentences"])), 10)
    fewer = [entry for at, entry in enumerate(data["sentences"]) if at not in at_once]
    small = PhraseBook({**data, "sentences": fewer})
    before, after = set(BOOK.sample(23, seed=1)), set(small.sample(23, seed=1))
    taken = PhraseBook({**data, "orders": [], "sentences": [data["sentences"][at] for at in at_once]})
    assert after < before
    assert before - after <= set(taken.sample(23, seed=1))


def test_another_speech_model_comes_without_the_slips_of_this_one() -> None:
    assert manifest.load().name == SPEECH_MODEL
    assert len(phrasebook.load(SPEECH_MODEL).misheard) > 50
    other = phrasebook.load("another-model")
    assert other.misheard == []
    assert other.vocabulary == BOOK.vocabulary


def test_the_samples_hold_nearly_every_word_and_both_spellings_of_metres() -> None:
    said = {word for sentence in BOOK.sample(23, seed=3) for word in sentence.split()}
    assert {"metre", "metres", "meter", "meters", "centimetres", "centimeters", "feet", "foot"} <= said
    digits = {word for entry in ("unit", "teen", "ten", "clock", "ordinal") for word in BOOK.lists[entry]}
    assert digits <= said


def test_slot_phrases_hold_every_hour_and_every_name() -> None:
    phrases = set(BOOK.slot_phrases())
    assert {f"{hour} o'clock" for hour in BOOK.lists["clock"]} <= phrases
    assert set(BOOK.lists["ordinal"]) <= phrases
    assert {"ours", "theirs"} <= phrases
    assert {word for phrase in phrases for word in phrase.split()} <= BOOK.words()


@pytest.mark.parametrize(("slot", "pending"), PENDING.items())
def test_each_phrase_for_an_answer_is_the_whole_answer(slot: Slot, pending: Note) -> None:
    question = OpenQuestion(slot=slot, pending=pending, ask="?")
    phrases = BOOK.answers(question)
    assert len(phrases) >= 4
    expected = Expected(open=question)
    assert [phrase for phrase in phrases if not UNDERSTANDING.is_whole(phrase, expected)] == []


def test_answers_offered_are_among_the_phrases_for_the_answer() -> None:
    two = (WHOLE.model_copy(update={"hour": 5.0}), WHOLE.model_copy(update={"hour": 9.0}))
    offered = ("five o'clock", "nine o'clock")
    question = OpenQuestion(slot="hour", choices=two, answers=offered, pending=WHOLE, ask="?")
    assert {"five o'clock", "nine o'clock", "five", "nine"} <= set(BOOK.answers(question))


def test_a_word_that_the_model_lacks_is_written_as_it_is_heard() -> None:
    assert "toucher" not in BOOK.words()
    assert {"touch", "her"} <= BOOK.words()
    assert note("our second touch her a metre at two") == note("our second toucher a metre at two")
