"""Reads a line as a question in pieces: what is asked follows from its pieces together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from voicecoach.understand.bag import Piece
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.values import BowlName, Expected, Question

NEAREST_MOST = 4
"""More of the nearest bowls are the whole head."""
UNASKED = frozenset({"head", "second", "nearest", "length", "toucher", "score"})
"""Things that are asked about without a word that asks, where that is typed: "head, please"."""


FIRST = frozenset({"is", "any", "how"})
"""Words that only ask where they begin."""


@dataclass
class Asked:
    """What the pieces of a question say together."""

    words: set[str] = field(default_factory=set)
    """The words that ask: who, what, how far."""
    things: set[str] = field(default_factory=set)
    """What they ask about."""
    side: str | None = None
    name: dict[str, Any] = field(default_factory=dict)
    other: dict[str, Any] = field(default_factory=dict)
    on: str | None = None
    hand: str | None = None
    hour: float | None = None
    count: int | None = None

    def asks(self, *words: str) -> bool:
        """True where one of these words asks."""
        return not self.words.isdisjoint(words)

    def about(self, *things: str) -> bool:
        """True where one of these things is asked about."""
        return not self.things.isdisjoint(things)


def question(pieces: Sequence[Piece], expected: Expected) -> Meaning | None:
    """The pieces as a question; None where they ask nothing that can be told."""
    asked = _gather(pieces)
    if asked is None or not (asked.words or asked.things & UNASKED):
        return None
    if asked.words <= FIRST and asked.words and "q" not in pieces[0].says:
        return None  # "their second is dead" tells
    if asked.on and asked.about("end") and asked.asks("many"):
        return None  # "how many ends have we left" asks for nothing on the left
    topic = next((topic for topic, fits in TOPICS if fits(asked)), None)
    if topic is None:
        return None
    made = _question(topic, asked)
    vague = asked.asks("where") and any(piece.says.get("vague") for piece in pieces)
    passing = not asked.words or (vague and topic in ("last", "next up"))  # "where did it go" is talk
    return Meaning(made, passing=passing) if made else None


def _gather(pieces: Sequence[Piece]) -> Asked | None:
    asked = Asked()
    for piece in pieces:
        says = piece.says
        asked.words |= {says["q"]} if "q" in says else set()
        asked.things |= {says["f"]} if "f" in says else set()
        asked.side = says.get("side", asked.side)
        asked.on = says.get("on", asked.on)
        asked.hand = says.get("hand", asked.hand)
        asked.count = says.get("count", asked.count)
        if "hour" in says:
            asked.hour = says["hour"].hour
        if "name" in says:
            if asked.name and asked.other:
                return None
            asked.name, asked.other = (
                (asked.name, says["name"]) if asked.name else (says["name"], asked.other)
            )
        if "other" in says:
            asked.name, asked.other = (asked.name, says["other"]) if asked.name else (says["other"], {})
    return asked


def _question(topic: str, asked: Asked) -> Question | None:
    if topic == "sides":
        topic = asked.side or "head"
    named: dict[str, Any] = {key: asked.name[key] for key in ("side", "number") if key in asked.name}
    other = BowlName(**asked.other) if {*asked.other} == {"side", "number"} else None
    if topic == "apart" and not (other and len(named) == 2):
        return None
    if topic == "bowl" and asked.name.get("last"):
        topic = "last"
    fields: dict[str, Any] = {"ask": topic, "side": asked.side, **named}
    fields |= {"on": asked.on, "hand": asked.hand, "hour": asked.hour, "other": other}
    if topic == "nearest few":
        fields["count"] = asked.count
    return Question(**fields)


def _is_far(asked: Asked) -> bool:
    return asked.asks("far", "where", "much")


def _on(asked: Asked) -> bool:
    return asked.about("shot", "counting", "lead_now")


TOPICS: tuple[tuple[str, Callable[[Asked], bool]], ...] = (
    ("apart", lambda a: bool(a.name and a.other) and (a.asks("far", "what", "much") or a.about("apart"))),
    ("ends left", lambda a: a.about("end") and a.about("left") and a.asks("many", "is", "any", "what")),
    ("end", lambda a: a.about("end") and a.asks("what", "many") and not a.about("leads", "won", "score")),
    ("won", lambda a: a.about("won")),
    ("leads next", lambda a: a.about("leads") and a.asks("who", "whose", "what", "is")),
    ("third", lambda a: a.about("third")),
    ("second", lambda a: a.about("second")),
    (
        "margin",
        lambda a: a.about("margin") or (a.about("apart") and _on(a) and a.asks("much", "what", "far")),
    ),
    ("measure", lambda a: a.about("measure")),
    ("bowls left", lambda a: a.asks("many", "any", "is", "what") and a.about("left") and not a.name),
    ("next up", lambda a: a.about("next") and a.asks("who", "whose", "is") and not a.asks("where")),
    ("next up", lambda a: a.asks("whose") and a.about("a_bowl") and not (_on(a) or a.about("nearest"))),
    ("ditch distance", lambda a: a.about("ditch", "room") and (_is_far(a) or a.about("room"))),
    ("ditch", lambda a: a.about("ditch", "dead") and not a.name),
    ("toucher", lambda a: a.about("toucher", "touched") and bool(a.name)),
    ("touchers", lambda a: a.about("toucher") or (a.about("touched") and bool(a.words))),
    ("count", lambda a: a.asks("many") and (_on(a) or bool(a.side)) and not a.name),
    ("jack moved", lambda a: a.about("jack") and a.about("moved", "changed", "missed") and not _is_far(a)),
    ("changed", lambda a: a.about("moved", "changed")),
    ("behind", lambda a: a.about("nearest") and a.about("behind")),
    ("nearest", lambda a: a.asks("far", "where") and a.about("shot") and a.side is not None and not a.name),
    ("nearest few", lambda a: a.about("nearest") and a.count in range(2, NEAREST_MOST + 1)),
    ("nearest", lambda a: a.about("nearest")),
    (
        "at hour",
        lambda a: a.hour is not None and (a.asks("what", "any", "who") or bool(a.asks("is") and a.side)),
    ),
    ("open", lambda a: a.about("open")),
    ("level", lambda a: a.about("level")),
    ("short", lambda a: a.about("short") and a.asks("any") and not a.name),
    ("behind", lambda a: a.about("behind") and a.asks("any") and not a.name),
    ("last", lambda a: a.asks("is", "far") and a.side == "ours" and a.about("short", "missed", "behind")),
    ("short", lambda a: a.about("short") and not a.name),
    ("behind", lambda a: a.about("behind") and not a.name),
    ("side", lambda a: a.about("side") and a.asks("what", "any", "where", "who", "how", "is")),
    ("holding", lambda a: _on(a) and not a.name and a.asks("who", "whose", "is", "how", "what", "where")),
    ("jack", lambda a: a.about("jack", "length") and not (a.name or a.asks("who", "whose"))),
    ("mat", lambda a: a.about("mat")),
    ("score", lambda a: a.about("score")),
    ("bowl", lambda a: bool(a.name) and "last" not in a.name),
    ("last", lambda a: bool(a.name) or (a.about("last") and (_is_far(a) or a.about("missed", "short")))),
    ("last", lambda a: a.asks("far") and a.side == "ours"),
    ("sides", lambda a: a.side is not None and a.asks("how") and a.about("missed")),
    ("last", lambda a: a.asks("what") and a.about("last")),
    ("head", lambda a: a.about("head", "bowls", "back") and not a.side),
    ("sides", lambda a: a.side is not None and (a.asks("where") or a.about("a_bowl", "bowls"))),
    ("holding", lambda a: a.asks("how", "is") and not a.things and bool(a.side or a.count)),
    ("head", lambda a: a.side is not None and a.asks("what")),
)
"""What is asked, the first that fits."""
