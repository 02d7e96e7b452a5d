"""Plain lines, each of which can be understood without the one before."""

from __future__ import annotations

import statistics
from collections.abc import Sequence

from tests.bench.against.measured import Report, Tally
from tests.bench.against.process import Cost

SILENCE_S = 0.4
"""So much silence must pass before a note can be taken as ended."""
CONTEXT_S = 0.15
"""So much sound after a word the speech model needs before it can tell the word."""
DIGITS = 3


def figure(value: float) -> str:
    """A number with three digits that count."""
    places = max(0, DIGITS - 1 - _magnitude(abs(value)))
    return f"{value:.{places}f}"


def _magnitude(value: float) -> int:
    return -1 if value < 1 else len(str(int(value))) - 1


def ratio(value: float, beside: float | None) -> str:
    """How many times as much as the bare stack; nothing beside itself, or where it wasn't measured."""
    if beside is None or beside <= 0:
        return ""
    return f", {figure(value / beside)} times the bare stack's"


def floors(median_s: float, with_model: bool) -> str:
    """The floor, and how far above it the median is."""
    said = f"The floor is {SILENCE_S} s of silence: {distance(median_s - SILENCE_S)}"
    if with_model:
        said += f"; the model's own is {CONTEXT_S} s: {distance(median_s - CONTEXT_S)}"
    return said + "."


def distance(over_s: float) -> str:
    """How far from a floor, in words."""
    return f"{abs(over_s):.2f} s {'above' if over_s >= 0 else 'under'} it"


def wait(what: str, name: str, waits_s: Sequence[float], beside_s: Sequence[float], with_model: bool) -> str:
    """From the true end of speech to something: the median and the slowest, and the floor."""
    if not waits_s:
        return f"{what}, {name}: never, no note got that far."
    median_s = statistics.median(waits_s)
    beside = ratio(median_s, statistics.median(beside_s) if beside_s else None)
    slowest = f"slowest {max(waits_s):.2f} s of {len(waits_s)}"
    return f"{what}, {name}: median {median_s:.2f} s{beside}; {slowest}. {floors(median_s, with_model)}"


def notes(stream: str, name: str, came: Tally) -> str:
    """What came of the notes of a stream."""
    return (
        f"Notes {stream}, {name}: {len(came.decisions_s)} of {came.notes} decided before the next one, "
        f"{came.right} as they were said, {came.in_pieces} cut in pieces; "
        f"{came.filed} of {came.chatter} taken for a note that was chatter."
    )


def live(stream: str, name: str, cost: Cost, beside: Cost | None) -> str:
    """What listening to a stream costs, live, as seen from outside the process."""
    other = beside.share if beside else None
    return (
        f"Listening live to {stream}, {name}: {100 * cost.share:.2f} percent of one core"
        f"{ratio(cost.share, other)}; {cost.wakes:.0f} wake-ups a second, {cost.memory_mb:.0f} MB of "
        "proportional memory."
    )


def memory(name: str, report: Report, beside: Report | None) -> str:
    """Resident memory at its highest, helpers included."""
    other = beside.memory_mb if beside else None
    return (
        f"Resident memory at its highest, {name}: {report.memory_mb:.0f} MB{ratio(report.memory_mb, other)}."
    )


def live_start(took_s: Sequence[float]) -> str:
    """From the start of the process until it says that it listens, live."""
    median, slowest = statistics.median(took_s), max(took_s)
    return (
        f"Start until it says that it listens, live, this program: median {median:.2f} s, slowest "
        f"{slowest:.2f} s of {len(took_s)}."
    )


def start(name: str, report: Report, beside: Report | None) -> str:
    """From the start of the process to the first block that could be taken."""
    other = beside.ready_s if beside else None
    return (
        f"Start until the first block, {name}: {report.ready_s:.2f} s{ratio(report.ready_s, other)}; "
        f"{report.ready_work_s:.2f} s of processor time in it."
    )
