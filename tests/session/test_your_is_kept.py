"""Whose "your" is, is asked once and kept in the pair's profile: the next game isn't asked."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.session.test_stories import assert_lies_as_written, tell
from voicecoach import journal
from voicecoach.__main__ import voicecoach
from voicecoach.coach.profile import Profile
from voicecoach.commands.opening import take_up
from voicecoach.conversation import Conversation
from voicecoach.head import picture
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.learning import Learning
from voicecoach.personal import read_if_there, write_profile
from voicecoach.session.replay import end_under_way, moment
from voicecoach.session.values import Entry
from voicecoach.session.view import head_line
from voicecoach.story import cut
from voicecoach.understand.notes.settings import YourMeans
from voicecoach.understand.values import Side

YOUR_SECOND = "your second eighty centimetres two o'clock"
KEPT = "That is kept for next time."


def spoken(text: str) -> Heard:
    return Heard(text=text, readings=(Hypothesis(decode="sentences", text=text, weight=1.0),))


def said(entry: Entry) -> str:
    return " ".join(sentence.text for sentence in entry.say)


@pytest.fixture
def session(tmp_path: Path) -> Callable[[str], Conversation]:
    """Opens a game of the pair, in a journal of that name, set up by their profile as `listen` does."""

    def opened(name: str) -> Conversation:
        profile = tmp_path / "profile.yaml"
        conversation = Conversation(tmp_path / name)
        conversation.learn = Learning(profile)
        take_up(conversation, read_if_there(profile), str(profile))
        return conversation

    return opened


def test_it_is_asked_in_the_first_game_told_when_it_is_kept_and_not_asked_in_the_next(
    session: Callable[[str], Conversation], tmp_path: Path
) -> None:
    with session("one.jsonl") as first:
        assert first.hear(spoken(YOUR_SECOND)).outcome == "asked"
        answered = first.hear(spoken("ours"))
        assert said(answered) == f"Our second: eighty centimetres, two o'clock. Your means our bowls. {KEPT}"
        assert first.hear(spoken("your third one metre four o'clock")).outcome == "noted"
    assert read_if_there(tmp_path / "profile.yaml").your == "ours"
    with session("two.jsonl") as second:
        noted = second.hear(spoken(YOUR_SECOND))
        assert said(noted) == "Our second: eighty centimetres, two o'clock."
    entries, _ = journal.read(tmp_path / "two.jsonl")
    assert entries[0].note == YourMeans(value="ours")
    assert entries[0].heard.source == str(tmp_path / "profile.yaml"), "the journal says where it came from"


def test_it_is_kept_for_their_bowls_too_once_it_has_been_answered_so_twice(
    session: Callable[[str], Conversation], tmp_path: Path
) -> None:
    with session("one.jsonl") as first:
        for which in ("first", "second"):
            assert first.hear(spoken(f"your {which} one metre five o'clock")).outcome == "asked"
            answered = first.hear(spoken("theirs"))
        assert said(answered).endswith(f"Your means their bowls. {KEPT}")
    with session("two.jsonl") as second:
        third = second.hear(spoken("your third one metre seven o'clock"))
        assert said(third) == "Their third: one metre, seven o'clock."


def test_it_is_changed_by_voice_and_by_the_command_and_can_be_asked_again(
    session: Callable[[str], Conversation], tmp_path: Path
) -> None:
    profile = tmp_path / "profile.yaml"
    with session("one.jsonl") as game:
        assert said(game.hear(spoken("your means theirs"))) == f"Your means their bowls. {KEPT}"
        assert read_if_there(profile).your == "theirs"
        assert said(game.hear(spoken("your means ours"))) == f"Your means our bowls. {KEPT}"
        assert read_if_there(profile).your == "ours"
        game.hear(spoken("ask me whose your is"))
        assert read_if_there(profile).your is None
        assert game.hear(spoken(YOUR_SECOND)).outcome == "asked"
    ran = CliRunner().invoke(voicecoach, ["profile", "--profile", str(profile), "set", "your", "theirs"])
    assert ran.output == "Your: theirs.\n"
    assert read_if_there(profile).your == "theirs"


def test_what_was_never_asked_about_is_not_kept(
    session: Callable[[str], Conversation], tmp_path: Path
) -> None:
    readings = tuple(
        Hypothesis(decode=str(at), text=YOUR_SECOND.replace("your", word), weight=1.0)
        for at, word in enumerate(("your", "our", "our", "our", "our"))
    )
    with session("one.jsonl") as game:
        entry = game.hear(Heard(text=YOUR_SECOND, readings=readings))
        assert entry.outcome in ("noted", "asked")
        game.hear(spoken("our third, a metre, two o'clock"))
    assert not (tmp_path / "profile.yaml").exists()


def test_another_pair_is_asked_for_itself(session: Callable[[str], Conversation], tmp_path: Path) -> None:
    write_profile(Profile(your="ours"), tmp_path / "another.yaml")
    with session("one.jsonl") as game:
        assert game.hear(spoken(YOUR_SECOND)).outcome == "asked"


@pytest.mark.parametrize("side", ["ours", "theirs"])
def test_a_story_and_the_end_under_way_say_it_and_come_to_the_same_head(
    session: Callable[[str], Conversation], tmp_path: Path, side: Side
) -> None:
    write_profile(Profile(your=side), tmp_path / "profile.yaml")
    with session("one.jsonl") as game:
        for line in (YOUR_SECOND, "the end is finished, two shots to us", "next end", YOUR_SECOND):
            game.hear(spoken(line))
    entries, _ = journal.read(tmp_path / "one.jsonl")
    lies = head_line(picture(moment(entries).play.head)).bowls
    assert [lie.side for lie in lies] == [side]
    for part in (entries, end_under_way(entries)):
        story = cut(part, lies, "A game")
        assert f"your means {side}" in [step.say for step in story.steps]
        assert_lies_as_written(story, tell(story))


def test_a_profile_that_cannot_be_written_stops_no_game(tmp_path: Path) -> None:
    (tmp_path / "profile.yaml").mkdir()
    with Conversation() as game:
        game.learn = Learning(tmp_path / "profile.yaml")
        game.hear(spoken(YOUR_SECOND))
        assert said(game.hear(spoken("ours"))) == "Our second: eighty centimetres, two o'clock."
