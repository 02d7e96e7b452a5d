"""The jack: set at the start of an end, moved, in the ditch, dead."""

from voicecoach.head import moves
from voicecoach.head.blend import of_move
from voicecoach.head.bodies import Body, bowls_in_place, jack_radius, lying
from voicecoach.head.bounds import ditch_edge_m, jack_fate
from voicecoach.head.breaches import jack_breaches, laws
from voicecoach.head.clock import offset
from voicecoach.head.filing import FARTHEST_M, judging
from voicecoach.head.questions import ask, ask_fate, ask_missing, ask_whether, refuse
from voicecoach.head.respot import placed_again
from voicecoach.head.room import free_place
from voicecoach.head.settle import Missing, settled
from voicecoach.head.values import AskBack, Event, FactName, Figures, Head, JackMove, Point, Refused
from voicecoach.understand.values import DIRECTIONS, HOUR_OF, JackMoved, JackSet, Where


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
    if note.across_m is not None and note.gap_m is not None:
        note = note.model_copy(update={"along_m": note.gap_m, "gap_m": None})
    return _displaced(head, place, note, where) if isinstance(where, Where) else where


def _displaced(head: Head, lay: Point, note: JackMoved, where: Where) -> Event | AskBack:
    """The jack so far from where it lay, unless a bowl lies there or a law makes it dead."""
    call = JackMove(
        dx_m=0.0,
        dy_m=0.0,
        where=where,
        relative_sd=head.game.relative_sd,
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

    While the ditch's place is not known, how far back it went must be said.
    """
    towards = settled(note.model_copy(update={"gap_m": note.gap_m or 1.0}), head.game, None)
    aside, edge = _aside(note, towards), ditch_edge_m(head.game)
    if edge is not None and aside is not None:
        return Where(along_m=edge - lay.y_m, across_m=aside, unit=note.unit)
    if aside is not None:
        back = note.gap_m if note.across_m is not None and not note.along_m else note.along_m
        return Where(along_m=back, across_m=aside, unit=note.unit) if back else _ask_how_far_back(note)
    hour = 12.0 if isinstance(towards, Missing) or towards.hour is None else towards.hour
    right, past = offset(hour, 1.0)
    if edge is not None and past > 0.1:
        along = edge - lay.y_m
        return Where(along_m=along, across_m=along * right / past)
    if note.gap_m is None:
        return ask_missing(Missing("gap"), note)
    return Where(gap_m=note.gap_m, unit=note.unit, hour=hour, hour_width=note.hour_width)


def _aside(note: JackMoved, towards: Where | Missing) -> float | None:
    """How far right of where it lay the jack went, in the mat's frame, where that was said alone."""
    if isinstance(towards, Missing):
        return None
    if towards.hour is None:
        return towards.across_m
    if note.gap_m is None or towards.hour not in (HOUR_OF["left"], HOUR_OF["right"]):
        return None
    return note.gap_m if towards.hour == HOUR_OF["right"] else -note.gap_m


def _ask_how_far_back(note: JackMoved) -> AskBack:
    """Keep how far aside it went, as the caller has it, and ask for the rest."""
    if note.across_m is None and note.gap_m is not None:
        right = "right" in note.remarks or note.hour == HOUR_OF["right"]
        kept = tuple(remark for remark in note.remarks if remark not in DIRECTIONS)
        across = note.gap_m if right else -note.gap_m
        note = note.model_copy(
            update={"across_m": across, "gap_m": None, "hour": None, "remarks": kept, "hour_width": 1.0}
        )
    return ask("gap", "move distance back", note)


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
