"""The round before play: its steps, and what each answer does. What was done is a value, like everything."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import zip_longest
from typing import Any, Literal

from voicecoach.coach.club import Club
from voicecoach.coach.profile import Profile
from voicecoach.describe import Preferences
from voicecoach.describe.distances import family, worked_out
from voicecoach.describe.lengths import ahead_words
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.phrasebook.numbers import cardinal, without_digits
from voicecoach.phrasebook.shipped import shipped
from voicecoach.phrasebook.wording import capitals
from voicecoach.value import Value

Became = Literal["shown", "confirmed", "left out"]
Cue = Literal["done", "skip", "again", "back", "stop"]
_AS: Mapping[str, Became] = {"show": "shown", "agree": "confirmed"}
_LENGTH = re.compile(r"\{([\d.]+) m\}")
GROUP = 3
"""Steps named in one sentence of the summary: groups of three are best (Cowan 2001)."""


class Step(Value):
    """One step of the round."""

    title: str
    done_is: Became
    """What it is once it is done: shown, or confirmed."""
    text: str
    """What is said."""


@dataclass(frozen=True)
class Round:
    """How far a round has got."""

    steps: tuple[Step, ...]
    became: tuple[Became, ...] = ()
    """What became of the steps so far."""
    said_back: bool | None = None
    """Whether the director said the summary back to the coach; None before that."""
    stopped: bool = False

    @property
    def step(self) -> Step | None:
        """The step that is open; None at the summary."""
        at = len(self.became)
        return None if self.stopped or at >= len(self.steps) else self.steps[at]

    @property
    def over(self) -> bool:
        """True when nothing is left to answer."""
        return self.said_back is not None


@cache
def data() -> Mapping[str, Any]:
    """The steps and their words, as written in the phrase book's folder."""
    found: Mapping[str, Any] = shipped("before.yaml")
    return found


def steps(club: Club, profile: Profile) -> tuple[Step, ...]:
    """The steps for a club and a pair."""
    facts = _facts(club, profile)
    found: list[Step] = []
    for entry in data()["steps"]:
        text = _in_units(" ".join(_said(sentence, facts) for sentence in entry["say"]), profile)
        found.append(Step(title=entry["title"], done_is=_AS[entry["as"]], text=text))
        if entry.get("paces"):
            found.extend(_lengths(club, profile))
    return tuple(found)


def begin(round_: Round) -> Sentences:
    """What is said at the start: how many steps, and the first."""
    return (_sentence("begin", count=cardinal(len(round_.steps))), *spoken(round_))


def spoken(round_: Round) -> Sentences:
    """What is open now: a step, or the summary to be said back."""
    step = round_.step
    if step is not None:
        return (_sentence("step", title=step.title, text=step.text),)
    return (*summary(round_), _sentence("say back"))


def answered(round_: Round, cue: Cue | None) -> tuple[Round, Sentences]:
    """The round after an answer, and what is said; None for an answer that isn't one."""
    if cue is None:
        return round_, (_sentence("unknown"),)
    if cue == "again":
        return round_, spoken(round_)
    if cue == "back":
        return _back(round_)
    step = round_.step
    if step is None:
        after = replace(round_, said_back=cue == "done")
        return after, (_sentence("said back" if after.said_back else "not said back"), _sentence("over"))
    if cue == "stop":
        after = replace(round_, stopped=True)
        return after, (_sentence("stopped"), *spoken(after))
    became: Became = step.done_is if cue == "done" else "left out"
    after = replace(round_, became=(*round_.became, became))
    return after, spoken(after)


def summary(round_: Round) -> Sentences:
    """What was shown, what confirmed, what left out; steps not reached are left out."""
    pairs = list(zip_longest(round_.steps, round_.became, fillvalue="left out"))
    found: list[Sentence] = []
    kinds: tuple[Became, ...] = ("shown", "confirmed", "left out")
    for kind in kinds:
        titles = [step.title.lower() for step, became in pairs if became == kind and isinstance(step, Step)]
        for group in _groups(titles) or [[data()["say"]["none"]]]:
            found.append(_sentence(kind, what=", ".join(group)))
    return tuple(found)


def changes(before: Round, after: Round) -> Iterator[str]:
    """What an answer did, each in words to be kept: `shown: the ditch`, `not yet: the ditch`."""
    count, was = len(after.became), len(before.became)
    for step in before.steps[count:was]:
        yield f"not yet: {step.title.lower()}"
    for step, became in zip(before.steps[was:count], after.became[was:], strict=True):
        yield f"{became}: {step.title.lower()}"
    if after.stopped and after.over and not before.over:
        for step in before.steps[count:]:
            yield f"left out: {step.title.lower()}"
    if after.over and not before.over:
        yield "said back" if after.said_back else "not said back"


def cue_of(text: str) -> Cue | None:
    """The answer that these words are, taken whole."""
    plain = " ".join(text.lower().replace(",", " ").replace(".", " ").split())
    return next((cue for cue, phrases in data()["cues"].items() if plain in phrases), None)


def phrases() -> tuple[str, ...]:
    """Everything that answers a step."""
    return tuple(phrase for group in data()["cues"].values() for phrase in group)


def outside(club: Club) -> Iterator[str]:
    """The club's figures that the laws don't allow, each in a line for the coach."""
    for name, allowed in data()["ranges"].items():
        value, low, high = getattr(club, name), allowed["from"], allowed.get("to")
        if value is not None and not low <= value <= (value if high is None else high):
            wanted = f"at least {low:g}" if high is None else f"{low:g} to {high:g}"
            law = allowed["law"]
            yield f"The club's file: {name} is {value:g}, and law {law} wants {wanted}. Measure again."


def _back(round_: Round) -> tuple[Round, Sentences]:
    if not round_.became:
        return round_, (_sentence("first"), *spoken(round_))
    after = replace(round_, became=round_.became[:-1], stopped=False)
    return after, spoken(after)


def _sentence(key: str, **slots: str) -> Sentence:
    return Sentence(text=capitals(data()["say"][key].format(**slots)), pause_s=0.6)


def _groups(titles: Sequence[str]) -> list[Sequence[str]]:
    return [titles[start : start + GROUP] for start in range(0, len(titles), GROUP)]


def _said(sentence: str | Mapping[str, str], facts: Mapping[str, str]) -> str:
    """A sentence with the club's facts in it, or the one for a club that hasn't told."""
    if isinstance(sentence, str):
        return sentence
    try:
        return capitals(sentence["say"].format_map(facts))
    except KeyError:
        return sentence["else"]


def _in_units(text: str, profile: Profile) -> str:
    """The text with every length that stands in it as `{0.2 m}` in words, in the pair's own units."""
    kind = family(None, profile.units or "as called")
    return _LENGTH.sub(lambda found: worked_out(float(found[1]), 0.0, kind), text)


def _facts(club: Club, profile: Profile) -> dict[str, str]:
    """What the sentences may name, in plain words."""
    texts = club.model_dump(exclude_none=True, include=set(Club.TEXTS)) | profile.model_dump(
        exclude_none=True, include={"stance", "mark"}
    )
    facts = {name: without_digits(text.strip().rstrip(".")) for name, text in texts.items()}
    kind = family(None, profile.units or "as called")
    for name, value_m in club.lengths().items():
        facts[name] = worked_out(value_m, 0.0, kind)
    return facts


def _lengths(club: Club, profile: Profile) -> Iterator[Step]:
    """The distances that matter, each a halt on the way up, in the player's own paces."""
    prefs = Preferences(pace_m=profile.pace_m, units=profile.units or "as called")
    halts = [(at, entry) for entry in data()["lengths"] if (at := _at(entry, club, profile)) is not None]
    walked_m = 0.0
    for at_m, entry in sorted(halts, key=lambda halt: halt[0]):
        text = data()["say"]["walk"].format(
            more=ahead_words(at_m - walked_m, prefs), total=ahead_words(at_m, prefs), what=entry["say"]
        )
        yield Step(title=capitals(_in_units(entry["title"], profile)), done_is="shown", text=text)
        walked_m = at_m


def _at(entry: Mapping[str, Any], club: Club, profile: Profile) -> float | None:
    """How far from the mat line a halt is; None where that isn't known."""
    if entry.get("at") == "aim":
        return profile.aim_m
    if "at_m" in entry:
        return float(entry["at_m"])
    return None if club.green_m is None else club.green_m - data()["mat_line_m"] - entry["before_m"]
