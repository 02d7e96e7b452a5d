"""A called place made a filed one: settled, given room, and held against the laws' bounds."""

from dataclasses import dataclass

from voicecoach.head.bodies import Body, bowl_radius, bowls_in_place, jack_in_place
from voicecoach.head.bounds import bowl_fate
from voicecoach.head.clock import HOURS
from voicecoach.head.estimate import of_call, origin_of
from voicecoach.head.landmark import landmark_of
from voicecoach.head.questions import Offer, ask, ask_fate, ask_missing, refuse
from voicecoach.head.room import free_place
from voicecoach.head.settle import Missing, settled
from voicecoach.head.values import AskBack, Call, Called, Figures, Game, Head, Judging, Point, Refused
from voicecoach.understand.notes.corrections import AboutABowl
from voicecoach.understand.values import DIRECTIONS, ON_A_HAND, BowlMoved, BowlName, Corrected, Note, Where

FARTHEST_M = 100.0
"""More than twice the longest green (40 m, law 46.2): such a figure was misheard."""


@dataclass(frozen=True)
class FiledPlace:
    """Where a bowl is filed, and the call that put it there."""

    place: Point
    call: Call


def called(where: Where) -> Called:
    """What was called, kept as called; from another bowl, only the words that are not about the place."""
    if where.landmark is not None:
        kept = tuple(word for word in where.remarks if word not in (*DIRECTIONS, "touching", "about"))
        return Called(gap_m=None, hour=None, unit=where.unit, remarks=kept)
    return Called(gap_m=where.gap_m, hour=where.hour, unit=where.unit, remarks=where.remarks)


def place_bowl(head: Head, name: BowlName, note: AboutABowl) -> FiledPlace | AskBack | Refused:
    """Where this note puts the bowl, or what to ask first."""
    call = call_of(head, name, note, note)
    if not isinstance(call, Call):
        return call
    place = _with_room(head, name, call)
    if isinstance(place, list):
        return _no_room(head, name, note, place)
    return _within_bounds(head, note, place)


def call_of(head: Head, name: BowlName, where: Where, note: Note) -> Call | AskBack | Refused:
    """The call in the mat's frame, or what it lacks."""
    if head.jack.place is None:
        return refuse("jack dead")
    beside = landmark_of(head, name, where)
    if isinstance(beside, Refused):
        return beside
    place = settled(where, head.game, name.side)
    if isinstance(place, Missing):
        return ask_missing(place, note)
    far = max(abs(place.gap_m or 0.0), abs(place.along_m or 0.0), abs(place.across_m or 0.0))
    if not far <= FARTHEST_M or (place.gap_m or 0.0) < 0:
        return refuse("too far")
    return Call(
        where=place,
        jack_moves=len(head.jack_moves),
        stood=head.game.stood,
        relative_sd=head.game.relative_sd,
        judging=judging(head.game),
        landmark=beside,
    )


def judging(game: Game) -> Judging | None:
    """How the director judges from where the director stands now."""
    return game.eye.mat if game.stood == "mat" else game.eye.head


def _with_room(head: Head, name: BowlName, call: Call) -> FiledPlace | list[Body]:
    made = of_call(call, head.game.bowl_mm, head.game.jack_mm)
    jack = jack_in_place(head)
    others = bowls_in_place(head, without=name) + jack
    spot = free_place(made, origin_of(call, jack[0].place), bowl_radius(head.game), others)
    return spot if isinstance(spot, list) else FiledPlace(spot, call)


def _no_room(head: Head, name: BowlName, note: AboutABowl, blockers: list[Body]) -> AskBack | Refused:
    """Ask which of the nearest hours with room was meant."""
    start = round(note.hour or 12)
    free: list[int] = []
    for step in (1, -1, 2, -2, 3, -3):
        hour = (start + step) % HOURS or HOURS
        call = call_of(head, name, _on(note, hour), note)
        if isinstance(call, Call) and not isinstance(_with_room(head, name, call), list):
            free.append(hour)
        if len(free) == 2:
            break
    if not free:
        return refuse("in the way", Figures(bowl=blockers[0].name))
    offers: list[Offer] = [(hour, _on(note, hour)) for hour in free]
    return ask("hour", "no room", note, offers, Figures(bowl=blockers[0].name))


def _on(note: AboutABowl, hour: int) -> AboutABowl:
    """The same note on another hour, its direction in words dropped."""
    kept = tuple(r for r in note.remarks if r not in DIRECTIONS or r in ON_A_HAND)
    return note.model_copy(
        update={"hour": float(hour), "hour_width": 1.0, "remarks": kept, "along_m": None, "across_m": None}
    )


def _within_bounds(head: Head, note: AboutABowl, place: FiledPlace) -> FiledPlace | AskBack:
    """The place, unless a law makes a bowl there dead and nobody has said that it isn't."""
    if note.confirmed or "live" in note.remarks or isinstance(note, Corrected):
        return place
    moved, ditch = isinstance(note, BowlMoved), "in the ditch" in note.remarks
    fate = bowl_fate(head.game, place.place, moved, ditch)
    return ask_fate(fate, note) if fate else place
