"""What the other programs confirm with: pyttsx3 to a file, which says again what was heard."""

import tempfile
import wave
from pathlib import Path

from voicecoach.speak.engine import Engine


class Speaker:
    """One engine, started with the program; nothing else of ours is used than the check that it wrote."""

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory()
        self._engine = Engine()

    def say(self, text: str) -> bool:
        """Write the file, and read its first samples."""
        path = Path(self._folder.name) / "said.wav"
        self._engine.write(text, path, {})
        with wave.open(str(path)) as file:
            return bool(file.readframes(256))
