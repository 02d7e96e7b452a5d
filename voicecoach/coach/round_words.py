"""What a round of practice came to, and how it stands beside the rounds before, in plain words."""

from collections.abc import Iterator, Sequence

from voicecoach.coach.practice import say, words
from voicecoach.coach.results import Result, best, series, tallies
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.phrasebook.numbers import cardinal, spoken

_NEITHER = 0.5
"""Per cent; a bias that rounds to nothing isn't spoken."""


def calling_words(result: Result, before: Sequence[Result]) -> Sentences:
    """A round of calling, and the rounds so far."""
    found = [_points(result), *_figures(result)]
    offs = series([*before, result])
    if len(offs) > 1:
        figures = ", ".join(_percent(off) for off in offs)
        found.append(say("round", "before", figures=figures))
    return tuple(found)


def picturing_words(result: Result, before: Sequence[Result]) -> Sentences:
    """A round of picturing, and how the forms compare at its length."""
    return (_points(result), *_figures(result), *compared([*before, result], result.bowls, result.kind))


def compared(results: Sequence[Result], bowls: int, kind: str) -> Iterator[Sentence]:
    """Each form at one length in one kind of round, and which is remembered best, where that is clear."""
    rows = [row for row in tallies(results) if (row.bowls, row.kind) == (bowls, kind)]
    for row in rows:
        slots = {"form": row.form, "bowls": cardinal(row.bowls), "right": cardinal(row.right)}
        yield say("compare", row.kind, **slots, of=cardinal(row.of))
    winner = best(rows)
    if isinstance(winner, str):
        yield say("compare", winner)
    else:
        yield say("compare", f"best {winner.kind}", form=winner.form)


def _points(result: Result) -> Sentence:
    return say("round", "points", right=cardinal(result.right), of=cardinal(result.of))


def _figures(result: Result) -> Iterator[Sentence]:
    if result.distance_off is None or result.distance_ratio is None or result.hour_off is None:
        return
    yield say("round", "distance", off=_percent(result.distance_off), bias=_bias(result.distance_ratio))
    yield say("round", "hour", off=spoken(result.hour_off))


def _bias(ratio: float) -> str:
    percent = (ratio - 1) * 100
    if abs(percent) < _NEITHER:
        return words("round", "neither")
    return words("round", "short" if percent < 0 else "long", off=cardinal(max(1, round(abs(percent)))))


def _percent(share: float) -> str:
    return cardinal(round(share * 100))
