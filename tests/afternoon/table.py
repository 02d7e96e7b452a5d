"""What is printed of an afternoon."""

from __future__ import annotations

import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from tests.afternoon.stage import Said, Stretch
from voicecoach.session.values import Entry
from voicecoach.understand.values import Note

FIRST_MINUTE_S = 60.0


@dataclass
class Results:
    """Everything that was measured."""

    said: list[Said] = field(default_factory=list)
    meant: list[Note | None] = field(default_factory=list)
    """What each thing said means, as it is understood when it is typed."""
    alone: list[Stretch] = field(default_factory=list)
    memory: list[tuple[float, float]] = field(default_factory=list)
    """Seconds since the afternoon began, and megabytes."""
    lasted_s: float = 0.0
    late: list[Entry] = field(default_factory=list)
    """What was heard of one thing only after the next had begun."""
    notices: list[str] = field(default_factory=list)
    """What the program printed that answers nothing said."""


def table(results: Results, thirds_s: float) -> Iterator[str]:
    """The lines; `thirds_s` is how long the first and the last part are, whose latencies are told."""
    yield from _notes(results)
    yield from _others(results.said)
    yield from _latencies(results, thirds_s)
    yield from _memory(results)
    yield from _clocks(results.said)
    yield from _alone(results.alone)
    outcomes = ", ".join(entry.outcome for entry in results.late)
    yield f"recognised so late that the next thing was being said: {outcomes or 'nothing'}"
    yield f"notices besides: {'; '.join(results.notices) or 'none'}"


def _notes(results: Results) -> Iterator[str]:
    pairs = [pair for pair in zip(results.said, results.meant, strict=True) if pair[0].line.kind == "note"]
    first = [(said, meant) for said, meant in pairs if not said.again]
    late = [entry.note for entry in results.late if entry.outcome == "noted"]
    for name, some in (
        ("in the quiet", [pair for pair in first if not pair[0].line.wind]),
        ("in a light wind", [pair for pair in first if pair[0].line.wind]),
    ):
        counts = {
            "noted": sum(_right(*pair) for pair in some),
            "noted otherwise": sum(bool(_noted(said)) and not _right(said, meant) for said, meant in some),
            "asked about or refused": sum(_questioned(said) for said, _ in some),
            "taken for talk": sum(_dropped(said) for said, _ in some),
            "noted late": sum(not said.entries and meant in late for said, meant in some),
            "lost without a trace": sum(not said.entries and meant not in late for said, meant in some),
            "doubled": sum(len(_noted(said)) > 1 for said, _ in some),
        }
        yield f"notes said {name}: {len(some)}; " + ", ".join(f"{n} {what}" for what, n in counts.items())
    again = [pair for pair in pairs if pair[0].again]
    yield f"said again or confirmed: {len(again)}; noted then: {sum(_right(*one) for one in again)}"
    for said, meant in pairs:
        if not _right(said, meant):
            came = ", ".join(f"{one.outcome}: {one.heard.text or 'no words'}" for one in said.entries)
            yield f"  {said.line.say} -> {came or 'nothing'}"


def _others(said: Sequence[Said]) -> Iterator[str]:
    asked = [one for one in said if one.line.kind == "question"]
    answered = sum(any(entry.outcome == "answered" for entry in one.entries) for one in asked)
    yield f"questions asked: {len(asked)}, answered: {answered}"
    talk = [one for one in said if one.line.kind == "chatter"]
    spoke = sum(_questioned(one) or _answered(one) for one in talk)
    filed = [one for one in talk if _noted(one)]
    yield f"talk that is no note: {len(talk)} things said; {len(filed)} filed, {spoke} spoken to"
    yield from (f"  filed: {one.line.say} -> {_noted(one)}" for one in filed)


def _latencies(results: Results, thirds_s: float) -> Iterator[str]:
    last_s = results.lasted_s - thirds_s
    parts = (
        ("first", [one for one in results.said if one.ended_s < thirds_s and not one.busy]),
        ("last", [one for one in results.said if one.ended_s >= last_s and not one.busy]),
        ("busy", [one for one in results.said if one.busy]),
    )
    for name, said in parts:
        waits = sorted(
            one.answered_s for one in said if one.answered_s is not None and one.line.kind != "chatter"
        )
        called = "with every core busy" if name == "busy" else f"in the {name} {thirds_s / 60:.0f} minutes"
        if waits:
            worst = f"95 % {waits[int(0.95 * len(waits))]:.2f} s, longest {waits[-1]:.2f} s"
            middle = statistics.median(waits)
            yield f"end of speech to first sound {called}: median {middle:.2f} s, {worst}, of {len(waits)}"


def _memory(results: Results) -> Iterator[str]:
    """Models and caches are full by a sixth of the afternoon."""
    if results.memory:
        warm_s = results.lasted_s / 6
        at_s, warm = next((one for one in results.memory if one[0] >= warm_s), results.memory[0])
        most = max(size for when_s, size in results.memory if when_s >= at_s)
        yield (
            f"resident memory: {results.memory[0][1]:.0f} MB at the start, {warm:.0f} MB after "
            f"{at_s / 60:.0f} minutes, {results.memory[-1][1]:.0f} MB at the end; {most:.0f} MB at most since"
        )


def _clocks(said: Sequence[Said]) -> Iterator[str]:
    """How far the journal's clock and the microphone's are from when things were really said, and move."""
    late, heard = [], []
    for one in said:
        noted = _noted(one)
        if len(noted) == 1 and not one.line.wind and noted[0].heard.ended_s is not None:
            late.append(datetime.fromisoformat(noted[0].at).timestamp() - one.ended_at)
            heard.append(noted[0].heard.ended_s - one.ended_s)
    if late:
        some = min(10, len(late) // 2 or 1)
        drifts = [
            statistics.median(times[-some:]) - statistics.median(times[:some]) for times in (late, heard)
        ]
        yield (
            f"journal's time after the true end of a note: {late[0]:.2f} s first, {late[-1]:.2f} s last; "
            f"median of the last {some} less that of the first {some}: {drifts[0]:+.3f} s"
        )
        yield f"microphone's clock against the wall's over the afternoon: {drifts[1]:+.3f} s"


def _alone(stretches: Sequence[Stretch]) -> Iterator[str]:
    for one in stretches:
        came = ", ".join(entry.outcome for entry in one.entries) or "nothing heard"
        early = one.first_sound_s is not None and one.first_sound_s < FIRST_MINUTE_S
        spoken = (
            f"SPOKEN OF after {one.first_sound_s:.0f} s" if early else "not spoken of in its first minute"
        )
        yield f"{one.alone.name} alone, {one.alone.seconds:.0f} s: {spoken}; {came}"
        heard = [entry for entry in one.entries if entry.outcome != "dropped"]
        yield from (f"  {entry.outcome}: {entry.heard.text} -> {entry.note}" for entry in heard)


def _noted(said: Said) -> list[Entry]:
    return [entry for entry in said.entries if entry.outcome == "noted"]


def _answered(said: Said) -> bool:
    return any(entry.outcome == "answered" for entry in said.entries)


def _right(said: Said, meant: Note | None) -> bool:
    noted = _noted(said)
    return len(noted) == 1 and noted[0].note == meant


def _questioned(said: Said) -> bool:
    return not _noted(said) and any(entry.outcome in ("asked", "refused") for entry in said.entries)


def _dropped(said: Said) -> bool:
    return bool(said.entries) and all(entry.outcome == "dropped" for entry in said.entries)
