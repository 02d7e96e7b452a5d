"""The programs that are compared, each run in a process of its own."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from tests.bench.against.measured import Report
from voicecoach import phrasebook
from voicecoach.model_store import model_path

HERE = "tests.bench.against"
PROGRAMS: dict[str, tuple[str, tuple[str, ...], tuple[str, ...]]] = {
    "this program": (f"{HERE}.ours", (), ("vosk",)),
    "the bare stack": (f"{HERE}.bare", ("words",), ("vosk", "pyttsx3")),
    "the bare stack without a word list": (f"{HERE}.bare", (), ("vosk", "pyttsx3")),
    "pocketsphinx with a small grammar": (f"{HERE}.sphinx", (), ("pocketsphinx", "pyttsx3")),
}
"""Each one's module, what is handed to it, and the packages it needs."""
BESIDE = "the bare stack"
WITH_THE_MODEL = ("this program", "the bare stack", "the bare stack without a word list")
NOTES = ("calm", "in wind")
WAIT_S = 600


def write_plan(folder: Path) -> None:
    """What the programs are told."""
    plan = {
        "model": str(model_path()),
        "words": sorted(phrasebook.load().words()),
        "programs": {name: (module, handed) for name, (module, handed, _) in PROGRAMS.items()},
        "notes": NOTES,
    }
    (folder / "plan.json").write_text(json.dumps(plan), encoding="utf-8")


def reports(folder: Path) -> Iterator[tuple[str, Report]]:
    """Each program's report; says which isn't here, and which failed."""
    for name, (_, _, packages) in PROGRAMS.items():
        missing = [each for each in packages if importlib.util.find_spec(each) is None]
        if missing:
            reason = f"{missing[0]} isn't here (pip install {missing[0]})"
            print(f"The lines of {name} are left out: {reason}.", flush=True)
            continue
        print(f"measuring {name}", file=sys.stderr, flush=True)
        found = _run(name, folder)
        if found:
            yield name, found


def _run(name: str, folder: Path) -> Report | None:
    began_s = time.monotonic()
    order = [sys.executable, "-m", f"{HERE}.alone", name, str(folder)]
    try:
        ran = subprocess.run(order, stdout=subprocess.PIPE, text=True, timeout=WAIT_S, check=True)
    except subprocess.SubprocessError as problem:
        print(f"The lines of {name} are left out: {problem}", flush=True)
        return None
    found = json.loads(ran.stdout.splitlines()[-1])
    ready_s = found.pop("ready_at_s") - began_s
    return Report.model_validate({**found, "ready_s": ready_s})
