"""Reading is quick enough to be done many times over for one utterance. Processor time, not the clock's."""

import random
import time
from statistics import median

from tests.understand.reads import BOOK
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected


def test_twenty_readings_of_one_utterance_take_some_thirty_milliseconds() -> None:
    understanding = Understanding(BOOK)
    sentences = random.Random(5).sample(BOOK.sample(23, seed=5), 620)
    times = []
    for start in range(0, 620, 20):
        readings = tuple(
            Hypothesis(decode=f"decode {at % 4}", text=text, weight=0.2)
            for at, text in enumerate(sentences[start : start + 20])
        )
        began = time.process_time()
        understanding.read(Heard(text=readings[0].text, readings=readings), Expected())
        times.append(time.process_time() - began)
    assert median(times) < 0.06  # 0.03 on a busy machine; twice that for slower ones


def test_whether_a_line_is_whole_costs_next_to_nothing_when_asked_again() -> None:
    understanding = Understanding(BOOK)
    line = "our second eighty centimetres two o'clock"
    assert understanding.is_whole(line, Expected())
    began = time.process_time()
    for _ in range(100):
        understanding.is_whole(line, Expected())
    assert (time.process_time() - began) / 100 < 0.003
