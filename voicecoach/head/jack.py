"""The jack: set at the start of an end, moved, in the ditch, dead."""

from voicecoach.head import moves
from voicecoach.head.blend import of_move
from voicecoach.head.bodies import Body, bowls_in_place, jack_radius, lying
from voicecoach.head.bounds import ditch_edge_m, jack_fate, likely_edge_m
from voicecoach.head.breaches import jack_breaches, laws
from voicecoach.head.clock import offset
from voicecoach.head.filing import FARTHEST_M, judging
from voicecoach.head.questions import ask, ask_fate, ask_missing, ask_whether, refuse
from voicecoach.head.respot import placed_again
from voicecoach.head.room import free_place
from voicecoach.head.settle import Missing, settled
from voicecoach.head.values import AskBack, Event, FactName, Figures, Head, JackMove, Point, Refused
from voicecoach.understand.values import HOUR_OF, JackMoved, JackSet, Where


def jack_set(head: Head, note: JackSet) -> Event | AskBack | Refused:
    """The jack lies at its length on the centre line; bowls called already were called from it."""
    if head.finished:
        return refuse("end over")
    length = note.length_m
    if length is None:
        return ask("gap", "jack length", note)
    if not 0 < length <= FARTHEST_M:
        return refuse("jack length")
    breaches = jack_breaches(head.game, length)
    if breaches and not note.confirmed:
        return ask_whether("breaches", note, Figures(breaches=tuple(breaches)), laws(breaches))
    place = head.jack.place
    if place is None:
        return placed_again(head, note, length)
    shift = Point(0.0, length).seen_from(_first(head, place))
    jack = head.jack.put_at(place.shifted(*shift)).model_copy(update={"called": True})
    shorter = length < head.game.shortest_jack_m
    return Event(
        note=note,
        jack=jack,
        bowls=tuple(moves.shifted(lies, shift) for lies in lying(head)),
        game=head.game.model_copy(update={"shortest_jack_m": length}) if shorter else None,
    )


def jack_moved(head: Head, note: JackMoved) -> Event | AskBack | Refused:
    """The jack moved: the face moves with it, and what is spoken of every bowl is worked out anew."""
    place = head.jack.place
    if head.finished:
        return refuse("end over")
    if "respotted" in note.remarks or (place is None and note.length_m is not None):
        return placed_again(head, note, note.length_m)
    if place is None:
        return refuse("jack dead")
    if {"dead", "out of the rink"} & set(note.remarks):
        return _dead(head, note)
    where = _way(head, place, note)
    return _went(head, place, note, where) if isinstance(where, Where) else where


def _went(head: Head, place: Point, note: JackMoved, where: Where) -> Event | AskBack:
    """The jack so far on its way, with what is only guessed of it said."""
    guessed = _is_guessed(head, note)
    relative_sd = _guess(head, place)[1] if guessed else head.game.relative_sd
    done = _displaced(head, place, note, where, relative_sd)
    if guessed and isinstance(done, Event):
        return done.model_copy(update={"remarks": (*done.remarks, "ditch guessed")})
    return done


def _displaced(head: Head, lay: Point, note: JackMoved, where: Where, relative_sd: float) -> Event | AskBack:
    """The jack so far from where it lay, unless a bowl lies there or a law makes it dead."""
    call = JackMove(
        dx_m=0.0,
        dy_m=0.0,
        where=where,
        relative_sd=relative_sd,
        stood=head.game.stood,
        judging=judging(head.game),
    )
    spot = free_place(of_move(call), lay, jack_radius(head.game), bowls_in_place(head))
    if isinstance(spot, list):
        return _in_the_way(note, spot)
    fate = jack_fate(head.game, spot, ditch="in the ditch" in note.remarks)
    if fate and not (note.confirmed or "live" in note.remarks):
        return ask_fate(fate, note)
    return moves.moved_event(head, note, call, spot)


def _way(head: Head, lay: Point, note: JackMoved) -> Where | AskBack | Refused:
    """How far and which way, in the mat's frame."""
    ditch = "in the ditch" in note.remarks
    if note.length_m is not None and not (ditch and ditch_edge_m(head.game) is not None):
        if not 0 < note.length_m <= FARTHEST_M:
            return refuse("jack length")
        return Where(along_m=note.length_m - lay.y_m, across_m=0.0)
    return _to_the_ditch(head, lay, note) if ditch else _on_the_green(head, note)


def _on_the_green(head: Head, note: JackMoved) -> Where | AskBack | Refused:
    where = settled(note, head.game, None)
    if isinstance(where, Missing):
        return ask_missing(where, note)
    if "jack high" in where.remarks:
        return ask_missing(Missing("hour"), note)
    far = max(abs(where.gap_m or 0.0), abs(where.along_m or 0.0), abs(where.across_m or 0.0))
    return where if far <= FARTHEST_M else refuse("too far")


def _to_the_ditch(head: Head, lay: Point, note: JackMoved) -> Where | AskBack:
    """A jack in the ditch is taken to lie on the ditch's edge, past where it lay or as far aside as said.

    While the ditch's place is not known, and how far back it went was not said, it lies in the middle of
    where the laws let the ditch be, with all of that for its doubt: play goes on, and nobody is held up.
    """
    aside = _aside(note, _towards(head, note))
    if aside is not None:
        return Where(along_m=_back(head, lay, note), across_m=aside, unit=note.unit)
    towards = _towards(head, note)
    hour = 12.0 if isinstance(towards, Missing) or towards.hour is None else towards.hour
    right, past = offset(hour, 1.0)
    known = ditch_edge_m(head.game) is not None
    if past > 0.1 and (known or note.gap_m is None):
        back = _back(head, lay, note)
        return Where(along_m=back, across_m=back * right / past)
    if note.gap_m is None:
        return ask_missing(Missing("gap"), note)
    return Where(gap_m=note.gap_m, unit=note.unit, hour=hour, hour_width=note.hour_width)


def _back(head: Head, lay: Point, note: JackMoved) -> float:
    """How far up the rink the ditch's edge is from where the jack lay: known, as said, or guessed."""
    edge = ditch_edge_m(head.game)
    if edge is not None:
        return edge - lay.y_m
    return note.along_m or _guess(head, lay)[0]


def _guess(head: Head, lay: Point) -> tuple[float, float]:
    """How far up the rink a ditch in an unknown place is likely to be, metres, and its relative spread."""
    edge, sd = likely_edge_m(head.game, lay.y_m)
    return edge - lay.y_m, sd / (edge - lay.y_m)


def _is_guessed(head: Head, note: JackMoved) -> bool:
    """True for a jack in a ditch whose place nobody has said, where nobody said how far back it went."""
    if "in the ditch" not in note.remarks or ditch_edge_m(head.game) is not None:
        return False
    aside = _aside(note, _towards(head, note)) is not None
    said = note.along_m if aside else note.gap_m or note.length_m or note.along_m
    return said is None


def _towards(head: Head, note: JackMoved) -> Where | Missing:
    """Which way it went; a distance that was not said makes no difference to that."""
    return settled(note.model_copy(update={"gap_m": note.gap_m or 1.0}), head.game, None)


def _aside(note: JackMoved, towards: Where | Missing) -> float | None:
    """How far right of where it lay the jack went, in the mat's frame, where that was said alone."""
    if isinstance(towards, Missing):
        return None
    if towards.hour is None:
        return towards.across_m
    if note.gap_m is None or towards.hour not in (HOUR_OF["left"], HOUR_OF["right"]):
        return None
    return note.gap_m if towards.hour == HOUR_OF["right"] else -note.gap_m


def _dead(head: Head, note: JackMoved) -> Event:
    """A dead jack: the end is dead (law 20), or it is placed again as the conditions of play set it."""
    if head.game.respot and ditch_edge_m(head.game) is not None:
        again = placed_again(head, note, None)
        if isinstance(again, Event):
            return again
    dead = head.jack.model_copy(update={"x_m": None, "y_m": None, "state": "dead", "last": head.jack.place})
    what: FactName = "place the jack" if head.game.respot else "end dead"
    return Event(note=note, jack=dead, law="20", remarks=(what,))


def _in_the_way(note: JackMoved, bodies: list[Body]) -> AskBack:
    return ask("hour", "bowl in the way of the jack", note, figures=Figures(bowl=bodies[0].name))


def _first(head: Head, now: Point) -> Point:
    """Where the jack lay before its first move."""
    moved = head.jack_moves
    return now.shifted(-sum(move.dx_m for move in moved), -sum(move.dy_m for move in moved))
