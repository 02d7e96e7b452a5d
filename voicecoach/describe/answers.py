"""Answers to questions about the head: one row for each topic."""

from collections.abc import Callable
from dataclasses import dataclass

from voicecoach.describe import asked, of_the_game
from voicecoach.describe.bowls import (
    ASKED,
    Manner,
    bowl_sentence,
    by_gap,
    find,
    nearest,
    one_bowl,
    side_name,
)
from voicecoach.describe.changes import changed
from voicecoach.describe.counts import count
from voicecoach.describe.frames import cautions, turned
from voicecoach.describe.jack import jack_place
from voicecoach.describe.lists import bowl_list, read_back, round_the_clock
from voicecoach.describe.sums import sum_up
from voicecoach.describe.turn import behind, in_the_way, my_turn
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Lie, Picture
from voicecoach.phrasebook.numbers import ordinal
from voicecoach.phrasebook.wording import sentence
from voicecoach.understand.values import BowlName, Question, Side, Topic
from voicecoach.value import assert_never

_Writer = Callable[[Question, Picture, Preferences, "Picture | None"], Sentences]


@dataclass(frozen=True)
class TopicRow:
    """All that is particular to one topic."""

    write: _Writer
    """Its answer."""
    is_list: bool = False
    """It can be interrupted, gone on with, and taken a group at a time.

    Of any other answer only the first sentence is said at once: the fact that was asked for.
    """
    in_one_go: bool = False
    """A list that is never taken a group at a time."""
    is_remembered: bool = False
    """The question what changed is answered against the head as it was read here."""
    needs_the_jack: bool = False
    """Until a dead jack is placed again there is nothing to tell but that it is dead."""


def answer(question: Question, picture: Picture, prefs: Preferences, since: Picture | None) -> Sentences:
    """What is said to a question; `since` is the head as this listener last heard it."""
    topic: Topic = question.ask
    if topic == "head" and prefs.form != "head":
        topic = prefs.form
    row = topic_row(topic)
    if row.needs_the_jack and picture.head.jack.state == "dead":
        return (sum_up(picture, prefs),)
    return row.write(question, picture, prefs, since)


def topic_row(topic: Topic) -> TopicRow:  # noqa: C901, PLR0911, PLR0912 - one line for each topic
    """The row of a topic."""
    match topic:
        case "head":
            return TopicRow(_head, is_list=True, is_remembered=True, needs_the_jack=True)
        case "ours":
            return TopicRow(_ours, is_list=True, needs_the_jack=True)
        case "theirs":
            return TopicRow(_theirs, is_list=True, needs_the_jack=True)
        case "nearest four":
            return TopicRow(_nearest_four, is_list=True, needs_the_jack=True)
        case "changed":
            return TopicRow(_changed, is_list=True, is_remembered=True)
        case "holding":
            return TopicRow(_holding, needs_the_jack=True)
        case "count":
            return TopicRow(_count)
        case "counts":
            return TopicRow(_counts, is_list=True)
        case "nearest":
            return TopicRow(_nearest, needs_the_jack=True)
        case "bowl":
            return TopicRow(_bowl)
        case "last":
            return TopicRow(_last)
        case "short":
            return TopicRow(_short, is_list=True, needs_the_jack=True)
        case "behind":
            return TopicRow(_behind, is_list=True, needs_the_jack=True)
        case "round the clock":
            return TopicRow(_clock, is_list=True, is_remembered=True, needs_the_jack=True)
        case "ditch":
            return TopicRow(_ditch, is_list=True)
        case "score":
            return TopicRow(of_the_game.score)
        case "my turn":
            return TopicRow(_my_turn, is_list=True, in_one_go=True)
        case "jack":
            return TopicRow(_jack)
        case "next up":
            return TopicRow(of_the_game.next_up)
        case "bowls left":
            return TopicRow(of_the_game.left)
        case "end":
            return TopicRow(of_the_game.end)
        case "game":
            return TopicRow(of_the_game.game, is_list=True)
        case "cautions":
            return TopicRow(_cautions, is_list=True)
        case "picture":
            return TopicRow(_nothing, is_list=True)
        case "again" | "go on" | "next" | "back" | "remarks":
            return TopicRow(_nothing, is_list=True)
        case "time" | "battery":
            return TopicRow(_nothing)  # the session knows; this is where there is nothing to tell
        case "second":
            return TopicRow(asked.second, needs_the_jack=True)
        case "third":
            return TopicRow(asked.third, needs_the_jack=True)
        case "margin":
            return TopicRow(asked.margin, needs_the_jack=True)
        case "measure":
            return TopicRow(asked.margin, needs_the_jack=True)
        case "nearest few":
            return TopicRow(asked.nearest_few, is_list=True, needs_the_jack=True)
        case "touchers":
            return TopicRow(asked.touchers, is_list=True)
        case "toucher":
            return TopicRow(asked.toucher)
        case "at hour":
            return TopicRow(asked.at_hour, is_list=True, needs_the_jack=True)
        case "level":
            return TopicRow(asked.level, is_list=True, needs_the_jack=True)
        case "side":
            return TopicRow(asked.side, is_list=True, needs_the_jack=True)
        case "open":
            return TopicRow(asked.is_open, is_list=True, needs_the_jack=True)
        case "apart":
            return TopicRow(asked.apart)
        case "jack moved":
            return TopicRow(asked.jack_moved)
        case "ditch distance":
            return TopicRow(asked.ditch_distance)
        case "ends left":
            return TopicRow(asked.ends_left)
        case "leads next":
            return TopicRow(asked.leads_next)
        case "won":
            return TopicRow(asked.won)
        case "mat":
            return TopicRow(asked.mat)
        case "help":
            return TopicRow(asked.help_now, is_list=True)
        case _:
            return assert_never(topic)


def _head(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return read_back(picture, prefs)


def _ours(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return _side(picture, prefs, "ours")


def _theirs(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return _side(picture, prefs, "theirs")


def _side(picture: Picture, prefs: Preferences, side: Side) -> Sentences:
    lies = by_gap(picture, side)
    if not lies:
        return _one("answer.none of side", side=side_name(side, prefs, "ours"))
    return (*turned(prefs), *bowl_list(lies, picture, prefs))


def _nearest_four(
    _question: Question, picture: Picture, prefs: Preferences, _since: Picture | None
) -> Sentences:
    lies = by_gap(picture)[:4]
    return (*turned(prefs), sum_up(picture, prefs), *bowl_list(lies, picture, prefs))


def _changed(_question: Question, picture: Picture, prefs: Preferences, since: Picture | None) -> Sentences:
    return changed(picture, prefs, since)


def _holding(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return (sum_up(picture, prefs), *_nearest_of_each(picture, prefs))


def _nearest(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    if question.side:
        lie = nearest(picture, question.side)
        side = side_name(question.side, prefs, "ours")
        return (one_bowl(lie, picture, prefs),) if lie else _one("answer.none of side", side=side)
    return _nearest_of_each(picture, prefs) or (sum_up(picture, prefs),)


def _nearest_of_each(picture: Picture, prefs: Preferences) -> Sentences:
    """The nearest bowl of each side, the nearer first."""
    found = [lie for lie in (nearest(picture, "ours"), nearest(picture, "theirs")) if lie is not None]
    found.sort(key=lambda lie: lie.gap_m or 0.0)
    return tuple(one_bowl(lie, picture, prefs) for lie in found)


def _bowl(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """One bowl by name; without a side, both sides' bowl of that number."""
    sides: tuple[Side, ...] = (question.side,) if question.side else ("ours", "theirs")
    if question.number is None:
        return _last_of(picture, prefs, question.side)
    found = [find(picture, BowlName(side=side, number=question.number)) for side in sides]
    lies = [lie for lie in found if lie is not None]
    if lies:
        return tuple(_one_bowl(lie, picture, prefs) for lie in lies)
    if question.side is None:
        return _one("answer.not called", name=ordinal(question.number))
    name = f"{side_name(question.side, prefs, 'our')} {ordinal(question.number)}"
    return _one("answer.not called", name=name)


def _last(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return _last_of(picture, prefs, question.side)


def _last_of(picture: Picture, prefs: Preferences, side: Side | None) -> Sentences:
    lies = [lie for lie in picture.lies if side in (None, lie.side)]
    return (_one_bowl(lies[-1], picture, prefs),) if lies else _one("sum.empty")


def _one_bowl(lie: Lie, picture: Picture, prefs: Preferences) -> Sentence:
    """One bowl asked for: the side always said, a toucher and a tape's figure named."""
    manner: Manner = "measured" if lie.measured else "toucher" if lie.toucher else "plain"
    return one_bowl(lie, picture, prefs.model_copy(update={"terse": False}), manner)


def _short(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return in_the_way(picture, prefs, question.on)


def _clock(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return (*turned(prefs), sum_up(picture, prefs), *round_the_clock(picture, prefs))


def _count(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return (sum_up(picture, prefs), *count(picture, prefs))


def _counts(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return count(picture, prefs)


def _ditch(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """What lies in the ditch, and the dead bowls."""
    inside = [lie for lie in picture.lies if lie.state == "ditch"]
    dead = [lie for lie in picture.lies if lie.state == "dead"]
    jack = _one("jack.ditch") if picture.head.jack.state == "ditch" else ()
    found = (*jack, *(bowl_sentence(lie, picture, prefs, ASKED) for lie in (*inside, *dead)))
    return found or _one("answer.ditch empty")


def _my_turn(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return my_turn(picture, prefs)


def _behind(question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return behind(picture, prefs, question.on, question.side)


def _jack(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    return (jack_place(picture, prefs),)


def _cautions(
    _question: Question, _picture: Picture, _prefs: Preferences, _since: Picture | None
) -> Sentences:
    return cautions(short=False)


def _nothing(question: Question, _picture: Picture, _prefs: Preferences, _since: Picture | None) -> Sentences:
    return _one(f"answer.nothing.{question.ask}")


def _one(key: str, **slots: str) -> Sentences:
    return (Sentence(text=sentence(key, **slots)),)
