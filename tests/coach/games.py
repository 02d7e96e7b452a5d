"""Games for the coach's tests: made of facts, so that every place is known without the program's rules."""

import math
from collections.abc import Iterable
from pathlib import Path

from voicecoach.head.values import Bowl, Call, Called, Event, Game, Jack, JackMove, Score
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
    Where,
)

BOWL_MM, JACK_MM = 121.0, 64.0
REACH_M = (BOWL_MM + JACK_MM) / 2000
"""Centre distance less gap."""


class Told:
    """Entries, one after another."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def game(self, game: Game) -> None:
        self.add("the game", Event(note=GameSet(), game=game))

    def jack(self, length_m: float) -> None:
        self.add("jack", Event(note=JackSet(length_m=length_m), jack=Jack(y_m=length_m, called=True)))

    def rested(self, bowl: Bowl, remarks: tuple[Remark, ...] = (), heard: str = "") -> None:
        note = BowlRested(side=bowl.side, number=bowl.number, remarks=remarks)
        name = BowlName(side=bowl.side, number=bowl.number)
        text = heard or f"{bowl.side} {bowl.number}"
        self.add(text, Event(note=note, bowl=name, bowls=(bowl,), last_side=bowl.side))

    def jack_moved(self, jack: Jack, move: JackMove, bowls: Iterable[Bowl] = ()) -> None:
        event = Event(note=JackMoved(), jack=jack, jack_moves=(move,), bowls=tuple(bowls))
        self.add("jack moved", event)

    def taken_back(self) -> None:
        self.add("take that back", Event(note=TakenBack(), undoes=True))

    def finished(self, score: Score, side: Side | None, shots: int) -> None:
        note = EndFinished(side=side, shots=shots)
        self.add("end finished", Event(note=note, score=score, finished=True))

    def next_end(self, number: int) -> None:
        self.add("next end", Event(note=EndStarted(), end=number, finished=False))

    def write(self, path: Path) -> Path:
        path.write_bytes(b"".join(encode(entry) for entry in self.entries))
        return path

    def add(self, heard: str, event: Event) -> None:
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
    return Bowl(side=side, number=number, x_m=x_m, y_m=y_m, said=Called(gap_m=1.0, hour=12.0, unit="m"))


def called(side: Side, number: int, gap_m: float, hour: float, jack: Jack | None = None) -> Bowl:
    """A live bowl as it was called by a practised director at the mat, the jack at 25 m unless given."""
    jack_x_m, jack_y_m = (jack.x_m or 0.0, jack.y_m or 0.0) if jack else (0.0, 25.0)
    angle = hour * math.tau / 12
    return Bowl(
        side=side,
        number=number,
        x_m=jack_x_m + (gap_m + REACH_M) * math.sin(angle),
        y_m=jack_y_m + (gap_m + REACH_M) * math.cos(angle),
        said=Called(gap_m=gap_m, hour=hour, unit="m"),
        calls=(Call(where=Where(gap_m=gap_m, hour=hour), jack_moves=0, relative_sd=0.15),),
    )


def two_ends(heard: str = "") -> Told:
    """A game with all that a page can show: rink and ditch, a toucher, a dead bowl, a jack that moved."""
    told = Told()
    told.game(Game(rink_m=5.0, green_m=34.8, mat_m=4.0))
    told.jack(28.5)
    jack = Jack(y_m=28.5, called=True)
    for number, (gap_m, hour) in enumerate([(0.5, 2.0), (1.2, 7.0), (0.0, 6.0), (2.0, 11.0)], start=1):
        told.rested(called("ours", number, gap_m, hour, jack), remarks=("forehand",), heard=heard)
        told.rested(called("theirs", number, gap_m + 0.4, hour / 2, jack))
    told.rested(called("ours", 5, 0.1, 9.0, jack).model_copy(update={"toucher": True}))
    told.rested(
        Bowl(
            side="theirs", number=5, x_m=None, y_m=None, state="dead", why_dead="in the ditch, not a toucher"
        )
    )
    told.jack_moved(
        Jack(x_m=0.2, y_m=29.0, called=True),
        JackMove(dx_m=0.2, dy_m=0.5, where=Where(gap_m=0.54, hour=0.73), relative_sd=0.15),
        [called("ours", 1, 0.5, 2.0, jack).model_copy(update={"as_called": False})],
    )
    told.rested(called("ours", 6, 0.3, 3.0, Jack(x_m=0.2, y_m=29.0)))
    told.taken_back()
    told.finished(Score(ours=2, ends=1), "ours", 2)
    told.next_end(2)
    told.jack(24.0)
    told.rested(called("ours", 1, 1.0, 3.0, Jack(y_m=24.0)), remarks=("backhand",))
    told.rested(called("theirs", 1, 0.2, 9.0, Jack(y_m=24.0)))
    told.finished(Score(ours=2, theirs=1, ends=2), "theirs", 1)
    return told
