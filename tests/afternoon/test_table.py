"""The afternoon's table counts what was lost, doubled and filed for nothing, and tells latencies apart."""

from tests.afternoon.script import Alone, Kind, Line, afternoon
from tests.afternoon.stage import Said, Stretch
from tests.afternoon.table import Results, table
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.session.values import Entry

NOTE = "our first, a metre, two o'clock"


def taken(*texts: str) -> tuple[Entry, ...]:
    conversation = Conversation()
    return tuple(conversation.hear(Heard(text=text, ended_s=9.0)) for text in texts)


def said(
    kind: Kind,
    say: str,
    entries: tuple[Entry, ...],
    at_s: float,
    late_s: float | None = None,
    *,
    busy: bool = False,
) -> Said:
    return Said(Line(kind, say), at_s, 1_000_000.0 + at_s, late_s, entries, busy=busy)


def rows(*things: Said, alone: tuple[Stretch, ...] = ()) -> str:
    meant = [taken(one.line.say)[0].note for one in things]
    return "\n".join(table(Results(list(things), meant, list(alone), lasted_s=1800), 600))


def test_a_note_is_counted_as_noted_otherwise_noted_lost_or_doubled() -> None:
    told = rows(
        said("note", NOTE, taken(NOTE), 1),
        said("note", NOTE, taken("our first, a metre, three o'clock"), 2),
        said("note", NOTE, (), 3),
        said("note", NOTE, taken(NOTE, "their first, a metre, four o'clock"), 4),
        said("note", NOTE, taken("lovely weather for it today"), 5),
    )
    assert "in the quiet: 5; 1 noted, 2 noted otherwise, 0 asked" in told
    assert "1 taken for talk, 0 noted late, 1 lost without a trace, 1 doubled" in told


def test_talk_that_was_filed_is_told() -> None:
    told = rows(said("chatter", "it's a metre to the bus", taken(NOTE), 1), said("chatter", "tea", (), 2))
    assert "2 things said; 1 filed, 0 spoken to" in told


def test_latencies_of_the_first_part_the_last_and_the_busy_one_are_told_apart() -> None:
    told = rows(
        said("note", NOTE, taken(NOTE), 10, 0.5),
        said("note", NOTE, taken(NOTE), 900, 2.5, busy=True),
        said("note", NOTE, taken(NOTE), 1700, 0.75),
    )
    assert "in the first 10 minutes: median 0.50 s" in told
    assert "in the last 10 minutes: median 0.75 s" in told
    assert "with every core busy: median 2.50 s" in told


def test_noise_that_was_spoken_of_in_its_first_minute_is_told() -> None:
    loud, calm = Stretch(Alone("wind", 65), 12.0, ()), Stretch(Alone("mower", 65), 63.0, ())
    told = rows(said("note", NOTE, taken(NOTE), 1), alone=(loud, calm))
    assert "wind alone, 65 s: SPOKEN OF after 12 s" in told
    assert "mower alone, 65 s: not spoken of in its first minute" in told


def test_the_same_seed_gives_the_same_afternoon_whose_notes_are_notes_when_typed() -> None:
    conversation, other = Conversation(), afternoon(8)
    # Typed talk that holds a word of the game is told that it was not understood.
    outcomes = {"note": {"noted"}, "question": {"answered"}, "chatter": {"dropped", "refused"}}
    for _, item in zip(range(60), afternoon(8), strict=False):
        assert item == next(other)
        if isinstance(item, Line):
            assert conversation.hear(Heard(text=item.say)).outcome in outcomes[item.kind], item.say
