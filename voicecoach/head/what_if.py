"""The head as it would look: a bowl taken away, or the jack moved. Nothing of it is filed."""

from __future__ import annotations

from voicecoach.head.decide import decide
from voicecoach.head.evolve import evolve
from voicecoach.head.picture import picture
from voicecoach.head.values import AskBack, Event, Head, Picture, Play, Refused
from voicecoach.understand.values import BowlName, JackMoved


def without(head: Head, name: BowlName) -> Picture:
    """The head without one bowl."""
    kept = tuple(bowl for bowl in head.bowls if (bowl.side, bowl.number) != (name.side, name.number))
    return picture(head.model_copy(update={"bowls": kept}))


def with_jack_moved(play: Play, note: JackMoved) -> Picture | AskBack | Refused:
    """The head with the jack where this note would put it, or what the note lacks."""
    decision = decide(play, note)
    return picture(evolve(play, decision).head) if isinstance(decision, Event) else decision
