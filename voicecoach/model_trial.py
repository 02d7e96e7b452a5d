"""Loads a speech model, and finds which of the phrase book's words it lacks and how each is heard instead.

Run by set-up as `python -m voicecoach.model_trial FOLDER`; prints what it found as JSON.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

import numpy as np

from voicecoach import phrasebook
from voicecoach.errors import Problem
from voicecoach.hear.blocks import silence
from voicecoach.hear.decoder import Decoder, model_at
from voicecoach.hear.decodes import MAIN, Decode, PhraseLists
from voicecoach.hear.resampling import ToMono16k
from voicecoach.model_store.another import Trial
from voicecoach.phrasebook import PhraseBook
from voicecoach.speak.voice import Voice

NOTE = "our second, eighty centimetres, two o'clock"
_PAD_S = 0.3
_LONGEST = 3
"""More words than this for one word are a slip, and no spelling."""


def lacking(book: PhraseBook, knows: Callable[[str], bool]) -> tuple[str, ...]:
    """The book's words of which the model knows no spelling, in alphabetical order."""
    return tuple(
        word
        for word in sorted(book.vocabulary)
        if not any(all(map(knows, form.split())) for form in book.spelling.heard_forms([word]))
    )


def instead(heard: Mapping[str, str], taken: Iterable[str]) -> dict[str, str]:
    """The words that can be known again by what is written for them.

    Args:
        heard: What the model writes for each word that it lacks.
        taken: The words that the book has a meaning for. What is made of these alone is no sign of another
            word, and neither is what is written for two words.
    """
    often, known = Counter(heard.values()), set(taken)
    return {
        word: text
        for word, text in heard.items()
        if 0 < len(text.split()) <= _LONGEST and often[text] == 1 and not set(text.split()) <= known
    }


def tried(folder: Path) -> Trial:
    """What the model lacks, and what it hears of a note and of each word that it lacks.

    Raises:
        ModelProblem: It can't be loaded.
    """
    model = model_at(folder)
    book = phrasebook.load("another-model")
    lacks = lacking(book, lambda word: bool(model.vosk_model_find_word(word) >= 0))
    listed = Decoder(model, MAIN, PhraseLists(book).grammar(MAIN))
    freely = Decoder(model, Decode(name="anything", phrases="anything"), None)
    try:
        with Voice() as voice:
            note = _heard(listed, voice, NOTE)
            heard = {word: _heard(freely, voice, word) for word in lacks}
    except Problem:
        return Trial(unheard=lacks)
    known_again = instead(heard, book.words())
    unheard = tuple(word for word in lacks if word not in known_again)
    return Trial(instead=known_again, unheard=unheard, spoken=NOTE, heard=note)


def _heard(decoder: Decoder, voice: Voice, words: str) -> str:
    sound = voice.render(words)
    stream = ToMono16k(sound.rate_hz)
    decoder.begin()
    decoder.accept(
        np.concatenate([silence(_PAD_S), stream.process(sound.samples), stream.rest(), silence(_PAD_S)])
    )
    result: dict[str, Any] = decoder.finish()
    return str(result.get("text", "")).replace("[unk]", "").strip()


if __name__ == "__main__":
    try:
        print(tried(Path(sys.argv[1])).model_dump_json())
    except Problem as problem:
        sys.exit(str(problem))
