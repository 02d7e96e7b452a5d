"""Copies the model out of a folder or archive, and takes nothing that the manifest doesn't know."""

import hashlib
import lzma
import struct
import tarfile
import zipfile
import zlib
from pathlib import Path

from voicecoach.errors import ModelProblem
from voicecoach.model_store.manifest import CHUNK, Manifest, ModelFile
from voicecoach.model_store.progress import Progress
from voicecoach.model_store.trees import Tree, model_root, open_tree

DAMAGED = (
    zipfile.BadZipFile,
    tarfile.TarError,
    zlib.error,
    lzma.LZMAError,
    EOFError,
    RuntimeError,  # an encrypted zip, or a compression that Python lacks
    ValueError,
    struct.error,
)
"""What the archive libraries raise over a damaged archive."""


class ModelRefused(ModelProblem):
    """A source was reached, but what it holds isn't the model that the manifest describes."""


def unpack(origin: Path, target: Path, manifest: Manifest, progress: Progress) -> tuple[str, ...]:
    """Copy the model into `target`; returns what was left out, one line each.

    Only files that the manifest lists are written, under the names it gives them, and no more
    bytes of each than it allows: an archive can't reach outside `target` or fill the disk.
    """
    try:
        with open_tree(origin) as tree:
            root = model_root(tree)
            return _copy_all(tree, root, target, manifest, progress)
    except DAMAGED as error:
        raise ModelRefused(f"{origin} was refused: the archive is damaged ({error})") from error
    except ModelRefused as problem:
        raise ModelRefused(f"{origin} was refused: {problem}") from problem


def _copy_all(tree: Tree, root: str, target: Path, manifest: Manifest, progress: Progress) -> tuple[str, ...]:
    names = [name for name in tree.names() if name.startswith(root)]
    left_out = []
    faults = []
    for file in manifest.files:
        fault = (
            _copy(tree, root + file.path, target / file.path, file, progress)
            if root + file.path in names
            else (f"{file.path} is missing" if file.needed else None)
        )
        if fault and file.needed:
            faults.append(fault)
        elif fault:
            left_out.append(f"{fault}; the recogniser doesn't need it, and it was left out")
    if faults:
        raise ModelRefused("; ".join(faults))
    known = {root + file.path for file in manifest.files}
    left_out += [
        f"{name.removeprefix(root)} isn't in the manifest and was left out"
        for name in names
        if name not in known
    ]
    return tuple(left_out)


def _copy(tree: Tree, name: str, target: Path, file: ModelFile, progress: Progress) -> str | None:
    """Copy one file. Returns what is wrong with it, if anything, and leaves nothing behind then."""
    target.parent.mkdir(parents=True, exist_ok=True)
    digest = hashlib.sha256()
    size = 0
    with tree.open(name) as source, target.open("wb") as copy:
        while size <= file.size_bytes and (chunk := source.read(CHUNK)):
            size += len(chunk)
            digest.update(chunk)
            copy.write(chunk)
            progress.add(len(chunk))
    if size == file.size_bytes and digest.hexdigest() == file.sha256:
        return None
    target.unlink()
    return f"{file.path} doesn't match: its SHA-256 or its size isn't the manifest's"
