"""What a conversation is given from outside: a place for another game, and what a wrong note costs."""

from pathlib import Path

import pytest

from tests.understand.reads import decodes
from voicecoach import journal
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.journal import JournalUnwritable
from voicecoach.session.values import Entry
from voicecoach.understand.values import BowlRested, GameSet

ONE, TWO = "our first, a metre, two o'clock", "their first, eighty centimetres, five o'clock"
DOUBTFUL = "our second eighty centimetres five o'clock"


def say(conversation: Conversation, text: str) -> Entry:
    return conversation.hear(Heard(text=text))


def spoken(entry: Entry) -> str:
    return " ".join(sentence.text for sentence in entry.say)


def texts(path: Path) -> list[str]:
    return [entry.heard.text for entry in journal.read(path)[0]]


@pytest.fixture
def paths(tmp_path: Path) -> tuple[Path, Path]:
    return tmp_path / "first.jsonl", tmp_path / "second.jsonl"


def resumed(paths: tuple[Path, Path]) -> Conversation:
    """A conversation that goes on with a game in which a bowl was called."""
    first, second = paths
    with Conversation(first) as before:
        assert not before.going_on
        say(before, ONE)
    conversation = Conversation(first, wait=True)
    conversation.another = lambda: second
    return conversation


def test_another_game_begins_with_an_empty_head_in_a_journal_of_its_own(paths: tuple[Path, Path]) -> None:
    with resumed(paths) as conversation:
        assert conversation.going_on
        assert conversation.may_begin_another
        entry = say(conversation, "another game")
        assert (entry.outcome, entry.number) == ("noted", 1)
        assert conversation.picture().lies == ()
        assert say(conversation, TWO).number == 2
    assert [texts(path) for path in paths] == [[ONE], ["another game", TWO]]


def test_once_something_was_called_no_other_game_is_begun(paths: tuple[Path, Path]) -> None:
    with resumed(paths) as conversation:
        say(conversation, "faster")
        say(conversation, "who holds")
        assert conversation.may_begin_another, "nothing was called since the start"
        say(conversation, TWO)
        assert not conversation.may_begin_another
        entry = say(conversation, "another game")
        assert entry.outcome == "refused"
        assert "A game is under way." in spoken(entry)
        assert len(conversation.picture().lies) == 2
    assert texts(paths[0]) == [ONE, "faster", "who holds", TWO, "another game"]
    assert not paths[1].exists()


def test_how_a_game_is_played_and_heard_is_nothing_called(paths: tuple[Path, Path]) -> None:
    with resumed(paths) as conversation:
        conversation.file(GameSet(format="pairs"), "pair.yaml")
        assert say(conversation, "another game").outcome == "noted"
        conversation.file(GameSet(format="pairs"), "pair.yaml")
        assert conversation.may_begin_another
    with Conversation(paths[1]) as again:
        assert not again.fresh, "it is set up"
        assert not again.going_on


def test_a_journal_that_holds_nothing_yet_serves_for_another_game(paths: tuple[Path, Path]) -> None:
    first, _ = paths
    with Conversation(first, wait=True) as conversation:
        conversation.another = lambda: first  # as the names of journals go: it holds nothing
        entry = say(conversation, "another game")
        assert (entry.outcome, entry.number) == ("noted", 1), spoken(entry)
        assert say(conversation, ONE).outcome == "noted"
    assert texts(first) == ["another game", ONE]


def test_where_there_is_no_place_for_another_game_this_one_goes_on(paths: tuple[Path, Path]) -> None:
    def nowhere() -> Path:
        raise JournalUnwritable("/home/2/journals can't be opened.", "The journal can't be opened.")

    with resumed(paths) as conversation:
        conversation.another = nowhere
        entry = say(conversation, "another game")
        assert (entry.outcome, entry.number) == ("refused", 2)
        assert spoken(entry) == "The journal can't be opened."
        conversation.another = None
        assert say(conversation, "another game").outcome == "refused"
        assert len(conversation.picture().lies) == 1
        assert say(conversation, TWO).outcome == "noted"
    assert texts(paths[0]) == [ONE, "another game", "another game", TWO]


def test_a_remark_that_no_journal_can_hold_is_refused_and_the_game_goes_on(paths: tuple[Path, Path]) -> None:
    with resumed(paths) as conversation:
        entry = say(conversation, "remark " + "so it goes " * 400_000)
        assert entry.outcome == "refused"
        assert entry.heard.text == ""
        assert conversation.talk.remarks == ()
        assert say(conversation, TWO).outcome == "noted"
    assert texts(paths[0]) == [ONE, "", TWO]
    with Conversation(paths[0]) as again:
        assert len(again.picture().lies) == 2


def doubtful() -> Heard:
    """What all decodes but one of thirty hear alike."""
    other = DOUBTFUL.replace("five", "nine")
    return decodes(*[DOUBTFUL] * 29, other)


def test_the_dearer_a_wrong_note_is_to_a_pair_the_sooner_it_is_asked_about() -> None:
    with Conversation() as usual, Conversation(wrong_note=50) as careful:
        filed, asked = usual.hear(doubtful()), careful.hear(doubtful())
        assert filed.outcome == "noted"
        assert isinstance(filed.note, BowlRested)
        assert asked.outcome == "asked"
        assert asked.open is not None
        assert asked.open.answers == ("five o'clock", "nine o'clock")
        assert careful.picture().lies == ()
        assert careful.hear(Heard(text=DOUBTFUL)).outcome == "noted", "what is typed is certain"
