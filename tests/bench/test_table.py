"""What was in doubt is counted by slot."""

from tests.bench.test_carried import trial
from voicecoach.bench.hearing.outcomes import After, Outcome, Verdict
from voicecoach.bench.hearing.table import Result, doubts
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
