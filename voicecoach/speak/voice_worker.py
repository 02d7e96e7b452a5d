"""The helper process that holds the voice engine: `python -m voicecoach.speak.voice_worker FOLDER`.

The engine can hang or end its process, so it lives in one of its own. Requests come as JSON, one a
line on standard input, and answers go to standard output, one a line. Sound goes through files in FOLDER.
The folder belongs to the parent, and is removed here when the parent dies.
"""

import json
import shutil
import signal
import sys
from pathlib import Path
from typing import Any, TextIO

from voicecoach.speak.engine import Engine


def answer(engine: Engine, folder: Path, number: int, request: dict[str, Any]) -> dict[str, Any]:
    """Carry out one request. The answer names the file, or says what went wrong."""
    path = folder / f"{number}.wav"
    if not engine.write(request["text"], path, request["settings"]):
        return {"error": "the voice engine wrote no file"}
    return {"file": str(path)}


def serve(engine: Engine, folder: Path, requests: TextIO, answers: TextIO) -> None:
    """Answer requests until there are no more."""
    for number, line in enumerate(requests):
        print(json.dumps(answer(engine, folder, number, json.loads(line))), file=answers, flush=True)


def main() -> None:
    """Start the engine, say so, and serve."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent decides when to stop
    folder = Path(sys.argv[1])
    engine = Engine(bundled="--bundled" in sys.argv[2:])
    # Until its first file pyttsx3 only queues settings, so one is made before any are set.
    engine.write("ready", folder / "ready.wav", {})
    print(json.dumps({"ready": True}), flush=True)
    serve(engine, folder, sys.stdin, sys.stdout)
    shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
