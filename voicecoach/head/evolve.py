"""The one place where a head changes: an event's facts are applied, and no rule is asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from voicecoach.head.values import Bowl, Event, Game, Head, Jack, Kept, Play
from voicecoach.understand.values import BowlName, Corrected, EndStarted

_REPLACED = ("jack", "jack_moves", "game", "score", "finished", "lead", "last_side", "nearer", "scattered")
"""Fields of an event that replace the head's own; None leaves the head's as it is."""


def begin(game: Game | None = None) -> Play:
    """A game before its first note."""
    return Play(fresh_head(game or Game()))


def fresh_head(game: Game) -> Head:
    """The first end before anything is noted."""
    return Head(game=game, jack=unset_jack(game), lead=game.lead)


def unset_jack(game: Game) -> Jack:
    """Where the jack is taken to lie until it is set: at the game's length, else at the default one."""
    return Jack() if game.jack_m is None else Jack(y_m=game.jack_m)


def evolve(play: Play, event: Event) -> Play:
    """The play after an event.

    Every note about the head is one link that taking back removes. A setting (where the caller stands)
    changes the head without a link: it can't be taken back, and taking back another note keeps it.
    """
    if event.undoes:
        return _undone(play)
    head = after(play.head, event)
    if not event.note.is_a_link:
        return play if head is play.head else replace(play, head=head)
    redone = event.redone is not None and play.base is not None
    return Play(
        head=head,
        before=play,
        note=event.redone or event.note,
        bowl=event.bowl,
        base=play.base if redone else play,
    )


def standing(play: Play, head: Head) -> Play:
    """An earlier play with everything as it is set in `head` that no note about the head changes."""
    now = head.game
    caller = {"stood": now.stood, "eye": now.eye, "aim_at_m": now.aim_at_m}
    bowling = play.head.game.bowling.set_as(now.bowling)
    game = play.head.game.model_copy(update={**caller, "bowling": bowling})
    loose = (kept for kept in head.kept if not (kept.note.is_a_link or kept in play.head.kept))
    kept = (*play.head.kept, *loose)
    if (play.head.game, play.head.kept) == (game, kept):
        return play
    return replace(play, head=play.head.model_copy(update={"game": game, "kept": kept}))


def after(head: Head, event: Event) -> Head:
    """The head with an event's facts applied; the very same head where it has none."""
    changes: dict[str, Any] = {
        field: value for field in _REPLACED if (value := getattr(event, field)) is not None
    }
    kept = _kept(head, event)
    if kept != (() if event.end is not None else head.kept):
        changes["kept"] = kept
    if event.end is not None:
        head = Head(
            game=head.game,
            end=event.end,
            jack=unset_jack(head.game),
            lead=None if event.tossed else head.lead,
            score=head.score,
        )
    if event.bowls or event.dropped:
        changes["bowls"] = _bowls(head.bowls, event)
    return head.model_copy(update=changes) if changes else head


def _kept(head: Head, event: Event) -> tuple[Kept, ...]:
    """What is remembered of the end after an event; the next end begins without any."""
    if isinstance(event.note, EndStarted):
        return ()
    new = (Kept(note=event.note, bowl=event.bowl),) if event.note.kept_with_the_end else ()
    return (*head.kept, *new)


def _undone(play: Play) -> Play:
    if play.before is None:
        return play
    stands = standing(play.before, play.head)
    return replace(stands, recalled=play.bowl if isinstance(play.note, Corrected) else None)


def _bowls(bowls: tuple[Bowl, ...], event: Event) -> tuple[Bowl, ...]:
    """The bowls in the order first called; a bowl under a new name keeps the place of the old one."""
    changed = {(bowl.side, bowl.number): bowl for bowl in event.bowls}
    dropped = {(name.side, name.number) for name in event.dropped}
    known = {(bowl.side, bowl.number) for bowl in bowls}
    new = [bowl for name, bowl in changed.items() if name not in known]
    kept: list[Bowl] = []
    for bowl in bowls:
        name = (bowl.side, bowl.number)
        if name not in dropped:
            kept.append(changed.get(name, bowl))
        elif name in changed:
            kept.append(changed[name])
        elif new:
            kept.append(new.pop(0))
    return (*kept, *new)


def difference(now: Head, wanted: Head, event: Event) -> Event:
    """The event whose facts lead from one head to another; everything else is taken from `event`."""
    had = {(bowl.side, bowl.number): bowl for bowl in now.bowls}
    wants = {(bowl.side, bowl.number): bowl for bowl in wanted.bowls}
    facts: dict[str, Any] = {
        "bowls": tuple(bowl for name, bowl in wants.items() if had.get(name) != bowl),
        "dropped": tuple(
            BowlName(side=side, number=number) for side, number in had if (side, number) not in wants
        ),
        "end": None,
    }
    for field in _REPLACED:
        value = getattr(wanted, field)
        facts[field] = value if value != getattr(now, field) else None
    return event.model_copy(update=facts)
