"""Questions back, refusals, and a question that lapses."""

from voicecoach.describe.numbers import without_digits
from voicecoach.describe.values import Sentence
from voicecoach.head.values import Ask, Refused
from voicecoach.phrasebook.wording import capitals, sentence, words
from voicecoach.understand.values import OpenQuestion


def ask(question: Ask | OpenQuestion) -> tuple[Sentence, ...]:
    """The question as spoken, with the law that is its reason."""
    opened = question.open if isinstance(question, Ask) else question
    asked = _whole(opened.ask or question_words(opened), "?")
    law = without_digits(question.law) if isinstance(question, Ask) and question.law else None
    if law is None or law in asked:
        return (Sentence(text=asked),)
    return (Sentence(text=asked), Sentence(text=sentence("ask.law", law=law)))


def question_words(opened: OpenQuestion) -> str:
    """The question for a slot: the answers offered, or what is missing."""
    if opened.answers:
        return words("ask.or").join(opened.answers)
    return words(f"ask.slot.{opened.slot}")


def refuse(refused: Refused) -> tuple[Sentence, ...]:
    """What is wrong and what to do."""
    return (Sentence(text=_whole(refused.why, ".")),)


def lapse(opened: OpenQuestion) -> tuple[Sentence, ...]:
    """What is said when an open question was not answered in time."""
    return (Sentence(text=sentence(f"lapse.{opened.slot}")),)


def own_voice() -> tuple[Sentence, ...]:
    """What is said when nobody can tell whether the listener spoke or the voice itself."""
    return (Sentence(text=sentence("own voice")),)


def _whole(text: str, end: str) -> str:
    """A sentence that came as text: a capital, no figures, an end."""
    text = without_digits(text.strip()).replace("\u2019", "'")
    text = capitals(text)
    return text if text.endswith((".", "?", "!")) else text + end
