"""What the page itself has to say is understood: the recogniser hears an end's sentences in its own sound."""

import base64
import io
from pathlib import Path

import numpy as np
import soundfile
from click.testing import CliRunner

from tests.bench.listening.recognised import holds
from tests.coach.oddities import told
from tests.coach.pages import Reader
from voicecoach import phrasebook
from voicecoach.commands import report
from voicecoach.hear.blocks import RATE_HZ, Samples
from voicecoach.hear.recogniser import Recogniser
from voicecoach.speak.samples import resample

NOTES = (
    "our first, one metre twenty, six o'clock",
    "their first, eighty centimetres, nine o'clock",
    "our second, thirty centimetres, three o'clock",
    "their second, two metres, one o'clock",
    "the end is finished, one shot to us",
)


def spoken(read: Reader, order: list[int]) -> Samples:
    """A sentence as the page plays it: its clips, each with the silence that follows."""
    parts = []
    for clip, silent_ms in zip(order[::2], order[1::2], strict=True):
        samples, rate_hz = soundfile.read(
            io.BytesIO(base64.b64decode(read.data("clips")[clip])), dtype="float32"
        )
        parts += [resample(samples, rate_hz, RATE_HZ), np.zeros(RATE_HZ * silent_ms // 1000, np.float32)]
    return np.concatenate(parts)


def test_the_recogniser_hears_every_sentence_of_an_end_in_the_pages_own_sound(
    tmp_path: Path, model_path: Path
) -> None:
    path, out = told(tmp_path / "game.jsonl", *NOTES), tmp_path / "page.html"
    ran = CliRunner().invoke(report.command, [str(path), "-o", str(out)], standalone_mode=False)
    assert ran.exit_code == 0, ran.exception
    read = Reader(out.read_text())
    final, states = read.data("heads")["ends"]["end-1"]
    said = [read.data("heads")["said"][number] for number in states[final][2]]
    texts = [text for text, _ in said]
    assert texts[0].startswith("We hold one shot")
    assert texts[1:] == [
        "Our first: one metre twenty, six o'clock.",
        "Their first: eighty centimetres, nine o'clock, left.",
        "The jack.",
        "Our second: thirty centimetres, three o'clock, right.",
        "Their second: two metres, one o'clock.",
    ]
    recogniser = Recogniser(model_path, phrasebook.load())
    for text, order in said:
        if text.startswith(("Our", "Their")):
            heard = recogniser.hear(spoken(read, order)).text
            for piece in text.rstrip(".").lower().replace(":", ",").split(", "):
                assert holds(heard, piece), (text, heard)
