"""Questions about a head that was read, and their true answers."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from typing import Literal

from voicecoach.coach.practice import data
from voicecoach.describe import Preferences
from voicecoach.describe.bowls import BARE, bowl_name, by_gap, place_words, side_name
from voicecoach.head.values import Lie, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.understand.values import BowlName, OpenQuestion, Question, Side
from voicecoach.value import Value

Want = Literal["whose", "how many", "which", "where"]
CLEAR = 1.15
"""A nearest bowl is only asked for when the next one is so much farther away."""
SHORT_M = 0.1
"""With a bowl nearer to level than this, "how many are short" is a poor question."""


class Asked(Value):
    """One question and its answer."""

    text: str
    """The question as spoken."""
    want: Want
    """What kind of answer it wants."""
    truth: str
    """The answer as spoken."""
    side: Side | None = None
    count: int | None = None
    bowl: BowlName | None = None
    gap_m: float | None = None
    hour: float | None = None

    @property
    def open(self) -> OpenQuestion:
        """The same for the ear: what may be said to it."""
        answers = _HEARD.get(self.want, ())
        slot: Literal["side", "hour", "choice"] = "side" if self.want == "whose" else "choice"
        return OpenQuestion(
            slot="hour" if self.want == "where" else slot,
            answers=answers,
            pending=Question(ask="holding"),
            ask=self.text,
        )


_HEARD: dict[str, tuple[str, ...]] = {
    "how many": tuple(cardinal(count) for count in range(1, 10)),
    "which": tuple(
        f"{whose} {nth}" for whose in ("our", "their") for nth in ("first", "second", "third", "fourth")
    ),
}


def questions(seen: Picture, prefs: Preferences, count: int, chance: random.Random) -> tuple[Asked, ...]:
    """So many questions by chance of all that can be asked of a head; where each bowl lies fills the rest."""
    others = [*_holding(seen, prefs), *_nearest(seen, prefs), *_short(seen)]
    where = [_where(lie, seen, prefs) for lie in by_gap(seen)]
    chance.shuffle(others)
    chance.shuffle(where)
    share = max(count - len(where), (count + 1) // 2)
    chosen = [*others[:share], *where][:count]
    chance.shuffle(chosen)
    return tuple(chosen)


def _holding(seen: Picture, prefs: Preferences) -> Iterator[Asked]:
    holding = seen.holding
    if holding is None or holding.side is None or not holding.sure:
        return
    truth = side_name(holding.side, prefs, "hold")
    yield Asked(text=_text("holds"), want="whose", truth=truth, side=holding.side)
    if holding.shots is not None:
        truth = cardinal(holding.shots)
        yield Asked(text=_text("count"), want="how many", truth=truth, count=holding.shots)


def _nearest(seen: Picture, prefs: Preferences) -> Iterator[Asked]:
    near = by_gap(seen)
    sides = {"right": [lie for lie in near if lie.left_right == "right"]}
    sides["left"] = [lie for lie in near if lie.left_right == "left"]
    for key, lies in (("nearest", near), ("nearest right", sides["right"]), ("nearest left", sides["left"])):
        if lies and _is_clear(lies):
            first = lies[0]
            name = BowlName(side=first.side, number=first.number)
            truth = bowl_name(first.side, first.number, prefs)
            yield Asked(text=_text(key), want="which", truth=truth, bowl=name)


def _is_clear(lies: Sequence[Lie]) -> bool:
    return len(lies) == 1 or (lies[0].gap_m or 0.0) * CLEAR < (lies[1].gap_m or 0.0)


def _short(seen: Picture) -> Iterator[Asked]:
    along = [lie.along_m for lie in by_gap(seen) if lie.along_m is not None]
    if along and all(abs(each) >= SHORT_M for each in along):
        count = sum(each < 0 for each in along)
        yield Asked(text=_text("short"), want="how many", truth=cardinal(count), count=count)


def _where(lie: Lie, seen: Picture, prefs: Preferences) -> Asked:
    name = bowl_name(lie.side, lie.number, prefs)
    truth = place_words(lie, seen, prefs.model_copy(update={"terse": False}), BARE)
    return Asked(
        text=_text("where", name=name), want="where", truth=truth, gap_m=lie.gap_m, hour=lie.hour_exact
    )


def _text(key: str, **slots: str) -> str:
    text: str = data()["questions"][key]
    return text.format(**slots)
