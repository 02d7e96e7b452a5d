"""Plays the afternoon into a live session, and keeps what came of each thing said."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.afternoon.script import STOP, Alone, Line
from tests.afternoon.voices import Sounds
from tests.bench.speed.capture import Capture
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach.journal.line import decode
from voicecoach.session.values import Entry

ANSWERED_S = 15.0
"""A note with no entry in the journal by then has been lost, seconds from its end."""
TALKED_S = 3.0
"""What comes of talk has come by then."""
LONGEST_ANSWER_S = 90.0
QUIET_S = 1.2


@dataclass(frozen=True)
class Said:
    """A thing that was said, and what came of it."""

    line: Line
    ended_s: float
    """Its true end, seconds since the afternoon began."""
    ended_at: float
    """The same on the wall clock, seconds since 1970."""
    answered_s: float | None
    """From its true end to the first sound of the answer, seconds; None if none came or none can be told."""
    entries: tuple[Entry, ...]
    """What it left in the journal."""
    again: bool = False
    """True when it was said a second time, because the first was not noted."""
    busy: bool = False
    """True while other processes kept every core busy."""


@dataclass(frozen=True)
class Stretch:
    """A stretch in which nobody spoke, and what came of it."""

    alone: Alone
    first_sound_s: float | None
    """When the program said something, seconds from its start; None if it kept quiet."""
    entries: tuple[Entry, ...]
    busy: bool = False


class Stage:
    """The virtual microphone and headphones of one session that goes on all afternoon."""

    def __init__(self, sound: VirtualSound, session: LiveSession, journal: Path, sounds: Sounds) -> None:
        self._sound, self._session, self._journal, self._sounds = sound, session, journal, sounds
        self._read_to = self._stretches = 0
        self.began_s = time.monotonic()
        self.busy = False
        self.late: list[Entry] = []
        """What was heard of one thing only after the next had begun."""
        self._clock_s: float | None = None
        """The microphone's clock less this machine's, from the first thing that was heard."""

    def say(self, line: Line, *, again: bool = False) -> Said:
        """Say it, wait for what comes of it, and for the end of the answer."""
        wav = self._sounds.line(line)
        with Capture(self._sound) as capture, self._wind(line.wind):
            began_s = time.monotonic()
            self._sound.play_into_microphone(wav)
            played = None if line.wind else capture.spoken.loud_from_to(began_s)
            ended_s = played[1] if played else time.monotonic()
            wall_s = time.time() - time.monotonic()
            entries = self._wait_for_entries(line, began_s)
            answered = self._wait_for_answer(capture, began_s, line)
            self._wait_for_quiet(capture)
        if self._clock_s is None and entries and entries[0].heard.ended_s is not None:
            self._clock_s = entries[0].heard.ended_s - ended_s
        known = answered is not None and played is not None
        return Said(
            line=line,
            ended_s=ended_s - self.began_s,
            ended_at=ended_s + wall_s,
            answered_s=answered - ended_s if known and answered is not None else None,
            entries=(*entries, *self._entries_of(line, began_s)),
            again=again,
            busy=self.busy,
        )

    def leave_alone(self, alone: Alone) -> Stretch:
        """Nobody says anything for a while."""
        self._stretches += 1
        with Capture(self._sound) as capture:
            began_s = time.monotonic()
            if alone.name == "silence":
                time.sleep(alone.seconds)
            else:
                self._sound.play_into_microphone(self._sounds.alone(alone, self._stretches))
            spoke = capture.answered.loud_from_to(began_s)
            time.sleep(TALKED_S)
            self._wait_for_quiet(capture)
        first_s = spoke[0] - began_s if spoke else None
        return Stretch(alone, first_s, self._new_entries(), self.busy)

    def resident_mb(self) -> float:
        """Resident memory now of the program and of the helpers it started, megabytes."""
        pid = self._session.process.pid
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        pages = [Path(f"/proc/{each}/status").read_text() for each in (str(pid), *children)]
        sizes = [line.split()[1] for page in pages for line in page.splitlines() if line.startswith("VmRSS")]
        return sum(map(int, sizes)) / 1024

    def _wait_for_entries(self, line: Line, began_s: float) -> tuple[Entry, ...]:
        end_s = time.monotonic() + (TALKED_S if line.kind == "chatter" else ANSWERED_S)
        while time.monotonic() < end_s:
            if entries := self._entries_of(line, began_s):
                return entries
            time.sleep(0.05)
        return ()

    def _entries_of(self, line: Line, began_s: float) -> tuple[Entry, ...]:
        """What came of what was said since a moment; what came of earlier things is kept as late."""
        entries = self._new_entries()
        since_s = began_s + self._clock_s if self._clock_s is not None else 0.0
        late = [each for each in entries if (each.heard.ended_s or since_s) < since_s and not _of(each, line)]
        self.late += late
        return tuple(each for each in entries if each not in late)

    def _wait_for_answer(self, capture: Capture, began_s: float, line: Line) -> float | None:
        """When the answer's first sound came; a "stop" is said into a long one where the line wants it."""
        time.sleep(QUIET_S)
        heard = capture.answered.loud_from_to(began_s)
        if heard and line.cut_after_s is not None:
            time.sleep(max(0.0, heard[0] + line.cut_after_s - time.monotonic()))
            self._sound.play_into_microphone(STOP)
            time.sleep(QUIET_S)
        return heard[0] if heard else None

    def _wait_for_quiet(self, capture: Capture) -> None:
        end_s = time.monotonic() + LONGEST_ANSWER_S
        while capture.answered.loud_from_to(time.monotonic() - QUIET_S) and time.monotonic() < end_s:
            time.sleep(0.2)

    def _new_entries(self) -> tuple[Entry, ...]:
        """What was written since the last look; a line that is still being written is left for the next."""
        if not self._journal.exists():
            return ()
        with self._journal.open("rb") as file:
            file.seek(self._read_to)
            whole = file.read().rpartition(b"\n")[0]
        self._read_to += len(whole) + 1 if whole else 0
        return tuple(decode(line) for line in whole.splitlines())

    @contextmanager
    def _wind(self, wanted: bool) -> Iterator[None]:
        if not wanted:
            yield
            return
        with blowing(self._sound, self._sounds.wind()):
            time.sleep(1.0)
            yield


def _of(entry: Entry, line: Line) -> bool:
    """True when most of the words that were heard are those of the line."""
    heard, said = entry.heard.text.split(), line.say.replace(",", "").split()
    return bool(heard) and sum(word in said for word in heard) > len(heard) / 2


@contextmanager
def blowing(sound: VirtualSound, wav: Path) -> Iterator[None]:
    """A sound that the microphone hears over and over while the block runs."""
    order = 'while true; do paplay --device=spoken "$0"; done'
    player = subprocess.Popen(
        ["sh", "-c", order, str(wav)], env={**os.environ, **sound.environment}, start_new_session=True
    )
    try:
        yield
    finally:
        os.killpg(player.pid, signal.SIGTERM)
        player.wait()


@contextmanager
def both_cores_busy() -> Iterator[None]:
    """One process on each core that does nothing but count, of the same priority as the program."""
    order = [sys.executable, "-c", "while True: sum(range(1000))"]
    others = [subprocess.Popen(order) for _ in range(os.cpu_count() or 1)]
    try:
        yield
    finally:
        for other in others:
            other.kill()
            other.wait()
