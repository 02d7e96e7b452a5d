"""A folder of sound that was kept with consent: a WAV for each utterance, and what came of it beside it."""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Literal

from voicecoach import places
from voicecoach.errors import Problem, shown, what_to_do, why
from voicecoach.hear.blocks import Samples
from voicecoach.hear.values import Heard, Text
from voicecoach.hear.wav import as_wav
from voicecoach.session.values import Outcome, Speaker
from voicecoach.understand.values import Note, OpenQuestion
from voicecoach.value import Value

README = "README.md"
"""What the folder is for, what was consented to, how to delete and how to send it: a copy of the guide."""
OTHERS = 0o077
"""What others than its owner may do."""
NOT_FOR_OTHERS = "Others can look into the folder {folder}, and it holds other files. Name a new folder."
CANT_BE_CLOSED = "Others can look into the folder {folder}, and that can't be changed. Name another place."


class KeptSound(Value):
    """What was heard in one sound, and what came of it: the JSON file beside each WAV."""

    version: Literal[1] = 1
    sound: str
    """The name of the WAV: 16 bits, one channel, 16 kHz."""
    at: str
    """When it was taken, ISO 8601 with the offset from UTC."""
    consented_at: str
    """When whoever speaks said yes to keeping it, ISO 8601 with the offset from UTC."""
    speaker: Speaker
    """Whose microphone it is from."""
    microphone: Text
    """The name of that microphone."""
    seconds: float
    """How long it is, with what was heard before the first word and after the last."""
    heard: Heard
    """The words that were heard, and all that the ear held possible."""
    answering: OpenQuestion | None = None
    """The question that was open when it was said."""
    outcome: Outcome | Literal["no words"]
    """What came of it; `no words` where none were heard."""
    note: Note | None = None
    """What it was taken to mean: for noted and answered outcomes only."""
    say: tuple[str, ...] = ()
    """What was spoken in answer."""


class SoundFolder:
    """Writes sound for its owner alone. Nothing is there until `make`."""

    def __init__(self, path: Path) -> None:
        """Look at the folder, if it is there, without changing anything.

        Raises:
            Problem: The folder above it isn't there, or others may look into it and it holds other files.
        """
        self.path = path
        self._made_here: list[str] = []
        self._prefix = ""
        if not path.absolute().parent.is_dir() or (path.exists() and not path.is_dir()):
            raise Problem(
                f"{shown(path)} can't be a folder: there is no folder above it, or a file is there."
            )
        if path.is_dir() and _open_to_others(path) and not _is_ours(path):
            raise Problem(NOT_FOR_OTHERS.format(folder=shown(path)))

    @property
    def kept(self) -> int:
        """How many sounds of this session it holds."""
        return len(self._made_here)

    def make(self) -> None:
        """Make the folder, for its owner alone, with what to know about it.

        Raises:
            Problem: It can't be made, or others could look into it.
        """
        self._try(self._make)
        if _open_to_others(self.path):
            raise Problem(CANT_BE_CLOSED.format(folder=shown(self.path)))

    def keep(self, sound: Samples, told: Callable[[str], KeptSound]) -> None:
        """Keep one sound and what came of it: both, or neither.

        Args:
            sound: The samples.
            told: Gives what came of it, for the WAV's name.

        Raises:
            Problem: It can't be written.
        """
        name = f"{self._prefix}-{len(self._made_here) + 1:04d}"
        files = {f"{name}.wav": as_wav(sound)}
        files[f"{name}.json"] = told(f"{name}.wav").model_dump_json(indent=1).encode()
        try:
            self._try(lambda: self._write(files))
        except Problem:
            self._remove(name)
            raise
        self._made_here.append(name)

    def forget(self, *, every: bool) -> None:
        """Delete the last sound of this session, or every one.

        Raises:
            Problem: It can't be deleted.
        """
        while self._made_here:
            self._try(lambda: self._remove(self._made_here[-1]))
            self._made_here.pop()
            if not every:
                return

    def _make(self) -> None:
        self.path.mkdir(mode=0o700, exist_ok=True)
        with suppress(OSError):  # not every file system knows of owners; what came of it is looked at
            self.path.chmod(0o700)
        if not (self.path / README).exists():
            self._write({README: (places.PACKAGE / "guide" / "kept-sound.md").read_bytes()})
        self._prefix = self._prefix or f"{datetime.now():%Y%m%d-%H%M%S}"

    def _write(self, files: dict[str, bytes]) -> None:
        for name, content in files.items():
            handle = os.open(self.path / name, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(handle, "wb") as file:
                file.write(content)

    def _remove(self, name: str) -> None:
        for ending in ("wav", "json"):
            (self.path / f"{name}.{ending}").unlink(missing_ok=True)

    def _try(self, act: Callable[[], None]) -> None:
        try:
            act()
        except OSError as error:
            raise Problem(f"The sound can't be kept: {why(error)}. {what_to_do(error)}") from None


def read(path: Path) -> KeptSound:
    """What came of one sound, from its JSON file; raises ValidationError and OSError."""
    return KeptSound.model_validate_json(path.read_text(encoding="utf-8"))


def _open_to_others(path: Path) -> bool:
    return os.name != "nt" and bool(path.stat().st_mode & OTHERS)


def _is_ours(path: Path) -> bool:
    """True for an empty folder and for one that sound was kept in before."""
    names = [each.name for each in path.iterdir()]
    return not names or README in names
