"""The bare stack on a microphone: what vosk's own example does, and pyttsx3 saying the words again.

`python -m tests.bench.against.bare_live PLAN MICROPHONE`; it loads what that stack needs and nothing more.
"""

import json
import queue
import sys
from pathlib import Path

import sounddevice

from tests.bench.against.bare import Bare

BLOCK = 8_000
"""Samples at a time, as in vosk's own example for a microphone."""


def main() -> None:
    """Listen until the process is ended."""
    plan = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    stack = Bare(plan["model"], json.dumps([*plan["words"], "[unk]"]))
    sound: queue.Queue[bytes] = queue.Queue()
    with sounddevice.RawInputStream(
        device=sys.argv[2],
        samplerate=16_000,
        blocksize=BLOCK,
        channels=1,
        dtype="int16",
        callback=lambda block, *_: sound.put(bytes(block)),
    ):
        print("Listening on", flush=True)
        while True:
            decided = stack.hear_block(sound.get())
            if decided is not None:
                stack.say(decided)


if __name__ == "__main__":
    main()
