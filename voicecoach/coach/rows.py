"""The export: one row for each bowl at each moment."""

from collections.abc import Iterable, Iterator
from typing import Literal

from voicecoach.coach.moments import Moment
from voicecoach.head.clock import hour_of
from voicecoach.head.holding import counted, filed_gap
from voicecoach.head.values import Bowl, Head, State
from voicecoach.understand.values import Format, Side, Unit
from voicecoach.value import Value


class Row(Value):
    """One bowl as it lay at one moment. A figure that is unknown, or that a dead bowl lacks, is empty."""

    journal: str
    """Name of the journal's file."""
    end: int
    """Number of the end, from 1."""
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
    said_gap_m: float | None
    """Distance as it was called, metres."""
    said_hour: float | None
    """Hour as it was called; a half is .5."""
    said_unit: Unit | None
    """Unit in which it was called."""
    state: State
    """`live`, `ditch` or `dead`."""
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
    """Side that holds shot by the filed places alone, without their doubt."""
    shots: int
    """Shots it holds, by the same."""
    score_ours: int
    """Our shots in the game so far."""
    score_theirs: int
    """Their shots in the game so far."""
    format: Format | None
    """`singles`, `pairs`, `triples` or `fours`, where it was set."""
    heard: str
    """The words that made the moment, as recognised or typed."""


def rows(journal: str, moments: Iterable[Moment]) -> Iterator[Row]:
    """The rows of one journal, in order."""
    for moment in moments:
        head = moment.head
        holds, shots = counted(head)
        for bowl in head.bowls:
            yield _row(journal, moment, bowl, holds, shots)


def _row(journal: str, moment: Moment, bowl: Bowl, holds: Side | None, shots: int) -> Row:
    entry, head = moment.entry, moment.head
    name = moment.event.bowl
    gap_m, hour = _from_the_jack(head, bowl)
    said = bowl.said
    return Row(
        journal=journal,
        end=head.end,
        moment=moment.number,
        turn=entry.number,
        at=entry.at,
        kind=moment.event.note.kind,
        named=name is not None and (name.side, name.number) == (bowl.side, bowl.number),
        stands=moment.stands,
        side=bowl.side,
        number=bowl.number,
        x_m=_rounded(bowl.x_m),
        y_m=_rounded(bowl.y_m),
        gap_m=_rounded(gap_m),
        hour_exact=_rounded(hour),
        said_gap_m=said.gap_m if said else None,
        said_hour=said.hour if said else None,
        said_unit=said.unit if said else None,
        state=bowl.state,
        toucher=bowl.toucher,
        why_dead=bowl.why_dead,
        stood=bowl.calls[-1].stood if bowl.calls else None,
        jack_x_m=_rounded(head.jack.x_m),
        jack_y_m=_rounded(head.jack.y_m),
        jack_state=head.jack.state,
        jack_set=head.jack.called,
        jack_moves=len(head.jack_moves),
        holds=holds,
        shots=shots,
        score_ours=head.score.ours,
        score_theirs=head.score.theirs,
        format=head.game.format,
        heard=entry.heard.text,
    )


def _from_the_jack(head: Head, bowl: Bowl) -> tuple[float | None, float | None]:
    place, jack = bowl.place, head.jack.place
    if place is None or jack is None:
        return None, None
    return filed_gap(head.game, place, jack), hour_of(*place.seen_from(jack))


def _rounded(value: float | None) -> float | None:
    """To a hundredth of a millimetre (or of an hour's thousandth): free of the arithmetic's noise."""
    return None if value is None else round(value, 5) + 0.0  # which makes nought of minus nought
