"""What comes in while live: utterances from microphones and the keyboard, and notices about devices."""

from __future__ import annotations

import queue
import sys
import threading
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol, TextIO

from voicecoach import log_file
from voicecoach.describe import poor_link
from voicecoach.errors import DeviceProblem
from voicecoach.hear.blocks import RATE_HZ, Block, Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.link_watch import LinkWatch
from voicecoach.hear.microphone import Microphone
from voicecoach.hear.noise import NoiseWatch
from voicecoach.hear.pulse import SoundGap
from voicecoach.hear.values import Heard
from voicecoach.live.asleep import heard_nothing
from voicecoach.live.lag import Lag
from voicecoach.session.values import Speaker
from voicecoach.sound.clock import now_s

AGAIN_S = 0.5
"""How long to wait before a microphone that has gone is looked for again, seconds."""

APART_S = 2.0
"""The gap put on the ear's clock, at least, between what was said before a microphone went and after it."""
CLOSED_S = 2.0
"""How long a microphone may take to be let go, seconds."""

STOP = "stop"
STOPS = (STOP, "quiet", "be quiet", "that's enough")
"""What silences the voice while it is still being said."""
MOST_WORDS = 5
"""After more words than this it is something else: only the last ones heard may still change."""
FAILED = "Something went wrong while listening. What you said was not heard. Say it again, or type it."
FAILED_S = 30.0
"""How often it is told that an ear goes on failing, seconds."""
BEHIND = "Listening is behind. Wait for each answer before you say more."
QUIETER = "Turn it away from the wind, turn it down, or type your notes."
SILENT_S = 60.0
"""After how many seconds without any sound at all, not even noise, that is said."""


@dataclass(frozen=True)
class HeardFrom:
    """An utterance, and who said it."""

    heard: Heard
    speaker: Speaker
    sound: Samples | None = None
    """What was said, as it sounded, where that is to be kept; None otherwise."""


@dataclass(frozen=True)
class Notice:
    """Something about a device that must be said aloud."""

    text: str
    at_once: bool = False
    """True when it breaks into what is being said: somebody may be talking to a deaf ear."""


@dataclass(frozen=True)
class Hush:
    """Somebody is saying "stop": the voice falls silent before the word has even ended."""

    speaker: Speaker


@dataclass(frozen=True)
class Pressed:
    """A button was pressed: what it stands for, in words."""

    words: str


Inputs = queue.Queue[HeardFrom | Notice | Hush | Pressed]


class DeviceCare(Protocol):
    """What a microphone needs done about the devices together."""

    def refresh(self) -> None:
        """Read the list of devices afresh."""
        ...

    def opened(self, name: str) -> str:
        """A microphone has been opened and gives sound; what to call it."""
        ...


class Listening(threading.Thread):
    """One microphone and its ear. A microphone that goes away is told once and looked for again."""

    def __init__(
        self, device: Microphone | str | None, speaker: Speaker, ear: Ear, inputs: Inputs, devices: DeviceCare
    ) -> None:
        super().__init__(name=f"listening to the {speaker}", daemon=True)
        self.ear = ear
        self.microphone = device if isinstance(device, Microphone) else Microphone(device)
        self.speaker, self._inputs = speaker, inputs
        self._devices = devices
        self._leaving = threading.Event()
        self._heard_something = threading.Event()
        self._paused = threading.Event()
        self._closed = threading.Event()
        self._moved = threading.Event()
        self._instead = ""
        self._name: str | None = None
        self._gone = False
        self.trouble: DeviceProblem | None = None
        """Why no sound comes from the microphone; None while it does."""
        self._sound_at_s = 0.0
        self._lag = Lag()
        self._told_failed_s = -FAILED_S
        self._told_silent = False
        self._settled = False
        self._link = LinkWatch()
        self._noise = NoiseWatch()

    def wait_until_heard(self, timeout_s: float) -> bool:
        """True once the first sound has come from the microphone."""
        return self._heard_something.wait(timeout_s)

    def moved(self, called: str) -> None:
        """The sound server has put another microphone in this one's place."""
        self._instead = called
        self._moved.set()

    def leave(self) -> None:
        """Stop listening."""
        self._leaving.set()

    def pause(self) -> None:
        """Let the microphone go until `resume`, so that the list of devices can be read afresh."""
        self._closed.clear()
        self._paused.set()
        self._closed.wait(CLOSED_S)

    def resume(self) -> None:
        """Take the microphone up again."""
        self._paused.clear()

    def run(self) -> None:
        """Listen until told to leave."""
        while not self._leaving.is_set():
            if self._paused.is_set():
                self._closed.set()
                self._leaving.wait(0.02)
                continue
            try:
                self._listen_or_look_again()
            except SoundGap:
                continue
            except Exception:  # whatever the recogniser met: nobody is left deaf by it
                log_file.failed("listening failed")
                self._tell_failed()
                self._leaving.wait(AGAIN_S)

    def _listen_or_look_again(self) -> None:
        """Listen; where the microphone has gone, see whether it has come back under another number."""
        try:
            self._listen()
        except SoundGap:
            raise  # no device is away, and the gap has been told
        except DeviceProblem as problem:
            self._tell_once(problem)
            self._leaving.wait(AGAIN_S)
            self._closed.set()
            if not self._leaving.is_set() and not self._paused.is_set():
                self._devices.refresh()

    def _listen(self) -> None:
        """Listen until told not to, or until the microphone goes; then take what had been said by then."""
        self._moved.clear()
        away_s = max(APART_S, now_s() - self.microphone.came_s)
        begun_s = self.ear.clock_s + away_s if self.ear.clock_s else 0.0
        with self.microphone as microphone:
            try:
                for block in microphone:
                    self._hear_block(Block(block.samples, begun_s + block.at_s))
                    if self._leaving.is_set() or self._paused.is_set():
                        break
            except SoundGap as gap:
                self._tell_gap(gap)
                raise
            except DeviceProblem as problem:
                self._tell_once(problem)  # told before it is let go, over which a dead device may take long
                raise
            finally:
                self._put(self.ear.finish(microphone.name))

    def _hear_block(self, block: Block) -> None:
        name = self.microphone.name
        if self._moved.is_set():
            raise DeviceProblem(f"The microphone {name} has gone, and {self._instead} took its place.")
        self._sound_comes(name)
        self._mind_lag()
        self._mind_silence(name, block)
        self._mind_noise(name, block)
        self._put(self.ear.hear_block(block, name))
        self._mind_stop()

    def _put(self, utterances: Iterable[Heard]) -> None:
        for heard in utterances:
            self._inputs.put(HeardFrom(heard, self.speaker, self.ear.sound_of(heard)))
            if heard.is_wordless:
                continue  # only its sound is of use
            self._mind_link(heard)
            self._noise.words_came()

    def _mind_stop(self) -> None:
        """Tell at once that "stop" is being said, and only once each time."""
        if not self.ear.speech_under_way:
            self._settled = False
        elif not self._settled:
            so_far = self.ear.so_far
            self._settled = len(so_far.split()) > MOST_WORDS  # no longer one of them
            if so_far in STOPS:
                self._settled = True
                self._inputs.put(Hush(self.speaker))

    def _mind_lag(self) -> None:
        """Say once that the recogniser can't keep up, as on a machine that others keep busy."""
        if self._lag.tells(now_s() - self.microphone.came_s):
            self._inputs.put(Notice(BEHIND, at_once=True))

    def _mind_silence(self, name: str, block: Block) -> None:
        """Say once that a microphone gives only zeros: a live one is never quite silent, so it is muted."""
        if block.samples.any():
            self._sound_at_s, self._told_silent = block.at_s, False
        elif block.at_s - self._sound_at_s > SILENT_S and not self._told_silent:
            self._told_silent = True
            self._inputs.put(Notice(f"{name} gives nothing but silence. Is it muted?"))

    def _mind_noise(self, name: str, block: Block) -> None:
        if self._noise.measure(block):
            self._inputs.put(Notice(f"Nothing but loud noise comes from {name}. {QUIETER}"))

    def _mind_link(self, heard: Heard) -> None:
        """Tell it when several utterances came over a link that is too poor to be trusted."""
        note = self.ear.is_note(heard)
        fault = self._link.warning(heard.link, note=note, at_s=heard.ended_s or 0.0)
        if fault:
            self._inputs.put(Notice(poor_link(fault).text))

    def _sound_comes(self, name: str) -> None:
        """Name the device at its first sound, when it has been away, and whenever it is another one."""
        if self._gone or self._name != name:
            self._gone, self._name, self.trouble = False, name, None
            self._sound_at_s = self.ear.clock_s
            self._heard_something.set()
            called = self._devices.opened(name)
            rate_hz = self.microphone.device.rate_hz if self.microphone.device else RATE_HZ
            slow = "" if rate_hz >= RATE_HZ else ", which sends telephone sound"
            self._inputs.put(Notice(f"Listening on {called}{slow}."))

    def _tell_gap(self, gap: SoundGap) -> None:
        """Say once that nothing was heard, and name the microphone when sound comes again."""
        self._name = None
        if self.speaker == "director":
            self._inputs.put(Notice(heard_nothing(gap.seconds), at_once=True))

    def _tell_failed(self) -> None:
        self._name = None
        if now_s() - self._told_failed_s >= FAILED_S:
            self._told_failed_s = now_s()
            self._inputs.put(Notice(FAILED, at_once=True))

    def _tell_once(self, problem: DeviceProblem) -> None:
        """Say it; before the first sound, whoever waits for that tells it."""
        self.trouble = problem
        if not self._gone:
            self._gone = True
            if self._heard_something.is_set():
                self._inputs.put(Notice(str(problem), at_once=True))


class Typing(threading.Thread):
    """The keyboard. Typed notes work whatever happens to the microphone. Enter alone stops the voice."""

    def __init__(self, inputs: Inputs, stream: TextIO | None = None) -> None:
        super().__init__(name="typing", daemon=True)
        self._inputs, self._stream = inputs, stream or sys.stdin

    def run(self) -> None:
        """Read a note a line until the input ends."""
        for line in self._stream:
            self._inputs.put(HeardFrom(Heard(text=line.strip() or STOP), "director"))
