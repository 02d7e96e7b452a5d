"""The walk up to the head, step by step: where to halt, what is beside, what is in the way next."""

from typing import NamedTuple

from voicecoach.describe.bowls import bowl_name, side_name
from voicecoach.describe.frames import cautions, turned
from voicecoach.describe.hours import listeners
from voicecoach.describe.lengths import ahead_words, aside_words
from voicecoach.describe.stops import ditch_m, stops
from voicecoach.describe.values import Beside, BesideJack, Preferences, Sentence, Sentences, Stop, Walking
from voicecoach.head.values import Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import BowlName, Walk

_DITCH_NEAR_M = 5.0
"""The ditch is announced at every stop from this near on, and wherever no stop is left before it."""
_ONWARD_PAUSE_S = 0.6
_DITCH_HERE_M = 0.25
_ON_PATH_M = 0.03
"""A centre this near to the line is said to be on it."""


class _Ground(NamedTuple):
    """What a walk needs to know to speak of one place."""

    picture: Picture
    stops: tuple[Stop, ...]
    prefs: Preferences


def walk(
    step: Walk, walking: Walking | None, picture: Picture, prefs: Preferences
) -> tuple[Walking | None, Sentences]:
    """One step of a walk: where it has got to (None when it is over), and what is said."""
    halts = stops(picture)
    if step.step == "start":
        begun = Walking()
        ground = _Ground(picture, halts, _facing(prefs, begun))
        return begun, (*cautions(prefs.short_cautions), *_opening(ground), *_onward(ground, begun))
    if walking is None:
        return None, _one("walk.not begun")
    if step.step == "stop":
        return None, _ending(picture, prefs)
    if step.step == "turn":
        walking = walking.model_copy(update={"facing": "mat" if walking.facing == "jack" else "jack"})
        ground = _Ground(picture, halts, _facing(prefs, walking))
        return walking, (*_facing_words(ground), *_onward(ground, walking))
    moved = walking.model_copy(update={"at": walking.at + _stride(step, walking)})
    ground = _Ground(picture, halts, _facing(prefs, moved))
    if not -1 <= moved.at <= len(halts) - 1:
        return _past_the_end(ground, walking, moved)
    return moved, _at(ground, moved, step)


def _stride(step: Walk, walking: Walking) -> int:
    """How many stops a step goes up the rink."""
    way = 1 if walking.facing == "jack" else -1
    return {"next": way, "back": -way}.get(step.step, 0)


def _facing(prefs: Preferences, walking: Walking) -> Preferences:
    return prefs.model_copy(update={"facing": walking.facing})


def _past_the_end(ground: _Ground, walking: Walking, moved: Walking) -> tuple[Walking | None, Sentences]:
    """Beyond the far edge, or off the mat: the walk ends, unless it only stepped back at its start."""
    coming_back = walking.facing == "mat"
    if moved.at < -1 and not coming_back:
        return walking, _one("walk.at mat")
    if moved.at >= len(ground.stops) and coming_back:
        return walking, _one("walk.far edge")
    return None, _ending(ground.picture, ground.prefs)


def _opening(ground: _Ground) -> Sentences:
    """How many stops, and how far the ditch is."""
    count = len(ground.stops)
    if not count:
        return _one("walk.no stops")
    key = "walk.one stop" if count == 1 else "walk.stops"
    return (*_one(key, count=cardinal(count)), *_ditch(ground, 0.0, always=True))


def _at(ground: _Ground, walking: Walking, step: Walk) -> Sentences:
    """What is said at a stop: what is level with it, then what comes next."""
    if walking.at < 0:
        return (*_one("walk.at mat"), *(_onward(ground, walking) if step.step != "here" else ()))
    stop = ground.stops[walking.at]
    level = tuple(_of(item, ground.prefs) for item in stop.level)
    if step.step == "here":
        return level
    where: Sentences = ()
    if step.step == "where":
        way = {"length": ahead_words(stop.at_m, ground.prefs), "stop": cardinal(walking.at + 1)}
        where = _one("walk.where", count=cardinal(len(ground.stops)), **way)
    return (*where, *level, *_onward(ground, walking))


def _onward(ground: _Ground, walking: Walking) -> Sentences:
    """How far to the next stop, with a warning of every body in or near the path there."""
    here = _met_at(ground.stops[walking.at], walking) if walking.at >= 0 else 0.0
    ahead = walking.at + (1 if walking.facing == "jack" else -1)
    ditch = _ditch(ground, here, always=ahead == len(ground.stops))
    if ahead == len(ground.stops):
        return (*_one("walk.far edge"), *ditch)
    if ahead < 0:
        return _one("walk.to mat", length=ahead_words(here, ground.prefs)) if walking.at >= 0 else ()
    stop = ground.stops[ahead]
    items = words("walk.joint").join(_item(item, ground.prefs) for item in stop.level)
    key = "walk.careful" if any(item.in_path for item in stop.level) else "walk.ahead"
    text = sentence(key, length=ahead_words(abs(_met_at(stop, walking) - here), ground.prefs), items=items)
    return (*ditch, Sentence(text=text, pause_s=_ONWARD_PAUSE_S))


def _met_at(stop: Stop, walking: Walking) -> float:
    """Where a stop's first body is met on the way that is walked."""
    return stop.at_m if walking.facing == "jack" else stop.far_m


def _item(item: Beside | BesideJack, prefs: Preferences) -> str:
    """One body, on which side of the path and how far aside."""
    name = words("walk.jack") if isinstance(item, BesideJack) else bowl_name(item.side, item.number, prefs)
    if item.in_ditch:
        name = words("walk.in ditch", name=name)
    side = listeners(item.on, prefs)
    if side is None or item.aside_m < _ON_PATH_M:
        return words("walk.on path", name=name)
    return words("walk.beside", name=name, aside=aside_words(item.aside_m, prefs), side=words(f"side.{side}"))


def _of(item: Beside | BesideJack, prefs: Preferences) -> Sentence:
    """The sentence for one body at the stop stood at."""
    about = None if isinstance(item, BesideJack) else BowlName(side=item.side, number=item.number)
    return Sentence(text=sentence("whole", text=_item(item, prefs)), about=about)


def _ditch(ground: _Ground, here_m: float, always: bool) -> Sentences:
    """The ditch and the bank, with their distance where the green's length is known."""
    edge = ditch_m(ground.picture)
    if edge is None:
        return _one("walk.ditch unknown") if always else ()
    if not always and edge - here_m > _DITCH_NEAR_M:
        return ()
    if edge - here_m < _DITCH_HERE_M:
        return _one("walk.ditch here")
    return _one("walk.ditch", length=ahead_words(edge - here_m, ground.prefs))


def _facing_words(ground: _Ground) -> Sentences:
    return turned(ground.prefs) or _one("walk.facing jack")


def _ending(picture: Picture, prefs: Preferences) -> Sentences:
    """The reminder to the director before any bowl is gathered."""
    ours = sum(lie.side == "ours" for lie in picture.lies)
    key = {0: "walk.gather none", 1: "walk.gather one"}.get(ours, "walk.gather")
    whose = side_name("ours", prefs, "ours")
    return (*_one("walk.over"), *_one("walk.end"), *_one(key, count=cardinal(ours), whose=whose))


def _one(key: str, **slots: str) -> Sentences:
    return (Sentence(text=sentence(key, **slots)),)
