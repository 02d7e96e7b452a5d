"""Whether sound is kept, and which of it goes: what is asked, what is a yes, and what lasts."""

from pathlib import Path

import pytest

from voicecoach import journal
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.hear.values import Heard
from voicecoach.session.sound import ASKED_FOR_S
from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import SoundKept

ONE = "our first, a metre, two o'clock"


class Asked:
    """What a conversation wanted done about sound."""

    def __init__(self, conversation: Conversation, *, works: bool = True) -> None:
        self.done: list[str] = []
        self._works = works
        conversation.sound = self._do

    def _do(self, entry: Entry) -> None:
        if not self._works:
            raise Problem("The disk is full. Make room on the disk.")
        if isinstance(entry.note, SoundKept):
            self.done.append(entry.note.value)


def said(conversation: Conversation, text: str) -> tuple[str, str]:
    entry = conversation.hear(Heard(text=text), now_s=1.0)
    return entry.outcome, " ".join(sentence.text for sentence in entry.say)


def test_only_a_yes_begins_it_and_each_other_answer_leaves_it_off() -> None:
    with Conversation() as conversation:
        asked = Asked(conversation)
        for answer in ("no", ONE, "stop keeping sound"):
            assert conversation.ask_for_sound("director", 0.0).outcome == "asked"
            said(conversation, answer)
            assert not conversation.talk.manner.sound
        assert "on" not in asked.done
        conversation.ask_for_sound("director", 0.0)
        assert said(conversation, "yes") == ("noted", "From now on the sound is kept.")
        assert asked.done[-1] == "on"
        assert conversation.talk.open is None


def test_silence_is_a_no_once_there_was_time_to_answer() -> None:
    with Conversation() as conversation:
        asked = Asked(conversation)
        conversation.ask_for_sound("director", 0.0)
        assert conversation.lapse(ASKED_FOR_S - 1) is None
        lapsed = conversation.lapse(ASKED_FOR_S)
        assert lapsed is not None
        assert [sentence.text for sentence in lapsed.say] == ["No sound is kept."]
        assert asked.done == []


def test_forget_that_takes_a_note_back_where_no_sound_is_kept_and_asks_what_is_meant_where_it_is() -> None:
    with Conversation() as conversation:
        asked = Asked(conversation)
        said(conversation, ONE)
        assert said(conversation, "forget that") == ("noted", "Taken back: our first.")
        conversation.ask_for_sound("director", 0.0)
        said(conversation, "yes")
        said(conversation, ONE)
        assert said(conversation, "forget that")[0] == "asked"
        assert said(conversation, "the note") == ("noted", "Taken back: our first.")
        assert said(conversation, "forget that")[0] == "asked"
        assert said(conversation, "the last sound") == ("noted", "The last sound is deleted.")
        assert asked.done == ["on", "forget last"]


def test_what_can_not_be_done_is_said_and_nothing_is_confirmed() -> None:
    with Conversation() as conversation:
        Asked(conversation, works=False)
        assert said(conversation, "forget the sound") == (
            "refused",
            "The disk is full. Make room on the disk.",
        )
    with Conversation() as conversation:
        for line in ("keep the sound", "stop keeping sound", "forget the sound"):
            outcome, words = said(conversation, line)
            assert outcome == "refused"
            assert "Sound can only be kept where" in words


def test_a_session_that_goes_on_has_no_yes_from_the_one_before(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with Conversation(path) as conversation:
        Asked(conversation)
        conversation.ask_for_sound("director", 0.0)
        said(conversation, "yes")
        assert conversation.talk.manner.sound
    assert journal.read(path)[0][-1].note == SoundKept(value="on", confirmed=True)
    with Conversation(path) as again:
        assert not again.talk.manner.sound


@pytest.mark.parametrize("words", ["keep the sound", "keep my sound"])
def test_asking_for_it_by_voice_is_no_yes(words: str) -> None:
    with Conversation() as conversation:
        asked = Asked(conversation)
        assert said(conversation, words)[0] == "asked"
        assert asked.done == []
