"""The list of the model's files: names, sizes, SHA-256, licence, and where it comes from."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Annotated, BinaryIO, Protocol

from pydantic import Field

from voicecoach import places
from voicecoach.errors import ModelProblem
from voicecoach.value import Value

CHUNK = 1 << 20
_NAME = r"[A-Za-z0-9_][A-Za-z0-9_.+-]*"
Name = Annotated[str, Field(pattern=f"^{_NAME}$", max_length=200)]
"""A bare name of a file or folder."""
Below = Annotated[str, Field(pattern=f"^{_NAME}(/{_NAME})*$", max_length=400)]
"""A path that can't lead out of the folder in which it begins."""
Hash = Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
Bytes = Annotated[int, Field(ge=0, lt=1 << 40)]


class ModelFile(Value):
    """One file of the model."""

    path: Below
    """Below the model's folder, with forward slashes."""
    size_bytes: Bytes
    sha256: Hash
    needed: bool = True
    """False for files such as a README that the recogniser doesn't read. They may be absent."""


class Maven(Value):
    """The Maven artifact that carries the model."""

    artifact: str
    """Group, name, version and type."""
    file_name: Name
    size_bytes: Bytes
    sha256: Hash


class Taught(Value):
    """Weights that were learnt here, to be laid over the makers' own."""

    name: Name
    """The name of the folder that holds the model with them."""
    title: str
    made_by: str
    licence: str
    origin: str
    """How they came about."""
    weights: ModelFile
    """What comes with the program, beside the manifest."""
    changed: ModelFile
    """The one file of the model that they change, as it is with them."""


class Manifest(Value):
    """What the model is and how to recognise it."""

    name: Name
    """The name of its folder."""
    title: str
    made_by: str
    licence: str
    checked: str
    """Where the hashes come from, and what could not be checked."""
    home: Annotated[str, Field(pattern=r"^https?://[!-~]+$")]
    """The address of its archive at its makers' site."""
    maven: Maven
    files: tuple[ModelFile, ...]
    taught: Taught | None = None

    def with_taught(self) -> Manifest | None:
        """The model with the taught weights in it; None where there are none."""
        if self.taught is None:
            return None
        changed = self.taught.changed
        files = tuple(changed if file.path == changed.path else file for file in self.files)
        return self.model_copy(update={"name": self.taught.name, "files": files, "taught": None})

    @property
    def size_bytes(self) -> int:
        """The size of the unpacked model."""
        return sum(file.size_bytes for file in self.files)


def load() -> Manifest:
    """Read the manifest that comes with the program."""
    return read(places.manifest())


def read(path: Path) -> Manifest:
    """Read a manifest; raises ModelProblem where the file isn't one."""
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


class Listed(Protocol):
    """Whatever lists a model's files."""

    @property
    def files(self) -> tuple[ModelFile, ...]:
        """The files."""
        ...


def faults(folder: Path, manifest: Listed, *, thorough: bool) -> tuple[str, ...]:
    """What is wrong with a model's folder, one line a file; `thorough` reads and hashes every file."""
    found = (fault(folder, file, thorough=thorough) for file in manifest.files)
    return tuple(one for one in found if one)


def fault(folder: Path, file: ModelFile, *, thorough: bool) -> str | None:
    """What is wrong with one file in a folder, if anything."""
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
