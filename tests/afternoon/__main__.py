"""Thirty minutes of a game by voice, in real time, and the table of what came of it."""

from __future__ import annotations

import contextlib
import os
import platform
import signal
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from pathlib import Path

import click

from tests.afternoon.script import Line, afternoon
from tests.afternoon.stage import Said, Stage, blowing, both_cores_busy
from tests.afternoon.table import Results, table
from tests.afternoon.voices import Sounds
from tests.bench.soak_sounds import phrases
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.understand.values import Note

ANSWERS = ("Heard:", "Noted.", "Asked.", "Answered.", "Refused.", "Dropped")


@click.command()
@click.option("--minutes", default=30.0, show_default=True, help="How long it goes on.")
@click.option("--seed", default=8, show_default=True, help="The same seed gives the same afternoon.")
@click.option("--busy", is_flag=True, help="Keep every core busy in the middle third.")
def main(minutes: float, seed: int, busy: bool) -> None:
    """Play a game into the virtual microphone, in real time; interrupted, it tells what it has."""
    results = Results()
    load = os.getloadavg()[0]
    signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell ignores it for what it runs aside
    with contextlib.suppress(KeyboardInterrupt):
        _play(results, minutes * 60, seed, busy)
    if not results.said:
        raise click.ClickException("Nothing was said: nothing can be told.")
    others = "every core kept busy in the middle third" if busy else "no other process started"
    click.echo(f"{results.lasted_s / 60:.1f} minutes, seed {seed}, {others}")
    click.echo(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    click.echo(f"load of the machine: {load:.1f} before, {os.getloadavg()[0]:.1f} at the end")
    for row in table(results, min(600.0, results.lasted_s / 3)):
        click.echo(row)


def _play(results: Results, length_s: float, seed: int, busy: bool) -> None:
    """Go through the afternoon until its time is over."""
    with _sound() as sound, tempfile.TemporaryDirectory() as folder, ExitStack() as working:
        kept, sounds = Path(folder) / "afternoon.jsonl", Sounds(Path(folder), seed, phrases(200, seed))
        session = working.enter_context(LiveSession(sound, kept))
        working.enter_context(blowing(sound, sounds.hiss()))
        time.sleep(12)  # the cautions are spoken first
        stage, typed, told = Stage(sound, session, kept, sounds), Conversation(), len(session.printed)
        others = working.enter_context(ExitStack())
        for item in afternoon(seed):
            now_s = time.monotonic() - stage.began_s
            if now_s >= length_s:
                break
            _keep_busy(stage, others, busy and length_s / 3 <= now_s < length_s * 2 / 3)
            if isinstance(item, Line):
                _say(stage, item, typed, results)
            else:
                results.alone.append(stage.leave_alone(item))
            results.lasted_s = time.monotonic() - stage.began_s
            results.memory.append((results.lasted_s, stage.resident_mb()))
            results.late = stage.late
            results.notices = [
                line for line in session.printed[told:] if line and not line.startswith(ANSWERS)
            ]


def _keep_busy(stage: Stage, others: ExitStack, wanted: bool) -> None:
    if wanted and not stage.busy:
        others.enter_context(both_cores_busy())
    elif stage.busy and not wanted:
        others.close()
    stage.busy = wanted


def _say(stage: Stage, line: Line, typed: Conversation, results: Results) -> None:
    """Say it; if it is a note that was not noted, answer yes or say it again, as a director would."""
    meant = typed.hear(Heard(text=line.say)).note
    said = stage.say(line)
    _keep(results, said, meant)
    if line.kind == "note" and not any(entry.outcome == "noted" for entry in said.entries):
        doubtful = any("yes or no" in sentence.text for entry in said.entries for sentence in entry.say)
        answer = replace(line, say="yes", wav=None) if doubtful else line
        _keep(results, stage.say(answer, again=True), meant)


def _keep(results: Results, said: Said, meant: Note | None) -> None:
    results.said.append(said)
    results.meant.append(meant)
    came = " ".join(entry.outcome for entry in said.entries) or "nothing"
    memory = f"{results.memory[-1][1]:.0f} MB  " if results.memory else ""
    click.echo(f"{said.ended_s:6.0f} s  {memory}{said.line.say} -> {came}", err=True)


@contextmanager
def _sound() -> Iterator[VirtualSound]:
    with tempfile.TemporaryDirectory(prefix="voicecoach-") as folder:
        sound = VirtualSound(Path(folder))
        os.environ.update(sound.environment | {"VOICECOACH_CONFIG": folder})  # nobody's profile
        try:
            sound.start()
            yield sound
        finally:
            sound.stop()


if __name__ == "__main__":
    main()
