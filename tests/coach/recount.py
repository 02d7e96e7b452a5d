"""A referee for the coach's pages: every figure worked out anew from the export's table alone.

Nothing here knows the program's own statistics. Intervals by scipy, trends by its linear regression.
"""

import csv
import io
import math
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable
from typing import NamedTuple

import numpy as np
from scipy import stats

FOOT_M = 0.3048
"""International yard and pound agreement, 1959: exactly (read)."""
Row = dict[str, str]
CAME = ("short", "level", "past", "ditch", "lost", "not placed")


class Mean(NamedTuple):
    """A mean and half its 95 % interval, metres; None from fewer than five (the page's own rule)."""

    mean: float
    half: float


class Part(NamedTuple):
    """What some bowls come to."""

    bowls: int
    came: dict[str, int]
    line: Mean | None
    length: Mean | None
    gap: float | None


class Held(NamedTuple):
    """Who held after a bowl, and how many."""

    side: str
    shots: int
    sure: bool


def rows(text: str) -> list[Row]:
    """The table's rows."""
    return list(csv.DictReader(io.StringIO(text)))


def settled(table: Iterable[Row], side: str) -> list[Row]:
    """One row for each bowl that a side delivered."""
    return [row for row in table if row["settled"] == "true" and row["side"] == side]


def part(bowls: list[Row]) -> Part:
    """The figures of these bowls."""
    placed = [row for row in bowls if row["rest_gap_m"]]
    came = Counter(row["came"] for row in bowls)
    return Part(
        len(bowls),
        {name: came[name] for name in CAME if came[name]},
        mean([float(row["rest_across_m"]) for row in placed]),
        mean([float(row["rest_along_m"]) for row in placed]),
        sum(float(row["rest_gap_m"]) for row in placed) / len(placed) if len(placed) >= 5 else None,
    )


def mean(values: list[float]) -> Mean | None:
    """Student's interval for a mean."""
    if len(values) < 5:
        return None
    low, high = stats.t.interval(0.95, len(values) - 1, stats.tmean(values), stats.sem(values) or 1e-12)
    return Mean(float(stats.tmean(values)), float(high - low) / 2)


def _length(row: Row) -> str:
    if not row["rest_jack_m"]:
        return "Jack not set"
    length = float(row["rest_jack_m"])
    return "Short jack" if length < 25 else "Middling jack" if length < 29 else "Long jack"


PARTED: dict[str, Callable[[Row], str]] = {
    "All": lambda _: "All",
    "By hand": lambda row: row["hand"].capitalize() or "Hand not said",
    "By length of the jack": _length,
    "By bowl of the player": lambda row: f"Bowl {row['players_bowl']}",
    "By player": lambda row: row["place"].capitalize(),
}


def parts(bowls: list[Row]) -> dict[str, Part]:
    """The figures of each part, of every way of parting that parts them."""
    found: dict[str, Part] = {}
    for way, name in PARTED.items():
        groups = defaultdict(list)
        for row in bowls:
            if name(row):
                groups[name(row)].append(row)
        if way == "All" or len(groups) > 1:
            found |= {each: part(group) for each, group in groups.items()}
    return found


def plays(table: list[Row]) -> list[tuple[int, int]]:
    """The plays of the ends, in order."""
    return sorted({(int(row["end"]), int(row["play"])) for row in table})


def of_play(table: list[Row], play: tuple[int, int]) -> list[Row]:
    """The rows of one play."""
    return [row for row in table if (int(row["end"]), int(row["play"])) == play]


def held(table: list[Row]) -> list[Held]:
    """Who held after each bowl of one play: at the last standing moment before the next bowl's first."""
    standing = [row for row in table if row["stands"] == "true"]
    settled_at = {
        (row["side"], row["number"]): int(row["moment"]) for row in standing if row["settled"] == "true"
    }
    first: dict[tuple[str, str], int] = {}
    for row in standing:
        name = (row["side"], row["number"])
        if name in settled_at and row["named"] == "true" and row["kind"] in ("bowl_rested", "corrected"):
            first.setdefault(name, int(row["moment"]))
    starts = sorted(first.values())
    last = {int(row["moment"]): row for row in standing}
    found = []
    for start, following in zip(starts, [*starts[1:], math.inf], strict=True):
        at = max(moment for moment in last if start <= moment < following)
        found.append(_held([row for row in standing if int(row["moment"]) == at]))
    return found


def _held(moment: list[Row]) -> Held:
    """Counted anew from the gaps: a side's bowls nearer than the other's nearest (law 23; read)."""
    gaps = {
        side: sorted(float(row["gap_m"]) for row in moment if row["side"] == side and row["gap_m"])
        for side in ("ours", "theirs")
    }
    sure = moment[0]["sure"] == "true"
    if not any(gaps.values()):
        return Held("empty", 0, sure)
    nearest = {side: (found or [math.inf])[0] for side, found in gaps.items()}
    ours = sum(gap < nearest["theirs"] - 1e-6 for gap in gaps["ours"])
    theirs = sum(gap < nearest["ours"] - 1e-6 for gap in gaps["theirs"])
    if ours:
        return Held("ours", ours, sure)
    return Held("theirs", theirs, sure) if theirs else Held("level", 0, sure)


def trend(table: list[Row]) -> tuple[float, float] | None:
    """Slope and half its interval, metres an end; None from fewer than 12 bowls in 4 ends."""
    places = {play: at for at, play in enumerate(plays(table), start=1)}
    points = [
        (places[int(row["end"]), int(row["play"])], float(row["rest_gap_m"]))
        for row in settled(table, "ours")
        if row["rest_gap_m"]
    ]
    if len(points) < 12 or len({at for at, _ in points}) < 4:
        return None
    line = stats.linregress([at for at, _ in points], [gap for _, gap in points])
    return float(line.slope), float(stats.t.ppf(0.975, len(points) - 2) * line.stderr)


def ellipse(places: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    """Middle and half axes of the 95 % ellipse of a mean, by Hotelling's T squared with scipy's F."""
    found = np.array(places)
    count = len(found)
    reach = 2 * (count - 1) / (count - 2) * stats.f.ppf(0.95, 2, count - 2)
    axes = np.sqrt(np.linalg.eigvalsh(np.cov(found.T) / count) * reach)
    across, along = found.mean(axis=0)
    return float(across), float(along), float(axes[1]), float(axes[0])


def metres(text: str) -> float:
    """A length as the page writes it."""
    text = text.replace("\N{NO-BREAK SPACE}", " ")
    if found := re.search(r"(-?[\d.]+) (cm|m)\b", text):
        return float(found[1]) / (100 if found[2] == "cm" else 1)
    feet = re.search(r"(\d+) ft", text)
    inches = re.search(r"([\d.]+) in", text)
    assert feet or inches, text
    return FOOT_M * ((float(feet[1]) if feet else 0) + (float(inches[1]) if inches else 0) / 12)


def signed(text: str) -> Mean | None:
    """`0.20 m right +- 0.10 m`: right, past and (for a right-hander's forehand) wide are positive."""
    if text == "too few":
        return None
    value, half = text.split("\N{PLUS-MINUS SIGN}")
    sign = -1 if re.search(r"left|short", value) else 1
    return Mean(sign * metres(value), metres(half))
