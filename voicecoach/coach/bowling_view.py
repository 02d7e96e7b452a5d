"""Line and length, ready to be set: drawings with words on both axes, and the figures in tables."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from voicecoach.coach import bowling, charts, scatter
from voicecoach.coach.bowling import Group
from voicecoach.coach.deliveries import Came, Delivered
from voicecoach.coach.figures import Ellipse
from voicecoach.coach.game_view import sideways
from voicecoach.coach.record import Record
from voicecoach.coach.wording import Words, counted
from voicecoach.phrasebook.wording import capitals
from voicecoach.understand.values import Side

CAME: tuple[Came, ...] = ("short", "level", "past", "ditch", "lost", "not placed")
SIDES: tuple[Side, Side] = ("ours", "theirs")
TITLES = {
    "all": "All",
    "hand": "By hand",
    "length": "By length of the jack",
    "bowl": "By bowl of the player",
    "player": "By player",
}


@dataclass(frozen=True)
class Panel:
    """One scatter, with the words of its axes."""

    name: str
    drawing: Markup
    right: str
    left: str
    note: str


@dataclass(frozen=True)
class Row:
    """One part of the bowls in a table."""

    name: str
    count: int
    came: tuple[int, ...]
    line: str
    length: str
    gap: str


@dataclass(frozen=True)
class Table:
    """One side's figures: rows in groups, each group with a name."""

    side: Side
    caption: str
    parts: tuple[tuple[str, tuple[Row, ...]], ...]


@dataclass(frozen=True)
class Means:
    """Where the means of one way of parting lie, for both sides."""

    name: str
    panels: tuple[Panel, ...]


@dataclass(frozen=True)
class BowlingView:
    """All of line and length, ready to be set."""

    panels: tuple[Panel, ...]
    means: tuple[Means, ...]
    tables: tuple[Table, ...]
    came: tuple[Came, ...]
    """What became of bowls: the columns that are not empty everywhere."""
    hand: str
    trend: str
    chart: Markup | None
    by_end: tuple[tuple[str, int, str, str], ...]
    """For each end: its name, our bowls with a place, their mean distance, and where the line lies."""


def bowling_view(record: Record, words: Words) -> BowlingView:
    """Both sides."""
    ours = record.of("ours")
    trend = bowling.gap_trend(ours, record.order)
    placed = [one for one in ours if one.gap_m is not None]
    came = tuple(each for each in CAME if any(one.came == each for one in record.bowls))
    hand = f"Wide and narrow are those of a {record.game.hand}-handed player." if record.game.hand else ""
    return BowlingView(
        panels=tuple(_panels(record, words)),
        means=tuple(_means(record, words)),
        tables=tuple(_table(side, record, words, came) for side in SIDES if record.of(side)),
        came=came,
        hand=hand,
        trend=words.trend(trend),
        chart=_over_the_ends(record, words) if placed else None,
        by_end=tuple(_by_end(record, words)),
    )


def _panels(record: Record, words: Words) -> Iterator[Panel]:
    """A scatter for each hand of ours, and one of theirs; all to one scale."""
    chosen = [
        _Part(
            f"{capitals(words.ours('ours'))}, {name.lower()}",
            "ours",
            sideways(name, record.game),
            [one for one in record.of("ours") if belongs(one)],
        )
        for name, belongs in bowling.parts("hand", record.game, record.bowls)
    ]
    chosen.append(_Part(capitals(words.ours("theirs")), "theirs", ("right", "left"), record.of("theirs")))
    reach = scatter.reach_m(record.bowls, [part.mean for part in chosen if part.mean is not None])
    for part in chosen:
        if part.bowls:
            yield _panel(part, reach, words)


@dataclass(frozen=True)
class _Part:
    """Some bowls of one side, and what right and left of the jack are called for them."""

    name: str
    side: Side
    ways: tuple[str, str]
    bowls: Sequence[Delivered]

    @property
    def mean(self) -> Ellipse | None:
        """Where their mean lies."""
        return bowling.group(self.name, self.bowls).ellipse


def _panel(part: _Part, reach: float, words: Words) -> Panel:
    placed = sum(one.placed for one in part.bowls)
    missing = len(part.bowls) - placed
    note = counted(placed, "bowl") + (f" with a place, {missing} without" if missing else "")
    said = f"Where {note} of {part.name.lower()} came to rest, seen from the jack. The table has the figures."
    sheet = scatter.Sheet(reach, words.measure, said)
    return Panel(part.name, scatter.scatter(part.bowls, part.mean, part.side, sheet), *part.ways, note)


def _means(record: Record, words: Words) -> Iterator[Means]:
    for kind in ("length", "bowl", "player"):
        found: dict[Side, list[tuple[str, Ellipse]]] = {side: _ellipses(kind, record, side) for side in SIDES}
        if not any(len(part) > 1 for part in found.values()):
            continue
        reach = scatter.means_reach_m([each for part in found.values() for _, each in part])
        said = f"{TITLES[kind]}: where the means lie, seen from the jack. The table has the figures."
        sheet = scatter.Sheet(reach, words.measure, said)
        panels = [
            Panel(
                capitals(words.ours(side)),
                scatter.means(part, side, sheet),
                "right",
                "left",
                ", ".join(f"{letter} {name.lower()}" for letter, name in _keys(kind, record, side)),
            )
            for side, part in found.items()
            if part
        ]
        yield Means(TITLES[kind], tuple(panels))


def _ellipses(kind: str, record: Record, side: Side) -> list[tuple[str, Ellipse]]:
    found = bowling.groups(kind, record.game, record.of(side))
    return [(_letter(kind, group.name), group.ellipse) for group in found if group.ellipse is not None]


def _letter(kind: str, name: str) -> str:
    return name.removeprefix("Bowl ") if kind == "bowl" else name[0]


def _keys(kind: str, record: Record, side: Side) -> list[tuple[str, str]]:
    found = bowling.groups(kind, record.game, record.of(side))
    return [(_letter(kind, group.name), group.name) for group in found if group.ellipse and kind != "bowl"]


def _table(side: Side, record: Record, words: Words, came: Sequence[Came]) -> Table:
    parts = []
    for kind in bowling.KINDS:
        found = bowling.groups(kind, record.game, record.of(side))
        if kind == "hand" and side == "theirs" and all(group.name == "Hand not said" for group in found):
            continue
        if kind == "all" or len(found) > 1:
            parts.append((TITLES[kind], tuple(_row(group, side, record, words, came) for group in found)))
    return Table(side, f"{capitals(words.ours(side))}: line and length", tuple(parts))


def _row(group: Group, side: Side, record: Record, words: Words, came: Sequence[Came]) -> Row:
    more, less = sideways(group.name, record.game) if side == "ours" else ("right", "left")
    return Row(
        name=group.name,
        count=group.count,
        came=tuple(group.came[each] for each in came),
        line=words.signed(group.line, more, less),
        length=words.signed(group.length, "past", "short"),
        gap=words.plain(group.gap.mean),
    )


def _over_the_ends(record: Record, words: Words) -> Markup:
    ours = [one for one in record.of("ours") if one.gap_m is not None]
    points = [(float(record.order[one.end, one.play]), one.gap_m or 0.0) for one in ours]
    names = [
        f"{section.end}\N{MULTIPLICATION SIGN}" if section.replayed else f"{section.end}"
        for section in record.sections
    ]
    said = (
        f"Distance of {words.our('ours')} bowls from the jack over the ends: each bowl, the line through all "
        "of them, and the band in which it lies. The table has the figures."
    )
    unit = "ft" if words.measure.feet else "m"
    trend = bowling.gap_trend(ours, record.order)
    return charts.over_time(charts.Spread(points, names), trend, words.measure.ring_m, unit, said)


def _by_end(record: Record, words: Words) -> Iterator[tuple[str, int, str, str]]:
    trend = bowling.gap_trend(record.of("ours"), record.order)
    for section in record.sections:
        gaps = [
            one.gap_m
            for one in record.of("ours")
            if (one.end, one.play) == (section.end, section.play) and one.gap_m is not None
        ]
        name = f"{section.end}, dead" if section.replayed else str(section.end)
        mean = words.measure.length(sum(gaps) / len(gaps)) if gaps else ""
        level, half = trend.at(float(record.order[section.end, section.play]))
        line = f"{words.measure.length(level)} \N{PLUS-MINUS SIGN} {words.measure.length(half)}"
        yield name, len(gaps), mean, line if trend.slope is not None else "too few"
