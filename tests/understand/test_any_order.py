"""A note's pieces mean the same in any order, whatever small words fall between them."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.understand.reads import read
from voicecoach.understand.values import BowlRested, Note, Ranked

EXAMPLES = settings(deadline=None, max_examples=300, derandomize=True)
WHO: dict[str, dict[str, Any]] = {
    "": {},
    "ours": {"side": "ours"},
    "theirs": {"side": "theirs"},
    "our second": {"side": "ours", "number": 2},
    "their third bowl": {"side": "theirs", "number": 3},
    "the first of theirs": {"side": "theirs", "number": 1},
}
GAPS: dict[str, dict[str, Any]] = {
    "a metre": {"gap_m": 1.0, "unit": "m"},
    "half a metre": {"gap_m": 0.5, "unit": "m"},
    "a metre and a half": {"gap_m": 1.5, "unit": "m"},
    "eighty centimetres": {"gap_m": 0.8, "unit": "cm"},
    "two feet six": {"gap_m": 0.762, "unit": "ft"},
    "a yard": {"gap_m": 0.9144, "unit": "yd"},
    "eighteen inches": {"gap_m": 0.4572, "unit": "in"},
}
WHERE: dict[str, dict[str, Any]] = {
    "two o'clock": {"hour": 2.0},
    "at eleven o'clock": {"hour": 11.0},
    "half past four": {"hour": 4.5, "hour_width": 0.5},
    "short": {"remarks": ("short",)},
    "behind the jack": {"remarks": ("past",)},
    "on the left": {"remarks": ("left",)},
}
STATES: dict[str, tuple[str, ...]] = {"": (), "a toucher": ("toucher",), "toucher": ("toucher",)}
FILLERS = (
    "",
    "",
    "um",
    "er",
    "well",
    "oh",
    "I think",
    "I'd say",
    "you know",
    "okay",
    "just",
    "there",
    "so",
    "let's see",
    "right then",
)
ITSELF = ("", "it's", "that's", "came to rest", "finished", "lies")
OF_A_BOWL = ("is", "was", "has come to rest", "has finished")
"""Said of what went before: at the beginning they ask."""
STRAYS = ("not", "never", "seven", "twenty six")


@st.composite
def spoken(draw: st.DrawFn) -> tuple[list[str], BowlRested]:
    """The pieces of a note, a verb before one that says where, in any order; and the note that they mean."""
    who, gap, where, state = (draw(st.sampled_from(sorted(each))) for each in (WHO, GAPS, WHERE, STATES))
    said = WHERE[where]
    remarks = (*said.get("remarks", ()), *STATES[state])
    note = BowlRested(**WHO[who], **GAPS[gap], **{**said, "remarks": remarks})
    pieces = draw(st.permutations([piece for piece in (who, gap, where, state) if piece]))
    at = draw(st.sampled_from([at for at, piece in enumerate(pieces) if piece in (gap, where)]))
    verb = draw(st.sampled_from(ITSELF + OF_A_BOWL if at and who else ITSELF))
    pieces[at] = f"{verb} {pieces[at]}".strip()
    return pieces, note


@st.composite
def with_fillers(draw: st.DrawFn) -> tuple[str, BowlRested]:
    """The same as a line, small words anywhere."""
    pieces, note = draw(spoken())
    words = [draw(st.sampled_from(FILLERS))]
    for piece in pieces:
        words += [piece, draw(st.sampled_from(FILLERS))]
    return " ".join(word for word in words if word), note


def meaning(line: str) -> Note | None:
    """The note that a typed line files at once; None where it files none."""
    found = read(line)
    return found.notes[0] if isinstance(found, Ranked) and found.doubt is None else None


def same(note: Note | None, wanted: BowlRested) -> bool:
    """The same bowl at the same place; words for where have no order."""
    if not isinstance(note, BowlRested):
        return False
    return set(note.remarks) == set(wanted.remarks) and note.model_copy(
        update={"remarks": ()}
    ) == wanted.model_copy(update={"remarks": ()})


@EXAMPLES
@given(with_fillers())
def test_pieces_in_any_order_with_small_words_between_mean_the_same(said: tuple[str, BowlRested]) -> None:
    line, note = said
    assert same(meaning(line), note), (line, meaning(line))


@EXAMPLES
@given(spoken(), st.sampled_from(STRAYS), st.data())
def test_a_number_or_a_not_left_over_costs_everything(
    said: tuple[list[str], BowlRested], stray: str, data: st.DataObject
) -> None:
    pieces, note = said
    at = data.draw(st.integers(0, len(pieces)))
    line = " ".join([*pieces[:at], stray, *pieces[at:]])
    assert not same(meaning(line), note), line


@pytest.mark.parametrize(
    "line",
    [
        "well, um, it's a metre, I think, at two o'clock, so, our second",
        "two o'clock, that's half a metre, theirs",
        "a toucher, our second, has come to rest a foot behind the jack",
    ],
)
def test_such_lines_are_notes(line: str) -> None:
    assert isinstance(meaning(line), BowlRested)
