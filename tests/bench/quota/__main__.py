"""A game's notes spoken to the program while it has a part of one core: python -m tests.bench.quota."""

from __future__ import annotations

import os
import platform
import re
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

import click

from tests.bench.quota.group import NoQuota, Quota
from tests.bench.speed.capture import Capture
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal, kept_book
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.live.inputs import BEHIND
from voicecoach.places import scenarios
from voicecoach.story import read_story

FOLDER = scenarios() / "first_end"
STEPS = [step for step in read_story(FOLDER / "story.yaml").steps if step.audio and step.outcome == "noted"]
SHARES = (1.0, 0.5, 0.25)
WANTED_S = {0.5: 0.9, 0.25: 1.5}
"""The median from the end of speech to the first sound of the answer."""
ANSWERED_S = 15.0
REST_S = 1.0
"""Between the end of an answer and the next note, as in a calm end."""


class Found(NamedTuple):
    """What came of one session."""

    decodes: int
    ready_s: float
    waits_s: list[float]
    """For each answered note, from the true end of its speech to the first sound of the answer."""
    lost: list[str]
    """Notes that were not filed, or not as they were said."""
    behind: bool


def session(sound: VirtualSound, folder: Path, share: float) -> Found:
    """Say every note of the first end once, each after the answer to the one before."""
    kept, log = folder / f"{share}.jsonl", folder / f"{share}.log"
    with Quota(share) as quota:
        began = time.monotonic()
        live = LiveSession(sound, kept, "--log", str(log))
        quota.put(live.process.pid)
        with live:
            ready_s = time.monotonic() - began
            with Capture(sound) as capture:
                _wait_for_quiet(capture, 2.0)
                waits = [_wait(sound, capture, FOLDER / str(step.audio)) for step in STEPS]
            printed = list(live.printed)
    chosen = re.search(r'"what": "decodes", "count": (\d)', log.read_text(encoding="utf-8"))
    assert chosen, "it didn't log how many decodes it chose"
    return Found(
        int(chosen[1]),
        ready_s,
        [wait for wait in waits if wait is not None],
        _lost(kept),
        any(BEHIND in line for line in printed),
    )


def _wait(sound: VirtualSound, capture: Capture, note: Path) -> float | None:
    began = time.monotonic()
    sound.play_into_microphone(note)
    spoken = capture.spoken.loud_from_to(began)
    assert spoken is not None, f"{note} was not played"
    while not (answered := capture.answered.loud_from_to(spoken[1])):
        if time.monotonic() - spoken[1] > ANSWERED_S:
            return None
        time.sleep(0.1)
    _wait_for_quiet(capture, REST_S)
    return answered[0] - spoken[1]


def _wait_for_quiet(capture: Capture, seconds: float) -> None:
    while capture.answered.loud_from_to(time.monotonic() - seconds):
        time.sleep(0.2)


def _lost(kept: Path) -> list[str]:
    """The notes that the journal doesn't hold as they were said: typed, they tell what was meant."""
    filed = [entry.note for entry in journal.read(kept)[0] if entry.outcome == "noted"]
    with Conversation() as typed:
        meant = [(step.say, typed.hear(Heard(text=step.say)).note) for step in STEPS]
    return [say for say, note in meant if note not in filed]


def line(share: float, found: Found) -> str:
    """The table's line for one session."""
    median = f"{statistics.median(found.waits_s):.2f}" if found.waits_s else "none"
    slowest = f"{max(found.waits_s):.2f}" if found.waits_s else "none"
    wanted = f", {WANTED_S[share]} wanted" if share in WANTED_S else ""
    lost = f"{len(found.lost)} of {len(STEPS)} lost"
    return (
        f"| {share:.0%} of a core | {found.decodes} | {lost} | {median} s{wanted} | {slowest} s | "
        f"{'yes' if found.behind else 'no'} | {found.ready_s:.1f} s |"
    )


@click.command()
@click.option("--share", "shares", multiple=True, type=float, default=SHARES, help="Of one core.")
def main(shares: tuple[float, ...]) -> None:
    """Print the table; fails where no quota can be set."""
    print(f"{platform.machine()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}", flush=True)
    print("| processor | decodes | notes | median answer | slowest | said to be behind | ready |")
    with tempfile.TemporaryDirectory(prefix="voicecoach-") as folder:
        sound = VirtualSound(Path(folder))
        os.environ.update(sound.environment, VOICECOACH_CACHE=folder)
        kept_book.load()
        try:
            sound.start()
            for share in shares:
                found = session(sound, Path(folder), share)
                print(line(share, found), flush=True)
                for say in found.lost:
                    print(f"  lost: {say}", flush=True)
        except NoQuota as problem:
            print(problem, file=sys.stderr)
            sys.exit(1)
        finally:
            sound.stop()


if __name__ == "__main__":
    main()
