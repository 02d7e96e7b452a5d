"""Prints the table: what was to be reached, what was, on this machine."""

from __future__ import annotations

import os
import platform
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from tests.bench.speed.capture import Capture
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal, phrasebook
from voicecoach.conversation import Conversation
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks, load
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.places import scenarios
from voicecoach.session.replay import moment
from voicecoach.story import read_story

FOLDER = scenarios() / "first_end"
STORY = read_story(FOLDER / "story.yaml")
NOTES = [FOLDER / step.audio for step in STORY.steps if step.audio and step.outcome == "noted"]
STOP = Path(__file__).parents[2] / "live" / "audio" / "stop.wav"
ENTRIES = 10_000
ROUNDS = 3
ANSWERED_S = 15.0
"""A note with no answer by then is lost, and the measuring ends."""


def row(what: str, reached: str, wanted: str) -> None:
    """One plain line of the table."""
    click.echo(f"{what}: {reached} (to reach: {wanted})")


def recognition() -> None:
    """The share of real time that hearing takes on one core, everything in the ear included."""
    ear = Ear(Recogniser(model_path(), phrasebook.load()))
    recordings = sorted(FOLDER.glob("*.wav"))
    seconds = sum(len(load(path)) for path in recordings) / 16_000
    began = time.process_time()
    for path in recordings:
        list(ear.listen(blocks(path), str(path)))
    took = time.process_time() - began
    row("Recognition, processor time over the length of the sound", f"{took / seconds:.3f}", "under 0.2")


def folding() -> None:
    """A journal of 10,000 entries, read and folded into a head."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "long.jsonl"
        _write_long(path)
        began = time.process_time()
        moment(journal.read(path)[0])
        took = time.process_time() - began
    row(f"Rebuilding a head from {ENTRIES:,} entries, seconds", f"{took:.2f}", "under 2")


def _write_long(path: Path) -> None:
    """Whole games, one after the other: the story's notes with a new end after each."""
    said = [step.say for step in STORY.steps if step.outcome == "noted"]
    with Conversation(path) as conversation:
        count = 0
        while count < ENTRIES:
            for say in (*said, "end finished no score", "next end"):
                conversation.hear(Heard(text=say))
                count += 1


def helping() -> None:
    """The help, as somebody asks for it first; the least of ten, since a start is easily disturbed."""
    took: list[float] = []
    for _ in range(10):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, "-m", "voicecoach", "--help"], capture_output=True, check=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        took.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    row("Printing the help, processor seconds", f"{min(took):.3f}", "under 0.1")


def telling() -> None:
    """A typed note until it is answered: by the clock and in processor time, the least of ten starts."""
    with tempfile.TemporaryDirectory() as folder:
        environment = os.environ | {"VOICECOACH_CACHE": folder}
        took = [_told(environment) for _ in range(11)]
    anew, kept = took[0], [min(each) for each in zip(*took[1:], strict=True)]
    row("A typed note to its answer, seconds", f"{kept[0]:.2f}, {kept[1]:.2f} of the processor", "0.7")
    row("The same, nothing kept of the phrase book", f"{anew[0]:.2f}, {anew[1]:.2f} of the processor", "none")


def _told(environment: dict[str, str]) -> tuple[float, float]:
    """Seconds from the start to the answer, and of processor time until it has ended."""
    order = [sys.executable, "-m", "voicecoach", "tell", "our second, eighty centimetres, two o'clock"]
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    with subprocess.Popen(order, stdout=subprocess.PIPE, text=True, env=environment) as program:
        assert program.stdout is not None
        answered = next(line for line in program.stdout if line.startswith("Noted."))
        took = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert "two o'clock" in answered
    return took, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def live() -> None:
    """From the true end of speech to the first sound of the confirmation, on the virtual devices."""
    waits: list[float] = []
    stops: list[float] = []
    with _sound() as sound, tempfile.TemporaryDirectory() as folder:
        for number in range(ROUNDS):
            began = time.monotonic()
            with LiveSession(sound, Path(folder) / f"{number}.jsonl") as session:
                ready = time.monotonic() - began  # before the recorder of the headphones starts
                with Capture(sound) as capture:
                    _wait_for_quiet(capture)
                    waits += [_wait(sound, capture, note) for note in NOTES]
                    stops += [_stop(sound, capture, session) for _ in range(ROUNDS)]
                memory = _resident_mb(session.process.pid)
            if number == 0:
                row("From start to listening, seconds", f"{ready:.1f}", "2")
                row("Resident memory at its highest, megabytes", f"{memory:.0f}", "under 400")
    waits.sort()
    row("End of speech to first sound, median, seconds", f"{statistics.median(waits):.2f}", "0.6")
    row("End of speech to first sound, 95 percent", f"{waits[int(0.95 * len(waits))]:.2f}", "within 1")
    row('The end of "stop" to silence, median, seconds', f"{statistics.median(stops):.2f}", "under 0.6")
    row("The same, slowest", f"{max(stops):.2f}", "within 1")
    click.echo("The floor of the first two is 0.4: so much silence must pass.")
    click.echo(f"{len(waits)} notes were spoken, and {len(stops)} times stop.")


def _wait(sound: VirtualSound, capture: Capture, note: Path) -> float:
    began = time.monotonic()
    sound.play_into_microphone(note)
    spoken = capture.spoken.loud_from_to(began)
    assert spoken is not None, f"{note} was not played"
    while not (answered := capture.answered.loud_from_to(began)):
        assert time.monotonic() - spoken[1] < ANSWERED_S, f"{note} was not answered"
        time.sleep(0.1)
    _wait_for_quiet(capture)
    return answered[0] - spoken[1]


def _stop(sound: VirtualSound, capture: Capture, session: LiveSession) -> float:
    """From the end of the word to the end of the voice, which is reading the head."""
    session.type("read the head")
    asked = time.monotonic()
    while not capture.answered.loud_from_to(asked):
        assert time.monotonic() - asked < ANSWERED_S, "the head was not read"
        time.sleep(0.1)
    began = time.monotonic()
    sound.play_into_microphone(STOP)
    _wait_for_quiet(capture)
    spoken, voice = capture.spoken.loud_from_to(began), capture.answered.loud_from_to(began)
    assert spoken is not None, f"{STOP} was not played"
    assert voice is not None, "the head was over before it could be stopped"
    return voice[1] - spoken[1]


def _wait_for_quiet(capture: Capture) -> None:
    while capture.answered.loud_from_to(time.monotonic() - 1.0):
        time.sleep(0.2)


def _resident_mb(pid: int) -> float:
    """The highest resident memory of the program and of the helpers it started."""
    children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    pages = [Path(f"/proc/{each}/status").read_text() for each in (str(pid), *children)]
    peaks = [line.split()[1] for page in pages for line in page.splitlines() if line.startswith("VmHWM")]
    return sum(map(int, peaks)) / 1024


@contextmanager
def _sound() -> Iterator[VirtualSound]:
    with tempfile.TemporaryDirectory(prefix="voicecoach-") as folder:
        sound = VirtualSound(Path(folder))
        os.environ.update(sound.environment)
        try:
            sound.start()
            yield sound
        finally:
            sound.stop()


def main() -> None:
    """Print the table."""
    machine = f"{platform.machine()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}"
    click.echo(f"{machine}, Python {platform.python_version()}")
    recognition()
    folding()
    helping()
    telling()
    live()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    click.echo(f"(This measuring process itself: {peak:.0f} megabytes.)")


if __name__ == "__main__":
    main()
