"""The bare stack, to be measured: vosk's own end of speech, and pyttsx3 to a file.

This module loads what that stack needs and nothing more.
"""

import json
from typing import Any

import vosk

from tests.bench.against.speaker import Speaker


def make(plan: dict[str, Any], *phrases: str) -> "Bare":
    """The stack, ready for its first block: with the flat list of the phrase book's words, or without."""
    return Bare(plan["model"], json.dumps([*plan["words"], "[unk]"]) if phrases else None)


class Bare:
    """Decides where vosk itself finds that speech has ended."""

    block = 4_096

    def __init__(self, model: str, phrases: str | None) -> None:
        vosk.SetLogLevel(-1)
        loaded = vosk.Model(model_path=model)
        self._vosk = vosk.KaldiRecognizer(loaded, 16_000, *([phrases] if phrases else []))
        self._speaker = Speaker()

    def fresh(self) -> None:
        """Forget what was heard."""
        self._vosk.FinalResult()

    def hear_block(self, sound: bytes) -> str | None:
        """The words of an utterance that ended in this block; a silence without words is no decision."""
        if not self._vosk.AcceptWaveform(sound):
            return None
        return str(json.loads(self._vosk.Result())["text"]).replace("[unk]", "").strip() or None

    def say(self, decided: str | None) -> bool:
        """The words, said again."""
        return self._speaker.say(decided or "ready")
