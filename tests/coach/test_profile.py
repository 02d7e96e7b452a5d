"""A pair's profile: read, made by hand and by voice, and taken up by a session."""

import itertools
import re
import stat
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result

from voicecoach import journal
from voicecoach.coach.profile import SETTABLE, Profile, lines
from voicecoach.coach.profile_notes import kept, notes
from voicecoach.coach.sight import bodies, classes
from voicecoach.commands import profile, tell
from voicecoach.commands.opening import remember, take_up
from voicecoach.conversation import Conversation
from voicecoach.errors import DataProblem, Problem
from voicecoach.hear.values import Heard
from voicecoach.personal import profile_path, read_if_there, read_profile, write_profile
from voicecoach.session.replay import moment
from voicecoach.understand.notes.eye import Eye, Judging
from voicecoach.understand.notes.settings import PaceSet

ADA = Profile(
    player="ada",
    hand="left",
    sight_body="IBSA",
    sight_class="B2",
    units="feet",
    hours="whole",
    rate=2,
    volume=-1,
    order="hour first",
    sides="yours",
    pace_m=0.6,
    stance="one knee, a hand on the mat",
    mark="white disc",
    aim_m=7.0,
    microphone="earpiece",
    bowl_size="3",
    director="ben",
    stands="head",
    practised=True,
    eye=Eye(mat=Judging(says=0.9, relative_sd=0.2)),
)


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A configuration folder of the test's own."""
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))
    return tmp_path / "config" / "profile.yaml"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(profile.command, arguments, standalone_mode=False)


def session(pair: Profile) -> Conversation:
    conversation = Conversation(remember=lambda talk: remember(None, talk))
    assert {entry.outcome for entry in take_up(conversation, pair, "profile")} <= {"noted"}
    return conversation


def test_the_environment_names_the_folder(home: Path) -> None:
    assert profile_path() == home


def test_a_profile_comes_back_from_its_file_and_is_for_the_user_alone(home: Path) -> None:
    write_profile(ADA, home)
    assert read_profile(home) == ADA
    assert stat.S_IMODE(home.stat().st_mode) == 0o600
    assert yaml.safe_load(home.read_text())["pace_m"] == 0.6


def test_a_session_goes_by_the_profile() -> None:
    talk = session(ADA).talk
    prefs, game = talk.manner.prefs, talk.play.head.game
    assert (talk.manner.player, talk.manner.rate, talk.manner.volume) == ("ada", 2, -1)
    assert (prefs.units, prefs.hours, prefs.hour_first, prefs.sides) == ("feet", "whole", True, "yours")
    assert (prefs.pace_m, prefs.form, prefs.unasked) == (0.6, "head", True)
    assert (game.hand, game.bowl_mm, game.aim_at_m, game.stood) == ("left", 124.0, 7.0, "head")
    assert game.eye.mat == Judging(says=0.9, relative_sd=0.2)
    assert game.eye.head == Judging(relative_sd=0.15)


def test_an_empty_profile_changes_nothing() -> None:
    assert list(notes(Profile())) == []


def test_a_profile_taken_up_twice_is_as_taken_up_once() -> None:
    conversation = session(ADA)
    once = (conversation.talk.manner, conversation.talk.play.head)
    take_up(conversation, ADA, "profile")
    assert (conversation.talk.manner, conversation.talk.play.head) == once


def test_a_director_without_practice_is_taken_to_be_less_sure() -> None:
    # 0.29 unpractised, 0.15 practised: working values, our own choice.
    eye = session(Profile(practised=False)).talk.play.head.game.eye
    assert eye.mat is not None
    assert eye.mat.relative_sd == 0.29


def test_the_class_of_sight_only_fills_what_was_left_open() -> None:
    open_form = Profile(sight_body="IBBA", sight_class="B4")
    assert session(open_form).talk.manner.prefs.form == "nearest four"
    assert not session(open_form).talk.manner.prefs.unasked
    chosen = open_form.model_copy(update={"form": "round the clock", "unasked": True})
    assert session(chosen).talk.manner.prefs.form == "round the clock"
    assert session(chosen).talk.manner.prefs.unasked


def test_a_class_of_sight_belongs_to_a_body() -> None:
    # IBSA has no B4; both bodies' own pages (read).
    assert (bodies(), list(classes("IBSA"))) == (("IBBA", "IBSA"), ["B1", "B2", "B3"])
    run("set", "sight body", "IBSA")
    assert isinstance(run("set", "sight class", "B4").exception, Problem)
    assert (
        "International Blind Sports Federation: logMAR 1.5 to 2.6" in run("set", "sight class", "B2").output
    )
    with pytest.raises(ValueError, match="needs its body"):
        Profile(sight_class="B1")


def test_bowl_sizes_run_from_116_to_131_millimetres() -> None:
    # Sizes 00 to 7: club laws pages (quoted); between the two, evenly (derived).
    widths = [Profile.model_validate({"bowl_size": size}).width_mm for size in ("00", *"01234567")]
    assert (widths[0], widths[-1]) == (116, 131)
    assert all(a is not None and b is not None and b - a in (1, 2) for a, b in itertools.pairwise(widths))
    assert Profile(bowl_size="3", bowl_mm=125).width_mm == 125


def test_the_replay_of_a_journal_needs_no_profile(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with Conversation(path) as conversation:
        take_up(conversation, ADA, "profile")
        conversation.hear(Heard(text="our first, one metre, two o'clock"))
        live = conversation.talk
    again = moment(journal.read(path)[0])
    assert (again.manner, again.play.head) == (live.manner, live.play.head)


def test_keep_my_settings_keeps_what_was_said_and_leaves_the_rest(home: Path) -> None:
    write_profile(Profile(microphone="earpiece", units="feet", rate=1), home)
    conversation = session(read_profile(home))
    for said in ("slower", "slower", "my pace is seventy centimetres", "right handed", "whole hours"):
        assert conversation.hear(Heard(text=said)).outcome == "noted"
    entry = conversation.hear(Heard(text="keep my settings"))
    assert [sentence.text for sentence in entry.say] == ["Settings kept for next time."]
    expected = Profile(microphone="earpiece", units="feet", rate=-1, pace_m=0.7, hand="right", hours="whole")
    assert read_profile(home) == expected
    assert session(expected).talk.manner == conversation.talk.manner


def test_settings_that_cannot_be_kept_are_refused_aloud(home: Path) -> None:
    home.parent.write_text("a file where the folder should be")
    conversation = session(Profile())
    entry = conversation.hear(Heard(text="keep my settings"))
    assert entry.outcome == "refused"
    assert "can't be made" in entry.say[0].text
    assert Conversation().hear(Heard(text="keep my settings")).outcome == "refused"


def test_a_pace_that_a_profile_does_not_take_is_refused_in_words_and_the_session_goes_on(home: Path) -> None:
    write_profile(Profile(units="feet"), home)
    conversation = session(read_profile(home))
    for pace in ("twenty metres", "seven metres", "half a foot"):
        assert conversation.hear(Heard(text=f"my pace is {pace}")).outcome == "refused"
    assert conversation.hear(Heard(text="keep my settings")).outcome == "noted"
    assert read_profile(home) == Profile(units="feet")
    conversation.file(PaceSet(value=0.7), "a file")
    assert conversation.hear(Heard(text="keep my settings")).outcome == "noted"
    assert read_profile(home) == Profile(units="feet", pace_m=0.7)


def test_what_is_usual_is_not_written() -> None:
    assert kept(Profile(), session(Profile()).talk) == Profile()
    assert kept(ADA, session(ADA).talk).model_copy(update={"bowl_mm": None}) == ADA


def test_the_command_sets_shows_and_deletes(home: Path) -> None:
    assert run("set", "pace", "0.65").output == "Pace, metres: 0.65.\n"
    assert run("set", "player headphones", "left ear").output == "Player headphones: left ear.\n"
    assert run("set", "groups", "yes").output == "Groups: yes.\n"
    assert read_profile(home) == Profile(pace_m=0.65, player_headphones="left ear", groups=True)
    assert "Pace, metres: 0.65.\n" in run().output
    assert run("set", "pace", "").output == "Pace: not set.\n"
    assert read_profile(home).pace_m is None
    assert run("delete").output == f"{home} is deleted.\n"
    assert not home.exists()
    assert run("delete").output == "There is no profile.\n"
    assert "Nothing is set." in run("show").output


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("pace", "12", "pace in metres: it must be at most 1.5"),
        ("rate", "fast", "rate: it must be a whole number"),
        ("hand", "both", "hand: it must be '"),
        ("colour", "red", "no 'colour'"),
        ("eye", "sharp", "found with a tape"),
        ("player", "two\nlines", "player"),
    ],
)
def test_what_cannot_be_set_is_said_and_nothing_changes(
    home: Path, name: str, value: str, words: str
) -> None:
    run("set", "units", "feet")
    result = run("set", name, value)
    assert isinstance(result.exception, Problem)
    assert words in str(result.exception)
    assert read_profile(home) == Profile(units="feet")


@pytest.mark.parametrize("text", ["pace_m: far", "colour: red", "[1, 2", "just words"])
def test_a_file_that_is_no_profile_is_named(home: Path, text: str) -> None:
    home.parent.mkdir()
    home.write_text(text)
    with pytest.raises(DataProblem, match=r"profile\.yaml"):
        read_profile(home)


def test_every_field_that_can_be_set_is_shown() -> None:
    shown = "\n".join(lines(ADA.model_copy(update={"headphones": "x", "bowl_mm": 120.0})))
    assert "Eye from the mat: calls 0.90 metres for each metre" in shown
    assert len(shown.splitlines()) == sum(getattr(ADA, name) is not None for name in SETTABLE) + 2


def test_tell_goes_by_a_profile_and_by_none_unless_told(tmp_path: Path, home: Path) -> None:
    write_profile(Profile(units="feet"), home)
    question = ["our first, one metre, two o'clock", "where is our first"]
    plain = CliRunner().invoke(tell.command, question)
    in_feet = CliRunner().invoke(tell.command, ["--profile", str(home), *question])
    assert "three feet" not in plain.output
    assert "three feet" in in_feet.output


def test_no_profile_is_made_by_looking(home: Path) -> None:
    assert read_if_there(home) == Profile()
    assert not home.exists()


def test_the_profile_in_the_documents_can_be_used(home: Path) -> None:
    page = (Path(__file__).parents[2] / "voicecoach" / "guide" / "coaching.md").read_text()
    block = re.search(r"```yaml\n(.*?)```", page, re.DOTALL)
    assert block
    home.parent.mkdir()
    home.write_text(block[1])
    pair = read_profile(home)
    assert (pair.player, pair.aim_m, pair.width_mm) == ("Ada", 5.0, 124)
    assert session(pair).talk.manner.player == "Ada"
