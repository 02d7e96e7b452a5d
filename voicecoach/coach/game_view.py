"""The first screen: who and when, the result, a drawing of the game, three findings, the ends by result."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from voicecoach.coach import bowling, wording
from voicecoach.coach.bowling import Group
from voicecoach.coach.charts import Bar, bars
from voicecoach.coach.moments import Section
from voicecoach.coach.record import Record
from voicecoach.coach.wording import Words, counted
from voicecoach.describe.confirming_game import game_parts
from voicecoach.head.ends import is_over
from voicecoach.head.values import Game
from voicecoach.phrasebook.wording import capitals
from voicecoach.understand.values import Side

DEAD, NO_SCORE, OPEN = "\N{MULTIPLICATION SIGN}", "=", "\N{HORIZONTAL ELLIPSIS}"
"""What stands for a dead end, one without a score, and one that wasn't finished."""
EVERY = 12
"""So many words stand below a drawing at most, or they would touch."""


@dataclass(frozen=True)
class EndResult:
    """What one play of an end brought, ready to be set."""

    id: str
    name: str
    """`End 3`, `End 3, first play`."""
    short: str
    """`3`."""
    sign: str
    """`+2`, `-1`, or what stands for no score."""
    side: Side | None
    words: str
    """`2 to us`."""
    ours: int
    theirs: int
    total_ours: int
    total_theirs: int


@dataclass(frozen=True)
class GameView:
    """The first screen, ready to be set."""

    who: str
    when: str
    how: str
    result: str
    results: tuple[EndResult, ...]
    chart: Markup | None
    above: str
    below: str
    findings: tuple[str, ...]
    left_out: str


def game_view(record: Record, words: Words) -> GameView:
    """All of it."""
    results = end_results(record, words)
    return GameView(
        who=record.player or "",
        when=wording.when(record.began, record.ended),
        how=" ".join(_how(record.game, words)),
        result=_result(record, words),
        results=results,
        chart=_chart(results, words) if results else None,
        above=f"{words.we('ours')} lead",
        below=f"{words.we('theirs')} lead",
        findings=findings(record, words),
        left_out=", ".join(record.left_out),
    )


def section_id(section: Section) -> str:
    """How an end is linked to: `end-3`; its dead play before it `end-3-play-1`."""
    return f"end-{section.end}-play-{section.play}" if section.replayed else f"end-{section.end}"


def end_results(record: Record, words: Words) -> tuple[EndResult, ...]:
    """What each play of each end brought."""
    return tuple(_results(record.sections, words))


def _results(sections: Sequence[Section], words: Words) -> Iterator[EndResult]:
    ours = theirs = 0
    for section in sections:
        shots = section.agreed
        brought = shots or (0, 0)
        ours, theirs = ours + brought[0], theirs + brought[1]
        side: Side | None = (
            "ours" if brought[0] > brought[1] else "theirs" if brought[1] > brought[0] else None
        )
        count = max(brought)
        sign = _sign(side, count) if side else DEAD if section.replayed else NO_SCORE if shots else OPEN
        yield EndResult(
            id=section_id(section),
            name=end_name(section),
            short=f"{section.end}",
            sign=sign,
            side=side,
            words=_words(section, side, count, shots is not None, words),
            ours=brought[0],
            theirs=brought[1],
            total_ours=ours,
            total_theirs=theirs,
        )


def end_name(section: Section) -> str:
    """`End 3`; its plays told apart where it was dead."""
    if section.replayed:
        return f"End {section.end}, dead" if section.play == 1 else f"End {section.end}, dead again"
    return f"End {section.end}, played again" if section.play > 1 else f"End {section.end}"


def _sign(side: Side, count: int) -> str:
    return f"+{count}" if side == "ours" else f"\N{MINUS SIGN}{count}"


def _words(section: Section, side: Side | None, count: int, finished: bool, words: Words) -> str:
    if side:
        return f"{count} to {words.us(side)}"
    if section.replayed:
        return "dead, played again"
    return "no score" if finished else "not finished"


def _how(game: Game, words: Words) -> Iterator[str]:
    """How it was played, in short sentences."""
    kept = game.model_copy(
        update={"lead": None, "rink_m": None, "green_m": None, "mat_m": None, "jack_m": None}
    )
    usual = Game()
    kept = kept.model_copy(update={"bowl_mm": usual.bowl_mm, "jack_mm": usual.jack_mm})
    yield from game_parts(kept, words.prefs)


def _result(record: Record, words: Words) -> str:
    score = record.score
    if not score.ends:
        return "No end was finished with a score."
    after = f"after {counted(score.ends, 'end')}"
    high, low = max(score.ours, score.theirs), min(score.ours, score.theirs)
    if high == low:
        return f"Level, {high} each, {after}."
    side: Side = "ours" if score.ours > score.theirs else "theirs"
    verb = "won" if is_over(record.game, score) else "lead"
    return f"{capitals(words.we(side))} {verb}, {high} to {low}, {after}."


def _chart(results: Sequence[EndResult], words: Words) -> Markup:
    found = [
        Bar(
            value=each.total_ours - each.total_theirs,
            mark=each.sign if each.side is None else "0",
            under=each.short if each.side or each.sign == NO_SCORE else each.short + each.sign,
        )
        for each in results
    ]
    leads = [bar.value for bar in found]
    most, least = max(0, *leads), max(0, *(-lead for lead in leads))
    said = (
        f"The lead after each end: {counted(len(found), 'step')}, at most {most} for {words.us('ours')} and "
        f"{least} for {words.us('theirs')}, {abs(leads[-1])} at last. The table of the score says the same."
    )
    return bars(found, said, "lead", -(-len(found) // EVERY))


def findings(record: Record, words: Words) -> tuple[str, ...]:
    """Length, line and trend of our bowls, each with what it is known to."""
    ours, game = record.of("ours"), record.game
    whole = next(iter(bowling.groups("all", game, ours)), None)
    return (
        words.length(whole),
        _line(record, words, whole),
        words.trend(bowling.gap_trend(ours, record.order)),
    )


def _line(record: Record, words: Words, whole: Group | None) -> str:
    """The hand whose line is surest to lean, where hands were named; else all bowls, left and right."""
    hands = [
        group
        for group in bowling.groups("hand", record.game, record.of("ours"))
        if group.name in ("Forehand", "Backhand") and group.line.mean is not None
    ]
    if not hands:
        return words.line("", whole, "right", "left")
    best = max(hands, key=lambda group: abs(group.line.mean or 0.0) / max(group.line.half or 0.0, 1e-9))
    more, less = sideways(best.name, record.game)
    return words.line(f", {best.name.lower()}", best, more, less)


def sideways(name: str, game: Game) -> tuple[str, str]:
    """What right and left of the jack are called for a hand: wide or narrow where the player's own is known.

    A right-hander's forehand runs out to the right and bends back: right of the jack it is wide. The
    backhand and the left hand each mirror that (common practice, no source).
    """
    if game.hand is None or name not in ("Forehand", "Backhand"):
        return "right", "left"
    mirrored = (name == "Backhand") != (game.hand == "left")
    return ("narrow", "wide") if mirrored else ("wide", "narrow")
