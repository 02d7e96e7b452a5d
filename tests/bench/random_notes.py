"""Notes as they might come, sensible and not, from a seeded generator."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from voicecoach.head.values import AskBack, Game
from voicecoach.understand.notes.settings import Stands
from voicecoach.understand.values import (
    Aim,
    BowlMoved,
    BowlName,
    BowlRested,
    Corrected,
    EndFinished,
    EndStarted,
    GameSet,
    JackMoved,
    JackSet,
    Measured,
    Note,
    Question,
    Side,
    TakenBack,
)

GAPS = (0.0, 0.05, 0.1, 0.2, 0.3, 0.5, 0.8, 1.0, 1.2, 1.5, 2.0, 3.0, 5.0, 14.0, 30.0)
WORDS = ("short", "past", "left", "right", "jack high", "wide", "narrow", "forehand", "backhand")
FATES = ("toucher", "touching", "in the ditch", "dead", "out of the rink", "live", "not a toucher", "about")
SIDES: tuple[Side, Side] = ("ours", "theirs")


class Notes:
    """A stream of notes from one seed."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)

    def game(self) -> Game:
        """A game to begin with: every other one has nothing set."""
        pick = self.random.choice
        if pick((True, False)):
            return Game()
        return Game(
            format=pick((None, "singles", "pairs", "triples", "fours")),
            mat_m=2.0,
            green_m=pick((None, 31.0, 34.0)),
            rink_m=pick((None, 4.3, 5.0)),
            hand=pick((None, "right", "left")),
            respot=pick((True, False)),
            stood=pick(("mat", "mat", "head")),
        )

    def draw(self) -> Note:
        """One note; bowls at rest are the commonest."""
        makers: list[Callable[[], Note]] = [
            self._rested,
            self._moved,
            self._corrected,
            self._jack,
            self._rare,
        ]
        return self.random.choices(makers, (12, 3, 4, 3, 2))[0]()

    def answer(self, asked: AskBack) -> Note | None:
        """A note that answers the question, or None to let it lapse."""
        if self.random.random() < 0.3:
            return None
        if asked.choices:
            return self.random.choice(asked.choices)
        filled: dict[str, dict[str, Any]] = {
            "yes or no": {"confirmed": True},
            "gap": {"gap_m": self.random.choice(GAPS)},
            "hour": {"hour": float(self.random.randint(1, 12))},
            "number": {"number": self.random.randint(1, 9)},
        }
        fields = filled.get(asked.slot, {})
        known = type(asked.pending).model_fields
        return asked.pending.model_copy(update={f: v for f, v in fields.items() if f in known})

    def _where(self) -> dict[str, Any]:
        way = self.random.random()
        place: dict[str, Any] = {}
        if way < 0.7:
            place = {"gap_m": self.random.choice(GAPS), "hour": self.random.randint(1, 24) / 2}
        elif way < 0.85:
            words = self.random.sample(WORDS, self.random.randint(1, 2))
            place = {"gap_m": self._sometimes(self.random.choice(GAPS)), "remarks": tuple(words)}
        elif way < 0.95:
            place = {"along_m": self.random.uniform(-2, 2), "across_m": self.random.choice((0.0, -0.3, 0.4))}
        if self.random.random() < 0.1:
            place["remarks"] = (*place.get("remarks", ()), self.random.choice(FATES))
        return place

    def _sometimes(self, value: Any, share: float = 0.8) -> Any:
        return value if self.random.random() < share else None

    def _name(self, share: float) -> dict[str, Any]:
        return {
            "side": self._sometimes(self.random.choice(SIDES), share),
            "number": self._sometimes(self.random.randint(1, 5), share),
        }

    def _rested(self) -> Note:
        return BowlRested(**self._where(), **self._name(0.4))

    def _moved(self) -> Note:
        scattered = self.random.random() < 0.03
        by = self.random.random() < 0.3
        return BowlMoved(**self._where(), **self._name(0.9), by=by, scattered=scattered)

    def _corrected(self) -> Note:
        if self.random.random() < 0.4:
            return TakenBack()
        named = BowlName(side=self.random.choice(SIDES), number=self.random.randint(1, 4))
        target = self.random.choice((None, None, named, "jack"))
        return Corrected(**self._where(), **self._name(0.2), target=target)

    def _jack(self) -> Note:
        if self.random.random() < 0.3:
            return JackSet(length_m=self.random.choice((21.0, 23.0, 26.5, 29.0, 31.0, None)))
        if self.random.random() < 0.2:
            remark = self.random.choice(("dead", "respotted", "in the ditch"))
            return JackMoved(remarks=(remark,), length_m=self._sometimes(28.0, 0.3))
        return JackMoved(**self._where())

    def _rare(self) -> Note:
        shots = self._sometimes(self.random.randint(0, 4))
        rare: list[Note] = [
            EndStarted(),
            EndFinished(side=self._sometimes(self.random.choice(SIDES)), shots=shots),
            EndFinished(replayed=True),
            self._game(),
            Measured(**self._name(0.9), gap_m=self._sometimes(self.random.choice(GAPS))),
            Measured(side="ours", number=1, nearer_than=BowlName(side="theirs", number=1)),
            Stands(value=self.random.choice(("head", "mat"))),
            Question(ask="head"),
            Aim(at_m=self._sometimes(3.0)),
        ]
        return self.random.choice(rare)

    def _game(self) -> Note:
        pick = self.random.choice
        return GameSet(
            format=pick((None, "singles", "pairs", "triples", "fours")),
            lead=pick((None, "ours", "theirs")),
            mat_m=pick((None, 2.0, 4.0)),
            rink_m=pick((None, 5.0)),
            green_m=pick((None, 34.0)),
            hand=pick((None, "right", "left")),
            bowl_mm=pick((None, None, None, 118.0, 128.0)),
            respot=pick((None, True)),
            confirmed=pick((True, False)),
        )
