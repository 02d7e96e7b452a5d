"""Games for the coach's tests: made of facts, so that every place is known without the program's rules."""

from collections.abc import Iterable
from pathlib import Path

from voicecoach.head.values import Bowl, Event, Game, Jack, JackMove, Said, Score
from voicecoach.hear.values import Heard
from voicecoach.journal.line import encode
from voicecoach.session.values import Entry
from voicecoach.understand.values import (
    BowlName,
    BowlRested,
    EndFinished,
    EndStarted,
    GameSet,
    JackMoved,
    JackSet,
    Remark,
    Side,
    TakenBack,
)

BOWL_MM, JACK_MM = 121.0, 64.0
REACH_M = (BOWL_MM + JACK_MM) / 2000
"""Centre distance less gap."""


class Told:
    """Entries, one after another."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def game(self, game: Game) -> None:
        self._add("the game", Event(note=GameSet(), game=game))

    def jack(self, length_m: float) -> None:
        self._add("jack", Event(note=JackSet(length_m=length_m), jack=Jack(y_m=length_m, called=True)))

    def rested(self, bowl: Bowl, remarks: tuple[Remark, ...] = (), heard: str = "") -> None:
        note = BowlRested(side=bowl.side, number=bowl.number, remarks=remarks)
        name = BowlName(side=bowl.side, number=bowl.number)
        text = heard or f"{bowl.side} {bowl.number}"
        self._add(text, Event(note=note, bowl=name, bowls=(bowl,), last_side=bowl.side))

    def jack_moved(self, jack: Jack, move: JackMove, bowls: Iterable[Bowl] = ()) -> None:
        event = Event(note=JackMoved(), jack=jack, jack_moves=(move,), bowls=tuple(bowls))
        self._add("jack moved", event)

    def taken_back(self) -> None:
        self._add("take that back", Event(note=TakenBack(), undoes=True))

    def finished(self, score: Score, side: Side | None, shots: int) -> None:
        note = EndFinished(side=side, shots=shots)
        self._add("end finished", Event(note=note, score=score, finished=True))

    def next_end(self, number: int) -> None:
        self._add("next end", Event(note=EndStarted(), end=number, finished=False))

    def write(self, path: Path) -> Path:
        path.write_bytes(b"".join(encode(entry) for entry in self.entries))
        return path

    def _add(self, heard: str, event: Event) -> None:
        self.entries.append(
            Entry(
                number=len(self.entries) + 1,
                at=f"2026-05-30T14:{len(self.entries) // 60:02}:{len(self.entries) % 60:02}+01:00",
                heard=Heard(text=heard),
                outcome="noted",
                note=event.note,
                event=event,
            )
        )


def bowl(side: Side, number: int, x_m: float, y_m: float) -> Bowl:
    """A live bowl whose centre lies there."""
    return Bowl(side=side, number=number, x_m=x_m, y_m=y_m, said=Said(gap_m=1.0, hour=12.0, unit="m"))
