"""How good the link was decides how sure a note must be."""

from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Link, Reading, Word
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked

SAID = "our second eighty centimetres two o'clock"
OTHER = "our second eighty centimetres ten o'clock"


def nearly_agreed(link: Link) -> Heard:
    """Three decodes of four hear one thing; the fourth is torn; the words are trusted."""
    readings = [Reading(decode=name, text=SAID, weight=1.0) for name in ("one", "two", "three")]
    readings += [Reading(decode="four", text=text, weight=0.5) for text in (SAID, OTHER)]
    words = tuple(Word(text=word, confidence=0.85) for word in SAID.split())
    return Heard(text=SAID, words=words, readings=tuple(readings), link=link)


def accepted(link: Link) -> bool:
    read = Understanding(phrasebook.load()).read(nearly_agreed(link), Expected())
    return isinstance(read, Ranked) and read.doubt is None


def test_over_a_good_link_decodes_that_nearly_agree_are_enough() -> None:
    assert accepted("good")


def test_over_a_poor_link_the_same_is_asked_about() -> None:
    assert not accepted("noisy")
