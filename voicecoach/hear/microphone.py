"""A microphone as a stream of blocks, which notices when the device goes away."""

from __future__ import annotations

import queue
from collections.abc import Iterator
from types import TracebackType
from typing import Any

import numpy as np
import numpy.typing as npt

from voicecoach.errors import DeviceProblem, DeviceRefused
from voicecoach.hear.blocks import RATE_HZ, Block
from voicecoach.hear.pulse import LOOK_S, Pulse, SoundGap, State
from voicecoach.hear.resampling import ToMono16k
from voicecoach.sound.clock import now_s
from voicecoach.sound.devices import MICROPHONE, Device, named, sound_library
from voicecoach.sound.stream import Stream

BLOCK_S = 0.064
"""Sound comes in pieces of two blocks of the voice detector. In pieces of 9 ms, as PortAudio chooses them,
its own threads alone took 2.2 % of a core, in these 0.4 %; a decision waits 16 ms longer on average."""
_KEPT = 1_000
"""Pieces kept while nobody takes them: about a minute. The oldest sound is kept, later sound is lost."""

_Frames = npt.NDArray[np.float32]
_Piece = tuple[float, _Frames]
"""When it came, and the sound."""


class Microphone:
    """A microphone that is open inside a `with`. Iterating gives its sound as it comes.

    Iterating raises DeviceProblem once the device has gone. To go on, leave the `with`, call
    `sound.devices.look_again()` and enter it again. After the computer slept it raises SoundGap. Enter it
    again at once then, so that sound which the server kept from that time isn't taken for what is said now.

    Attributes:
        came_s: When the sound that was taken last arrived, on the clock of `sound.clock`.
    """

    def __init__(self, device: str | None = None) -> None:
        self._wanted = device
        self._sound: queue.Queue[_Piece] = queue.Queue(maxsize=_KEPT)
        self.stream = Stream()
        self._finished = False
        self._lost = 0
        self.came_s = now_s()
        self.device: Device | None = None

    @property
    def name(self) -> str:
        """The device's own name, to be said aloud: another one is never taken silently."""
        return self.device.name if self.device else self._wanted or "the default microphone"

    @property
    def lost_s(self) -> float:
        """Sound that came while nobody took it and was lost, seconds."""
        return self._lost / self.device.rate_hz if self.device else 0.0

    def __enter__(self) -> Microphone:
        library = sound_library()
        self._sound, self._finished, self._lost = queue.Queue(maxsize=_KEPT), False, 0
        self.device = named(library, MICROPHONE, self._wanted)
        try:
            stream = library.InputStream(
                device=self.device.index,
                samplerate=self.device.rate_hz,
                blocksize=round(BLOCK_S * self.device.rate_hz),
                channels=self.device.channels,
                dtype="float32",
                callback=self._came,
                finished_callback=self._ended,
            )
            answers = self.stream.start(stream)
        except library.PortAudioError as problem:
            self.stream.end()
            raise DeviceRefused(
                f"The microphone {self.name} can't be opened: {_reason(problem)}. "
                "Close other programs that use it, or choose another with --microphone."
            ) from problem
        if not answers:
            raise DeviceRefused(
                f"The microphone {self.name} doesn't answer. "
                "Plug it in again or choose another with --microphone."
            )
        return self

    def __exit__(
        self, kind: type[BaseException] | None, value: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stream.end()

    def __iter__(self) -> Iterator[Block]:
        if self.device is None:
            raise DeviceProblem("The microphone isn't open.")
        resampler, given, pulse = ToMono16k(self.device.rate_hz), 0, Pulse(now_s())
        while True:
            pulse.waits(now_s())
            try:
                at_s, frames = self._sound.get(timeout=LOOK_S)
            except queue.Empty:
                self._check(pulse.nothing(now_s()), pulse.gap_s)
                continue
            if pulse.came(at_s) == "stood still":
                raise SoundGap(pulse.gap_s)
            self.came_s = at_s
            samples = resampler.process(frames)
            if samples.size:
                yield Block(samples, given / RATE_HZ + self.lost_s)
            given += samples.size

    def _came(self, frames: _Frames, count: int, when: Any, status: Any) -> None:
        """Copy and queue, and nothing else: this runs on the sound thread."""
        try:
            self._sound.put_nowait((now_s(), frames.copy()))
        except queue.Full:
            self._lost += count

    def _ended(self) -> None:
        self._finished = True

    def _check(self, state: State, gap_s: float) -> None:
        """Raise once the device has gone (it doesn't say so itself), and after the computer slept."""
        if state == "stood still":
            raise SoundGap(gap_s)
        if state == "gone" or self._finished or not self.stream.active:
            raise DeviceProblem(
                f"The microphone {self.name} has gone: no sound comes from it any more. "
                "Plug it in again or choose another with --microphone."
            )


def _reason(problem: Exception) -> str:
    return str(problem.args[0] if problem.args else problem).rstrip(".")
