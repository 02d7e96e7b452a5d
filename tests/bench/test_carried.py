"""Counting which of the said words were heard."""

from tests.bench.hearing.carried import SAID_OFTEN, carried
from tests.bench.hearing.outcomes import Verdict
from tests.bench.hearing.table import Result
from tests.bench.hearing.trials import Trial
from voicecoach import phrasebook
from voicecoach.hear.values import Heard


def trial(said: str, heard: str, *, chatter: bool = False) -> Result:
    meaning: dict[str, object] | None = None if chatter else {"kind": "bowl_rested"}
    return Result(
        trial=Trial(
            clip="any/1",
            voice="any",
            natural=True,
            form="plain",
            text=said,
            condition="outdoors 10 dB",
            meaning=meaning,
            heard=(Heard(text=heard),),
            late_s=(0.4,),
            sound_s=3.0,
            work_s=0.3,
        ),
        verdict=Verdict(outcome="dropped"),
    )


def test_a_word_counts_where_it_stands_in_the_order_it_was_said() -> None:
    results = [trial("their fifth, five metres.", "your fifth nine meters")] * SAID_OFTEN
    results += [trial("their fifth.", "fifth their")] * SAID_OFTEN
    results += [trial("their tea.", "their tea", chatter=True)] * SAID_OFTEN
    assert carried(results, phrasebook.load().spelling.canonical) == [
        "words that were said, and how many of them were heard",
        "  metre: 20 of 20, 100 %",
        "  their: 20 of 40, 50 %",
        "  fifth: 20 of 40, 50 %",
        "  five: 0 of 20, 0 %",
    ]


def test_a_word_said_seldom_is_left_out() -> None:
    assert len(carried([trial("theirs.", "theirs")] * (SAID_OFTEN - 1), str)) == 1
