"""A speech model that isn't the manifest's: taken from whoever has one, listed, and gone back from.

Models of other accents of English are why. What it is made of is listed when it is taken, so that damage is
noticed later as it is with the manifest's own.
"""

from __future__ import annotations

import hashlib
import json
import re
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path, PurePosixPath

from pydantic import Field

from voicecoach import places
from voicecoach.errors import ModelProblem
from voicecoach.model_store.manifest import CHUNK, Below, Manifest, ModelFile, Name, faults
from voicecoach.model_store.trees import Tree, model_root, open_tree
from voicecoach.model_store.unpack import DAMAGED, ModelRefused
from voicecoach.value import Value

PHRASE_LISTS = ("graph/HCLr.fst", "graph/Gr.fst")
"""The two halves of a graph that a phrase list is put between. A model with one whole graph takes no list."""
_NEEDED = ("am/final.mdl", "conf/model.conf", *PHRASE_LISTS)
_TAKEN = re.compile(r"(am|conf|graph|ivector)/.+|README|LICENSE[A-Za-z.]*")
_LARGEST = 1 << 30
"""More bytes than this are not taken: models that take phrase lists have 40 to 250 megabytes."""
_TRIED_S = 600.0
FOLDER = "another"


class Trial(Value):
    """What came of loading the model and listening with it."""

    instead: dict[str, str] = Field(default_factory=dict)
    """The phrase book's words that it lacks, and as what each is heard."""
    unheard: tuple[str, ...] = ()
    """Those that it lacks and that are heard as nothing of their own."""
    spoken: str = ""
    """What the program's voice said; empty where there was no voice to try."""
    heard: str = ""
    """What it made of that."""


class Another(Value):
    """The model that is used in place of the manifest's."""

    name: Name
    """Its folder's name, or its archive's."""
    files: tuple[ModelFile, ...]
    trial: Trial = Trial()

    @property
    def instead(self) -> tuple[tuple[str, str], ...]:
        """The words that it lacks and that can be known again, each with how it is heard."""
        return tuple(sorted(self.trial.instead.items()))


def used() -> Another | None:
    """The other model that is to be used; None where it is the manifest's own.

    Raises:
        ModelProblem: What was noted of it can't be read.
    """
    record = places.another_model()
    if not record.is_file():
        return None
    try:
        return Another.model_validate_json(record.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise ModelProblem(f"{record} can't be read: {error}. {GO_BACK}") from None


GO_BACK = "To go back to the model that the program was measured with: voicecoach setup --original-model"


def wrong_with(other: Another, *, thorough: bool) -> tuple[str, ...]:
    """What is wrong with its files, one line a file."""
    return faults(places.models() / FOLDER, other, thorough=thorough)


def is_another(source: Path, manifest: Manifest) -> bool:
    """Whether this folder or archive holds a model that isn't the manifest's, whole or damaged.

    One that has the manifest's name, or graphs of just its size, is the manifest's, and is held to it.

    Raises:
        ModelProblem: It is no model, or one that takes no phrase list.
    """
    listed = {file.path: file.size_bytes for file in manifest.files}
    if not set(PHRASE_LISTS) <= set(listed):
        return False
    try:
        with open_tree(source) as tree:
            root = model_root(tree)
            names = set(tree.names())
            missing = [path for path in PHRASE_LISTS if root + path not in names]
            if missing:
                raise ModelRefused(
                    f"{source} was refused: the model in it has no {' and no '.join(missing)}. Such a model "
                    "takes no phrase list, and the program can't hear notes with it. Take one that has both"
                )
            if _name(source, root) == manifest.name:
                return False
            return any(_size(tree, root + path, listed[path]) != listed[path] for path in PHRASE_LISTS)
    except DAMAGED as error:
        raise ModelRefused(f"{source} was refused: the archive is damaged ({error})") from error


def _size(tree: Tree, name: str, up_to: int) -> int:
    """The size of a file in bytes, counted no further than a little beyond `up_to`."""
    size = 0
    with tree.open(name) as stream:
        while size <= up_to and (chunk := stream.read(CHUNK)):
            size += len(chunk)
    return size


def _name(source: Path, root: str) -> str:
    """A plain name for the model: its own folder's, or else that of what it came in."""
    inner = PurePosixPath(root).name if root else source.resolve().name
    plain = re.sub(r"\.(zip|aar|tar|tgz|tar\.\w+)$", "", inner)
    return re.sub(r"[^A-Za-z0-9_.+-]", "-", plain).lstrip(".+-")[:200] or "model"


def take(source: Path, work: Path, say: Callable[[str], None]) -> Another:
    """Copy the model into `work`, load it, listen with it once, and say what it can't hear.

    Raises:
        ModelProblem: It is damaged, or can't be loaded.
    """
    try:
        with open_tree(source) as tree:
            root = model_root(tree)
            files = _copy_all(tree, root, work / FOLDER)
    except DAMAGED as error:
        raise ModelRefused(f"{source} was refused: the archive is damaged ({error})") from error
    other = Another(name=_name(source, root), files=files)
    say(f"{other.name} isn't the model that comes with the program. It is tried now.")
    return other.model_copy(update={"trial": tried(work / FOLDER)})


def _copy_all(tree: Tree, root: str, target: Path) -> tuple[ModelFile, ...]:
    names = [name.removeprefix(root) for name in tree.names() if name.startswith(root)]
    wanted = [name for name in names if _TAKEN.fullmatch(name) and ".." not in PurePosixPath(name).parts]
    absent = [name for name in _NEEDED if name not in wanted]
    if absent:
        raise ModelRefused(f"The model was refused: {' and '.join(absent)} missing")
    files, left = [], _LARGEST
    for name in wanted:
        files.append(_copy(tree, root + name, name, target / name, left))
        left -= files[-1].size_bytes
    return tuple(files)


def _copy(tree: Tree, name: str, path: Below, target: Path, left: int) -> ModelFile:
    target.parent.mkdir(parents=True, exist_ok=True)
    digest, size = hashlib.sha256(), 0
    with tree.open(name) as stream, target.open("wb") as copy:
        while chunk := stream.read(CHUNK):
            size += len(chunk)
            if size > left:
                raise ModelRefused(f"The model was refused: it has more than {_LARGEST >> 20} megabytes")
            digest.update(chunk)
            copy.write(chunk)
    return ModelFile(path=path, size_bytes=size, sha256=digest.hexdigest(), needed="/" in path)


def tried(folder: Path) -> Trial:
    """What comes of listening with the model, in a process of its own: a damaged one can end its process.

    Raises:
        ModelRefused: It can't be loaded.
    """
    order = [sys.executable, "-m", "voicecoach.model_trial", str(folder)]
    try:
        done = subprocess.run(order, capture_output=True, text=True, timeout=_TRIED_S, check=False)
    except (OSError, subprocess.TimeoutExpired) as error:
        raise ModelRefused(f"The model was refused: it can't be tried ({error})") from error
    if done.returncode:
        told = done.stderr.strip().splitlines()
        raise ModelRefused(
            f"The model was refused: it can't be loaded ({told[-1] if told else 'it crashed'})"
        )
    return Trial.model_validate(json.loads(done.stdout))


def told(other: Another) -> list[str]:
    """What whoever chose the model should know, one line each."""
    trial = other.trial
    lines = [f"The speech model {other.name} is used in place of the one that comes with the program."]
    if trial.spoken:
        lines.append(f"The voice said: {trial.spoken}. It heard: {trial.heard or 'nothing'}.")
    else:
        lines.append("There was no voice to try it with.")
    lines += _lacks(trial.instead, trial.unheard)
    lines += ["Every measured figure in the guides is another model's. Try this one before a game.", GO_BACK]
    return lines


def _lacks(instead: Mapping[str, str], unheard: tuple[str, ...]) -> list[str]:
    if not instead and not unheard:
        return ["It knows every word of the phrase book."]
    lines = []
    if instead:
        listed = "; ".join(f"{word} is heard as {heard}" for word, heard in sorted(instead.items()))
        lines.append(f"It lacks these words, and takes what it writes in their place: {listed}.")
    if unheard:
        lines.append(
            f"It can't hear these words at all: {', '.join(unheard)}. Say it in another way, or type it."
        )
    return lines
