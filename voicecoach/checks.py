"""Tries every part of the main job, and says what works and what to do about what doesn't."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor, wait
from contextlib import suppress

import numpy as np
import numpy.typing as npt

from voicecoach import kept_book, model_store
from voicecoach.afforded import afford, in_words
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem, DeviceRefused, ModelProblem, Problem
from voicecoach.hear.blocks import RATE_HZ
from voicecoach.hear.microphone import Microphone
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.resampling import ToMono16k
from voicecoach.live.watching import ServerDevice, in_use
from voicecoach.sound.devices import HEADPHONES, MICROPHONE, names
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.voice import Voice
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, Ranked
from voicecoach.value import Value

NOTE = "our second, eighty centimetres, two o'clock"
MEANT = BowlRested(side="ours", number=2, gap_m=0.8, unit="cm", hour=2.0)
"""What a listener should make of the note."""
LISTEN_S = 1.5
TRIED_S, AGAIN_S = 3.0, 0.25
"""How long a device that refuses is tried again, and how soon, seconds."""
SILENT_DB = -80.0
"""Below this a microphone is muted or dead, decibels: a working one in a quiet room gives -70 to -50."""
FAINT_DB = -60.0
CLIPPED = 0.001
"""More than this share of samples at full scale is heard as distortion."""

BARGAIN = (
    "A Bluetooth earpiece does so while its microphone is on, and bowls then can't be placed left and right. "
    "There are two ways: that microphone and one ear's sound, or a microphone on a wire and earpieces in "
    "stereo. Choose with --microphone."
)

Samples = npt.NDArray[np.float32]


class Finding(Value):
    """What came of trying one part."""

    part: str
    works: bool
    text: str
    """What was found and, where something is wrong, what to do."""
    exit_status: int = 0
    """The exit status that the fault stands for; 0 where the main job can run."""

    @property
    def line(self) -> str:
        """One plain line for the screen and the ear."""
        return f"{self.part}: {'works' if self.works else 'does not work'}. {self.text}"


def tried(microphone: str | None, pair: str | None) -> Iterator[Finding]:
    """Try each part in turn. Each finding comes as soon as it is known."""
    parts: tuple[tuple[str, Callable[[], str]], ...] = (
        ("Speech model", _model),
        ("Voice", _voice),
        ("Spoken round trip", _round_trip),
        ("Microphone", lambda: _microphone(microphone)),
        ("Headphones", lambda: _headphones(pair)),
    )
    for part, action in parts:
        try:
            yield Finding(part=part, works=True, text=_patiently(action))
        except Problem as problem:
            yield Finding(part=part, works=False, text=str(problem), exit_status=problem.exit_status)


def _patiently(action: Callable[[], str]) -> str:
    """Try a part; a device that refuses, again for some seconds: that of a busy machine may at first."""
    until_s = time.monotonic() + TRIED_S
    while True:
        try:
            return action()
        except DeviceRefused:
            if time.monotonic() > until_s:
                raise
            time.sleep(AGAIN_S)


def _model() -> str:
    folder = model_store.model_path()
    wrong = model_store.wrong_with(folder)
    if wrong:
        raise ModelProblem(f"{folder}: {'; '.join(wrong)}. Run: voicecoach setup")
    other = model_store.another.used()
    if other is None:
        return f"Every file in {folder} matches the manifest."
    told = " ".join(model_store.another.told(other))
    return f"Every file in {folder} is as it was when it was taken. {told}"


def _voice() -> str:
    with Voice() as voice:
        began = time.perf_counter()
        sound = voice.render(NOTE)
    return f"A note of {sound.seconds:.1f} seconds was made in {time.perf_counter() - began:.1f}."


def _round_trip() -> str:
    """The voice says a note, and the recogniser must hear what was said."""
    model = model_store.model_path()
    book = kept_book.load()
    recogniser = Recogniser(model, book)
    ways = in_words(*afford(recogniser))
    with Voice() as voice:
        sound = voice.render(NOTE)
    stream = ToMono16k(sound.rate_hz)
    began = time.perf_counter()
    heard = recogniser.hear(np.concatenate([stream.process(sound.samples), stream.rest()]))
    took = time.perf_counter() - began
    meant = Understanding(book).read(heard, Expected())
    if not isinstance(meant, Ranked) or meant.notes[0] != MEANT:
        raise Problem(
            f"The voice said: {NOTE}. The recogniser heard: {heard.text or 'nothing'}. "
            "Run voicecoach setup; if that doesn't help, work with typed notes: voicecoach tell"
        )
    return f"The voice said a note, and {took:.1f} seconds later it was understood: {heard.text}. {ways}"


def _microphone(device: str | None) -> str:
    heard: list[Samples] = []
    with Microphone(device) as microphone:
        name = microphone.name
        for block in microphone:
            heard.append(block.samples)
            if sum(len(samples) for samples in heard) >= LISTEN_S * 16_000:
                break
        narrow = any(each.rate_hz < RATE_HZ for each in in_use("source-output"))
    told = f" It sends telephone sound. {BARGAIN}" if narrow else ""
    return f"{name}. {level(np.concatenate(heard))}{told}"


def device_lines() -> Iterator[str]:
    """The devices that can be named with --microphone and --headphones; nothing without PortAudio."""
    with suppress(DeviceProblem):
        yield f"Microphones: {'; '.join(names(MICROPHONE)) or 'none'}."
        yield f"Headphones and loudspeakers: {'; '.join(names(HEADPHONES)) or 'none'}."


def level(samples: Samples) -> str:
    """How loud a stretch of sound is, and what to do if that is too little or too much."""
    power = float(np.mean(np.square(samples, dtype=np.float64)))
    loud = 10 * math.log10(power) if power else -math.inf
    if loud < SILENT_DB:
        return "It gave only silence: if you were speaking, unmute it or turn it up."
    if float(np.mean(np.abs(samples) > 0.99)) > CLIPPED:
        return f"Its level is {loud:.0f} decibels and it is clipped: turn it down."
    if loud < FAINT_DB:
        return f"Its level is {loud:.0f} decibels, faint for speech: bring it nearer or turn it up."
    return f"Its level is {loud:.0f} decibels."


def _headphones(device: str | None) -> str:
    with Mouth(device) as mouth, ThreadPoolExecutor(1) as beside:
        saying = beside.submit(mouth.say, [Sentence(text="This is the voice that reads the head.")])
        found: tuple[ServerDevice, ...] = ()
        while not found and not saying.done():
            found = in_use("sink-input")
            wait([saying], AGAIN_S)
        saying.result()
        name = mouth.headphones.name if mouth.headphones else ""
        narrow = one_ear(found, mouth)
    played = f"{name}. A sentence was played to them: if you heard nothing, turn them up or choose others."
    return f"{played} They give narrow sound, the same to both ears. {BARGAIN}" if narrow else played


def one_ear(found: tuple[ServerDevice, ...], mouth: Mouth) -> bool:
    """True for headphones of one channel, by the sound server or else by the sound library."""
    own = mouth.headphones.device if mouth.headphones else None
    return any(each.is_one_ear for each in found) or (own is not None and own.channels == 1)
