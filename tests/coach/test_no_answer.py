"""A round in which nobody answers: what was said is said again, and the round ends."""

from contextlib import closing
from pathlib import Path

import pytest

from voicecoach import phrasebook
from voicecoach.commands import answering
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.hear.recogniser import Recogniser
from voicecoach.speak.mouth import Mouth


def test_what_was_asked_is_said_again_and_after_a_while_nobody_is_waited_for(
    model_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(answering, "ASK_AGAIN_S", 0.05)
    recogniser = Recogniser(model_path, phrasebook.load())
    spoken = answering.Spoken("microphone", Mouth(silent=True), recogniser, bool)
    said: list[Sentences] = []
    monkeypatch.setattr(spoken.voice, "say", said.append)
    with closing(spoken.devices):
        spoken.tell([Sentence(text="Say done, skip, again, back or stop.")])
        assert list(spoken.answers()) == []
        assert len(said) == 1 + 1 + answering.ASKED_TIMES
        assert set(said) == {(Sentence(text="Say done, skip, again, back or stop."),)}
