"""Shorthand for reading one line with the shipped phrase book."""

from typing import Any

from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlName, Expected, Note, OpenQuestion, Ranked, Unclear

BOOK = phrasebook.load()
UNDERSTANDING = Understanding(BOOK)


def read(text: str, expected: Expected | None = None) -> Ranked | Unclear:
    return UNDERSTANDING.read(Heard(text=text), expected or Expected())


def note(text: str, expected: Expected | None = None) -> Note:
    """The note that a line makes; the line must be a whole note."""
    meaning = read(text, expected)
    assert isinstance(meaning, Ranked), f"{text}: {meaning.why}"
    assert meaning.doubt is None
    return meaning.notes[0]


def fields(text: str, expected: Expected | None = None) -> dict[str, Any]:
    """The kind of a line's note and the fields that it sets."""
    made = note(text, expected)
    return {"kind": made.kind, **made.model_dump(exclude_defaults=True, exclude={"kind"})}


def unclear(text: str, expected: Expected | None = None) -> Unclear:
    meaning = read(text, expected)
    assert isinstance(meaning, Unclear), f"{text}: {meaning.notes[0]}"
    return meaning


def asked(text: str, expected: Expected | None = None) -> OpenQuestion:
    """The question that a line raises."""
    doubt = unclear(text, expected).doubt
    assert doubt is not None
    return doubt


def is_dropped(text: str, expected: Expected | None = None) -> bool:
    """True for what is dropped where every decode hears it so."""
    spoken = UNDERSTANDING.read(decodes(text, text, text, text), expected or Expected())
    return isinstance(spoken, Unclear) and spoken.why == "chatter"


def is_asked_for_again(text: str, expected: Expected | None = None) -> bool:
    """True for what files and offers nothing where every decode hears it so, and is to be said again."""
    spoken = UNDERSTANDING.read(decodes(text, text, text, text), expected or Expected())
    return isinstance(spoken, Unclear) and spoken.why == "unclear" and spoken.doubt is None


def is_chatter(text: str, expected: Expected | None = None) -> bool:
    """True for what is dropped where it is heard, and files nothing where it is typed."""
    return is_dropped(text, expected) and is_no_note(text, expected)


def is_no_note(text: str, expected: Expected | None = None) -> bool:
    """True for a typed line that files nothing: it is dropped, asked about, or said not to be understood."""
    return isinstance(read(text, expected), Unclear)


def heard(*readings: tuple[str, float], decode: str = "sentences") -> Heard:
    """One decode with its alternatives."""
    return Heard(
        text=readings[0][0],
        readings=tuple(Hypothesis(decode=decode, text=text, weight=weight) for text, weight in readings),
    )


def decodes(*texts: str) -> Heard:
    """As many decodes, each sure of one reading."""
    each = [heard((text, 1.0), decode=f"decode {at}") for at, text in enumerate(texts)]
    return Heard(text=texts[0], readings=tuple(reading for one in each for reading in one.readings))


def bowl(side: str, number: int) -> BowlName:
    return BowlName.model_validate({"side": side, "number": number})
