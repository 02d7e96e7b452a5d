"""The export: one row for each bowl at each moment."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from voicecoach.coach.apart import set_apart
from voicecoach.coach.asides import remarks_on
from voicecoach.coach.bowling import place, players_bowl
from voicecoach.coach.deliveries import Came, Delivered, Hand, Name, delivered
from voicecoach.coach.held import Holds, holds, seen
from voicecoach.coach.moments import Moment, Section, sections
from voicecoach.head.clock import hour_of
from voicecoach.head.holding import filed_gap
from voicecoach.head.values import Bowl, Head, State
from voicecoach.understand.values import Format, Side, Unit
from voicecoach.value import Value


class Row(Value):
    """One bowl as it lay at one moment. A figure that is unknown, or that a dead bowl lacks, is empty."""

    journal: str
    """Name of the journal's file."""
    end: int
    """Number of the end, from 1."""
    play: int
    """1, and one more each time the end was dead and played again."""
    replayed: bool
    """True in every play of an end but the last: it was dead, and its bowls don't score."""
    moment: int
    """Number of the moment within the end, from 1: one for each note that changed the head."""
    turn: int
    """Number of the journal's entry that made the moment."""
    at: str
    """When that entry was taken, ISO 8601 with the offset from UTC."""
    kind: str
    """Kind of the note that made the moment: `bowl_rested`, `jack_moved`, `corrected`, ..."""
    named: bool
    """True for the bowl that the note was about."""
    stands: bool
    """False at a moment that was taken back later: leave such rows out of counts."""
    settled: bool
    """True in one row for each bowl delivered, which has its first rest as it stood in the end, corrected."""
    side: Side
    """`ours` or `theirs`."""
    number: int
    """1 for the side's first bowl of the end."""
    x_m: float | None
    """Centre of the bowl right of the centre line, as seen from the mat, metres."""
    y_m: float | None
    """Centre of the bowl up the rink from the mat line, metres."""
    gap_m: float | None
    """Between nearest points of bowl and jack, metres."""
    hour_exact: float | None
    """Hour of the clock face on the jack, in (0, 12]: 12 is past the jack, 3 to its right."""
    gap_sd_m: float | None
    """Standard deviation of that gap, from the doubt of the calls, metres."""
    rest_across_m: float | None
    """In a settled row: centre of the bowl right of the jack as it lay when the bowl came to rest, metres."""
    rest_along_m: float | None
    """In a settled row: centre of the bowl past that jack, metres; negative when short."""
    rest_gap_m: float | None
    """In a settled row: between nearest points of the bowl and that jack, metres."""
    rest_jack_m: float | None
    """In a settled row: how far up the rink that jack lay, where it was set, metres."""
    came: Came | None
    """In a settled row: `short`, `level`, `past`, `ditch`, `lost` or `not placed`."""
    players_bowl: int | None
    """In a settled row: which of the player's own bowls it was, from 1."""
    place: str | None
    """In a settled row: `lead`, `second`, `third` or `skip`, in a team game."""
    hand: Hand | None
    """In a settled row: `forehand` or `backhand`, where the note named it."""
    remark: str | None
    """In a settled row: the remarks made on this bowl, one after another."""
    said_gap_m: float | None
    """Distance as it was called, metres."""
    said_hour: float | None
    """Hour as it was called; a half is .5."""
    said_unit: Unit | None
    """Unit in which it was called."""
    state: State
    """`live`, `ditch` or `dead`."""
    set_apart: bool
    """True for a bowl that lies beside its called place, since two bodies can't overlap."""
    toucher: bool
    """True for a toucher."""
    why_dead: str | None
    """Why it is dead."""
    stood: Literal["mat", "head", "tape"] | None
    """Where the last call of this bowl was made from: the mat, the head, or with a tape."""
    jack_x_m: float | None
    """Centre of the jack right of the centre line, metres."""
    jack_y_m: float | None
    """Centre of the jack up the rink from the mat line, metres."""
    jack_state: State
    """`live`, `ditch` or `dead`."""
    jack_set: bool
    """False while the jack is taken to lie at the default length because nobody has set it."""
    jack_moves: int
    """Jack moves noted in this end so far."""
    holds: Side | None
    """Side that holds shot by the filed places; empty where the nearest bowls are level, or none is live."""
    shots: int
    """Shots it holds, by the same."""
    sure: bool
    """False where the doubt of the calls makes it too close to call."""
    agreed_ours: int | None
    """Our shots of this end as agreed; empty until it is finished, and for a dead play of it."""
    agreed_theirs: int | None
    """Their shots of this end as agreed."""
    score_ours: int
    """Our shots in the game so far."""
    score_theirs: int
    """Their shots in the game so far."""
    format: Format | None
    """`singles`, `pairs`, `triples` or `fours`, where it was set."""
    handed: Literal["right", "left"] | None
    """The player's own hand, where it was set: a right-hander's forehand is wide to the right of the jack."""
    heard: str
    """The words that made the moment, as recognised or typed."""


@dataclass(frozen=True)
class _Around:
    """What the rows of one play of an end share."""

    journal: str
    section: Section
    agreed: tuple[int, int] | None
    settled: Mapping[tuple[int, Name], Delivered]
    """Each bowl delivered, by the moment in which it was settled and its name."""
    remarks: Mapping[Name, str]


def rows(journal: str, moments: Sequence[Moment]) -> Iterator[Row]:
    """The rows of one journal, end by end."""
    for section in sections(moments):
        settled = {(one.settled.number, (one.side, one.number)): one for one in delivered([section])}
        around = _Around(journal, section, section.agreed, settled, remarks_on(section))
        for moment in section.moments:
            held = holds(moment.head)
            for bowl in moment.head.bowls:
                yield Row(
                    **_bowl(around, moment, bowl),
                    **_rest(around, moment, bowl),
                    **_game(around, moment, held),
                )


def _bowl(around: _Around, moment: Moment, bowl: Bowl) -> dict[str, object]:
    """The bowl as it lies."""
    head, name, said = moment.head, moment.event.bowl, bowl.said
    gap_m, hour = _from_the_jack(head, bowl)
    lies = {(lie.side, lie.number): lie for lie in seen(head).lies}
    return {
        "named": name is not None and (name.side, name.number) == (bowl.side, bowl.number),
        "side": bowl.side,
        "number": bowl.number,
        "x_m": _rounded(bowl.x_m),
        "y_m": _rounded(bowl.y_m),
        "gap_m": _rounded(gap_m),
        "hour_exact": _rounded(hour),
        "gap_sd_m": None if gap_m is None else _rounded(lies[bowl.side, bowl.number].gap_sd_m),
        "said_gap_m": said.gap_m if said else None,
        "said_hour": said.hour if said else None,
        "said_unit": said.unit if said else None,
        "state": bowl.state,
        "set_apart": set_apart(head, bowl),
        "toucher": bowl.toucher,
        "why_dead": bowl.why_dead,
        "stood": bowl.calls[-1].stood if bowl.calls else None,
    }


def _rest(around: _Around, moment: Moment, bowl: Bowl) -> dict[str, object]:
    """Where it first came to rest, in the one row in which that is settled."""
    one = around.settled.get((moment.number, (bowl.side, bowl.number))) if moment.stands else None
    return {
        "settled": one is not None,
        "rest_across_m": _rounded(one.across_m) if one else None,
        "rest_along_m": _rounded(one.along_m) if one else None,
        "rest_gap_m": _rounded(one.gap_m) if one else None,
        "rest_jack_m": _rounded(one.length_m) if one else None,
        "came": one.came if one else None,
        "players_bowl": players_bowl(moment.head.game, one.number) if one else None,
        "place": place(moment.head.game, one.number) if one else None,
        "hand": one.hand if one else None,
        "remark": around.remarks.get((bowl.side, bowl.number)) if one else None,
    }


def _game(around: _Around, moment: Moment, held: Holds) -> dict[str, object]:
    """The moment and the game around the bowl."""
    entry, head, shots = moment.entry, moment.head, around.agreed
    return {
        "journal": around.journal,
        "end": around.section.end,
        "play": around.section.play,
        "replayed": around.section.replayed,
        "moment": moment.number,
        "turn": entry.number,
        "at": entry.at,
        "kind": moment.event.note.kind,
        "stands": moment.stands,
        "jack_x_m": _rounded(head.jack.x_m),
        "jack_y_m": _rounded(head.jack.y_m),
        "jack_state": head.jack.state,
        "jack_set": head.jack.called,
        "jack_moves": len(head.jack_moves),
        "holds": held.side,
        "shots": held.shots,
        "sure": held.sure,
        "agreed_ours": shots[0] if shots else None,
        "agreed_theirs": shots[1] if shots else None,
        "score_ours": head.score.ours,
        "score_theirs": head.score.theirs,
        "format": head.game.format,
        "handed": head.game.hand,
        "heard": entry.heard.text,
    }


def _from_the_jack(head: Head, bowl: Bowl) -> tuple[float | None, float | None]:
    place, jack = bowl.place, head.jack.place
    if place is None or jack is None:
        return None, None
    return filed_gap(head.game, place, jack), hour_of(*place.seen_from(jack))


def _rounded(value: float | None) -> float | None:
    """To a hundredth of a millimetre (or of an hour's thousandth): free of the arithmetic's noise."""
    return None if value is None else round(value, 5) + 0.0  # which makes nought of minus nought
