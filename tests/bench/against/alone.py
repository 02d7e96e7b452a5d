"""One program, measured in a process of its own: `python -m tests.bench.against.alone NAME FOLDER`.

It loads nothing that the program itself doesn't need, so that its memory and its start are its own.
FOLDER holds `plan.json` and the streams; the report is one line of JSON.
"""

import importlib
import json
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Protocol

RATE_HZ = 16_000
BYTES_A_SECOND = 2 * RATE_HZ


class Program(Protocol):
    """Sound in, what it decided that was said out, and the confirmation of it."""

    block: int
    """Bytes of sound that it takes at a time."""

    def hear_block(self, sound: bytes) -> Any:
        """Hear a block; give what was decided in it, as JSON can hold it, or None."""

    def say(self, decided: Any) -> bool:
        """Make the confirmation until its first sample could be played; False where there is none."""

    def fresh(self) -> None:
        """Forget what was heard."""


def main() -> None:
    """Measure the program and print what was found."""
    name, folder = sys.argv[1], Path(sys.argv[2])
    plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    module, arguments = plan["programs"][name]
    program: Program = importlib.import_module(module).make(plan, *arguments)
    ready = {"ready_at_s": time.monotonic(), "ready_work_s": time.process_time()}
    notes = {stream: list(_decisions(program, _sound(folder, stream))) for stream in plan["notes"]}
    print(json.dumps({**ready, "notes": notes, "memory_mb": _memory_mb()}))


def _sound(folder: Path, stream: str) -> bytes:
    return (folder / f"{stream}.raw").read_bytes()


def _decisions(program: Program, sound: bytes) -> Iterator[dict[str, Any]]:
    """What was decided, and when, had the sound come at its own pace and had nothing else been running.

    A block is worked on once it is there whole and the one before it is done: a program that is too slow
    falls behind.
    """
    program.fresh()
    program.say(None)  # the first sentence of all is slower, and is no confirmation
    done_s = 0.0
    for end in range(program.block, len(sound) + 1, program.block):
        before = time.process_time()
        decided = program.hear_block(sound[end - program.block : end])
        done_s = max(done_s, end / BYTES_A_SECOND) + time.process_time() - before
        if decided is not None:
            began = time.perf_counter()
            spoken = program.say(decided)
            spoken_s = done_s + time.perf_counter() - began if spoken else None
            yield {"at_s": done_s, "spoken_s": spoken_s, "decided": decided}


def _memory_mb() -> float:
    """The highest resident memory of this process and of the helpers it started, megabytes."""
    own = os.getpid()
    helpers = Path(f"/proc/{own}/task/{own}/children").read_text(encoding="ascii").split()
    pages = [Path(f"/proc/{each}/status").read_text(encoding="utf-8") for each in (str(own), *helpers)]
    peaks = [line.split()[1] for page in pages for line in page.splitlines() if line.startswith("VmHWM")]
    return sum(map(int, peaks)) / 1_024


if __name__ == "__main__":
    main()
