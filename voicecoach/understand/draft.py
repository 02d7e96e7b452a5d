"""Gathers the pieces of one note; later words win over earlier ones after a "no" or "sorry"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from voicecoach.understand.bag import SMALL_PIECES, Piece
from voicecoach.understand.pieces import Gap, Hour
from voicecoach.understand.values import ACROSS, ALONG, Remark

ONCE = frozenset({"side", "number", "hour", "gap"})
"""Parts of which a second one that says the same is no other."""
HOURS = 12
LEAST_BARE_M = 0.1
"""A figure without a unit is centimetres from ten on: nobody says "five" for so little."""
AXES: tuple[frozenset[str], ...] = (
    frozenset(ACROSS),
    frozenset(ALONG),
    frozenset({"toucher", "not a toucher"}),
)
"""Words of one axis replace each other in a correction."""
OPENERS = frozenset({"was", "target", "owner", "jack", "jack_moved", "jack_set", "respotted"})
"""Parts that a note has once at most."""
FIRST = frozenset({"was", "target", "owner"})
"""Of these, the ones that only begin it."""


@dataclass
class Draft:
    """What has been said so far."""

    side: str | None = None
    number: int | None = None
    last: bool = False
    gaps: list[Gap] = field(default_factory=list)
    hour: Hour | None = None
    remarks: list[Remark] = field(default_factory=list)
    paired: list[tuple[Gap, Remark]] = field(default_factory=list)
    moved: bool = False
    went: bool = False
    """True where it "went" or "has gone": so is a bowl spoken of that comes to rest, too."""
    by: bool | None = None
    scattered: bool = False
    to: bool = False
    fixed: bool = False
    landmark: dict[str, Any] | None = None
    """The bowl from which distance and direction were said."""
    nearer: bool = False
    """True for "nearer than our second": how far that is, is asked."""
    opener: str | None = None
    target: dict[str, Any] | Literal["jack"] | None = None
    length: float | None = None
    """Of the jack from the mat line, metres, said without a unit."""
    by_hand: bool = False
    """True for "they've knocked": what follows was done to a bowl."""
    out: bool = False
    """True for a lone "out": only what was knocked can be."""
    whole: bool = False
    """True for "a dead bowl": a name as well."""
    unitless: bool = False
    """True where the distance was a figure without its unit."""
    bare_figure: bool = False
    """True where the hour is a figure without "o'clock" after a "no": "no, four"."""
    said_of_much: bool = False
    """True for "touched": of a bowl that nobody named it is meant only where it is typed."""
    ditched: bool = False
    """True for "dead centre" of a jack in the ditch: straight past where it lay."""
    denied: bool = False
    """True where it was said what it was not."""
    glued: bool = False
    """True when a small word such as "it's" was said."""

    def add_remark(self, remark: Remark) -> None:
        """Keeps a word for where, once."""
        if remark not in self.remarks:
            self.remarks.append(remark)

    @property
    def placed(self) -> bool:
        """True when anything was said of where."""
        return bool(self.gaps or self.hour or self.remarks or self.landmark)


def gather(pieces: Sequence[Piece]) -> Draft | None:
    """The pieces as one draft; None when they make no sensible note."""
    said = [piece for piece in pieces if piece.part != "denied"]
    first, *later = _segments(_once(said))
    segments = [first, *(segment for segment in later if segment)]
    if not all(_sensible(segment, last) for segment, last in _with_last(segments)):
        return None
    draft = Draft()
    for at, segment in enumerate(segments):
        newer = _draft(segment, len(said) < len(pieces))
        if newer is None or (at and not _says(newer)):
            return None
        draft = newer if at == 0 else _amend(draft, newer)
    draft.fixed = bool(later) and not first
    draft.denied = len(said) < len(pieces)
    if draft.denied and not (draft.gaps and draft.hour):
        draft.fixed = True  # "theirs, not ours": what is left is put right
    goes = draft.moved or draft.fixed or draft.opener
    return draft if goes or not draft.to else None


def _once(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without what is said again: "theirs, their second"."""
    kept: list[Piece] = []
    for at, piece in enumerate(pieces):
        again = piece.part in ONCE and any(
            older.part == piece.part and older.says == piece.says for older in kept
        )
        # "A metre short and a metre left": each distance has a direction of its own.
        if again and piece.part == "gap" and any(map(_is_straight, kept)):
            again = not any(map(_is_straight, pieces[at + 1 :]))
        if not again:
            kept.append(piece)
    return kept


def _is_straight(piece: Piece) -> bool:
    """True for a direction along or across the rink."""
    return any(piece.says.get("remark") in axis for axis in AXES[:2])


def _segments(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    segment: list[Piece] = []
    for piece in pieces:
        if piece.part == "fix":
            yield segment
            segment = []
        else:
            segment.append(piece)
    yield segment


def _with_last(segments: list[list[Piece]]) -> Iterator[tuple[list[Piece], bool]]:
    for at, segment in enumerate(segments):
        yield segment, at == len(segments) - 1


def _sensible(segment: Sequence[Piece], last: bool) -> bool:
    """Small words stand where they belong, and a bare figure only where it is at once put right."""
    parts = [piece.part for piece in segment]
    if parts and (parts[-1] in ("is", "and") or parts[0] == "and"):
        return False
    if any(part in FIRST for part in parts[1:]) or sum(part in OPENERS for part in parts) > 1:
        return False
    exactly = (at for at, part in enumerate(parts) if part == "exactly")
    if not all(_is_where(segment[at + 1]) if at + 1 < len(segment) else False for at in exactly):
        return False
    single = all(
        parts.count(part) <= 1 for part in ("side", "number", "hour", "moved", "last", "pointer", "landmark")
    )
    figure = parts.count("figure")
    alone = parts == ["figure"] and last
    return (
        single and parts.count("gap") <= 2 and (figure == 0 or alone or (not last and parts[-1] == "figure"))
    )


def _is_where(piece: Piece) -> bool:
    """True for a word that says where: what can be exactly so."""
    return piece.part == "hour" or any(piece.says.get("remark") in axis for axis in (*AXES[:2], {"touching"}))


def _says(draft: Draft) -> bool:
    return draft.placed or draft.side is not None or draft.number is not None or draft.length is not None


def _draft(segment: Sequence[Piece], denied: bool) -> Draft | None:
    draft = Draft()
    for piece in segment:
        _add(draft, piece)
    if draft.gaps and any(
        piece.says.get("died") for piece in segment
    ):  # "died a metre short" is no dead bowl
        draft.remarks = [remark for remark in draft.remarks if remark != "dead"]
        draft.whole = False
    if [piece.part for piece in segment] == ["figure"]:
        figure = segment[0].says["figure"]
        draft.hour = Hour(float(figure), 1.0, True) if figure in range(1, HOURS + 1) else None
        draft.bare_figure = draft.hour is not None
    plain = [piece for piece in segment if piece.part not in SMALL_PIECES]
    if len(draft.gaps) > 1:
        draft.paired = _pairs(plain) if len(draft.gaps) == 2 and not draft.unitless else []
        if len(draft.paired) < 2:
            return None
    parts = {piece.part for piece in segment}
    nowhere = not draft.hour or draft.hour.bare
    if draft.unitless and nowhere and not denied:
        return None  # "not eighty, sixty" leaves no doubt what the figure is
    if draft.unitless and draft.gaps[0].metres < LEAST_BARE_M:
        return None
    straight = {"short", "past"} & set(draft.remarks)
    named = draft.side or draft.number or draft.opener
    stray = "back" in parts and not (draft.gaps or (draft.moved and named))  # "he went back"
    if stray or ("line" in parts and not (straight or draft.gaps)):
        return None
    of_what = draft.hour or (draft.side and draft.number)
    return None if "chalk" in parts and not of_what else draft  # "chalk it" goes to whoever has the chalk


def _add(draft: Draft, piece: Piece) -> None:
    says = piece.says
    draft.side = says.get("side", draft.side)
    draft.number = says.get("number", draft.number)
    draft.last = draft.last or piece.part == "last"
    draft.hour = says.get("hour", draft.hour)
    draft.moved = draft.moved or piece.part in ("moved", "did", "ditched") or bool(says.get("moved"))
    draft.by_hand = draft.by_hand or piece.part in ("did", "ditched")
    draft.out = draft.out or piece.part == "out"
    draft.went = draft.went or bool(says.get("went"))
    draft.by = says.get("by", draft.by)
    draft.to = draft.to or bool(says.get("to"))
    draft.scattered = draft.scattered or bool(says.get("scattered"))
    draft.glued = draft.glued or piece.part in ("is", "glue")
    draft.length = says.get("length", draft.length)
    draft.said_of_much = draft.said_of_much or bool(says.get("said_of_much"))
    draft.ditched = draft.ditched or bool(says.get("ditched"))
    draft.target = says.get("target", draft.target)
    draft.nearer = draft.nearer or "than" in says
    if "landmark" in says:
        draft.landmark = {**says["landmark"], "beyond": bool(says.get("beyond"))}
    if piece.part in OPENERS:
        draft.opener = piece.part
    draft.whole = draft.whole or bool(says.get("whole"))
    if piece.part == "bare_gap":
        cm = says.get("bare", 0) or 100 * says["metres"] + says["percent"]
        draft.gaps.append(Gap(round(cm / 100, 6), "cm", True))
        draft.unitless = True
    if "gap" in says:
        draft.gaps.append(says["gap"])
    if "remark" in says:
        draft.add_remark(says["remark"])


def _pairs(pieces: Sequence[Piece]) -> list[tuple[Gap, Remark]]:
    """Each of two distances with the word beside it: all after their distances, or all before."""
    words: list[Any] = [piece.says.get("remark") for piece in pieces]
    gaps = [at for at, piece in enumerate(pieces) if "gap" in piece.says]
    for step in (1, -1):
        beside = [at + step for at in gaps]
        if all(0 <= at < len(pieces) and words[at] and at not in gaps for at in beside):
            return [(pieces[at].says["gap"], words[at + step]) for at in gaps]
    return []


def _amend(older: Draft, newer: Draft) -> Draft:
    """What the newer words leave open stays as it was."""
    for name in ("side", "number", "hour", "by", "target", "landmark", "opener", "length"):
        if getattr(newer, name) is None:
            setattr(newer, name, getattr(older, name))
    if not newer.gaps:
        newer.gaps, newer.paired = older.gaps, older.paired
    newer.moved = newer.moved or older.moved
    newer.to = newer.to or older.to
    kept = [remark for remark in older.remarks if not _replaced(remark, newer)]
    newer.remarks = [*kept, *(remark for remark in newer.remarks if remark not in kept)]
    return newer


def _replaced(remark: Remark, newer: Draft) -> bool:
    return any(remark in axis and axis.intersection(newer.remarks) for axis in AXES)
