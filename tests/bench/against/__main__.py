"""Prints the comparison: `python -m tests.bench.against`."""

from __future__ import annotations

import os
import platform
import tempfile
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import click

from tests.bench.against import growth, lines, live, reading, sounds, vocabulary
from tests.bench.against.measured import Report, Tally, tally
from tests.bench.against.process import Cost
from tests.bench.against.programs import BESIDE, NOTES, WITH_THE_MODEL, reports, write_plan


@click.command()
def main() -> None:
    """This program, a bare stack and pocketsphinx on the same sound, and how this program grows."""
    load = os.getloadavg()[0]
    click.echo(
        f"{platform.machine()}, {os.cpu_count()} cores, load {load:.1f}, Python {platform.python_version()}."
    )
    said = sounds.recorded()
    with tempfile.TemporaryDirectory() as folder:
        streams, marks = sounds.streams(said)
        sounds.write(streams, Path(folder))
        write_plan(Path(folder))
        for line in _what_was_played(said):
            click.echo(line)
        found = dict(reports(Path(folder)))
        costs = live.costs(streams, Path(folder))
        started = live.starts(Path(folder))
    came = {
        (name, stream): tally(said, marks, report.notes[stream])
        for name, report in found.items()
        for stream in NOTES
    }
    for line in (*_compared(found, came), *_live(costs), lines.live_start(started)):
        click.echo(line)
    for line in (*reading.lines(), *growth.lines(), *vocabulary.lines(said)):
        click.echo(line)


def _what_was_played(said: Sequence[sounds.Recorded]) -> Iterator[str]:
    notes = sum(line.outcome != "dropped" for line in said)
    yield (
        f"Played to each: {notes} notes and {len(said) - notes} of chatter from the recorded stories, each "
        f"with {sounds.TAIL_S:.0f} s after it, calm (noise at {sounds.FAINT_DB:.0f} dB) and in wind "
        f"({-sounds.WIND_DB:.0f} dB under the voice); a minute of silence (noise at "
        f"{sounds.SILENT_DB:.0f} dB); a minute of wind as loud as a voice; the recordings without a rest."
    )
    yield (
        f"Live: each on the same virtual microphone, all its threads and helpers counted from outside for "
        f"{live.MEASURED_S:.0f} s. The bare stack is vosk's own example for a microphone, in blocks of half "
        "a second."
    )
    yield (
        "The bare stack: vosk's own end of speech, the same model, a flat list of the phrase book's words; "
        "then pyttsx3 to a file, which says the words again."
    )
    yield (
        "Pocketsphinx: its own end of speech and model, and a grammar of the plain forms alone, which hold "
        "every note played here; with the whole phrase book it takes more than five times real time."
    )
    yield (
        "Waits are from the true end of speech: the sound's clock and the processor time of the blocks that "
        "were waited for; the voice's part is by the clock on the wall."
    )


def _compared(found: dict[str, Report], came: dict[tuple[str, str], Tally]) -> Iterator[str]:
    """Each measure, one program after the other; the bare stack isn't set beside itself."""
    beside = {name: found.get(BESIDE) if name != BESIDE else None for name in found}
    for stream in NOTES:
        yield from (lines.notes(stream, name, came[name, stream]) for name in found)
        for what, waits in WAITS:
            for name, other in beside.items():
                mine, theirs = waits(came[name, stream]), waits(came[BESIDE, stream]) if other else ()
                yield lines.wait(f"{what}, {stream}", name, mine, theirs, name in WITH_THE_MODEL)
    yield from (lines.memory(name, found[name], other) for name, other in beside.items())
    yield from (lines.start(name, found[name], other) for name, other in beside.items())


def _live(costs: dict[tuple[str, str], Cost]) -> Iterator[str]:
    """What each costs while it listens to a microphone; the bare stack isn't set beside itself."""
    for (name, stream), cost in costs.items():
        yield lines.live(stream, name, cost, None if name == BESIDE else costs[BESIDE, stream])


WAITS: tuple[tuple[str, Callable[[Tally], tuple[float, ...]]], ...] = (
    ("Decision", lambda came: came.decisions_s),
    ("First sample of the confirmation", lambda came: came.spoken_s),
)


if __name__ == "__main__":
    main()
