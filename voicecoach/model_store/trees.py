"""Reads a model's folder and its archive in the same way: names, and a stream for each."""

import tarfile
import zipfile
from abc import ABC, abstractmethod
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import BinaryIO, cast

from voicecoach.errors import ModelProblem

LANDMARKS = ("conf/model.conf", "am/final.mdl", "graph/Gr.fst")
"""Files by which the model's folder is found inside an archive, wherever it lies there."""


class Tree(ABC):
    """Files below one root."""

    @abstractmethod
    def names(self) -> list[str]:
        """Every file's name, with forward slashes."""

    @abstractmethod
    def open(self, name: str) -> BinaryIO:
        """A stream of one file."""


class _Folder(Tree):
    def __init__(self, root: Path) -> None:
        self.root = root

    def names(self) -> list[str]:
        return sorted(
            path.relative_to(self.root).as_posix() for path in self.root.rglob("*") if path.is_file()
        )

    def open(self, name: str) -> BinaryIO:
        return (self.root / name).open("rb")


class _Zip(Tree):
    def __init__(self, archive: zipfile.ZipFile) -> None:
        self.archive = archive

    def names(self) -> list[str]:
        return [info.filename for info in self.archive.infolist() if not info.is_dir()]

    def open(self, name: str) -> BinaryIO:
        return cast(BinaryIO, self.archive.open(name))


class _Tar(Tree):
    def __init__(self, archive: tarfile.TarFile) -> None:
        self.members = {member.name: member for member in archive.getmembers() if member.isfile()}
        self.archive = archive

    def names(self) -> list[str]:
        return list(self.members)

    def open(self, name: str) -> BinaryIO:
        stream = self.archive.extractfile(self.members[name])
        if stream is None:
            raise KeyError(name)
        return cast(BinaryIO, stream)


@contextmanager
def open_tree(origin: Path) -> Iterator[Tree]:
    """Open a folder, a zip (an aar is one) or a tar archive."""
    if origin.is_dir():
        yield _Folder(origin)
    elif not origin.exists():
        raise ModelProblem(f"There is nothing at {origin}")
    elif zipfile.is_zipfile(origin):
        with zipfile.ZipFile(origin) as archive:
            yield _Zip(archive)
    elif tarfile.is_tarfile(origin):
        with tarfile.open(origin) as archive:
            yield _Tar(archive)
    else:
        raise ModelProblem(f"{origin} is neither a folder, nor a zip, aar or tar archive")


def model_root(tree: Tree) -> str:
    """The folder inside the tree that holds the model, as a prefix; empty for the tree itself."""
    names = sorted(tree.names(), key=lambda name: len(PurePosixPath(name).parts))
    for landmark in LANDMARKS:
        for name in names:
            if name == landmark or name.endswith("/" + landmark):
                return name.removesuffix(landmark)
    raise ModelProblem("no speech model is in it (no am/final.mdl, no conf/model.conf)")
