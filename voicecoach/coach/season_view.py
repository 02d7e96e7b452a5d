"""A season, ready to be set: games in a row, line and length by game, and the director's eye over time."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from voicecoach.coach import bowling, charts
from voicecoach.coach.bowling_view import CAME, SIDES, TITLES, Row, Table
from voicecoach.coach.charts import Bar, bars
from voicecoach.coach.deliveries import Came
from voicecoach.coach.eye import ENOUGH, FAR_M
from voicecoach.coach.eye_lines import PLACES, band_words
from voicecoach.coach.figures import Figure, Trend, trend
from voicecoach.coach.game_view import sideways
from voicecoach.coach.measure import Measure
from voicecoach.coach.page import rendered
from voicecoach.coach.season import Game, Season, Tally, looked, spans
from voicecoach.coach.wording import Words, counted
from voicecoach.describe import Preferences
from voicecoach.head.values import Game as Rules
from voicecoach.phrasebook.wording import capitals
from voicecoach.understand.values import Side

MOST_BARS, MOST_SPANS = 60, 40
"""So many games stand in a drawing one by one; more are taken together, a number of games each."""
EVERY = 15


@dataclass(frozen=True)
class GameRow:
    """One game in the table."""

    place: int
    name: str
    when: str
    how: str
    score: str
    result: str
    bowls: int
    line: str
    length: str
    gap: str


@dataclass(frozen=True)
class Chart:
    """One drawing over the games, with what it says in words."""

    name: str
    said: str
    drawing: Markup
    above: str
    below: str


@dataclass(frozen=True)
class EyeRow:
    """What the tape said of the director's calls in some games."""

    place: str
    games: str
    said: str


def season_page(title: str, season: Season) -> str:
    """The page as text: it needs no script."""
    words = Words(
        Preferences(sides="yours" if season.yours * 2 > len(season.games) else "ours"),
        Measure(feet=season.feet * 2 > len(season.games)),
    )
    came = tuple(each for each in CAME if any(part.came[each] for part in season.parts.values()))
    return rendered(
        "season.html",
        title=title,
        words=words,
        summary=_summary(season, words),
        findings=_findings(season, words),
        margins=_margins(season.games, words) if season.games else None,
        charts=tuple(_charts(season, words)),
        games=tuple(_rows(season, words)),
        tables=tuple(
            _table(side, season, words, came) for side in SIDES if (side, "all", "All") in season.parts
        ),
        came=came,
        eye=tuple(_eye(season.games)),
        enough=ENOUGH,
        far=words.measure.length(FAR_M),
        empty=season.empty,
    )


def _summary(season: Season, words: Words) -> str:
    """How many games, and how they went."""
    games = season.games
    if not games:
        return "No journal here holds a game."
    won = sum(_margin(game) > 0 for game in games)
    lost = sum(_margin(game) < 0 for game in games)
    level = len(games) - won - lost
    we = capitals(words.we("ours"))
    return f"{counted(len(games), 'game')}. {we} came out ahead in {won}, behind in {lost}, level in {level}."


def _margin(game: Game) -> int:
    return game.ours - game.theirs


def _all(season: Season) -> Tally:
    return season.parts.get(("ours", "all", "All"), Tally())


def _findings(season: Season, words: Words) -> tuple[str, ...]:
    whole = _all(season)
    group = bowling.Group(
        "All", whole.count, whole.came, whole.line.figure, whole.length.figure, whole.gap.figure, None
    )
    return (
        words.length(group),
        words.line("", group, "right", "left"),
        words.over_games(_trend(season.games)),
    )


def _trend(games: Sequence[Game]) -> Trend:
    """How the mean distance changes from game to game; a game counts once, as its mean."""
    means = [
        (float(place), game.bowls.gap.total / game.bowls.gap.count)
        for place, game in enumerate(games, start=1)
        if game.bowls.gap.count
    ]
    return trend(means)


def _margins(games: Sequence[Game], words: Words) -> Markup:
    shown = games[-MOST_BARS:]
    first = len(games) - len(shown) + 1
    found = [Bar(_margin(game), mark="=", under=str(place)) for place, game in enumerate(shown, start=first)]
    said = (
        f"By how many shots each of {counted(len(shown), 'game')} was won or lost. The table says the same."
    )
    return bars(found, said, "lead", -(-len(found) // EVERY))


def _charts(season: Season, words: Words) -> Iterator[Chart]:
    """Length and line by game, each mean with its interval; and the distance."""
    parts = spans(season.games, MOST_SPANS)
    wanted: tuple[tuple[str, str, str, Callable[[Tally], Figure]], ...] = (
        ("Length by game", "past the jack", "short", lambda bowls: bowls.length.figure),
        ("Line by game", "right of the jack", "left of it", lambda bowls: bowls.line.figure),
        ("Distance from the jack by game", "", "", lambda bowls: bowls.gap.figure),
    )
    names = [part.name for part in parts]
    for name, above, below, pick in wanted:
        found = [pick(part.bowls) for part in parts]
        if not any(figure.mean is not None for figure in found):
            continue
        told = sum(figure.mean is not None for figure in found)
        said = (
            f"{name}: {counted(told, 'mean')} with their intervals. The table of the games has the figures."
        )
        unit = "ft" if words.measure.feet else "m"
        drawing = charts.intervals(found, names, words.measure.ring_m, unit, said)
        yield Chart(name, _too_few(found), drawing, above, below)


def _too_few(found: Sequence[Figure]) -> str:
    few = sum(figure.mean is None for figure in found)
    return (
        f" {counted(few, 'place')} without enough bowls {'is' if few == 1 else 'are'} left empty."
        if few
        else ""
    )


def _rows(season: Season, words: Words) -> Iterator[GameRow]:
    for place, game in enumerate(season.games, start=1):
        margin = _margin(game)
        verb = ("won", "lost", "level") if game.over else ("ahead", "behind", "level")
        yield GameRow(
            place=place,
            name=game.name,
            when=f"{game.began:%d.%m.%Y}" if game.began else "",
            how=game.format or "",
            score=f"{game.ours} to {game.theirs}",
            result=verb[0] if margin > 0 else verb[1] if margin < 0 else verb[2],
            bowls=game.bowls.count,
            line=words.signed(game.bowls.line.figure, "right", "left"),
            length=words.signed(game.bowls.length.figure, "past", "short"),
            gap=words.plain(game.bowls.gap.figure.mean),
        )


def _table(side: Side, season: Season, words: Words, came: Sequence[Came]) -> Table:
    rules = Rules.model_validate({"hand": season.hand if side == "ours" else None})
    parts = []
    for kind in bowling.KINDS:
        found = {
            name: tally for (whose, by, name), tally in season.parts.items() if (whose, by) == (side, kind)
        }
        names = [name for name in bowling.names(kind) if name in found]
        names += sorted(name for name in found if name not in names)
        if kind == "all" or len(names) > 1:
            rows = tuple(_row(name, found[name], rules, words, came) for name in names)
            parts.append((TITLES[kind], rows))
    return Table(side, f"{capitals(words.ours(side))}: line and length", tuple(parts))


def _row(name: str, tally: Tally, rules: Rules, words: Words, came: Sequence[Came]) -> Row:
    return Row(
        name=name,
        count=tally.count,
        came=tuple(tally.came[each] for each in came),
        line=words.signed(tally.line.figure, *sideways(name, rules)),
        length=words.signed(tally.length.figure, "past", "short"),
        gap=words.plain(tally.gap.figure.mean),
    )


def _eye(games: Sequence[Game]) -> Iterator[EyeRow]:
    for part in looked(games, ENOUGH):
        games_words = f"{part.first}" if part.first == part.last else f"{part.first} to {part.last}"
        yield EyeRow(PLACES[part.stood], games_words, capitals(band_words(part.eye.band)))
