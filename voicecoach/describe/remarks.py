"""The remarks that were pinned to bowls, read back."""

from collections.abc import Sequence

from voicecoach.describe.bowls import bowl_name
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.phrasebook.wording import sentence
from voicecoach.understand.values import BowlName


def remarks(pinned: Sequence[tuple[BowlName | None, str]], prefs: Preferences) -> Sentences:
    """One sentence a remark: the bowl it is about, if one, and its words."""
    return tuple(_remark(bowl, words, prefs) for bowl, words in pinned)


def _remark(bowl: BowlName | None, words: str, prefs: Preferences) -> Sentence:
    if bowl is None:
        return Sentence(text=sentence("answer.remark of none", remark=words[:1].upper() + words[1:]))
    name = bowl_name(bowl.side, bowl.number, prefs)
    return Sentence(text=sentence("answer.remark", name=name, remark=words), about=bowl)
