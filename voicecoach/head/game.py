"""The game set or changed by voice, and where the caller stands."""

from typing import Any

from voicecoach.head.bodies import name_of
from voicecoach.head.bowling_set import BowlingSetting, bowling_set
from voicecoach.head.breaches import game_breaches, laws
from voicecoach.head.jack import jack_set
from voicecoach.head.questions import ask_whether, refuse
from voicecoach.head.resize import resized
from voicecoach.head.values import AskBack, Event, Figures, Game, Head, Refused
from voicecoach.head.which import which
from voicecoach.understand.notes.settings import EyeTold, MarkSet, Remarked, Setting, Stands
from voicecoach.understand.values import BowlName, GameSet, JackSet

_SAID = tuple(field for field in GameSet.model_fields if field not in ("kind", "confirmed"))


def game_set(head: Head, note: GameSet) -> Event | AskBack | Refused:
    """Set what was said; figures that a law doesn't allow are asked about first, all together."""
    said = {field: value for field in _SAID if (value := getattr(note, field)) is not None}
    if any(isinstance(value, float | int) and value <= 0 for value in said.values() if value is not False):
        return refuse("size of nothing")
    game = head.game.model_copy(update=said)
    breaches = game_breaches(head.game, game)
    if breaches and not note.confirmed:
        return ask_whether("breaches", note, Figures(breaches=tuple(breaches)), laws(breaches))
    if game.jack_m is not None and game.jack_m < game.shortest_jack_m:
        game = game.model_copy(update={"shortest_jack_m": game.jack_m})
    return _event(head, note, game)


def _event(head: Head, note: GameSet, game: Game) -> Event | AskBack | Refused:
    bowls = resized(head, game)
    if bowls is None:
        return refuse("too large")
    facts: dict[str, Any] = {"bowls": bowls, "game": game}
    if note.jack_m is not None and head.jack.state != "dead" and not head.finished:
        sized = {(bowl.side, bowl.number): bowl for bowl in bowls}
        as_set = head.model_copy(
            update={
                "game": game,
                "bowls": tuple(sized.get((bowl.side, bowl.number), bowl) for bowl in head.bowls),
            }
        )
        jack = jack_set(as_set, JackSet(length_m=note.jack_m, confirmed=True))
        if not isinstance(jack, Event):
            return jack
        facts |= {"jack": jack.jack, "bowls": jack.bowls}
    return Event(note=note, lead=note.lead, **facts)


def setting(head: Head, note: Setting) -> Event | AskBack | Refused:
    """The caller's place and eye, the mark, the green's pace and the player's line belong to the game."""
    if isinstance(note, Remarked):
        return _remark(head, note)
    if isinstance(note, BowlingSetting):
        return bowling_set(head, note)
    changes: dict[str, Any] = {}
    if isinstance(note, Stands):
        changes = {"stood": note.value}
    elif isinstance(note, EyeTold):
        changes = {"eye": note.value}
    elif isinstance(note, MarkSet):
        changes = {"aim_at_m": note.value}
    return Event(note=note, game=head.game.model_copy(update=changes) if changes else None)


def _remark(head: Head, note: Remarked) -> Event | AskBack | Refused:
    """Pinned to the bowl it names; to the last one, where it names none and the end isn't over."""
    if note.side or note.number:
        bowl = which(head, note)
        if isinstance(bowl, AskBack | Refused):
            return bowl
        return Event(note=note, bowl=bowl if isinstance(bowl, BowlName) else name_of(bowl))
    last = None if head.finished or not head.bowls else name_of(head.bowls[-1])
    return Event(note=note, bowl=last)
