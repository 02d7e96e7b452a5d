"""A voice's process that fails in a chosen way the first times it is asked, then works.

Run as `python -m tests.speak.bad_voice WAY TIMES FILE FOLDER`; FILE counts the failures over restarts.
"""

import json
import sys
import time
import wave
from pathlib import Path

from voicecoach.speak import voice_worker

WAY, TIMES, COUNTED = sys.argv[1], int(sys.argv[2]), Path(sys.argv[3])
FOLDER = Path(sys.argv[4])


def failed_before() -> int:
    return len(COUNTED.read_text()) if COUNTED.exists() else 0


def answer_badly() -> None:
    COUNTED.write_text("x" * (failed_before() + 1))
    file = FOLDER / "bad.wav"
    if WAY == "hangs":
        time.sleep(600)
    if WAY == "dies":
        sys.exit("out of breath")
    if WAY == "babbles":
        print("Segmentation fault", flush=True)
    if WAY == "writes nothing":
        file.write_bytes(b"")
    if WAY == "writes silence":
        with wave.open(str(file), "wb") as silence:
            silence.setparams((1, 2, 22_050, 0, "NONE", "not compressed"))
            silence.writeframes(bytes(4_000))
    if WAY == "writes noise":
        file.write_bytes(b"RIFF" + bytes(range(256)))
    print(json.dumps({"file": str(file)}), flush=True)


if failed_before() < TIMES:
    print(json.dumps({"ready": True}), flush=True)
    for _ in sys.stdin:
        answer_badly()
else:
    sys.argv = [sys.argv[0], str(FOLDER)]
    voice_worker.main()
