"""Plays samples to headphones, can be cut short, and notices when the headphones go away."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterable
from typing import Any

from voicecoach.errors import DeviceProblem, DeviceRefused
from voicecoach.sound.devices import HEADPHONES, Device, named, sound_library
from voicecoach.sound.stream import Stream
from voicecoach.speak.feed import Feed
from voicecoach.speak.samples import resample
from voicecoach.speak.values import Samples, Sound, StereoSound

LATENCY_S = 0.2
"""Sound held by the device, seconds. With less it ran dry on a busy machine, and a stream through PulseAudio
that had run dry took all sound and played nothing. Neither the first word nor a stop is delayed by it."""
AHEAD_S = 1.0
"""How long before they are due pieces are put into the queue, seconds."""
LOOK_S = 0.01
TRIED_S = 3.0
"""Headphones that refuse are tried so long: the sound server of a busy machine refuses at times."""
AGAIN_S = 0.25
BEAT_S = 2.5
"""Where no block has been asked for this long, the stream is opened anew. Some ask only once a second."""
REOPENED = 2
"""How often that may happen with hardly any sound in between; then the device has gone."""
PROGRESS_S = 0.5
DRY = 4
"""Blocks in a row that came too late: from then on such a stream takes all sound and plays nothing."""


class Headphones:
    """Headphones, opened anew for each thing played: that takes 2 to 6 ms, and they may have changed.

    A stream that was left running on silence took 1 % of a core. Through PulseAudio, one that is stopped and
    started again runs dry for ever.
    """

    def __init__(self, device: str | None = None) -> None:
        self._wanted = device
        self.stream = Stream()
        self._feed = Feed(channels=1)
        self._finished = False
        self._reopened = 0
        self._opened_at = 0
        self._dry = 0
        self._played = 0
        self._refused = False
        self.device: Device | None = None

    @property
    def name(self) -> str:
        """The device's own name, to be said aloud: another one is never taken silently."""
        return self.device.name if self.device else self._wanted or "the default headphones"

    def find(self) -> Device:
        """Look the device up. It is opened when there is something to play."""
        self.device = named(sound_library(), HEADPHONES, self._wanted)
        return self.device

    def play(self, pieces: Iterable[Sound | StereoSound], stopped: threading.Event | None = None) -> int:
        """Play the pieces in order; how many were heard to their end before `stopped` was set."""
        device, waiting, wanted = self.find(), iter(pieces), stopped or threading.Event()
        self._feed, self._reopened = Feed(device.channels, wanted), 0
        more = self._put(next(waiting, None), device)  # before the device is opened, so that it never waits
        held_s = 0.0
        try:
            self._open_patiently(device, wanted)
            while (more or self._feed.given < self._feed.queued) and not wanted.wait(LOOK_S):
                self._revive(device)
                if more and self._feed.queued - self._feed.given < AHEAD_S * device.rate_hz:
                    more = self._put(next(waiting, None), device)
            held_s = min(self.stream.latency_s, 1.0)
            held_s = held_s if wanted.wait(held_s) else 0.0
        finally:
            self.stream.end()
        return self._feed.heard(round(held_s * device.rate_hz))

    def _put(self, piece: Sound | StereoSound | None, device: Device) -> bool:
        if piece is None:
            return False
        self._feed.put(resample(piece.samples, piece.rate_hz, device.rate_hz))
        return True

    def _open_patiently(self, device: Device, stopped: threading.Event) -> None:
        """Open them; where they refuse, again for some seconds, unless they have gone on refusing before."""
        until_s = time.monotonic() + TRIED_S
        while not stopped.is_set():
            try:
                self._open(device)
            except DeviceRefused:
                if self._refused or time.monotonic() > until_s:
                    self._refused = True
                    raise
                stopped.wait(AGAIN_S)
            else:
                self._refused = False
                return

    def _open(self, device: Device) -> None:
        library = sound_library()
        self._finished, self._dry, self._opened_at = False, 0, self._feed.given
        try:
            stream = library.OutputStream(
                device=device.index,
                samplerate=device.rate_hz,
                channels=device.channels,
                dtype="float32",
                latency=LATENCY_S,
                callback=self._asked,
                finished_callback=self._ended,
            )
            answers = self.stream.start(stream)
        except library.PortAudioError as problem:
            raise DeviceRefused(
                f"The headphones {self.name} can't be opened. "
                "Plug them in, close other programs that use them, or choose others with --headphones."
            ) from problem
        if not answers:
            raise DeviceRefused(
                f"The headphones {self.name} don't answer. "
                "Plug them in again or choose others with --headphones."
            )

    def _asked(self, block: Samples, count: int, when: Any, status: Any) -> None:
        """Fill one block; this runs on the sound thread."""
        if status.output_underflow:
            self._dry += 1
        else:
            self._dry, self._played = 0, self._feed.given
        self._feed.fill(block)

    def _ended(self) -> None:
        self._finished = True

    def _revive(self, device: Device) -> None:
        """Open a dead stream anew and go on where it was; raise once the device has gone."""
        if not self._dead():
            return
        self.stream.end()
        if self._dry >= DRY:
            self._feed.back_to(self._played)
        moved_on = self._feed.given - self._opened_at > PROGRESS_S * device.rate_hz
        self._reopened = 1 if moved_on else self._reopened + 1
        if self._reopened > REOPENED:
            raise DeviceProblem(
                f"The headphones {self.name} have gone: they take no sound any more. "
                "Plug them in again or choose others with --headphones."
            )
        self._feed.asked_at = time.monotonic()
        self._open(device)

    def _dead(self) -> bool:
        late = time.monotonic() - self._feed.asked_at > BEAT_S
        return late or self._dry >= DRY or self._finished or not self.stream.active
