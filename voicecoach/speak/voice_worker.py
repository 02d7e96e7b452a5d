"""The helper process that holds the voice engine: `python -m voicecoach.speak.voice_worker FOLDER`.

The engine can hang or end its process, so it lives in one of its own. Requests come as JSON, one a
line on standard input, and answers go to standard output, one a line. Sound goes through files in FOLDER.
The folder belongs to the parent, and is removed here when the parent dies.
"""

import json
import shutil
import signal
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Protocol, TextIO

from voicecoach.speak.engine import Engine


class Speaks(Protocol):
    """A voice engine."""

    def write(self, text: str, path: Path, settings: dict[str, Any]) -> bool:
        """Speak `text` into a file with these settings; False when it failed to."""
        ...


def answer(engine: Speaks, folder: Path, number: int, request: dict[str, Any]) -> dict[str, Any]:
    """Carry out one request. The answer names the file, or says what went wrong."""
    if "voices" in request:
        return {"voices": engine.voices() if isinstance(engine, Engine) else []}
    path = folder / f"{number}.wav"
    if not engine.write(request["text"], path, request["settings"]):
        return {"error": "the voice engine wrote no file"}
    return {"file": str(path)}


def serve(engine: Speaks, folder: Path, requests: TextIO, answers: TextIO) -> None:
    """Answer requests until there are no more."""
    for number, line in enumerate(requests):
        print(json.dumps(answer(engine, folder, number, json.loads(line))), file=answers, flush=True)


def _engine(options: Sequence[str]) -> Speaks:
    if "--natural" in options:
        from voicecoach.speak.natural import Natural  # noqa: PLC0415 - few have it, and it takes its time

        return Natural()
    return Engine(bundled="--bundled" in options)


def main() -> None:
    """Start the engine, say so, and serve."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent decides when to stop
    folder = Path(sys.argv[1])
    engine = _engine(sys.argv[2:])
    # Until its first file pyttsx3 only queues settings, so one is made before any are set.
    engine.write("ready", folder / "ready.wav", {})
    print(json.dumps({"ready": True}), flush=True)
    serve(engine, folder, sys.stdin, sys.stdout)
    shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
