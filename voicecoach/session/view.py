"""The JSON lines: one object for every utterance, and one for a replayed head."""

from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from voicecoach.head.values import Event, Lie, Openness, Picture, State, Sure
from voicecoach.session.lines import hands_of
from voicecoach.session.values import Entry, Outcome
from voicecoach.understand.values import BowlName, Hand, Note, Side, Where
from voicecoach.value import Value


class JackLine(Value):
    """Where the jack lies."""

    x_m: float | None = Field(description="Right of the centre line, metres; null when dead.")
    y_m: float | None = Field(description="From the mat line up the rink, metres; null when dead.")
    state: State


class SaidLine(Value):
    """What was called, as called."""

    gap_m: float | None
    hour: float | None


class BowlLine(Value):
    """One bowl as filed and as it lies now."""

    side: Side
    number: int
    x_m: float | None = Field(description="Centre of its footprint, metres; null when dead.")
    y_m: float | None
    gap_m: float | None = Field(description="Between nearest points of bowl and jack, metres.")
    hour: float | int | None = Field(description="As it would be spoken.")
    hour_exact: float | None = Field(description="In (0, 12].")
    said: SaidLine
    state: State
    toucher: bool
    sure: Sure
    why_dead: str | None = None


class HoldingLine(Value):
    """Who holds shot."""

    side: Side | None = Field(description="The likelier side even when sure is false.")
    shots: int | None = Field(description="null when the count is unsure.")
    sure: bool


class ScoreLine(Value):
    """Shots of each side, and ends played."""

    ours: int
    theirs: int
    ends: int


class HeadLine(Value):
    """The whole head."""

    end: int
    jack: JackLine
    bowls: tuple[BowlLine, ...]
    holding: HoldingLine | None = Field(description="null only for an empty head.")
    score: ScoreLine
    lead: Side | None = Field(description="Who leads this end, when known.")


class AimLine(Value):
    """How far to move the mark that the player aims at."""

    shift_m: float
    towards: Literal["left", "right"] | None = Field(description="null when it should stay.")
    at_m: float = Field(description="Distance of the mark in front of the mat line, metres.")
    spread_m: float


class HandLine(Value):
    """One hand's line to the target, the most open hand first."""

    hand: Hand
    angle_deg: float = Field(description="Between the first direction and the line to the target, degrees.")
    state: Openness
    by: BowlName | Literal["jack"] | None = Field(
        description="What blocks it or makes it tight; null: clear."
    )
    short_m: float | None = Field(description="How far that lies short of the target, metres; null: clear.")
    clearance_m: float | None = Field(
        description="Between the swept path and the nearest body before the target, metres; negative where "
        "they overlap; null where nothing lies there."
    )
    sure: float = Field(description="The probability, over the doubt of the places, of that state.")


class TurnLine(Value):
    """One utterance and what came of it."""

    turn: int
    source: str = Field(description="The recording's path as given, the microphone's name, or \"typed\".")
    heard: str
    outcome: Outcome
    note: dict[str, object] | None = Field(description="What was said; null unless noted or answered.")
    say: tuple[str, ...]
    head: HeadLine
    aim: AimLine | None = Field(default=None, description="Only on the answer to a question about aim.")
    hands: tuple[HandLine, ...] | None = Field(
        default=None, description="Only on the answer to a question about the hands."
    )


class ReplayLine(Value):
    """A head as it was, with the read-back and the walking order."""

    say: tuple[str, ...]
    head: HeadLine
    order: tuple[BowlName | Literal["jack"], ...] = Field(description="The walking order.")
    hands: tuple[HandLine, ...] | None = Field(
        default=None, description="Only at the moment of a question about the hands."
    )


def note_fields(note: Note) -> dict[str, object]:
    """The note as a JSON object: what was said, without the program's own bookkeeping."""
    everything = note.model_dump(mode="json")
    keep = note.shown or tuple(name for name in everything if name not in ("kind", "confirmed"))
    fields = {"kind": note.kind, **{name: everything[name] for name in keep}}
    if isinstance(note, Where) and note.along_m is not None:
        fields |= {"along_m": note.along_m, "across_m": note.across_m}
    if isinstance(note, Where) and note.landmark is not None:
        fields |= {"landmark": everything["landmark"]}
    return fields


def head_line(picture: Picture) -> HeadLine:
    """The head of `picture` as it leaves the program."""
    head = picture.head
    holding = picture.holding
    return HeadLine(
        end=head.end,
        jack=JackLine(x_m=_metres(head.jack.x_m), y_m=_metres(head.jack.y_m), state=head.jack.state),
        bowls=tuple(_bowl_line(lie) for lie in picture.lies),
        holding=holding and HoldingLine(side=holding.side, shots=holding.shots, sure=holding.sure),
        score=ScoreLine(ours=head.score.ours, theirs=head.score.theirs, ends=head.score.ends),
        lead=head.lead,
    )


def turn_line(entry: Entry, picture: Picture) -> TurnLine:
    """`entry` with the head after it."""
    shown = entry.note if entry.outcome in ("noted", "answered") else None
    return TurnLine(
        turn=entry.number,
        source=entry.heard.source,
        heard=entry.heard.text,
        outcome=entry.outcome,
        note=note_fields(shown) if shown else None,
        say=tuple(sentence.text for sentence in entry.say),
        head=head_line(picture),
        aim=_aim_line(entry.event),
        hands=_hand_lines(picture, entry),
    )


def json_line(line: TurnLine | ReplayLine) -> str:
    """One line of JSON; what does not apply to this turn at all (aim, hands) is left out."""
    exclude = {name for name in ("aim", "hands") if getattr(line, name, None) is None}
    return line.model_dump_json(exclude=exclude)


def replay_line(
    say: Sequence[str],
    picture: Picture,
    order: Sequence[BowlName | Literal["jack"]],
    last: Entry | None = None,
) -> ReplayLine:
    """A replayed head; `last` is the entry at whose moment it is replayed."""
    hands = _hand_lines(picture, last) if last else None
    return ReplayLine(say=tuple(say), head=head_line(picture), order=tuple(order), hands=hands)


def _bowl_line(lie: Lie) -> BowlLine:
    said = lie.said
    hour = lie.hour
    return BowlLine(
        side=lie.side,
        number=lie.number,
        x_m=_metres(lie.x_m),
        y_m=_metres(lie.y_m),
        gap_m=_metres(lie.gap_m),
        hour=int(hour) if hour is not None and hour == int(hour) else hour,
        hour_exact=_hours(lie.hour_exact),
        said=SaidLine(gap_m=said.gap_m if said else None, hour=said.hour if said else None),
        state=lie.state,
        toucher=lie.toucher,
        sure=lie.sure,
        why_dead=lie.why_dead,
    )


def _metres(value: float | None) -> float | None:
    """Rounded to a hundredth of a millimetre: enough for any check, and free of float noise."""
    return None if value is None else round(value, 5) + 0.0


def _hours(value: float | None) -> float | None:
    """Rounded like a length; what rounds to nothing is twelve, which is never called nought."""
    return None if value is None else round(value, 5) or 12.0


def _hand_lines(picture: Picture, entry: Entry) -> tuple[HandLine, ...] | None:
    """What a question about the hands looked at, with the head as it was asked of."""
    found = hands_of(picture.head, entry.note)
    if found is None:
        return None
    return tuple(
        HandLine(
            hand=look.hand,
            angle_deg=round(look.angle_deg, 5),
            state=look.state,
            by=look.by,
            short_m=_metres(look.short_m) if look.by else None,
            clearance_m=_metres(look.clearance_m),
            sure=look.sure,
        )
        for look in found.hands
    )


def _aim_line(event: Event | None) -> AimLine | None:
    advice = getattr(event, "aim", None)
    return advice and AimLine(**advice.model_dump(include=set(AimLine.model_fields)))
