"""A pair's notes teach how the director's words are heard: kept in the profile as words and counts."""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from voicecoach.__main__ import voicecoach
from voicecoach.coach.profile import Profile
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.learning import Learning
from voicecoach.personal import read_if_there, write_profile
from voicecoach.understand.slips import Slip

EIGHTY, EIGHT = (f"our fourth {figure} centimetres two o'clock" for figure in ("eighty", "eight"))
LEARNED = Slip(heard="eight", said="eighty", times=1)


@pytest.fixture
def profile(tmp_path: Path) -> Path:
    return tmp_path / "profile.yaml"


def game(profile: Path) -> Conversation:
    conversation = Conversation()
    conversation.learn = Learning(profile, conversation.understanding.voice)
    return conversation


def spoken(*lines: str) -> Heard:
    readings = tuple(Hypothesis(decode=str(at), text=text, weight=1.0) for at, text in enumerate(lines))
    return Heard(text=lines[0], readings=readings, above_noise_db=20.0)


def test_a_note_that_was_asked_about_teaches_what_its_answer_says(profile: Path) -> None:
    with game(profile) as torn:
        assert torn.hear(spoken(EIGHT, EIGHTY, EIGHT, EIGHTY)).outcome == "asked"
        assert torn.hear(spoken("eighty centimetres")).outcome == "noted"
    assert read_if_there(profile).slips == (LEARNED,)
    with game(profile) as later:
        assert later.understanding.voice.slips == (LEARNED,), "the next game begins with it"


def test_a_correction_teaches_and_a_note_that_nobody_put_right_counts_for_the_words(profile: Path) -> None:
    with game(profile) as wrong:
        assert wrong.hear(spoken(EIGHT, EIGHT, EIGHT, EIGHT, EIGHTY)).outcome == "noted"
        assert wrong.hear(Heard(text="no, eighty centimetres")).outcome == "noted"
        assert read_if_there(profile).slips == (LEARNED,)
        wrong.hear(spoken("their first eight centimetres one o'clock"))
        wrong.hear(spoken("their second two metres one o'clock"))
    assert read_if_there(profile).slips == (LEARNED.model_copy(update={"right": 1}),)


def test_what_was_taken_back_or_never_settled_teaches_nothing(profile: Path) -> None:
    with game(profile) as other:
        other.hear(spoken(EIGHT, EIGHT, EIGHT, EIGHT, EIGHTY))
        other.hear(Heard(text="take that back"))
        other.hear(spoken(EIGHT, EIGHTY, EIGHT, EIGHTY))
        other.lapse(1_000.0)
        other.hear(Heard(text="who holds"))
    assert not profile.exists()


def test_it_holds_words_and_counts_can_be_read_and_deleted_and_switched_off(profile: Path) -> None:
    write_profile(Profile(player="Ada", slips=(LEARNED,)), profile)
    assert yaml.safe_load(profile.read_text(encoding="utf-8"))["slips"] == [
        {"heard": "eight", "said": "eighty", "times": 1, "right": 0}
    ]

    def told(*words: str) -> str:
        return CliRunner().invoke(voicecoach, ["profile", "--profile", str(profile), *words]).output

    assert "Heard as eight, said eighty: 1 times; right as heard: 0 times." in told()
    told("set", "slips", "")
    assert read_if_there(profile) == Profile(player="Ada")
    told("set", "learns", "no")
    with game(profile) as torn:
        torn.hear(spoken(EIGHT, EIGHTY, EIGHT, EIGHTY))
        torn.hear(spoken("eighty centimetres"))
    assert read_if_there(profile) == Profile(player="Ada", learns=False)
    write_profile(Profile(learns=False, slips=(LEARNED,)), profile)
    with game(profile) as strange:
        assert strange.understanding.voice.slips == (), "what was learned before isn't used either"


def test_the_player_teaches_nothing_of_the_directors_voice(profile: Path) -> None:
    with game(profile) as two:
        two.hear(spoken(EIGHT, EIGHTY, EIGHT, EIGHTY), speaker="player")
        two.hear(spoken("eighty centimetres"), speaker="player")
    assert not profile.exists()
