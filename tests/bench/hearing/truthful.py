"""What a caller who tells the truth answers to a question."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tests.bench.hearing.lines import hour_words
from tests.bench.hearing.truth import alike, means
from voicecoach.understand.saying import ORDINALS
from voicecoach.understand.values import Note, OpenQuestion

Meaning = Mapping[str, Any]
"""The fields of what was meant."""

_NAME = ("side", "number")
_WHOLE = 3
"""Whose, how far and which hour."""


def meant_after(meaning: Meaning | None, question: OpenQuestion | None) -> Meaning | None:
    """What was meant, once the question has been answered: a bowl of no side is then one of ours."""
    if question is None or question.slot != "side" or meaning is None:
        return meaning
    return {"side": "ours", **meaning}


def truthful(meaning: Meaning | None, question: OpenQuestion) -> str | None:
    """The words of the answer; None where a caller would sooner say the note again.

    One of those offered, where it is what was meant; else what is asked for, said; after a note that was read
    back wrongly, what is wrong in it: "no, three o'clock".
    """
    meant = meant_after(meaning, question)
    if meant is None:
        return None
    for note, words in zip(question.choices, question.answers, strict=False):
        if means(note, meant):
            return words
    if question.slot in ("side", "number"):
        return _name(meant) if "side" in meant else None
    if question.slot == "yes or no":
        return "yes" if means(question.pending, meant) else _put_right(question.pending, meant)
    if question.slot == "gap":
        return _where(meant) if _nowhere(question.pending) else meant.get("gap_said")
    return hour_words(meant["hour"]) if question.slot == "hour" and "hour" in meant else None


def plainly(meaning: Meaning | None) -> str | None:
    """The note in its plainest form, for "please say it again, plainly"; None where it has no such form."""
    if meaning is None or meaning["kind"] != "bowl_rested" or meaning.get("remarks"):
        return None
    words = [words for _, words in _parts(meaning)]
    if len(words) < _WHOLE:
        return None
    bowl = " bowl" if "number" in meaning else ""
    return ", ".join([words[0] + bowl, *words[1:]])


def _put_right(note: Note, meant: Meaning) -> str | None:
    """What is wrong in the note, after "no"; None where that is all of it, or can't be put right so."""
    parts = _parts(meant)
    wrong = [(fields, words) for fields, words in parts if not _agrees(note, fields)]
    put_right = note.model_copy(update={name: value for fields, _ in wrong for name, value in fields.items()})
    if len(wrong) == len(parts) or not means(put_right, meant):
        return None
    return ", ".join(["no", *(words for _, words in wrong)])


def _parts(meant: Meaning) -> list[tuple[dict[str, Any], str]]:
    """The fields of whose, how far and which hour, as far as they were said, and the words for each."""
    parts: list[tuple[dict[str, Any], str]] = []
    if "side" in meant:
        parts.append(({name: meant.get(name) for name in _NAME}, _name(meant)))
    if "gap_m" in meant:
        parts.append(({"gap_m": meant["gap_m"]}, str(meant["gap_said"])))
    if "hour" in meant:
        parts.append(({"hour": meant["hour"]}, hour_words(meant["hour"])))
    return parts


def _agrees(note: Note, fields: Meaning) -> bool:
    return all(alike(getattr(note, name, None), value) for name, value in fields.items())


def _name(meant: Meaning) -> str:
    """A bowl's name, as an answer to whose or which it is."""
    ours = meant["side"] == "ours"
    if "number" not in meant:
        return "ours" if ours else "theirs"
    return f"{'our' if ours else 'their'} {ORDINALS[meant['number'] - 1]}"


def _nowhere(note: Note) -> bool:
    """True where nothing is known yet of where it lies: both are said then."""
    return getattr(note, "hour", None) is None and not getattr(note, "remarks", ())


def _where(meant: Meaning) -> str | None:
    words = [words for fields, words in _parts(meant) if "side" not in fields]
    return " ".join(words) or None
