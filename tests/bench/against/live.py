"""What listening costs while it happens: the programs on a virtual microphone, seen from outside."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import soundfile

from tests.bench.against.process import Cost, cost_over
from tests.virtual_sound import VirtualSound
from voicecoach.hear.blocks import RATE_HZ, Samples

STREAMS = ("silence", "wind", "speech")
MEASURED_S = 30.0
SETTLED_S = 5.0
"""Until the sound has reached the program, and what it says at its start is over."""
GREETED_S = 12.0


def costs(streams: dict[str, Samples], folder: Path) -> dict[tuple[str, str], Cost]:
    """By program and stream, what it costs; `folder` holds the plan."""
    with _virtual_sound() as sound:
        for stream in STREAMS:
            times = int(np.ceil((MEASURED_S + 2 * SETTLED_S) * RATE_HZ / streams[stream].size))
            soundfile.write(folder / f"{stream}.wav", np.tile(streams[stream], times), RATE_HZ)
        listen = ["-m", "voicecoach", "listen", "--journal", str(folder / "live.jsonl"), "--short-cautions"]
        listen += ["--microphone", sound.microphone, "--headphones", sound.headphones]
        bare = ["-m", "tests.bench.against.bare_live", str(folder / "plan.json"), sound.microphone]
        programs = {"this program": listen, "the bare stack": bare}
        return {
            (name, stream): cost
            for name, order in programs.items()
            for stream, cost in _measured(order, folder)
        }


def starts(folder: Path, times: int = 5) -> list[float]:
    """Seconds from the start of the process until it says that it listens, each time anew.

    The microphone is kept awake by another program: a virtual one that slept gives its first sound after two
    seconds, however soon it is asked; a real one's is its own.
    """
    with (
        _virtual_sound() as sound,
        _running(["parec", "--device=spoken.monitor", "--latency-msec=20"], subprocess.DEVNULL),
    ):
        time.sleep(GREETED_S / 4)
        took = []
        for number in range(times):
            order = ["-m", "voicecoach", "listen", "--journal", str(folder / f"start-{number}.jsonl")]
            order += ["--short-cautions", "--microphone", sound.microphone, "--headphones", sound.headphones]
            began = time.perf_counter()
            with _running([sys.executable, "-u", *order], subprocess.PIPE) as program:
                assert program.stdout is not None
                while b"Listening on" not in program.stdout.readline():
                    assert program.poll() is None, "it ended before it listened"
                took.append(time.perf_counter() - began)
        return took


def _measured(order: list[str], folder: Path) -> Iterator[tuple[str, Cost]]:
    with _running([sys.executable, "-u", *order], subprocess.PIPE) as program:
        assert program.stdout is not None
        while b"Listening on" not in program.stdout.readline():
            assert program.poll() is None, "it ended before it listened"
        time.sleep(GREETED_S)
        for stream in STREAMS:
            print(f"measuring {stream}, live", file=sys.stderr, flush=True)
            with _running(["paplay", "--device=spoken", str(folder / f"{stream}.wav")], subprocess.DEVNULL):
                time.sleep(SETTLED_S)
                yield stream, cost_over(program.pid, MEASURED_S)


@contextmanager
def _running(order: list[str], output: int) -> Iterator[subprocess.Popen[bytes]]:
    program = subprocess.Popen(order, stdin=subprocess.PIPE, stdout=output, stderr=subprocess.STDOUT)
    try:
        yield program
    finally:
        program.kill()
        program.communicate()


@contextmanager
def _virtual_sound() -> Iterator[VirtualSound]:
    with tempfile.TemporaryDirectory(prefix="voicecoach-") as folder:
        sound = VirtualSound(Path(folder))
        before = dict(os.environ)
        os.environ.update(sound.environment)
        try:
            sound.start()
            yield sound
        finally:
            sound.stop()
            os.environ.clear()
            os.environ.update(before)
