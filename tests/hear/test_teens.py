"""Sixteen is not sixty: the likelihoods that the phrase list gives them, and what a voice makes of them."""

import json
from collections import Counter
from itertools import pairwise

import pytest

from tests.bench.hearing.engines import speak
from voicecoach import phrasebook
from voicecoach.hear.decodes import DECODES, Decode, PhraseLists
from voicecoach.hear.recogniser import Recogniser
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, Ranked

PAIRS = {
    "thirteen": "thirty",
    "fourteen": "forty",
    "fifteen": "fifty",
    "sixteen": "sixty",
    "seventeen": "seventy",
    "eighteen": "eighty",
    "nineteen": "ninety",
}
CENTIMETRES = {word: 13 + at for at, word in enumerate(PAIRS)} | {
    word: 30 + 10 * at for at, word in enumerate(PAIRS.values())
}


@pytest.mark.parametrize("decode", DECODES, ids=lambda decode: decode.name)
def test_no_ten_stands_far_above_the_others(decode: Decode) -> None:
    """With "thirty" three times as often as "eighty", the voice's own "eighty" now and then became it."""
    grammar = PhraseLists(phrasebook.load()).grammar(decode)
    assert grammar is not None
    counts = Counter(word for phrase in json.loads(grammar) for word in phrase.split())
    tens = [counts[ten] for ten in ("twenty", *PAIRS.values())]
    assert max(tens) < 2.6 * min(tens), counts


@pytest.mark.parametrize("decode", DECODES, ids=lambda decode: decode.name)
def test_no_list_of_phrases_makes_a_ten_much_likelier_than_its_teen(decode: Decode) -> None:
    grammar = PhraseLists(phrasebook.load()).grammar(decode)
    assert grammar is not None
    before_centimetres = Counter(
        word
        for phrase in json.loads(grammar)
        for word, unit in pairwise(phrase.split())
        if unit[:4] == "cent"
    )
    assert {
        teen
        for teen, ten in PAIRS.items()
        if not 0.4 < before_centimetres[teen] / max(1, before_centimetres[ten]) < 4
    } == set()


@pytest.mark.parametrize("word", CENTIMETRES)
def test_teens_and_tens_are_heard_as_they_are_said(word: str, recogniser: Recogniser) -> None:
    sound = speak("flite", "slt", f"our second bowl, {word} centimetres, two o'clock", 1.0)
    meant = Understanding(phrasebook.load()).read(recogniser.hear(sound), Expected())
    assert isinstance(meant, Ranked)
    assert isinstance(meant.notes[0], BowlRested)
    assert meant.notes[0].gap_m == pytest.approx(CENTIMETRES[word] / 100)
    assert meant.doubt is None
