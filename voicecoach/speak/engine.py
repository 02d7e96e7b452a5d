"""The voice engine itself, pyttsx3 to a file. It runs only inside the helper process.

pyttsx3 with espeak-ng reports success for files it never wrote, applies settings late (a queue in
another thread), and prints to standard output. So settings are remembered here and given time to
take hold, and a file counts only once it is there and the engine has said that it finished it. What
the engine reads back can't be trusted alone: it may be espeak-ng's default instead.
"""

import contextlib
import ctypes
import importlib
import os
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

SETTLE_S = 0.2
TRIES = 4


def use_bundled_espeak() -> None:
    """Load the espeak-ng that comes in a wheel, so that pyttsx3 finds it by its name.

    The variable must be set first: without it espeak-ng ends the process when it can't find its data.
    """
    loader = importlib.import_module("espeakng_loader")
    os.environ["ESPEAK_DATA_PATH"] = loader.get_data_path()
    ctypes.CDLL(loader.get_library_path(), mode=ctypes.RTLD_GLOBAL)


def has_system_espeak() -> bool:
    """Whether the machine has an espeak-ng of its own. Systems other than Linux speak without it."""
    if not sys.platform.startswith("linux"):
        return True
    try:
        ctypes.CDLL("libespeak-ng.so.1")
    except OSError:
        return False
    return True


class Engine:
    """One pyttsx3 engine, used from one thread, one file at a time."""

    def __init__(self, bundled: bool = False) -> None:
        if bundled or not has_system_espeak():
            use_bundled_espeak()
        # Imported late, because importing it loads espeak-ng.
        self._engine = importlib.import_module("pyttsx3").init()
        self._completed = False
        self._held: dict[str, Any] = {}
        self._engine.connect("finished-utterance", self._finished)

    def _finished(self, name: str | None, completed: bool) -> None:
        self._completed = completed

    def write(self, text: str, path: Path, settings: dict[str, Any]) -> bool:
        """Speak `text` into a file with these settings; False when the engine failed to."""
        for _ in range(TRIES):
            self._completed = False
            for name, value in settings.items():
                self._set(name, value)
            with Path(os.devnull).open("w") as nowhere, contextlib.redirect_stdout(nowhere):
                self._engine.save_to_file(text, str(path))
                self._engine.runAndWait()
            if self._completed and path.exists():
                return True
            self._held.clear()  # whatever stopped the speech may have dropped the settings too
            path.unlink(missing_ok=True)
        return False

    def voices(self) -> list[tuple[str, str]]:
        """The English voices that there are: what each is asked for by, and what it is called."""
        return [
            (str(voice.id), str(voice.name))
            for voice in self._engine.getProperty("voices")
            if _is_english(str(voice.id), str(voice.name), getattr(voice, "languages", ()) or ())
        ]

    def _set(self, name: str, value: Any) -> None:
        if self._held.get(name) == value:
            return
        self._held[name] = value
        with contextlib.suppress(Exception):  # a driver without the property may raise anything
            self._engine.setProperty(name, value)
            end = time.monotonic() + SETTLE_S
            while time.monotonic() < end:
                time.sleep(0.002)
                if self._engine.getProperty(name) == value:
                    return


def _is_english(name: str, called: str, languages: Sequence[object]) -> bool:
    """True for an English voice. pyttsx3 gives languages as text or bytes, on Windows none at all."""
    spoken = [each.decode(errors="replace") if isinstance(each, bytes) else str(each) for each in languages]
    return any("en" in each.lower().replace("_", "-").strip("\x05").split("-")[:1] for each in spoken) or (
        not spoken and ("english" in called.lower() or "en-" in name.lower().replace("_", "-"))
    )
