"""Short ways for the tests to say notes and to look at what came of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from voicecoach.describe import ask, opened, refuse
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.values import AskBack, Event, Game, Head, Lie, Play, Refused
from voicecoach.understand.values import BowlName, BowlRested, JackMoved, Note, Side


def bowl(gap_m: float | None = None, hour: float | None = None, name: str = "", **said: Any) -> BowlRested:
    """A bowl at rest; `name` is `our 2`, `their 1`, `ours` or nothing."""
    side: Side | None = "ours" if name.startswith("our") else "theirs" if name.startswith("their") else None
    number = int(name.split()[1]) if " " in name else None
    return BowlRested.model_validate({"gap_m": gap_m, "hour": hour, "side": side, "number": number, **said})


def jack(gap_m: float | None = None, hour: float | None = None, **said: Any) -> JackMoved:
    """The jack moved."""
    return JackMoved.model_validate({"gap_m": gap_m, "hour": hour, **said})


def named(name: str) -> BowlName:
    """`our 2` as a name."""
    whose, number = name.split()
    return BowlName(side="ours" if whose == "our" else "theirs", number=int(number))


def decided(play: Play, note: Note) -> Event:
    """The event that the note must make."""
    decision = decide(play, note)
    assert isinstance(decision, Event), decision
    return decision


def asked(play: Play, note: Note) -> AskBack:
    """The question that the note must raise."""
    decision = decide(play, note)
    assert isinstance(decision, AskBack), decision
    return decision


def refused(play: Play, note: Note) -> Refused:
    """The refusal that the note must meet."""
    decision = decide(play, note)
    assert isinstance(decision, Refused), decision
    return decision


def spoken(answer: AskBack | Refused) -> str:
    """What is said of a question back or a refusal."""
    said = refuse(answer) if isinstance(answer, Refused) else ask(opened(answer), answer.law)
    return " ".join(sentence.text for sentence in said)


def played(notes: Iterable[Note], game: Game | None = None, play: Play | None = None) -> Play:
    """The play after notes that must all be carried out."""
    play = play or begin(game)
    for note in notes:
        play = evolve(play, decided(play, note))
    return play


def lie(head: Head, name: str) -> Lie:
    """How one bowl lies."""
    wanted = named(name)
    found = [each for each in picture(head).lies if (each.side, each.number) == (wanted.side, wanted.number)]
    assert len(found) == 1, f"{name} lies {len(found)} times"
    return found[0]


def place(head: Head, name: str) -> tuple[float, float]:
    """Where one bowl is filed."""
    found = lie(head, name)
    assert found.x_m is not None
    assert found.y_m is not None
    return found.x_m, found.y_m


def jack_at(head: Head) -> tuple[float, float]:
    """Where the jack's centre is filed."""
    assert head.jack.x_m is not None
    assert head.jack.y_m is not None
    return head.jack.x_m, head.jack.y_m
