"""Answers to what a listener asks, and where in a read-back the listener is."""

from dataclasses import replace

from voicecoach import describe
from voicecoach.describe.values import Battery, Sentences
from voicecoach.head import picture
from voicecoach.session import lines
from voicecoach.session.talk import ReadBack, Talk
from voicecoach.understand.values import Question

Answer = tuple[Talk, Sentences]
WITH_THE_FACT = -1
"""The group of what goes with an answer, apart from the groups of a list."""


def answer(talk: Talk, question: Question, at: str, battery: Battery | None) -> Answer:
    """The talk after the question, and what to say.

    Args:
        talk: The session so far.
        question: What was asked.
        at: The time of day, ISO 8601.
        battery: The device's battery; None where it has none.
    """
    if question.ask in ("time", "battery"):
        return talk, describe.time_of_day(at) if question.ask == "time" else describe.battery(battery)
    if question.ask == "again":
        return talk, talk.said or _nothing(question, talk)
    if question.ask in ("go on", "next", "back"):
        return _moved(talk, question)
    if question.ask == "remarks" and talk.remarks:
        return talk, describe.remarks(talk.remarks, talk.manner.prefs)
    now, prefs = picture(talk.play.head), talk.manner.prefs
    sentences = describe.answer(question, now, prefs, talk.listened)
    if question.ask == "my turn":
        sentences = (*sentences, *lines.after_my_turn(talk))
    row = describe.topic_row(question.ask)
    if not row.is_list:
        return _fact_first(talk, sentences)
    if row.is_remembered:
        talk = replace(talk, listened=now)
    in_groups = (prefs.groups and not row.in_one_go) or question.ask == "help"
    return _spoken(replace(talk, reading=ReadBack(sentences)), () if in_groups else sentences)


def _fact_first(talk: Talk, sentences: Sentences) -> Answer:
    """Speak what was asked for; "more" tells what goes with it, and then what is left of a list."""
    fact, *more = sentences
    if more:
        left = talk.reading.sentences[talk.reading.spoken :]
        with_it = (each.model_copy(update={"group": WITH_THE_FACT}) for each in more)
        talk = replace(talk, reading=ReadBack((fact, *with_it, *left), 1))
    return talk, (fact,)


def _spoken(talk: Talk, sentences: Sentences) -> Answer:
    """Speak `sentences`, or the group that comes next when the list is taken in groups."""
    whole = talk.reading.sentences
    if sentences:
        return replace(talk, reading=ReadBack(whole, len(whole))), sentences
    start = talk.reading.spoken
    group = tuple(each for each in whole[start:] if each.group == whole[start].group)
    return replace(talk, reading=ReadBack(whole, start + len(group))), group


def _moved(talk: Talk, question: Question) -> Answer:
    whole, spoken = talk.reading.sentences, talk.reading.spoken
    if question.ask == "back" and spoken:
        spoken = _group_before(whole, spoken)
        return _spoken(replace(talk, reading=ReadBack(whole, spoken)), ())
    if spoken >= len(whole):
        return talk, _nothing(question, talk)
    return _spoken(talk, whole[spoken:] if question.ask == "go on" else ())


def _group_before(whole: Sentences, spoken: int) -> int:
    """Where the group before the one that ended at `spoken` begins (the first group again at the start)."""
    groups = [sentence.group for sentence in whole]
    last = groups[max(spoken - 1, 0)]
    earlier = [group for group in groups[:spoken] if group != last]
    return groups.index(earlier[-1]) if earlier else 0


def _nothing(question: Question, talk: Talk) -> Sentences:
    """There is nothing to repeat, to go on with, or to go back to."""
    return describe.answer(question, picture(talk.play.head), talk.manner.prefs, None)
