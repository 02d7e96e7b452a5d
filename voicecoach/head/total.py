"""The score of the whole game as the board has it: as told, or asked about where the ends come to another."""

from voicecoach.head.questions import Offer, ask, ask_whether
from voicecoach.head.values import AskBack, Event, Figures, Head, Score
from voicecoach.understand.notes.ends import ScoreTold
from voicecoach.understand.values import Side


def score_told(head: Head, note: ScoreTold) -> Event | AskBack:
    """The totals as told; where ends were noted and come to something else, that is asked about first."""
    against = note.shots if note.against is None else note.against
    if note.side is None and note.shots != against:
        return _whose(note)
    told = _with(head.score, note, against)
    added = head.score
    noted = bool(added.ends or added.ours or added.theirs)
    differs = (told.ours, told.theirs) != (added.ours, added.theirs)
    if noted and differs and not note.confirmed:
        return ask_whether("score differs", note, Figures(totals=(added, told)))
    return Event(note=note, score=told if differs else None)


def _with(score: Score, note: ScoreTold, against: int) -> Score:
    """The score with these totals; what each end brought stays as it was noted."""
    own, other = note.shots, against
    if note.leads and own < other:
        own, other = other, own
    ours, theirs = (own, other) if note.side == "ours" else (other, own)
    return score.model_copy(update={"ours": ours, "theirs": theirs})


def _whose(note: ScoreTold) -> AskBack:
    sides: tuple[Side, ...] = ("ours", "theirs")
    offers: list[Offer] = [(side, note.model_copy(update={"side": side})) for side in sides]
    return ask("side", "whose score", note, offers)
