"""For the player: what lies in the way, "my turn", and one sentence after each bowl."""

from typing import Literal

from voicecoach.describe.bowls import ASKED, bowl_name, find, place_words, side_name
from voicecoach.describe.called import called_words
from voicecoach.describe.confirming_game import score_words
from voicecoach.describe.counts import bowls_left
from voicecoach.describe.frames import turned
from voicecoach.describe.hours import listeners, to_whole
from voicecoach.describe.lists import bowl_list
from voicecoach.describe.sums import shots_words, sum_up
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Event, Lie, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.notes.corrections import AboutABowl
from voicecoach.understand.values import JackMoved, Side

Hand = Literal["left", "right"]
_HOURS = {"short": (4, 5, 6, 7, 8), "past": (10, 11, 12, 1, 2)}
_OFF_THE_GREEN = ("in the ditch", "out of the rink")


def my_turn(picture: Picture, prefs: Preferences) -> Sentences:
    """Score, bowls left, who holds, what lies short on each hand and in line."""
    score = Sentence(text=sentence("score.plain", score=score_words(picture.head.score, prefs)))
    short = [lie for lie in picture.lies if _is("short", lie)]
    in_line = [lie for lie in short if lie.left_right is None]
    standing = (score, *bowls_left(picture, prefs), sum_up(picture, prefs))
    if picture.head.jack.state == "dead":
        return standing
    return (
        *standing,
        *_short_on([lie for lie in short if lie.left_right == "left"], "left", picture, prefs),
        *(_short_on(in_line, "in line", picture, prefs) if in_line else ()),
        *_short_on([lie for lie in short if lie.left_right == "right"], "right", picture, prefs),
    )


def in_the_way(picture: Picture, prefs: Preferences, on: Hand | None) -> Sentences:
    """The bowls short of the jack, in walking order; on one side, with those that may be on it."""
    short = [lie for lie in picture.lies if _is("short", lie) and on in (None, *_sides(lie))]
    return (*turned(prefs), *_short_on(short, on or "any", picture, prefs))


def behind(picture: Picture, prefs: Preferences, on: Hand | None, side: Side | None = None) -> Sentences:
    """The bowls (of a side) past the jack, in walking order; on one hand, with those that may be on it."""
    past = [lie for lie in picture.lies if _is("past", lie) and on in (None, *_sides(lie))]
    past = [lie for lie in past if side in (None, lie.side)]
    where = f"past {listeners(on, prefs)}" if on else "past"
    if side and not past:
        whose = side_name(side, prefs, "ours")
        nothing = sentence("short.none of", whose=whose, where=words(f"short.{where}"))
        return (*turned(prefs), Sentence(text=nothing, group=0))
    return (*turned(prefs), *_listed(past, where, picture, prefs))


def _short_on(short: list[Lie], where: str, picture: Picture, prefs: Preferences) -> Sentences:
    """How many are short there, and each of them."""
    there = f"{listeners(where, prefs)}" if where in ("left", "right") else where
    return _listed(short, there, picture, prefs)


def _listed(lies: list[Lie], where: str, picture: Picture, prefs: Preferences) -> Sentences:
    there = words(f"short.{where}")
    if not lies:
        return (Sentence(text=sentence("short.none", where=there), group=0),)
    first = Sentence(text=sentence("short.count", where=there, count=cardinal(len(lies))), group=0)
    return (first, *bowl_list(lies, picture, prefs))


def for_player(event: Event, before: Picture, after: Picture, prefs: Preferences) -> Sentences:
    """One sentence, unasked: where the bowl lies, how it missed, whether the shot changed."""
    if not prefs.unasked:
        return ()
    shot = _shot_words(before, after, prefs)
    if isinstance(event.note, JackMoved):
        note = event.note.turned() if after.head.game.stood == "head" else event.note
        move = called_words(note, after.head.game.bowl_mm / 1000) or words("player.moved")
        return (Sentence(text=sentence("player.jack", move=move, shot=shot)),)
    lie = find(after, event.bowl) if event.bowl else None
    if lie is None or not isinstance(event.note, AboutABowl):
        return ()
    name = bowl_name(lie.side, lie.number, prefs)
    place = _lost(event.note) if lie.state == "dead" else place_words(lie, after, prefs, ASKED)
    return (Sentence(text=sentence("player.bowl", name=name, place=place, shot=shot), about=event.bowl),)


def _lost(note: AboutABowl) -> str:
    """That a bowl is dead, with what was called of it: that is how it missed."""
    called = [words(f"remark.{remark}") for remark in note.remarks if remark in _OFF_THE_GREEN]
    return words("called.joint").join((*called, words("player.dead")))


def _shot_words(before: Picture, after: Picture, prefs: Preferences) -> str:
    """Whether the shot changed, in a few words."""
    was, now = before.holding, after.holding
    if now is None or now.side is None:
        return words("player.no shot")
    if not now.sure:
        return words("player.too close")
    changed = was is None or (was.side, was.shots, was.sure) != (now.side, now.shots, now.sure)
    return words("player.now" if changed else "player.still", holds=shots_words(now, prefs))


def _is(depth: Literal["short", "past"], lie: Lie) -> bool:
    """Short of the jack, or past it; where the head won't say, the hours on that side of it count."""
    if lie.state != "live" or lie.hour_exact is None:
        return False
    return lie.depth == depth or (lie.depth is None and to_whole(lie.hour_exact) in _HOURS[depth])


def _sides(lie: Lie) -> tuple[Hand, ...]:
    """The side a bowl lies on; both where the head won't say."""
    return (lie.left_right,) if lie.left_right else ("left", "right")
