"""A model of a few bytes with a manifest of its own, and the program as it looks when installed."""

import hashlib
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from voicecoach import places
from voicecoach.model_store.manifest import Manifest, Maven, ModelFile

CONTENT = {
    "am/final.mdl": b"how things sound" * 100,
    "conf/model.conf": b"--min-active=200\n",
    "graph/Gr.fst": b"which words there are" * 100,
    "graph/phones/word_boundary.int": b"1 nonword\n",
    "README": b"A model for tests\n",
}


def write(folder: Path, content: dict[str, bytes]) -> Path:
    """Write the files into a folder."""
    for name, data in content.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return folder


def pack(archive: Path, inside: str, content: dict[str, bytes]) -> Path:
    """Zip the files, below a folder inside the archive."""
    with zipfile.ZipFile(archive, "w") as file:
        for name, data in content.items():
            file.writestr(inside + name, data)
    return archive


def manifest_of(archive: Path, home: str) -> Manifest:
    """A manifest for the tiny model, with this archive as its Maven artifact."""
    files = tuple(
        ModelFile(
            path=name, size_bytes=len(data), sha256=hashlib.sha256(data).hexdigest(), needed=name != "README"
        )
        for name, data in CONTENT.items()
    )
    maven = Maven(
        artifact="com.example:tiny:1:aar",
        file_name=archive.name,
        size_bytes=archive.stat().st_size,
        sha256=hashlib.sha256(archive.read_bytes()).hexdigest(),
    )
    return Manifest(
        name="tiny-model",
        title="A tiny model",
        made_by="The tests",
        licence="Apache-2.0",
        checked="",
        home=home,
        maven=maven,
        files=files,
    )


@pytest.fixture
def aar(tmp_path: Path) -> Path:
    """The tiny model as Maven would give it."""
    return pack(tmp_path / "tiny-1.aar", "assets/model-en-us/", {**CONTENT, "uuid": b"1234"})


@pytest.fixture
def store(tmp_path: Path, aar: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty place for the tiny model; its home can't be reached and there is no mvn."""
    use(manifest_of(aar, "http://127.0.0.1:9/tiny-model.zip"), tmp_path, monkeypatch)
    monkeypatch.setattr(places, "models", lambda: tmp_path / "models")
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    monkeypatch.delenv("VOICECOACH_MODEL", raising=False)
    return tmp_path / "models"


def use(manifest: Manifest, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Make the program read this manifest."""
    path = folder / "manifest.json"
    path.write_text(manifest.model_dump_json())
    monkeypatch.setattr(places, "manifest", lambda: path)


@pytest.fixture(scope="session")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the program installed from a wheel that was built from its source archive.

    Put it on PYTHONPATH: nothing of the checkout is used then.
    """
    folder = tmp_path_factory.mktemp("installed")
    root = places.checkout()
    assert root is not None
    copy = folder / "checkout"
    # The speech model's folder stays behind; the slips file in the phrase book has its name and an ending.
    ignore = shutil.ignore_patterns(".*", "vosk-*-0.15", "__pycache__", "*.egg-info", "build", "dist", "out")
    shutil.copytree(root, copy, ignore=ignore)
    _run(copy, "-c", "import hatchling.build as build; build.build_sdist('../sdist')")
    shutil.unpack_archive(next((folder / "sdist").glob("voicecoach-*.tar.gz")), folder / "unpacked")
    source = next((folder / "unpacked").iterdir())
    pip = ("-m", "pip", "--quiet", "--disable-pip-version-check")
    _run(
        source,
        *pip,
        "wheel",
        "--no-index",
        "--no-deps",
        "--no-build-isolation",
        "--wheel-dir",
        "../../wheel",
        ".",
    )
    wheel = next((folder / "wheel").glob("voicecoach-*.whl"))
    _run(folder, *pip, "install", "--no-index", "--no-deps", "--target", "site", str(wheel))
    return folder / "site"


def _run(folder: Path, *words: str) -> None:
    done = subprocess.run([sys.executable, *words], cwd=folder, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
