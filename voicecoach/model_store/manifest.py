"""The list of the model's files: names, sizes, SHA-256, licence, and where it comes from."""

import hashlib
from pathlib import Path
from typing import BinaryIO

from voicecoach import places
from voicecoach.errors import ModelProblem
from voicecoach.value import Value

CHUNK = 1 << 20


class ModelFile(Value):
    """One file of the model."""

    path: str
    """Below the model's folder, with forward slashes."""
    size_bytes: int
    sha256: str
    needed: bool = True
    """False for papers that the recogniser doesn't read: they may be absent."""


class Maven(Value):
    """The Maven artifact that carries the model."""

    artifact: str
    """Group, name, version and type."""
    file_name: str
    size_bytes: int
    sha256: str


class Manifest(Value):
    """What the model is and how to know it."""

    name: str
    """The name of its folder."""
    title: str
    made_by: str
    licence: str
    checked: str
    """How the hashes were come by, and what could not be checked."""
    home: str
    """The address of its archive at its makers'."""
    maven: Maven
    files: tuple[ModelFile, ...]

    @property
    def size_bytes(self) -> int:
        """The size of the unpacked model."""
        return sum(file.size_bytes for file in self.files)


def load() -> Manifest:
    """Read the manifest that comes with the program."""
    path = places.manifest()
    try:
        return Manifest.model_validate_json(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise ModelProblem(f"The list of the speech model's files, {path}, can't be read: {error}") from error


def sha256(stream: BinaryIO) -> str:
    """The SHA-256 of the rest of a stream."""
    digest = hashlib.sha256()
    while chunk := stream.read(CHUNK):
        digest.update(chunk)
    return digest.hexdigest()


def faults(folder: Path, manifest: Manifest, *, thorough: bool) -> tuple[str, ...]:
    """What is wrong with a model's folder, one line a file; thorough reads and hashes every file."""
    found = (_fault(folder, file, thorough) for file in manifest.files)
    return tuple(fault for fault in found if fault)


def _fault(folder: Path, file: ModelFile, thorough: bool) -> str | None:
    path = folder / file.path
    if not path.is_file():
        return f"{file.path} is missing" if file.needed else None
    size = path.stat().st_size
    if size != file.size_bytes:
        return f"{file.path} has {size} bytes, not {file.size_bytes}"
    if thorough:
        with path.open("rb") as stream:
            if sha256(stream) != file.sha256:
                return f"{file.path} doesn't match its SHA-256"
    return None
