"""This program, to be measured: the ear, the turn and the voice, as `listen` joins them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from voicecoach import kept_book
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.hear.blocks import BLOCK, BLOCK_S, Block
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.speak import saying
from voicecoach.speak.voice import Voice


def make(plan: dict[str, Any]) -> Ours:
    """The program, ready for its first block."""
    return Ours(Path(plan["model"]))


class Ours:
    """Decides by a turn of the conversation; keeps no journal, so its wait for the disk is left out."""

    block = 2 * BLOCK

    def __init__(self, model: Path) -> None:
        self._voice = Voice()
        self._voice.start()
        self._recogniser = Recogniser(model, kept_book.load())
        self._begin()

    def fresh(self) -> None:
        """A new game, a new stream, and a voice that has kept nothing of the last one."""
        self._voice.close()
        self._voice = Voice()
        self._voice.start()
        self._begin()

    def _begin(self) -> None:
        self._say: Sentences = (Sentence(text="Ready."),)
        self._conversation = Conversation()
        self._ear = Ear(self._recogniser, self._conversation.is_whole)
        self._at_s = 0.0

    def hear_block(self, sound: bytes) -> dict[str, Any] | None:
        """The outcome and the note of an utterance that ended in this block."""
        block = Block(np.frombuffer(sound, "<i2").astype(np.float32) / np.float32(32_768), self._at_s)
        self._at_s += BLOCK_S
        decided = None
        for heard in self._ear.hear_block(block, "bench"):
            self._conversation.lapse(heard.started_s or 0.0)
            entry = self._conversation.hear(heard)
            self._ear.expect(kept_book.load().answers(self._conversation.talk.open))
            self._say = entry.say
            note = entry.note.model_dump(mode="json") if entry.note else None
            decided = {"outcome": entry.outcome, "note": note}
        return decided

    def say(self, _decided: Any) -> bool:
        """Its first sentence, as the headphones take it."""
        return next(saying.each(self._say, self._voice), None) is not None
