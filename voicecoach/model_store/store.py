"""Where the speech model is kept, and how it gets there: complete and checked, or not at all."""

import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click
from filelock import FileLock

from voicecoach import places
from voicecoach.errors import ModelProblem
from voicecoach.model_store import another, taught
from voicecoach.model_store.another import Another
from voicecoach.model_store.manifest import Manifest, faults, load
from voicecoach.model_store.progress import Silent
from voicecoach.model_store.unpack import ModelRefused, unpack

NAMED_BY = "VOICECOACH_MODEL"
"""The environment variable that names a folder or archive to take the model from."""
PARTIAL = "partial-"
"""What the names of unfinished downloads begin with."""

Tell = Callable[[str], None]


class NothingThere(ModelProblem):
    """What was named isn't there. That is wrong usage, as it is with any other file."""

    exit_status = 2


def model_path() -> Path:
    """The model's folder, ready to load. ModelProblem, if it isn't, tells every way to get the model."""
    other = another.used()
    if other is not None:
        return _folder_of(other)
    manifest = load()
    edition = manifest.with_taught()
    if edition and not faults(places.models() / edition.name, edition, thorough=False):
        return places.models() / edition.name
    folder = places.models() / manifest.name
    found = faults(folder, manifest, thorough=False)
    if not found:
        return folder
    what = f"it isn't complete: {'; '.join(found)}" if folder.is_dir() else "it isn't there"
    raise ModelProblem(f"The speech model can't be used ({folder}): {what}.\n{ways()}")


def _folder_of(other: Another) -> Path:
    folder = places.models() / another.FOLDER
    found = another.wrong_with(other, thorough=False)
    if found:
        raise ModelProblem(
            f"The speech model {other.name} can't be used ({folder}): {'; '.join(found)}. Take it anew: "
            f"voicecoach setup --model FOLDER-OR-ARCHIVE. {another.GO_BACK}"
        )
    return folder


def ways() -> str:
    """Every way to get the model, one line each."""
    manifest = load()
    return "\n".join(
        [
            "Ways to get it:",
            f"1. From a folder or archive of {manifest.name} that you have: "
            f"voicecoach setup --model FOLDER-OR-ARCHIVE (or set {NAMED_BY} and run voicecoach setup).",
            f"2. From its makers: voicecoach setup, with a network that reaches {manifest.home}",
            "3. From Maven: voicecoach setup, with the mvn client and a network that reaches its "
            "repository; or, on another machine: mvn dependency:copy "
            f"-Dartifact={manifest.maven.artifact} -DoutputDirectory=. "
            f"and then, here: voicecoach setup --model {manifest.maven.file_name}",
            "Typed notes work without it: voicecoach tell",
        ]
    )


def fetch(
    source: str | None = None,
    *,
    plain: bool | None = None,
    tell: Tell | None = None,
    noise: bool | None = None,
) -> Path:
    """Put the model in its place, from the first source that works, and give the folder that is used.

    A named source is always taken afresh. Where none is named, a complete model that is there is kept.
    The weights that were taught noise are laid over it where `noise` is true, and taken off where it is
    false. Where it is None they are left as they are. A named model that isn't the manifest's is used in its
    place until the manifest's is named, or `noise` is given.
    """
    say = tell or (lambda line: click.echo(line, err=True))
    manifest = load()
    named = source or os.environ.get(NAMED_BY) or None
    if named and not Path(named).expanduser().exists():
        raise NothingThere(f"There is nothing at {named}. Name a folder or archive of {manifest.name}.")
    if named and another.is_another(Path(named).expanduser(), manifest):
        if noise is not None:
            raise ModelProblem(f"{named} isn't the model that --noise-model and --original-model are about.")
        return _take(Path(named).expanduser(), say)
    if not named and noise is None and (other := another.used()) is not None:
        folder = _folder_of(other)
        for line in another.told(other):
            say(line)
        return folder
    target = places.models() / manifest.name
    if not named and not faults(target, manifest, thorough=True):
        say(f"The speech model is in place and complete: {target}")
    else:
        with _alone(target.parent), _workplace(target.parent) as work:
            _fill(work, named, manifest, plain, say)
            _put(work / manifest.name, target)
        say(f"The speech model is ready: {target}")
    _forget_another(target.parent, say)
    return _used(manifest, target, say, noise=noise)


def _take(source: Path, say: Tell) -> Path:
    """Put a model that isn't the manifest's in its place, once it was listened with."""
    store = places.models()
    with _alone(store), _workplace(store) as work:
        other = another.take(source, work, say)
        places.another_model().unlink(missing_ok=True)  # what is killed here leaves the manifest's in use
        _put(work / another.FOLDER, store / another.FOLDER)
        record = work / "record"
        record.write_text(other.model_dump_json(indent=1), encoding="utf-8")
        record.rename(places.another_model())
    for line in another.told(other):
        say(line)
    return store / another.FOLDER


def _forget_another(store: Path, say: Tell) -> None:
    """Go back to the manifest's model."""
    record = places.another_model()
    if not record.exists():
        return
    with _alone(store):
        record.unlink()
        shutil.rmtree(store / another.FOLDER, ignore_errors=True)
    say("The other speech model is no longer used, and its copy was removed.")


def _used(manifest: Manifest, target: Path, say: Tell, *, noise: bool | None) -> Path:
    """The folder of the model that is used from now on: with the taught weights, or as it was made."""
    edition = manifest.with_taught()
    if manifest.taught is None or edition is None:
        return target
    place = target.parent / edition.name
    if noise is None and not place.exists():
        return target
    if noise is False:
        with _alone(target.parent), _workplace(target.parent) as work:
            if place.exists():
                place.rename(work / "old")
        say("The model is used as its makers made it.")
        return target
    if faults(place, edition, thorough=True):
        with _alone(target.parent), _workplace(target.parent) as work:
            weights = places.manifest().parent / manifest.taught.weights.path
            taught.make(manifest, manifest.taught, weights, target, work / edition.name)
            _put(work / edition.name, place)
    say(f"It is used with weights that were taught noise: {place}")
    say("To use it as its makers made it: voicecoach setup --original-model")
    return place


def wrong_with(folder: Path) -> tuple[str, ...]:
    """What is wrong with the model in this folder, one line a file; every file is read."""
    other = another.used()
    if other is not None and folder.name == another.FOLDER:
        return another.wrong_with(other, thorough=True)
    manifest = load()
    edition = manifest.with_taught()
    return faults(folder, edition if edition and folder.name == edition.name else manifest, thorough=True)


def _fill(work: Path, named: str | None, manifest: Manifest, plain: bool | None, say: Tell) -> None:
    """Try the sources in turn until the model lies in the workplace."""
    if named:
        _unpack(Path(named).expanduser(), work, manifest, f"what you named, {named}", say)
        return
    missed = []
    from voicecoach.model_store import downloads  # noqa: PLC0415 - what opens connections is large, and seldom used

    for what, download in (("its makers' home", downloads.from_home), ("Maven", downloads.from_maven)):
        say(f"Trying {what}")
        try:
            archive = download(manifest, work, plain=plain)
            _unpack(archive, work, manifest, what, say)
            return
        except ModelProblem as problem:
            missed.append(str(problem))
            say(f"That didn't work: {problem}")
    raise ModelProblem(f"The speech model could not be fetched: {'; '.join(missed)}.\n{ways()}")


def _unpack(archive: Path, work: Path, manifest: Manifest, what: str, say: Tell) -> None:
    target = work / manifest.name
    try:
        left_out = unpack(archive, target, manifest, Silent())
    except ModelRefused:
        shutil.rmtree(target, ignore_errors=True)
        raise
    for line in left_out:
        say(f"Note: {line}")
    say(f"The speech model comes from {what}; {manifest.title}, {manifest.licence}")
    say("Every file that the recogniser reads matches the manifest's SHA-256")


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Only one set-up at a time works in a folder."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with FileLock(folder / "setup.lock"):
            yield
    except OSError as error:
        raise ModelProblem(f"The speech model can't be put into {folder}: {error}") from error


@contextmanager
def _workplace(folder: Path) -> Iterator[Path]:
    """A temporary folder beside the model's place. What a killed set-up left is cleared away first."""
    for stale in folder.glob(f"{PARTIAL}*"):
        shutil.rmtree(stale, ignore_errors=True)
    with tempfile.TemporaryDirectory(prefix=PARTIAL, dir=folder) as work:
        yield Path(work)


def _put(made: Path, target: Path) -> None:
    """Rename the finished folder to its place. The old one is removed only once the new one is ready."""
    if target.exists():
        target.rename(made.parent / "old")
    made.rename(target)
