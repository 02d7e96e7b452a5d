"""The real recogniser on real sound."""

from pathlib import Path

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from tests.hear.spoken import padded, words_of
from voicecoach import phrasebook
from voicecoach.errors import ModelProblem
from voicecoach.hear.decodes import DECODES
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import load
from voicecoach.hear.values import UNKNOWN
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, OpenQuestion, Ranked, Unclear

NOTES = [
    path
    for path in sorted(AUDIO.glob("*.flac"))
    if not path.name.startswith(("what_a_lovely", "did_you_see", "my_brother"))
]
CHATTER = sorted(set(AUDIO.glob("*.flac")) - set(NOTES))


def test_every_word_of_the_phrase_book_is_in_the_model(recogniser: Recogniser) -> None:
    book = phrasebook.load()
    listed = {word for phrase in [*book.decoys(), *book.sample(23, 1)] for word in phrase.split()}
    assert [word for word in sorted(book.words() | listed) if not recogniser.knows(word)] == []


@pytest.mark.parametrize("path", NOTES, ids=words_of)
def test_a_note_is_heard_by_the_words_it_was_spoken_in(path: Path, recogniser: Recogniser) -> None:
    assert recogniser.hear(padded(path, 0, 0)).text == words_of(path)


@pytest.mark.parametrize("path", CHATTER, ids=words_of)
def test_chatter_means_nothing(path: Path, recogniser: Recogniser) -> None:
    heard = recogniser.hear(padded(path))
    meant = Understanding(phrasebook.load()).read(heard, Expected())
    assert isinstance(meant, Unclear)
    assert meant.why == "chatter"


@pytest.mark.parametrize("level", [0.0, 1e-4])
def test_silence_gives_no_words(level: float, recogniser: Recogniser) -> None:
    hiss = np.random.default_rng(1).normal(0, 1, 32_000).astype(np.float32) * level
    heard = recogniser.hear(hiss)
    assert heard.text.replace(UNKNOWN, "").strip() == ""


def test_the_first_word_is_not_lost_when_speech_begins_at_once(recogniser: Recogniser) -> None:
    path = AUDIO / "their_first_bowl_one_metre_four_oclock.slt.flac"
    assert recogniser.hear(load(path)).text.startswith("their first")


def test_each_decode_gives_readings_whose_weights_add_up_to_one(
    recogniser: Recogniser, second_bowl: Path
) -> None:
    heard = recogniser.hear(padded(second_bowl))
    for decode in DECODES:
        weights = [reading.weight for reading in heard.readings if reading.decode == decode.name]
        assert sum(weights) == pytest.approx(1, abs=0.01)


def test_each_word_has_its_confidence(recogniser: Recogniser, second_bowl: Path) -> None:
    heard = recogniser.hear(padded(second_bowl))
    assert " ".join(word.text for word in heard.words) == heard.text
    assert all(0 < word.confidence <= 1 for word in heard.words)


def test_the_same_sound_gives_the_same_heard_whatever_was_heard_before(
    recogniser: Recogniser, second_bowl: Path
) -> None:
    alone = recogniser.hear(padded(second_bowl))
    recogniser.hear(padded(AUDIO / "take_that_back.rms.flac"))
    assert recogniser.hear(padded(second_bowl)) == alone


def open_hour() -> OpenQuestion:
    note = BowlRested(side="ours", number=2, gap_m=0.8)
    choices = tuple(note.model_copy(update={"hour": hour}) for hour in (5.0, 9.0))
    return OpenQuestion(
        slot="hour",
        choices=choices,
        answers=("five o'clock", "nine o'clock"),
        pending=note,
        ask="Five o'clock or nine o'clock?",
    )


def test_an_answer_is_heard_with_a_phrase_list_of_its_own(recogniser: Recogniser) -> None:
    heard = recogniser.hear(padded(AUDIO / "five_oclock.joe.flac"), phrasebook.load().answers(open_hour()))
    answers = {reading.text for reading in heard.readings if reading.decode == "answers"}
    assert "five o'clock" in answers


def test_a_whole_note_said_while_a_question_is_open_is_still_heard(
    recogniser: Recogniser, second_bowl: Path
) -> None:
    heard = recogniser.hear(padded(second_bowl), phrasebook.load().answers(open_hour()))
    assert heard.text == words_of(second_bowl)
    meant = Understanding(phrasebook.load()).read(heard, Expected(open=open_hour()))
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == BowlRested(side="ours", number=2, gap_m=0.8, unit="cm", hour=2.0)


def test_a_folder_without_a_model_is_named(tmp_path: Path) -> None:
    with pytest.raises(ModelProblem, match="voicecoach setup"):
        Recogniser(tmp_path, phrasebook.load())
