"""Samples in, `Heard` out: one utterance, listened to in several ways at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from time import thread_time
from typing import Any

import numpy as np

from voicecoach.hear.affordable import Speed
from voicecoach.hear.blocks import RATE_HZ, Samples, silence
from voicecoach.hear.decoder import Decoder, model_at
from voicecoach.hear.decodes import ANSWERS, DECODES, MAIN, Book, Decode, PhraseLists, fewer
from voicecoach.hear.fronts import Fronts
from voicecoach.hear.hypotheses import best_first, hypotheses_of, span_of, words_of
from voicecoach.hear.level import Level
from voicecoach.hear.spelling import british
from voicecoach.hear.values import Heard

PAD_S = 0.3
"""Silence before and after sound that may begin or end in a word: without it those words are lost."""
_END_S = 0.1
"""Silence after an utterance that ends in a pause: enough to bring the last word out of the decoder."""
_BESIDE = ThreadPoolExecutor(1, "decoding beside")
"""Half of the decodes end an utterance here: vosk works without Python's lock, so the answer comes sooner."""
_FED = 1_024
"""Samples handed over at a time: always as many, since otherwise the same sound could give other words."""


class Recogniser:
    """The speech model with the phrase book's words; it hears one utterance at a time."""

    def __init__(self, model_path: Path, book: Book, decodes: tuple[Decode, ...] = DECODES) -> None:
        self._lists = PhraseLists(book)
        with ThreadPoolExecutor(1) as beside:  # the model is read by C code, and Python goes on meanwhile
            loading = beside.submit(model_at, model_path)
            grammars = [self._lists.grammar(decode) for decode in decodes]
        self._model = loading.result()
        self._decoders = [
            Decoder(self._model, decode, grammar) for decode, grammar in zip(decodes, grammars, strict=True)
        ]
        self._answers: tuple[tuple[str, ...], Decoder] | None = None

    def knows(self, word: str) -> bool:
        """True when the model knows the word. Words that it doesn't know are dropped silently."""
        return bool(self._model.vosk_model_find_word(word) >= 0)

    def speed(self, speech: Samples, core: float) -> Speed:
        """What decoding takes here, measured with the main decode on a known utterance. It also warms it up.

        Args:
            speech: The utterance.
            core: How much of one core may be used.
        """
        began = thread_time()
        main = self._decoders[0]
        main.begin()
        for start in range(0, speech.size, _FED):
            main.accept(speech[start : start + _FED])
        main.finish()
        return Speed(decode=(thread_time() - began) / (speech.size / RATE_HZ), core=core)

    def keep(self, count: int) -> None:
        """Listen with so many decodes at a time from the next utterance on, for as long as this one lives."""
        kept = fewer(count)
        self._decoders = [decoder for decoder in self._decoders if decoder.decode in kept]

    def start(self, answers: Sequence[str] = (), *, sparing: bool = False) -> Hearing:
        """Begin to hear an utterance that comes with its pre-roll; what was heard before is forgotten.

        Args:
            answers: What may be said to the open question; a decode of its own listens for it.
            sparing: Only the main decode listens while speech goes on: for talk without end.
        """
        decoders = list(self._decoders)
        if answers:
            decoders.append(self._decoder_of(tuple(answers)))
        return Hearing(decoders, sparing=sparing)

    def hear(self, samples: Samples, answers: Sequence[str] = ()) -> Heard:
        """Hear one whole utterance, whatever silence it has round it."""
        hearing = self.start(answers)
        hearing.accept(np.concatenate([silence(PAD_S), samples, silence(PAD_S)]))
        return hearing.finish()

    def _decoder_of(self, answers: tuple[str, ...]) -> Decoder:
        """A decode that can hear only the answers; kept, since a question is often asked twice."""
        if self._answers is None or self._answers[0] != answers:
            self._answers = (answers, Decoder(self._model, ANSWERS, self._lists.grammar(ANSWERS, answers)))
        return self._answers[1]


class Hearing:
    """One utterance while it is being heard."""

    def __init__(self, decoders: list[Decoder], *, sparing: bool = False) -> None:
        self.in_noise = False
        """Whether there is noise to turn down, as far as is known by now. In noise other decodes listen."""
        self.span_s: float | None = None
        """Once it has ended: seconds from the main decode's first word to its last."""
        self._decoders = decoders
        self._sparing = sparing
        self._level = Level()
        self._kept = silence(0)
        self._pieces: list[Samples] = []
        fronts = Fronts()
        for decoder in decoders:
            decoder.begin(fronts)

    def accept(self, samples: Samples) -> None:
        """Take the next samples."""
        kept = np.concatenate([self._kept, self._level.process(samples)])
        whole = kept.size // _FED * _FED
        self._pieces += [kept[start : start + _FED] for start in range(0, whole, _FED)]
        self._kept = kept[whole:]
        for decoder in [self._main] if self._sparing else self._counting:
            decoder.follow(self._pieces)

    def so_far(self) -> str:
        """What the main decode has heard up to now; nothing until it is known how loud the voice is."""
        return british(self._main.so_far())

    def finish(self, more: Callable[[str], bool] = lambda text: True) -> Heard:
        """End the utterance. Decodes that were spared hear it now, if `more` says so of the words."""
        self._pieces.append(np.concatenate([self._kept, self._level.rest(), silence(_END_S)]))
        self._kept = silence(0)
        others = [decoder for decoder in self._counting if decoder is not self._main]
        beside, after = ([], others) if self._sparing else (others[::2], others[1::2])
        done = {id(decoder): _BESIDE.submit(self._finished, decoder) for decoder in beside}
        main = self._finished(self._main)
        words, self.span_s = words_of(main), span_of(main)
        text = " ".join(word.text for word in words)
        found = hypotheses_of(self._main.decode, main)
        if not self._sparing or more(text):
            results = {id(decoder): self._finished(decoder) for decoder in after}
            results |= {decoder: result.result() for decoder, result in done.items()}
            for decoder in others:
                found += hypotheses_of(decoder.decode, results[id(decoder)])
        return Heard(text=text, words=words, readings=best_first(found))

    @property
    def _counting(self) -> list[Decoder]:
        return [decoder for decoder in self._decoders if decoder.decode.counts(in_noise=self.in_noise)]

    @property
    def _main(self) -> Decoder:
        """The one whose words are the text. A recogniser with decodes of its own takes its first."""
        counting = self._counting
        return next((decoder for decoder in counting if decoder.decode.name == MAIN.name), counting[0])

    def _finished(self, decoder: Decoder) -> dict[str, Any]:
        """The result of a decode that has heard all of the utterance."""
        decoder.follow(self._pieces)
        return decoder.finish()
