"""What was in doubt is counted by slot, and what is taken once a caller is known."""

from tests.bench.hearing.outcomes import After, Outcome, Verdict, judge
from tests.bench.hearing.table import Result, doubts, once_known
from tests.bench.test_carried import trial
from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, OpenQuestion, Slot


def result(outcome: Outcome, slot: Slot | None = None, *, right: bool, after: After | None = None) -> Result:
    question = OpenQuestion(ask="Which?", slot=slot, pending=BowlRested()) if slot else None
    verdict = Verdict(outcome=outcome, question=question, likeliest_right=right)
    return trial("any", "any").model_copy(update={"verdict": verdict, "after": after})


def test_notes_that_were_not_taken_are_counted_by_what_was_in_doubt() -> None:
    results = [
        result("right", right=True),
        result("wrong", right=False),
        result("asked", "hour", right=True, after="right"),
        result("asked", "hour", right=False, after="right"),
        result("asked", "hour", right=False, after="wrong"),
        result("unclear", right=False, after="right"),
        result("dropped", right=False),
        trial("tea", "tea", chatter=True),
    ]
    assert doubts(results, lambda one: one.trial.condition)[1:] == [
        "  outdoors 10 dB, hour: 3, 1, 2",
        "  outdoors 10 dB, unclear: 1, 0, 1",
        "  outdoors 10 dB, dropped: 1, 0, 0",
    ]


def test_what_is_taken_once_the_caller_is_known_is_counted_beside() -> None:
    results = [
        result("asked", "side", right=True, after="right").model_copy(
            update={"caller_known": Verdict(outcome=outcome)}
        )
        for outcome in ("right", "right", "asked", "wrong")
    ]
    assert once_known([*results, trial("tea", "tea", chatter=True)], lambda one: one.trial.condition)[1:] == [
        "  outdoors 10 dB: 4 notes, 50.0 %, 25.0 %"
    ]


def test_your_is_asked_about_until_the_caller_is_known() -> None:
    line = "your second a metre two o'clock"
    heard = Heard(text=line, readings=(Hypothesis(decode="sentences", text=line, weight=1.0),))
    meaning = {"kind": "bowl_rested", "side": "theirs", "number": 2, "gap_m": 1.0, "hour": 2.0}
    said = trial(line, line).trial.model_copy(update={"heard": (heard,), "meaning": meaning})
    understanding = Understanding(phrasebook.load())
    assert judge(understanding, said).outcome == "asked"
    assert judge(understanding, said, "theirs").outcome == "right"
    assert judge(understanding, said, "ours").outcome == "wrong"
