"""Pocketsphinx, to be measured: its own end of speech, its own model, a small grammar; pyttsx3 to a file.

The whole phrase book as a grammar takes more than five times real time. So it is given the plain forms
alone (`plain.jsgf`), which hold every note that is said to it here: the best case for it.
"""

import importlib
from pathlib import Path
from typing import Any

from tests.bench.against.speaker import Speaker


def make(_plan: dict[str, Any]) -> "Sphinx":
    """The program, ready for its first block."""
    return Sphinx(Path(__file__).with_name("plain.jsgf").read_text(encoding="ascii"))


class Sphinx:
    """Decides where its endpointer finds that speech has ended; all settings are its own defaults."""

    def __init__(self, grammar: str) -> None:
        self._library = importlib.import_module("pocketsphinx")
        self._decoder = self._library.Decoder(samprate=16_000, loglevel="FATAL", lm=None)
        self._decoder.add_jsgf_string("notes", grammar)
        self._decoder.activate_search("notes")
        self._speaker = Speaker()
        self._under_way = False
        self.fresh()
        self.block: int = self._ends.frame_bytes

    def fresh(self) -> None:
        """Forget what was heard."""
        self._end()
        self._ends = self._library.Endpointer()

    def hear_block(self, sound: bytes) -> str | None:
        """The words of an utterance that ended in this block."""
        speech = self._ends.process(sound)
        if speech is None:
            return None
        if not self._under_way:
            self._decoder.start_utt()
            self._under_way = True
        self._decoder.process_raw(speech)
        if self._ends.in_speech:
            return None
        self._end()
        best = self._decoder.hyp()
        return best.hypstr or None if best else None

    def say(self, decided: str | None) -> bool:
        """The words, said again."""
        return self._speaker.say(decided or "ready")

    def _end(self) -> None:
        if self._under_way:
            self._decoder.end_utt()
            self._under_way = False
