"""The round before play: steps answered one by one, a summary to say back, and the journal's share."""

import re
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result

from voicecoach import journal
from voicecoach.coach import before
from voicecoach.coach.before import Cue, Round
from voicecoach.coach.club import Club
from voicecoach.coach.cues import Cues, agreed
from voicecoach.coach.profile import Profile
from voicecoach.commands import before as command
from voicecoach.conversation import Conversation
from voicecoach.errors import DataProblem
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.places import scenarios
from voicecoach.session.talk import resume
from voicecoach.understand.notes.settings import BeforePlay

CLUB = scenarios() / "club.yaml"
PAIR = Profile(pace_m=0.7, aim_m=5.0, stance="one knee", mark="a white disc")


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))


def example() -> Club:
    return Club.model_validate(yaml.safe_load(CLUB.read_text()))


def answered(round_: Round, *cues: Cue) -> tuple[Round, str]:
    said = ""
    for cue in cues:
        round_, sentences = before.answered(round_, cue)
        said = " ".join(sentence.text for sentence in sentences)
    return round_, said


def run(path: Path, typed: str, *options: str) -> Result:
    arguments = ["--journal", str(path), "--silent", *options]
    return CliRunner().invoke(command.command, arguments, input=typed, standalone_mode=False)


def kept(path: Path) -> list[str]:
    entries, _ = journal.read(path)
    return [entry.note.value for entry in entries if isinstance(entry.note, BeforePlay)]


@pytest.mark.parametrize(
    ("club", "pair"), [(example(), PAIR), (Club(), Profile()), (example(), Profile(units="feet"))]
)
def test_everything_that_is_said_is_plain_words(club: Club, pair: Profile) -> None:
    round_ = Round(before.steps(club, pair))
    said = [sentence.text for sentence in before.begin(round_)]
    while not round_.over:
        round_, sentences = before.answered(round_, "done")
        said += [sentence.text for sentence in sentences]
    for text in said:
        assert re.fullmatch(r"[A-Z][A-Za-z',.: -]+", text), text
        assert text.endswith(".")


def test_the_round_covers_what_a_pair_must_know() -> None:
    titles = [step.title for step in before.steps(example(), PAIR)]
    for wanted in ("rooms", "way", "Getting on", "Getting off", "ditch", "length", "mat", "bias", "signals"):
        assert any(wanted in title for title in titles), wanted
    for wanted in ("stands where", "Rests and drinks", "Company", "allowed today"):
        assert any(wanted in title for title in titles), wanted


def test_the_clubs_own_facts_take_the_place_of_the_general_words() -> None:
    texts = {step.title: step.text for step in before.steps(example(), PAIR)}
    assert "twenty eight centimetres wide and nine centimetres deep" in texts["The ditch"]
    assert "a board over the ditch" in texts["Getting on the green"]
    assert "one knee" in texts["The stance"]
    assert "a white disc" in texts["The stance"]
    # law 47: 200 to 380 mm wide, 50 to 200 mm deep; law 48: at least 230 mm; law 49.1: 4.3 to 5.8 m (quoted)
    plain = {step.title: step.text for step in before.steps(Club(), Profile())}
    assert "from twenty centimetres to thirty eight centimetres wide" in plain["The ditch"]
    assert "at least twenty three centimetres" in plain["The bank"]
    assert "four metres thirty to five metres eighty" in plain["The sides of the rink"]


def test_the_rink_is_walked_in_the_players_own_paces() -> None:
    texts = {step.title: step.text for step in before.steps(example(), PAIR)}
    # Mat line 2 m from the rear ditch (law 6.1.1), green 36.5 m: the longest jack's nearest point is 2 m from
    # the front ditch (law 9.2), so 32.5 m from the mat line; at 0.7 m a pace 46.4 paces, to the half 46.5
    # (derived). Law 17.1.3: 14 m, 20 paces; law 10.1.3: 23 m, 32.9 paces.
    assert texts["The mark"].startswith("Walk seven paces.")
    assert texts["Fourteen metres"].startswith(
        "Walk thirteen paces. Here it is twenty paces from the mat line."
    )
    assert "thirty three paces" in texts["The shortest jack"]
    assert "forty six and a half paces" in texts["The longest jack"]
    assert texts["The front ditch"].startswith("Walk three paces.")


def test_without_a_pace_and_a_green_the_lengths_are_metres_and_only_the_laws() -> None:
    titles = [step.title for step in before.steps(Club(), Profile())]
    assert "The longest jack" not in titles
    texts = {step.title: step.text for step in before.steps(Club(), Profile())}
    assert texts["The shortest jack"].startswith("Walk nine metres. Here it is twenty three metres")


def test_each_answer_moves_the_round_as_it_says() -> None:
    begun = Round(before.steps(example(), PAIR))
    first, second = begun.steps[0], begun.steps[1]
    done, said = answered(begun, "done")
    assert (done.became, said) == (("shown",), f"{second.title}. {second.text}")
    assert answered(begun, "again") == (begun, f"{first.title}. {first.text}")
    assert answered(begun, "skip")[0].became == ("left out",)
    assert answered(begun, "done", "back")[0] == begun
    assert answered(begun, "back")[1].startswith("This is the first step.")


def test_the_summary_names_each_step_once() -> None:
    round_ = Round(before.steps(example(), PAIR))
    cues: list[Cue] = ["done", "skip", "done", "done", "stop"]
    after, _ = answered(round_, *cues)
    said = " ".join(sentence.text.lower() for sentence in before.summary(after))
    for step in round_.steps:
        assert said.count(f"{step.title.lower()}.") + said.count(f"{step.title.lower()},") == 1, step.title
    assert said.startswith(
        "shown: the rooms, getting on the green. confirmed: if something happens. left out:"
    )


def test_the_director_says_it_back_and_may_hear_it_again() -> None:
    round_ = Round(before.steps(Club(), Profile()))
    at_the_end, said = answered(round_, "stop")
    assert said.endswith("Then say done, or again to hear it again.")
    assert answered(at_the_end, "again")[1] in said
    assert answered(at_the_end, "done")[0].said_back is True
    assert answered(at_the_end, "skip")[0].said_back is False


@pytest.mark.parametrize(
    ("text", "cue"),
    [
        ("Done.", "done"),
        ("that's done", "done"),
        ("SKIP", "skip"),
        ("say it again", "again"),
        ("go back", "back"),
    ],
)
def test_an_answer_is_taken_whole(text: str, cue: Cue) -> None:
    assert before.cue_of(text) == cue
    assert before.cue_of(f"is it {text} already") is None


def test_what_was_done_and_left_out_is_in_the_journal_and_changes_no_head(tmp_path: Path) -> None:
    path = tmp_path / "today.jsonl"
    result = run(path, "done\nskip\nwhat\ndone\nback\ndone\nstop\ndone\n", "--club", str(CLUB))
    assert result.exit_code == 0, result.output
    assert "Say done, skip, again, back or stop." in result.output
    values = kept(path)
    assert values[:5] == [
        "shown: the rooms",
        "left out: the way to the green",
        "confirmed: if something happens",
        "not yet: if something happens",
        "confirmed: if something happens",
    ]
    assert values[5] == "left out: getting on the green"
    assert values[-1] == "said back"
    before_play, fresh = resume(journal.read(path)[0]), resume(())
    assert (before_play.play, before_play.manner) == (fresh.play, fresh.manner)


def test_the_game_goes_on_in_the_same_journal(tmp_path: Path) -> None:
    path = tmp_path / "today.jsonl"
    run(path, "done\nstop\ndone\n")
    with Conversation(path) as conversation:
        assert conversation.fresh
        assert conversation.hear(Heard(text="our first, one metre, two o'clock")).outcome == "noted"
    with Conversation(path) as conversation:
        assert not conversation.fresh


def test_when_nobody_answers_any_more_the_rest_is_left_out(tmp_path: Path) -> None:
    path = tmp_path / "today.jsonl"
    assert run(path, "done\n").exit_code == 0
    values = kept(path)
    assert values[0] == "shown: the rooms"
    assert all(value.startswith("left out: ") for value in values[1:-1])
    assert len(values) == len(before.steps(Club(), Profile())) + 1
    assert values[-1] == "not said back"


def test_the_cautions_come_first(tmp_path: Path) -> None:
    assert run(tmp_path / "today.jsonl", "").output.startswith("This describes, never guides.\n")


def test_a_figure_outside_the_laws_is_told(tmp_path: Path) -> None:
    # law 46.2: 31 to 40 m, both ends included; law 48: at least 230 mm (quoted)
    assert list(before.outside(Club(green_m=31, bank_mm=230, rink_m=5.8))) == []
    told = list(before.outside(Club(green_m=30.9, bank_mm=229)))
    assert ["46.2" in told[0], "48" in told[1]] == [True, True]
    assert list(before.outside(example())) == []
    file = tmp_path / "club.yaml"
    file.write_text("green_m: 52")
    assert "law 46.2 wants 31 to 40" in run(tmp_path / "today.jsonl", "", "--club", str(file)).stderr


@pytest.mark.parametrize("text", ["green_m: long", "swimming_pool: yes", "[", "- a list"])
def test_a_file_that_is_no_clubs_is_named(tmp_path: Path, text: str) -> None:
    file = tmp_path / "club.yaml"
    file.write_text(text)
    with pytest.raises(DataProblem, match=r"club\.yaml"):
        command.read_club(file)


def test_the_ear_knows_every_word_that_answers_a_step(model_path: Path) -> None:
    cues = Cues(before.phrases())
    recogniser = Recogniser(model_path, cues)
    assert [word for word in cues.words() if not recogniser.knows(word)] == []
    assert not cues.words() & set(cues.decoys())


def spoken(*texts: str) -> Heard:
    readings = tuple(Hypothesis(decode=str(index), text=text, weight=1.0) for index, text in enumerate(texts))
    return Heard(text=texts[0], readings=readings)


def test_a_spoken_answer_counts_when_most_heard_it_and_none_heard_another() -> None:
    assert agreed(spoken("done", "done", "[unk]"), before.cue_of) == "done"
    assert agreed(spoken("done", "done", "stop"), before.cue_of) is None
    assert agreed(spoken("done", "[unk]"), before.cue_of) is None
    assert agreed(Heard(text="done"), before.cue_of) == "done"


def test_under_feet_nothing_is_said_in_metres_or_centimetres() -> None:
    for club in (example(), Club()):
        for step in before.steps(club, Profile(units="feet", aim_m=5.0)):
            assert "metre" not in f"{step.title} {step.text}", step
    texts = {step.title: step.text for step in before.steps(Club(), Profile(units="feet"))}
    # Law 47: 200 to 380 mm wide (quoted); 7.9 and 15.0 inches (derived).
    assert "from eight inches to one foot three inches wide" in texts["The ditch"]
