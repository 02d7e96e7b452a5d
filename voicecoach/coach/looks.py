"""A director's calls beside what the tape said of the same bowl, where nothing had moved in between."""

from collections.abc import Iterable, Sequence
from typing import Literal

from voicecoach.coach.moments import Moment, moments
from voicecoach.head.blend import by_tape_alone
from voicecoach.head.clock import HOURS, hour_of
from voicecoach.head.estimate import Axes, of_call, sight
from voicecoach.head.values import Bowl, Call, Game
from voicecoach.session.values import Entry
from voicecoach.understand.values import Side
from voicecoach.value import Value


class Look(Value):
    """One call by eye, and the tape's figure for it."""

    stood: Literal["mat", "head"]
    """Where the director stood."""
    said_gap_m: float
    true_gap_m: float
    sight: float
    """How much wider the geometry takes the distance's spread in this direction than across the rink."""
    said_hour: float | None = None
    """None where the direction was two distances, or a jack-high side."""
    true_hour: float | None = None
    """None where the tape gave the distance alone."""
    hour_width: float = 1.0
    """How wide the said hour was, hours."""

    @property
    def hour_error(self) -> float | None:
        """Said less true, the shorter way round, hours."""
        if self.said_hour is None or self.true_hour is None:
            return None
        return (self.said_hour - self.true_hour + HOURS / 2) % HOURS - HOURS / 2


def looks(entries: Iterable[Entry]) -> tuple[Look, ...]:
    """Every look in a journal, in the order of the tape; of a bowl taped twice only the last tape counts."""
    return looks_in(moments(entries))


def looks_in(game: Iterable[Moment]) -> tuple[Look, ...]:
    """The same of the moments of a game."""
    found: dict[tuple[int, int, Side, int, int], Look] = {}
    for moment in game:
        bowl = _taped(moment)
        if bowl is None:
            continue
        at = _call_before(bowl.calls)
        look = None if at is None else _look(bowl.calls[at], bowl.calls[-1], moment.head.game)
        if at is not None and look is not None:
            found[moment.end, moment.play, bowl.side, bowl.number, at] = look
    return tuple(found.values())


def _taped(moment: Moment) -> Bowl | None:
    """The bowl that this moment taped; None for any other moment, and for one taken back later."""
    name = moment.event.bowl
    if moment.note.kind != "measured" or moment.note.gap_m is None or name is None or not moment.stands:
        return None
    bowl = next(bowl for bowl in moment.head.bowls if (bowl.side, bowl.number) == (name.side, name.number))
    return bowl if bowl.calls and bowl.calls[-1].stood == "tape" else None


def _call_before(calls: Sequence[Call]) -> int | None:
    """Index of the call by eye that the last call's tape can be held against, if there is one."""
    by_eye = [index for index, call in enumerate(calls) if call.stood != "tape"]
    if not by_eye:
        return None
    call, tape = calls[by_eye[-1]], calls[-1]
    judged = not (call.by or call.landmark)  # from another bowl, its distance from the jack was not judged
    return by_eye[-1] if judged and call.jack_moves == tape.jack_moves else None


def _look(call: Call, tape: Call, game: Game) -> Look | None:
    """None for a bowl that touches the jack: touching is seen, not judged."""
    reach_m = (game.bowl_mm + game.jack_mm) / 2000
    right, past = of_call(call, game.bowl_mm, game.jack_mm).point
    said_gap_m = (right * right + past * past) ** 0.5 - reach_m
    true_gap_m = tape.where.gap_m or 0.0
    if said_gap_m <= 1e-6 or true_gap_m <= 0 or call.stood == "tape":
        return None
    in_axes = isinstance(of_call(call, game.bowl_mm, game.jack_mm), Axes)
    return Look(
        stood=call.stood,
        said_gap_m=said_gap_m,
        true_gap_m=true_gap_m,
        sight=sight(hour_of(right, past), call.stood == "head"),
        said_hour=None if in_axes else call.where.hour,
        true_hour=tape.where.hour if by_tape_alone(tape) else None,
        hour_width=call.where.hour_width,
    )
