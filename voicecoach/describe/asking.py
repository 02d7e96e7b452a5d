"""Questions back, refusals, and a question that lapses."""

from voicecoach.describe.reasons import refusal_words
from voicecoach.describe.setting import no_sound, nothing_deleted
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.head.values import Refused
from voicecoach.hear.values import Link
from voicecoach.phrasebook.numbers import without_digits
from voicecoach.phrasebook.wording import capitals, sentence, words
from voicecoach.understand.notes.settings import SoundKept
from voicecoach.understand.values import OpenQuestion


def ask(opened: OpenQuestion, law: str | None = None) -> Sentences:
    """The question as spoken, with the number of the law that is its reason."""
    asked = _whole(opened.ask or question_words(opened), "?")
    law = without_digits(law) if law else None
    if law is None or law in asked:
        return (Sentence(text=asked),)
    return (Sentence(text=asked), Sentence(text=sentence("ask.law", law=law)))


def question_words(opened: OpenQuestion) -> str:
    """The question for a slot: the answers offered, or what is missing."""
    if opened.answers:
        return words("ask.or").join(opened.answers)
    return words(f"ask.slot.{opened.slot}")


def refuse(refused: Refused) -> Sentences:
    """What is wrong and what to do."""
    return plainly(refusal_words(refused))


def plainly(text: str) -> Sentences:
    """A sentence that came as text: what is wrong, as another part of the program says it."""
    return (Sentence(text=_whole(text, ".")),)


def lapse(opened: OpenQuestion) -> Sentences:
    """What is said when an open question was not answered in time."""
    if isinstance(opened.pending, SoundKept):
        return no_sound() if opened.pending.value == "on" else nothing_deleted()
    return (Sentence(text=sentence(f"lapse.{opened.slot}")),)


def own_voice() -> Sentences:
    """What is said when nobody can tell whether the listener spoke or the voice itself."""
    return (Sentence(text=sentence("own voice")),)


def poor_link(fault: Link) -> Sentence:
    """What is said of a link, the way from mouth to program, that is too poor to be trusted."""
    return Sentence(text=words(f"poor link.{fault}"))


def _whole(text: str, end: str) -> str:
    """A sentence that came as text: a capital, no figures, an end."""
    text = without_digits(text.strip()).replace("\u2019", "'")
    text = capitals(text)
    return text if text.endswith((".", "?", "!")) else text + end
