"""Reading the list of sound devices afresh, which PortAudio only does with every stream closed."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack, suppress

from voicecoach import leaving
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem
from voicecoach.live.inputs import Listening
from voicecoach.live.speaking import Speaking
from voicecoach.live.watching import ServerDevice, Watch
from voicecoach.printed import put
from voicecoach.sound.bounded import stuck_after
from voicecoach.sound.devices import look_again
from voicecoach.sound.stream import Stream

APART_S = 1.0
"""Seconds between refreshes, at least: each takes every device away for a moment."""

FREE_S = 0.1
"""How long a microphone waits for the voice to let its headphones go before it is opened all the same."""

CHOSEN_BY_SYSTEM = ("default", "sysdefault", "pulse", "pipewire")
"""What PortAudio calls the device that the sound server chooses, on Linux."""

ONE_EAR = (
    "{called} gives narrow sound, the same to both ears, as an earpiece does while its microphone is on. "
    "Stereo is not offered."
)
LET_GO_S = 2.0
"""How long a device may take to be let go when the program ends, seconds."""


class Devices:
    """The microphones and headphones in use, let go and taken up together."""

    def __init__(self) -> None:
        self.ears: tuple[Listening, ...] = ()
        self.voices: tuple[Speaking, ...] = ()
        self._watch = Watch(
            self._microphone_moved, self._voice_moved, lambda: len(self.voices), self._voice_arrived
        )
        self._one_ear: dict[str, bool] = {}
        self._watch.start()
        self._one_at_a_time = threading.Lock()
        self._closing = False
        self._last_s = 0.0
        self._reading: threading.Thread | None = None

    def opened(self, name: str) -> str:
        """A microphone gives sound. From now on it should stay where it is.

        Returns:
            What to call it. The sound library calls whatever microphone the system chooses "default". Where
            it does, this is the name by which the sound server knows the one that was chosen.
        """
        devices = self._watch.remember()
        if name in CHOSEN_BY_SYSTEM and len(devices) == 1:
            return f"{name}, {devices[0].called}"
        return name

    def close(self) -> None:
        """Let every device go, so that the program can end; a device that hangs is not waited for long.

        The voices are waited for as well: where the sound library is ended while a thread is still opening
        or shutting its headphones, it takes the process with it.
        """
        self._closing = True
        self._watch.stop()
        for each in self._threads():
            each.leave()
        for voice in self.voices:
            voice.mouth.close()
        until_s = time.monotonic() + LET_GO_S
        for each in self._threads():
            if each.is_alive():  # one that was never started, since something failed, can't be waited for
                each.join(max(0.0, until_s - time.monotonic()))
        if self.hung:
            leaving.at_once()

    @property
    def hung(self) -> bool:
        """True once a call to the sound library has hung, or a thread that may be in one hasn't ended."""
        return any(stream.hung for stream in self._streams()) or any(
            each.is_alive() for each in self._threads()
        )

    def _microphone_moved(self, called: str) -> None:
        for ear in self.ears:
            ear.moved(called)

    def _voice_moved(self, called: str) -> None:
        """Say at once where the voice comes out now, in the middle of what is being said."""
        told = f"The voice now comes out of {called}."
        put(told, err=True)
        for voice in [voice for voice in self.voices if voice.saying] or self.voices[:1]:
            voice.say_aside((Sentence(text=told),))

    def _voice_arrived(self, device: ServerDevice) -> None:
        """Say once of headphones that give one ear's sound what that means."""
        new = device.name not in self._one_ear
        self._one_ear[device.name] = device.is_one_ear
        if new and device.is_one_ear:
            told = ONE_EAR.format(called=device.called)
            put(told, err=True)
            for voice in self.voices[:1]:
                voice.say((Sentence(text=told),))

    @property
    def stereo(self) -> bool:
        """False where all headphones that are known give one channel: then nothing lies left or right."""
        found = [voice.mouth.headphones.device for voice in self.voices if voice.mouth.headphones]
        channels = [device.channels for device in found if device is not None]
        by_server = bool(self._one_ear) and all(self._one_ear.values())
        return not by_server and (not channels or max(channels) > 1)

    def refresh(self) -> None:
        """Let all devices go, read the list, and let all be taken up again.

        This is called from the thread of the device that is away. Nothing is cut off in the middle of a word.
        A microphone doesn't wait for a long read-back, since it can mostly be opened again without this.
        """
        with self._one_at_a_time:
            if self._closing or time.monotonic() - self._last_s < APART_S:
                return
            if any(ear.ear.speech_under_way for ear in self.ears) or self._stuck():
                return
            caller = threading.current_thread()
            others = [ear for ear in self.ears if ear is not caller]
            patience_s = FREE_S if caller in self.ears else -1
            with ExitStack() as held:
                for voice in self.voices:
                    if voice is not caller and not held.enter_context(voice.device_let_go(patience_s)):
                        return
                for ear in others:
                    held.callback(ear.resume)
                    ear.pause()
                with suppress(DeviceProblem):  # whoever opens a device next tells it, and tries again
                    self._reading = stuck_after(LET_GO_S, look_again)
            self._last_s = time.monotonic()

    def _threads(self) -> tuple[Listening | Speaking, ...]:
        return (*self.ears, *self.voices)

    def _stuck(self) -> bool:
        """True while a call to the sound library hangs on a device that has gone."""
        if self._reading is not None and self._reading.is_alive():
            return True
        return any(stream.stuck for stream in self._streams())

    def _streams(self) -> Iterator[Stream]:
        yield from (ear.microphone.stream for ear in self.ears)
        yield from (voice.mouth.headphones.stream for voice in self.voices if voice.mouth.headphones)
