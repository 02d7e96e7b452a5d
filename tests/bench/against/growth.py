"""How the head grows with its bowls, and the journal with its ends."""

from __future__ import annotations

import statistics
import tempfile
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from tests.bench.against.lines import figure
from tests.bench.against.spent import processor_s
from tests.bench.head import an_end, done, folded, season
from voicecoach import journal
from voicecoach.head import begin, picture
from voicecoach.head.values import Event, Play
from voicecoach.journal.line import encode
from voicecoach.session.replay import moment
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, file_note
from voicecoach.understand.values import BowlRested, Note

BOWLS = (4, 8, 16)
ENDS = (1, 10, 100)
TIMES = 41


def lines() -> Iterator[str]:
    """The table's lines."""
    for bowls in BOWLS:
        lying: list[Note] = [note for note in an_end() if isinstance(note, BowlRested)]
        play = done(begin(), lying[: bowls - 1], [])
        yield f"Head of {bowls} bowls: {_updates(play)}."
    for ends in ENDS:
        yield _ends(ends)


def _updates(play: Play) -> str:
    """The last bowl of a head, each time in another place: deciding and filing it, and the picture."""
    updated_s, pictured_s = list[float](), list[float]()
    for count in range(TIMES):
        note = BowlRested(gap_m=3.0 + 0.001 * count, hour=5.0)
        updated_s.append(processor_s(partial(done, play, [note], [])))
        pictured_s.append(processor_s(partial(picture, done(play, [note], []).head)))
    update_s, picture_s = statistics.median(updated_s), statistics.median(pictured_s)
    return (
        f"{figure(1 / update_s)} updates a second, {figure(1 / (update_s + picture_s))} with the picture "
        "of every doubt that a confirmation needs"
    )


def _ends(ends: int) -> str:
    events: list[Event] = []
    play = done(begin(), season(ends), events)
    rounds = max(1, 2_000 // len(events))
    folding_s = processor_s(lambda: [folded(events) for _ in range(rounds)]) / rounds
    reading_s, entries = _journal(ends)
    return (
        f"Game of {ends} {'end' if ends == 1 else 'ends'}, {entries} entries: "
        f"{figure(entries / folding_s)} entries folded a second, {figure(entries / reading_s)} with reading "
        f"them from the journal's file; at the next first bowl {_updates(play)}."
    )


def _journal(ends: int) -> tuple[float, int]:
    """Seconds to read and fold the journal of so many ends, and its entries."""
    talk, written = Talk(), list[bytes]()
    for note in season(ends):
        talk, entry = file_note(talk, note, "bench", When(at="2026-06-01T14:00:00+01:00"))
        written.append(encode(entry))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "game.jsonl"
        path.write_bytes(b"".join(written))
        rounds = max(1, 1_000 // len(written))
        spent_s = processor_s(lambda: [moment(journal.read(path)[0]) for _ in range(rounds)]) / rounds
    return spent_s, len(written)
