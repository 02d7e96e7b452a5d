"""Lists of bowls: the read-back in walking order, in groups of three or fewer."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from voicecoach.describe.bowls import Style, bowl_sentence, shot_bowl
from voicecoach.describe.frames import turned
from voicecoach.describe.hours import to_whole
from voicecoach.describe.order import Body, levels
from voicecoach.describe.sums import sum_up
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Lie, Picture
from voicecoach.phrasebook.wording import sentence

GROUP = 3  # Cowan 2001 and a grouping study: three to five chunks are held, groups of three are best.
_LONG = 8
"""Bodies in a list beyond which it is worded briefly, with shorter pauses."""


class _Time(NamedTuple):
    """How long a list takes, seconds."""

    within: float
    """Silence after a sentence within a group."""
    between: float
    """Silence after a group's last sentence."""
    sentence_s: float | None
    """The longest a sentence may take to say."""


_SHORT_LIST, _LONG_LIST, _TERSE_LIST = _Time(0.7, 1.1, None), _Time(0.14, 0.38, 2.7), _Time(0.07, 0.22, 1.74)
_LEISURE, _FULL = 10, 17
"""Bodies up to which the pauses are those of a short list, and from which those of a long one."""


def _time(bodies: int, terse: bool) -> _Time:
    """Pauses as long as the time for the whole list leaves room for."""
    if terse:
        return _TERSE_LIST
    if bodies <= _LONG:
        return _SHORT_LIST
    short = max(0.0, min(1.0, (_FULL - bodies) / (_FULL - _LEISURE)))
    within = _LONG_LIST.within + short * (_SHORT_LIST.within - _LONG_LIST.within)
    between = _LONG_LIST.between + short * (_SHORT_LIST.between - _LONG_LIST.between)
    return _Time(within, between, _LONG_LIST.sentence_s)


def read_back(picture: Picture, prefs: Preferences) -> Sentences:
    """The sum, then every live bowl and the jack in walking order; a dead jack leaves nothing to place."""
    if picture.head.jack.state == "dead":
        return (sum_up(picture, prefs),)
    return (*turned(prefs), sum_up(picture, prefs), *walking_list(picture, prefs))


def walking_list(picture: Picture, prefs: Preferences) -> Sentences:
    """Every live bowl and the jack, from the mat up the rink."""
    return grouped(levels(picture), picture, prefs)


def bowl_list(lies: Iterable[Lie], picture: Picture, prefs: Preferences) -> Sentences:
    """Some bowls in walking order."""
    wanted = {(lie.side, lie.number) for lie in lies}
    chosen = [
        tuple(body for body in level if body.lie and (body.lie.side, body.lie.number) in wanted)
        for level in levels(picture)
    ]
    return grouped([level for level in chosen if level], picture, prefs)


def grouped(parts: Sequence[Sequence[Body]], picture: Picture, prefs: Preferences) -> Sentences:
    """One sentence a body; what is level stays in one group where it fits."""
    groups = _groups(parts)
    bodies = sum(map(len, groups))
    long = bodies > _LONG
    style = Style("one word where it helps", brief=True) if long or prefs.terse else Style()
    time = _time(bodies, prefs.terse)
    said = []
    for number, group in enumerate(groups, start=1):
        for body in group:
            pause_s = time.between if body is group[-1] else time.within
            given = {"group": number, "pause_s": pause_s, "within_s": time.sentence_s}
            said.append(_body(body, picture, prefs, style).model_copy(update=given))
    return tuple(said)


def _body(body: Body, picture: Picture, prefs: Preferences, style: Style) -> Sentence:
    if body.lie is None:
        manner = "terse" if prefs.terse else "ditch" if picture.head.jack.state == "ditch" else "plain"
        return Sentence(text=sentence(f"jack.{manner}"), place=(0.0, 0.0))
    if body.lie == shot_bowl(picture):
        style = style._replace(side="one word" if prefs.terse else "full")
    return bowl_sentence(body.lie, picture, prefs, style)


def _groups(parts: Sequence[Sequence[Body]]) -> list[list[Body]]:
    """Groups of three or fewer: a level that doesn't fit any more starts a new group."""
    groups: list[list[Body]] = []
    for part in parts:
        if not groups or len(groups[-1]) + len(part) > GROUP:
            groups.append([])
        for body in part:
            if len(groups[-1]) == GROUP:
                groups.append([])
            groups[-1].append(body)
    return groups


def round_the_clock(picture: Picture, prefs: Preferences) -> Sentences:
    """Every live bowl round the face from twelve, the nearer first on one hour; the jack is the centre."""
    bodies = [body for level in levels(picture) for body in level if body.lie is not None]
    bodies.sort(key=_clockwise)
    return grouped([[body] for body in bodies], picture, prefs)


def _clockwise(body: Body) -> tuple[float, float]:
    lie = body.lie
    if lie is None or lie.hour_exact is None or lie.gap_m is None:
        return (0.0, 0.0)
    return (float(to_whole(lie.hour_exact) % 12), lie.gap_m)
