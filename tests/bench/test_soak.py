"""What was heard in a soak is decided anew from its file as it was decided when it was heard."""

from tests.bench.soak import decided_anew, report
from tests.bench.soak_sittings import Minute, RealNote
from voicecoach.hear.values import Heard


def heard(text: str, ended_s: float) -> Heard:
    return Heard(text=text, started_s=ended_s - 3, ended_s=ended_s)


NOTE = "our second bowl eighty centimetres two o'clock"
REAL = RealNote(call_word=False, started_s=270.0, ended_s=273.0)
MINUTES = [
    Minute(
        number=number, scene="talk, calm", real=None, heard=(heard("lovely weather today", number * 60 + 9),)
    )
    for number in range(4)
]


def kept(minute: Minute) -> Minute:
    return Minute.model_validate_json(minute.model_dump_json())


def test_a_real_note_is_counted_as_taken_and_not_as_filed_for_nothing() -> None:
    last = Minute(number=4, scene="talk, calm", real=REAL, heard=(heard(NOTE, 273.1),))
    came = decided_anew([kept(one) for one in [*MINUTES, last]])
    assert (came.said, came.taken, came.twice) == (1, 1, 0)
    assert came.open.total("noted") == came.called.total("noted") == 0
    assert came.open.total("dropped") == 4


def test_a_note_where_none_was_said_is_told_with_its_words() -> None:
    last = Minute(number=4, scene="wind", real=None, heard=(heard(NOTE, 273.1),))
    lines = list(report(decided_anew([kept(one) for one in [*MINUTES, last]])))
    assert (
        "without the call word: 1 false filings, 12.00 an hour; 0 questions back, 0 refusals, 0 answers"
        in lines
    )
    assert f"  filed in wind: {NOTE} -> bowl_rested" in lines
    assert any(line.startswith("with the call word: 0 false filings") for line in lines)
