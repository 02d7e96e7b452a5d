"""Everything that can be heard, with an example of each: the list in guide/hearing.md is made from this."""

from collections.abc import Iterator
from typing import get_args

from tests.describe.example import example_head, without
from voicecoach.describe.answers import answer
from voicecoach.describe.asking import ask, lapse, refuse
from voicecoach.describe.confirming import confirm
from voicecoach.describe.frames import cautions, frame, hold_to_talk
from voicecoach.describe.line_answers import (
    angle_answer,
    jack_answer,
    miss_answer,
    speed_answer,
    turning_answer,
    weight_answer,
    without_answer,
)
from voicecoach.describe.lists import read_back
from voicecoach.describe.open_hands import hands_answer
from voicecoach.describe.setting import confirm_set
from voicecoach.describe.sums import sum_up
from voicecoach.describe.turn import for_player
from voicecoach.describe.values import Preferences, Sentences, Walking
from voicecoach.describe.walking import walk
from voicecoach.head.values import (
    AimAdvice,
    Bowling,
    EndScore,
    Event,
    Game,
    HandLook,
    Hands,
    Line,
    Miss,
    Picture,
    Refused,
    Score,
    Tally,
    Turning,
    Weight,
)
from voicecoach.understand.notes.line_settings import LineTold, Timed
from voicecoach.understand.notes.settings import Setting
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
    OpenQuestion,
    Question,
    TakenBack,
    Topic,
    Walk,
    WhatIf,
)

Form = tuple[str, str]
_PREFS = Preferences()
_OURS_3 = BowlName(side="ours", number=3)
_CLEAR = HandLook(hand="backhand", out="left", angle_deg=10.0, state="clear", clearance_m=1.2, sure=0.97)
_BLOCKED = HandLook(
    hand="forehand",
    out="right",
    angle_deg=10.0,
    state="blocked",
    by=BowlName(side="theirs", number=1),
    near=BowlName(side="theirs", number=1),
    short_m=2.1,
    aside="on",
    clearance_m=-0.1,
    sure=0.7,
)


def forms() -> tuple[Form, ...]:
    """The name of every form that can be heard, and what it sounds like for one invented head."""
    named = (*_confirmations(), *_asides(), *_read_backs(), *_answers(), *_lines(), *_walks())
    return tuple((name, " ".join(sentence.text for sentence in said)) for name, said in named)


def _confirmations() -> Iterator[tuple[str, Sentences]]:
    now = example_head()
    before, moved = without(now, 1), example_head(0.5)
    rested = BowlRested(gap_m=0.3, unit="cm", hour=3.5, hour_width=0.5)
    yield "a bowl at rest", _confirmed(rested, before, now, bowl=_OURS_3)
    yield "a bowl moved", _confirmed(BowlMoved(gap_m=0.5, unit="m", hour=9.0), before, now, bowl=_OURS_3)
    yield "a correction", _confirmed(Corrected(hour=3.5, hour_width=0.5), before, now, bowl=_OURS_3)
    yield "a note taken back", _confirmed(TakenBack(), now, before)
    yield "the jack set", _confirmed(JackSet(length_m=26.0), before, before)
    yield "the jack moved", _confirmed(JackMoved(gap_m=0.5, unit="m", remarks=("past",)), now, moved)
    yield "the jack in the ditch", _confirmed(JackMoved(remarks=("in the ditch",)), now, now)
    yield "the game", _confirmed(GameSet(format="pairs", lead="theirs", mat_m=2.0), now, now)
    brought = Score(ours=6, theirs=2, ends=3, by_end=(EndScore(end=3, side="ours", shots=2),))
    scored = now.model_copy(update={"head": now.head.model_copy(update={"score": brought})})
    yield "an end finished", _confirmed(EndFinished(side="ours", shots=2), now, scored)
    yield "an end begun", _confirmed(EndStarted(), now, now)
    yield "a tape's figure", _confirmed(Measured(gap_m=0.314, unit="cm"), now, now, bowl=_OURS_3)
    advice = AimAdvice(shift_m=0.19, towards="left", at_m=5.0, spread_m=0.05)
    yield "the aim", confirm(Event(note=Aim(), aim=advice), now, now, _PREFS)


def _asides() -> Iterator[tuple[str, Sentences]]:
    now = example_head()
    note = BowlRested(gap_m=0.3, unit="cm", hour=3.5, hour_width=0.5)
    question = OpenQuestion(slot="hour", answers=("two", "three o'clock"), pending=note, ask="")
    yield "a question back", ask(question)
    yield "a question that nobody answered", lapse(question)
    yield "a refusal", refuse(Refused(why="nothing to take back"))
    event = Event(note=note, bowl=_OURS_3)
    yield "for the player, unasked, after a bowl", for_player(event, without(now, 1), now, _PREFS)
    jack = Event(note=JackMoved(gap_m=0.5, unit="m", remarks=("past",)))
    yield "for the player, unasked, after the jack moved", for_player(jack, now, example_head(0.5), _PREFS)
    yield "the frame, said once", (frame(),)
    yield "the talk key, said once", (hold_to_talk(),)
    yield "the cautions", cautions(short=False)
    yield "the cautions, shortened", cautions(short=True)


def _read_backs() -> Iterator[tuple[str, Sentences]]:
    now = example_head()
    yield "the sum", (sum_up(now, _PREFS),)
    yield "the sum when it is close", (sum_up(example_head(0.5), _PREFS),)
    yield "the head", read_back(now, _PREFS)
    yield "the head after the jack moved", read_back(example_head(0.5), _PREFS)
    ways: dict[str, dict[str, object]] = {
        "tersely": {"terse": True},
        "hour first": {"hour_first": True},
        "in feet and inches": {"units": "feet"},
        "in whole hours": {"hours": "whole"},
        "with your and their": {"sides": "yours"},
        "for a listener who faces the mat": {"facing": "mat"},
    }
    for name, way in ways.items():
        yield f"the head, {name}", read_back(now, _PREFS.model_copy(update=way))


def _answers() -> Iterator[tuple[str, Sentences]]:
    now = example_head()
    for asked in get_args(Topic):
        if asked not in ("head", "cautions"):
            question = Question(
                ask=asked, side="ours" if asked == "bowl" else None, number=3 if asked == "bowl" else None
            )
            yield f"asked: {asked}", answer(question, now, _PREFS, without(now, 2))


def _lines() -> Iterator[tuple[str, Sentences]]:
    now = example_head()
    hands = Hands(target="jack", hands=(_CLEAR, _BLOCKED), roughly=True, right_hander=False)
    yield "the hands", hands_answer(hands, now, _PREFS)
    turning = Turning(
        hand="forehand",
        out="right",
        angle_deg=10.0,
        interval_deg=(9.0, 11.0),
        up_m=17.1,
        aside_m=1.74,
        mark_m=(5.0, 0.88),
        target_m=(27.0, 4.76),
        ditch_m=None,
        by="shown",
        bowls=6,
        roughly=False,
    )
    yield "where the line turns", turning_answer((turning,), _PREFS)
    yield "the line, and what it rests on", angle_answer((turning,))
    weight = Weight(bowl=_OURS_3, longer_m=1.2, faster=0.023)
    yield "the weight", weight_answer(weight, _PREFS)
    yield "the speed", speed_answer(weight, _PREFS)
    miss = Miss(bowl=_OURS_3, right_m=0.6, past_m=-0.2, spread_m=0.3, line=True, weight=False)
    yield "line or weight", miss_answer(miss, _PREFS)
    yield "what if a bowl is taken away", without_answer(_OURS_3, without(now, 1), _PREFS)
    went = WhatIf(jack=True, gap_m=0.5, unit="m", remarks=("past",))
    yield "what if the jack went back", jack_answer(went, example_head(0.5), _PREFS)
    game = Game(bowling=Bowling(timed=Tally(count=2, mean=13.5, squares=0.02), forehand=Line(angle_deg=10.0)))
    yield "a bowl timed", _set(Timed(value=13.4), game)
    yield "the line", _set(LineTold(angle_deg=10.0, hand="forehand"), game)


def _set(note: Setting, game: Game) -> Sentences:
    return confirm_set(Event(note=note, game=game), note, _PREFS)


def _walks() -> Iterator[tuple[str, Sentences]]:
    now = example_head()
    prefs = Preferences(short_cautions=True)
    walking: Walking | None = None
    for step in ("start", "next", "here", "where", "again", "back", "turn", "stop"):
        note = Walk.model_validate({"step": step})
        walking, said = walk(note, walking, now, prefs)
        yield f"the walk: {step}", said
    _, paces = walk(Walk(step="where"), Walking(at=0), now, Preferences(pace_m=0.7))
    yield "the walk: where, in paces", paces


def _confirmed(note: Note, before: Picture, after: Picture, bowl: BowlName | None = None) -> Sentences:
    return confirm(Event(note=note, bowl=bowl), before, after, _PREFS)
