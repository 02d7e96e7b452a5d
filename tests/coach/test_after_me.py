"""Notes said after the program: which forms a voice carries, what was gained, and what is kept."""

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from voicecoach import phrasebook
from voicecoach.coach.after_me import NOTES, AfterMe, lines, text
from voicecoach.coach.practice import Prompt
from voicecoach.coach.profile import Profile
from voicecoach.commands import practice
from voicecoach.hear.values import Heard, Hypothesis, Word
from voicecoach.personal import profile_path, read_if_there, write_profile
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked, Where


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


def heard(*decodes: str) -> Heard:
    readings = tuple(Hypothesis(decode=str(at), text=line, weight=1.0) for at, line in enumerate(decodes))
    words = tuple(Word(text=word, confidence=1.0) for word in decodes[0].split())
    return Heard(text=decodes[0], readings=readings, words=words, above_noise_db=20.0)


def a_round(voice: Callable[[str], Heard]) -> tuple[AfterMe, list[str]]:
    """A round with a voice, whose notes are heard so. Gives the round, and what was said at its end."""
    book = phrasebook.load()
    round_ = AfterMe(lines(NOTES, random.Random(3)), Understanding(book), Understanding(book))
    going = round_.go()
    prompt: Prompt = next(going)
    for line in round_.said:
        try:
            assert text(line) in prompt.say[-1].text.lower()
            prompt = going.send(voice(text(line).replace(",", "")))
        except StopIteration as end:
            return round_, [sentence.text for sentence in end.value]
    raise AssertionError("the round goes on")


def test_every_note_of_it_is_whole_and_the_pieces_come_about_equally_often() -> None:
    understanding = Understanding(phrasebook.load())
    said = lines(NOTES, random.Random(1))
    for line in said:
        read = understanding.read(Heard(text=text(line)), Expected())
        assert isinstance(read, Ranked), text(line)
        assert isinstance(read.notes[0], Where)
        assert read.notes[0].gap_m
        assert read.notes[0].hour
    counts = [sum(line[0].form == side for line in said) for side in ("our", "their")]
    assert counts == [NOTES / 2, NOTES / 2]
    assert sum(line[3].form == "half past" for line in said) == NOTES / 4


def test_a_voice_that_is_heard_well_is_told_so_and_teaches_nothing() -> None:
    round_, told = a_round(lambda said: heard(said, said, said))
    assert round_.slips == ()
    assert "our" in told[0]
    assert "half past" in told[0]
    assert told[1:] == ["Right at once: sixteen of sixteen."]


def test_a_form_that_is_mostly_misheard_is_named_and_what_was_learned_is_counted_on_later_notes() -> None:
    def voice(said: str) -> Heard:
        wrong = said.replace("half past", "off past").replace("their", "there")
        return heard(said, wrong, wrong)

    round_, told = a_round(voice)
    slips = {(slip.heard, slip.said): slip.times for slip in round_.slips}
    assert slips == {("there", "their"): NOTES / 2, ("off", "half"): NOTES / 4}
    badly = next(line for line in told if line.startswith("Often heard as something else"))
    assert "half past" in badly
    assert "o'clock" not in badly
    assert told[-1] == "Heard most often as something else: their, as there."
    stranger, known = (sum(column) for column in zip(*round_.right, strict=True))
    assert known > stranger, "later notes gain from those before them"
    assert f"Right at once: {cardinal(stranger)} of sixteen." in told
    assert f"With what was learned before each of them: {cardinal(known)}." in told


def test_typed_words_teach_nothing_and_that_is_said() -> None:
    ran = CliRunner().invoke(
        practice.command, ["calling", "--after-me", "--silent", "--seed", "1"], input="ours\nstop\n"
    )
    assert ran.exit_code == 0
    assert "Only what is spoken teaches." in ran.output
    assert "Nothing was heard, so nothing was learned." in ran.output
    assert not profile_path().exists()


def test_it_is_refused_where_the_profile_says_to_learn_nothing() -> None:
    write_profile(Profile(learns=False), profile_path())
    ran = CliRunner().invoke(practice.command, ["calling", "--after-me", "--silent"], input="")
    assert "Set learns to yes first" in str(ran.exception)
    assert read_if_there(profile_path()) == Profile(learns=False)
