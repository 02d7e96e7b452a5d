"""Other ways to hear the same sound: free dictation, a flat word list, pocketsphinx with a grammar."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np

from tests.bench.hearing.jsgf import jsgf
from voicecoach.hear.blocks import Block, Samples
from voicecoach.hear.decodes import Decode
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.segments import Segmenter
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.book import PhraseBook

Words = Callable[[Samples], str]
"""Samples of one utterance in, words out."""


class PlainEar:
    """Cuts speech where half a second of silence follows; takes the words of one decode as they are."""

    def __init__(self, words: Words) -> None:
        self._words = words
        self._segmenter = Segmenter()

    def hear_block(self, block: Block, source: str) -> Iterator[Heard]:
        """Hear a block of 512 samples."""
        ended = self._segmenter.follow(block).ended if block.samples.size == 512 else None
        if ended:
            yield from self._heard(ended.samples, source)

    def finish(self, source: str) -> Iterator[Heard]:
        """The sound has ended."""
        ended = self._segmenter.finish()
        self._segmenter = Segmenter()
        if ended:
            yield from self._heard(ended.samples, source)

    def _heard(self, samples: Samples, source: str) -> Iterator[Heard]:
        text = self._words(samples)
        if text:
            yield Heard(text=text, source=source)


def one_decode(model: Path, book: PhraseBook, phrases: str) -> Words:
    """The same speech model with one decode: `anything` is free dictation, `words` a flat word list."""
    decode = Decode.model_validate({"name": phrases, "phrases": phrases})
    recogniser = Recogniser(model, book, (decode,))
    return lambda samples: recogniser.hear(samples).text


def pocketsphinx(book: PhraseBook) -> Words:
    """Pocketsphinx with its own US English model and the phrase book as a JSGF grammar."""
    library = importlib.import_module("pocketsphinx")
    probe = library.Decoder(samprate=16_000, loglevel="FATAL", lm=None)
    # No second pass over the lattice: on eight clean tuning notes it gave the same words but for one "a";
    # on the ninth, and on most in noise, it took minutes, where the first pass takes ten seconds.
    beams = {"beam": 1e-40, "pbeam": 1e-40, "wbeam": 1e-30, "maxhmmpf": 3_000}
    decoder = library.Decoder(samprate=16_000, loglevel="FATAL", lm=None, bestpath=False, **beams)
    decoder.add_jsgf_string("notes", jsgf(book, _Known(probe.lookup_word)))
    decoder.activate_search("notes")

    def words(samples: Samples) -> str:
        decoder.start_utt()
        decoder.process_raw(np.round(samples * 32_767).astype("<i2").tobytes(), False, True)
        decoder.end_utt()
        return decoder.hyp().hypstr if decoder.hyp() else ""

    return words


class _Known:
    """The words of the dictionary, as something that can be asked with `in`."""

    def __init__(self, look_up: Callable[[str], str | None]) -> None:
        self._look_up = look_up

    def __contains__(self, word: object) -> bool:
        return self._look_up(str(word)) is not None
