"""Answers to what players ask most: the fact that was asked for comes first."""

from __future__ import annotations

from math import hypot

from voicecoach.describe.bowls import ASKED, bowl_name, bowl_sentence, by_gap, find, one_bowl, side_name
from voicecoach.describe.confirming_game import score_words
from voicecoach.describe.distances import family, worked_out
from voicecoach.describe.frames import turned
from voicecoach.describe.lists import bowl_list
from voicecoach.describe.sums import sum_up
from voicecoach.describe.turn import Hand, in_the_way
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Lie, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import listed, sentence
from voicecoach.understand.values import Question

LEVEL_M = 0.3
"""Centres no farther apart along the rink are level with each other."""
AN_HOUR_OFF = 0.75
"""A bowl no more hours away lies at the hour that was asked about."""
HELP_AT_ONCE = 3
"""Sentences of help that are said at a time."""


def second(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """The second nearest bowl, whosever it is."""
    lies = by_gap(picture)
    if len(lies) < 2:
        return _one("answer.no second")
    return one_bowl(lies[1], picture, prefs), sum_up(picture, prefs)


def third(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """The third nearest bowl."""
    lies = by_gap(picture)
    return (one_bowl(lies[2], picture, prefs),) if len(lies) > 2 else _one("answer.no third")


def margin(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """Who holds, how many, by how much; or that it is too close to call."""
    return (sum_up(picture, prefs),)


def nearest_few(
    question: Question, picture: Picture, prefs: Preferences, _since: Picture | None
) -> Sentences:
    """The nearest two or three."""
    found = by_gap(picture)[: question.count]
    return (*turned(prefs), *bowl_list(found, picture, prefs)) if found else (sum_up(picture, prefs),)


def touchers(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """Every toucher by name."""
    found = [lie for lie in picture.lies if lie.toucher]
    return tuple(bowl_sentence(lie, picture, prefs, ASKED) for lie in found) or _one("answer.no touchers")


def toucher(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """Yes or no, about one bowl."""
    lie = _asked(question, picture)
    if lie is None:
        return _one("answer.no such bowl")
    key = "answer.is a toucher" if lie.toucher else "answer.is no toucher"
    return _one(key, name=bowl_name(lie.side, lie.number, prefs))


def at_hour(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """What lies at an hour of the clock."""
    asked = question.hour or 12.0
    found = [lie for lie in by_gap(picture) if lie.hour_exact is not None and _off(lie, asked) <= AN_HOUR_OFF]
    return _bowls(found, picture, prefs) or _one("answer.nothing there")


def level(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """What lies jack high."""
    found = [lie for lie in by_gap(picture) if lie.along_m is not None and abs(lie.along_m) <= LEVEL_M]
    return _bowls(found, picture, prefs) or _one("answer.nothing level")


def side(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """What lies left or right of the jack."""
    hand = _hand(question, picture)
    found = [lie for lie in by_gap(picture) if _on(lie) == hand]
    return _bowls(found, picture, prefs) or _one("answer.nothing there")


def is_open(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """What lies short on the way in: what is open is what it leaves."""
    return in_the_way(picture, prefs, _hand(question, picture))


def apart(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """How far apart two bowls lie, between their nearest points."""
    one, other = _asked(question, picture), find(picture, question.other) if question.other else None
    if one is None or other is None or one.place is None or other.place is None:
        return _one("answer.no such bowl")
    between = hypot(one.place.x_m - other.place.x_m, one.place.y_m - other.place.y_m)
    gap_m = max(0.0, between - picture.head.game.bowl_mm / 1000)
    doubt_m = hypot(one.gap_sd_m, other.gap_sd_m)
    return _one("answer.apart", distance=worked_out(gap_m, doubt_m, family(one.unit, prefs.units)))


def jack_moved(
    _question: Question, picture: Picture, prefs: Preferences, _since: Picture | None
) -> Sentences:
    """Whether the jack has moved in this end, and how often."""
    moves = len(picture.head.jack_moves)
    if not moves:
        return _one("answer.jack not moved")
    return _one("answer.jack moved once" if moves == 1 else "answer.jack moved", times=cardinal(moves))


def ditch_distance(
    _question: Question, picture: Picture, prefs: Preferences, _since: Picture | None
) -> Sentences:
    """How far the front ditch is from the jack."""
    game, jack = picture.head.game, picture.head.jack
    if game.green_m is None or game.mat_m is None:
        return _one("answer.ditch unknown")
    if jack.y_m is None:
        return _one("answer.jack not placed")
    room_m = max(0.0, game.green_m - game.mat_m - jack.y_m)
    return _one("answer.ditch", distance=worked_out(room_m, 0.0, family(None, prefs.units)))


def ends_left(
    _question: Question, picture: Picture, _prefs: Preferences, _since: Picture | None
) -> Sentences:
    """How many ends are still to play."""
    game, played = picture.head.game, picture.head.score.ends
    if game.ends is None:
        return _one("answer.ends unknown")
    left = max(0, game.ends - played)
    return _one(
        "answer.one end left" if left == 1 else "answer.ends left", count=cardinal(left) if left else "no"
    )


def leads_next(
    _question: Question, picture: Picture, prefs: Preferences, _since: Picture | None
) -> Sentences:
    """Who leads the next end: whoever wins this one, once that is known."""
    head = picture.head
    if not head.finished or head.lead is None:
        return _one("answer.winner leads")
    return _one("answer.leads", leads=side_name(head.lead, prefs, "lead"))


def won(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """The score: it says who has won, or who is ahead."""
    return _one("score.plain", score=score_words(picture.head.score, prefs))


def mat(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """How far the mat line is from the rear ditch."""
    mat_m = picture.head.game.mat_m
    if mat_m is None:
        return _one("answer.mat unknown")
    return _one("answer.mat", distance=worked_out(mat_m, 0.0, family(None, prefs.units)))


def help_now(_question: Question, picture: Picture, _prefs: Preferences, _since: Picture | None) -> Sentences:
    """What can be said at this moment, three sentences at a time."""
    head = picture.head
    moment = (
        "over" if head.finished else "end" if head.bowls else "jack" if head.jack.y_m is None else "first"
    )
    lines = [*listed(f"help.{moment}"), *listed("help.always")]
    return tuple(Sentence(text=line, group=at // HELP_AT_ONCE) for at, line in enumerate(lines))


def _asked(question: Question, picture: Picture) -> Lie | None:
    return next(
        (lie for lie in picture.lies if (lie.side, lie.number) == (question.side, question.number)), None
    )


def _off(lie: Lie, hour: float) -> float:
    return abs(((lie.hour_exact or 0.0) - hour + 6) % 12 - 6)


def _on(lie: Lie) -> Hand | None:
    """The side a bowl lies on; by its place where the head isn't sure enough to say it."""
    if lie.left_right or lie.across_m is None:
        return lie.left_right
    return "right" if lie.across_m > 0 else "left"


def _hand(question: Question, picture: Picture) -> Hand | None:
    """Left or right; the forehand is right for a right-handed player, whom nothing else said."""
    if question.hand is None:
        return question.on
    right_handed = picture.head.game.hand != "left"
    return "right" if (question.hand == "forehand") == right_handed else "left"


def _bowls(lies: list[Lie], picture: Picture, prefs: Preferences) -> Sentences:
    return tuple(bowl_sentence(lie, picture, prefs, ASKED) for lie in lies)


def _one(key: str, **slots: str) -> Sentences:
    return (Sentence(text=sentence(key, **slots)),)
