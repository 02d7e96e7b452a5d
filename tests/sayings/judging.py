"""Tells a saying after a few others and judges what came of it.

A line of a file: the group, what is said before (null for the usual head), the saying, and what may come
of it: R a bowl rests there, M it moved there, MOVE it shifted by so much, D it is in the ditch or dead, GONE
it is off the head, T it is a toucher or not, J the jack lies there, JS its state, SC the score, END the end
is replayed, SWAP two bowls change names, A an answer that matches, ASK a question back, REF refused, DROP and
SAFE no note.
"""

import json
import math
import re
from pathlib import Path
from typing import Any

from tests.understand.reads import UNDERSTANDING
from voicecoach.head import picture
from voicecoach.hear.values import Heard
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, turn
from voicecoach.session.view import turn_line

FOLDER = Path(__file__).parent
WHEN = When(at="2026-06-01T14:00:00+01:00")
USUAL = (
    "pairs, we lead, jack at twenty seven metres",
    "our first, a metre, six o'clock",
    "their first, half a metre, three o'clock",
    "our second, eighty centimetres, two o'clock",
)
APART_M = 0.121 / 2 + 0.064 / 2
"""From nearest points to centres: bowls of 121 mm, a jack of 64 mm."""
Line = dict[str, Any]


def rows(name: str) -> list[Line]:
    """The lines of a file of sayings."""
    return [json.loads(line) for line in (FOLDER / name).read_text(encoding="utf-8").splitlines()]


def told(lines: list[str]) -> list[Line]:
    """The JSON line of each, told one after the other."""
    talk, made = Talk(), []
    for text in lines:
        talk, entry = turn(talk, Heard(text=text), UNDERSTANDING, WHEN)
        made.append(turn_line(entry, picture(talk.play.head)).model_dump(mode="json"))
    return made


def bowls_of(turned: Line) -> dict[tuple[str, int], Line]:
    return {(bowl["side"], bowl["number"]): bowl for bowl in turned["head"]["bowls"]}


def lies(bowl: Line | None, gap_m: float, hour: float) -> bool:
    if bowl is None or bowl["gap_m"] is None:
        return False
    off = abs((bowl["hour_exact"] - hour + 6) % 12 - 6)
    return bool(abs(bowl["gap_m"] - gap_m) <= max(0.004, 0.1 * gap_m) and off <= 0.2)


def noted(want: list[Any], after: Line, before: Line) -> bool:  # noqa: C901, PLR0911 - one line for each form
    bowls, was, kind = bowls_of(after), bowls_of(before), want[0]
    bowl = bowls.get((want[1], want[2])) if len(want) > 2 and want[1] in ("ours", "theirs") else None
    jack, score = after["head"]["jack"], after["head"]["score"]
    match kind:
        case "R" | "M":
            return lies(bowl, want[3], want[4])
        case "MOVE":
            old = was[want[1], want[2]]
            return (
                bowl is not None
                and math.dist((bowl["x_m"], bowl["y_m"]), (old["x_m"] + want[3], old["y_m"] + want[4])) < 0.02
            )
        case "D":
            return (
                bowl is not None and bowl["state"] in ("ditch", "dead") and want[3] in (None, bowl["toucher"])
            )
        case "GONE":
            return bowl is None
        case "T":
            return bowl is not None and bowl["toucher"] == want[3]
        case "J":
            return jack["x_m"] is not None and math.dist((jack["x_m"], jack["y_m"]), want[1:]) < 0.02
        case "JS":
            return bool(jack["state"] == want[1])
        case "SC":
            return (score["ours"], score["theirs"]) == tuple(want[1:3]) and want[3] in (None, score["ends"])
        case "END":
            return not bowls and score["ends"] == 0
        case "SWAP":
            return lies(bowls["ours", 1], 0.8, 2) and lies(bowls["ours", 2], 1, 6)
    return False


def met(want: list[Any], after: Line, before: Line) -> bool:
    outcome = after["outcome"]
    match want[0]:
        case "ASK" | "REF" | "DROP":
            return bool(outcome == {"ASK": "asked", "REF": "refused", "DROP": "dropped"}[want[0]])
        case "SAFE":
            return outcome in ("asked", "answered", "refused") and after["head"] == before["head"]
        case "A":
            return outcome == "answered" and re.search(want[1], " ".join(after["say"])) is not None
    return bool(outcome == "noted") and noted(want, after, before)


def judged(row: Line) -> str:
    *_, before, after = told([*(row["before"] or USUAL), row["text"]])
    if any(met(want, after, before) for want in row["expect"]):
        return "right"
    return "wrong" if after["outcome"] == "noted" else str(after["outcome"])
