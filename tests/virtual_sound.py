"""A private sound server with a virtual microphone and virtual headphones.

It has a folder, a socket and a sound configuration of its own, which only this process and its
children see, through their environment; nothing outside that folder is touched.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
import wave
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

READY_S = 120.0
RATE_HZ = 48_000
ENDS_WITH_US = ["setpriv", "--pdeathsig", "TERM"] if shutil.which("setpriv") else []
"""A test run that is killed leaves no sound server behind."""

ALSA = """
</usr/share/alsa/alsa.conf>
pcm.microphone {{ type pulse server "{server}" device "spoken.monitor" }}
pcm.headphones {{ type pulse server "{server}" device "headphones" }}
pcm.earpiece {{ type pulse server "{server}" device "earpiece" }}
"""
"""PortAudio sees the server's devices under these names; the plugin is in libasound2-plugins."""


class NoSoundServer(Exception):
    """The sound server didn't start or didn't answer; the message says why."""


class Recording:
    """What arrives in the headphones while its block runs."""

    def __init__(self, wav: Path, plays: Callable[[], bool]) -> None:
        self.wav = wav
        """A WAV file, stereo, 48 kHz, 16 bit; written when the block ends."""
        self.plays = plays
        """True while a program has a stream open to the headphones, though it may be late with its sound."""


class VirtualSound:
    """The server and its devices."""

    microphone = "microphone"
    """The virtual microphone's name, for sounddevice: it hears what is played into it."""
    headphones = "headphones"
    """The virtual headphones' name, for sounddevice: what they play can be recorded."""
    earpiece = "earpiece"
    """A second pair, which nobody records."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.server = f"unix:{folder}/socket"
        self.modules: dict[str, str] = {}
        self.process: subprocess.Popen[bytes] | None = None
        self.environment = {
            "ALSA_CONFIG_PATH": str(folder / "alsa.conf"),
            "PULSE_COOKIE": str(folder / "cookie"),
            "PULSE_RUNTIME_PATH": str(folder),
            "PULSE_SERVER": self.server,
            "PULSE_STATE_PATH": str(folder),
            "XDG_RUNTIME_DIR": str(folder),
        }

    def start(self) -> None:
        """Start the server and plug its devices in."""
        if not (shutil.which("pulseaudio") and shutil.which("pactl")):
            raise NoSoundServer("pulseaudio or pactl is missing: apt-get install pulseaudio pulseaudio-utils")
        (self.folder / "alsa.conf").write_text(ALSA.format(server=self.server))
        socket = (
            f"module-native-protocol-unix auth-anonymous=1 auth-cookie-enabled=0 socket={self.folder}/socket"
        )
        order = [*ENDS_WITH_US, "pulseaudio", "-n", "--daemonize=no", "--use-pid-file=no"]
        order += ["--exit-idle-time=-1", "-L", socket]
        environment = {name: value for name, value in os.environ.items() if name != "PULSE_SERVER"}
        environment |= {name: value for name, value in self.environment.items() if name != "PULSE_SERVER"}
        with (self.folder / "log").open("w") as log:
            self.process = subprocess.Popen(
                order, env=environment, stdin=subprocess.DEVNULL, stdout=log, stderr=log
            )
        self._wait_until_it_answers()
        for device in (self.earpiece, self.microphone, self.headphones):
            self.plug_in(device)

    def _wait_until_it_answers(self) -> None:
        deadline = time.monotonic() + READY_S
        while time.monotonic() < deadline and self.process and self.process.poll() is None:
            if self._control("info").returncode == 0:
                return
            time.sleep(0.05)
        log = (self.folder / "log").read_text().strip()
        self.stop()
        raise NoSoundServer(f"pulseaudio didn't start; it said: {log or 'nothing'}")

    def stop(self) -> None:
        """End the server, as if it had died; start() brings it back."""
        self.modules.clear()
        if self.process and self.process.poll() is None:
            self.process.terminate()
            try:
                self.process.wait(timeout=20)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()

    def plug_in(self, device: str) -> None:
        """Bring one of the devices (back)."""
        sink = _sink(device)
        loaded = self._control("load-module", "module-null-sink", f"sink_name={sink}", f"rate={RATE_HZ}")
        if loaded.returncode:
            raise NoSoundServer(f"the virtual {device} couldn't be made: {loaded.stderr.strip()}")
        self.modules[device] = loaded.stdout.strip()
        default = (
            ("set-default-sink", sink)
            if device != self.microphone
            else ("set-default-source", f"{sink}.monitor")
        )
        self._control(*default)

    def wait_until_it_hears(self) -> None:
        """Wait until the microphone gives sound: one just plugged in gives nobody any for two seconds."""
        order = ["parec", "--device=spoken.monitor", "--latency-msec=20"]
        environment = {**os.environ, **self.environment}
        with subprocess.Popen(order, env=environment, stdout=subprocess.PIPE) as recorder:
            assert recorder.stdout is not None
            first = recorder.stdout.read(1)
            recorder.terminate()
        if not first:
            raise NoSoundServer("nothing can be recorded from the virtual microphone")

    def unplug(self, device: str) -> None:
        """Take one of the devices away."""
        self._control("unload-module", self.modules.pop(device))

    def _control(self, *words: str) -> "subprocess.CompletedProcess[str]":
        environment = {**os.environ, **self.environment}
        return subprocess.run(
            ["pactl", *words], env=environment, capture_output=True, text=True, check=False, timeout=READY_S
        )

    def play_into_microphone(self, wav: Path) -> None:
        """Play a recording so that the virtual microphone hears it; returns when it has ended."""
        environment = {**os.environ, **self.environment}
        order = ["paplay", "--device=spoken", str(wav)]
        played = subprocess.run(order, env=environment, capture_output=True, text=True, check=False)
        if played.returncode:
            raise NoSoundServer(f"{wav} couldn't be played: {played.stderr.strip()}")

    @contextmanager
    def record_headphones(self) -> Iterator[Recording]:
        """Record what arrives in the headphones while the block runs."""
        handle, name = tempfile.mkstemp(suffix=".wav", dir=self.folder)
        os.close(handle)
        raw = Path(name).with_suffix(".raw")
        order = [
            "parec",
            "--device=headphones.monitor",
            "--format=s16le",
            f"--rate={RATE_HZ}",
            "--channels=2",
        ]
        environment = {**os.environ, **self.environment}
        with raw.open("wb") as stream:
            recorder = subprocess.Popen([*order, "--latency-msec=20"], env=environment, stdout=stream)
            try:
                _wait_for_first_bytes(raw, recorder)
                yield Recording(Path(name), self._plays)
                time.sleep(0.3)
            finally:
                recorder.terminate()
                recorder.wait()
        with wave.open(name, "wb") as file:
            file.setparams((2, 2, RATE_HZ, 0, "NONE", "not compressed"))
            file.writeframes(raw.read_bytes())

    def _plays(self) -> bool:
        sinks = dict(line.split("\t")[:2][::-1] for line in self._listed("sinks"))
        return any(line.split("\t")[1] == sinks.get("headphones") for line in self._listed("sink-inputs"))

    def _listed(self, what: str) -> list[str]:
        return self._control("list", "short", what).stdout.splitlines()

    @contextmanager
    def leaking_headphones(self) -> Iterator[None]:
        """The microphone hears what the headphones play while the block runs, as open ones beside it do."""
        leak = ("source=headphones.monitor", "sink=spoken", "latency_msec=20")
        loaded = self._control("load-module", "module-loopback", *leak)
        if loaded.returncode:
            raise NoSoundServer(f"the headphones can't be made to leak: {loaded.stderr.strip()}")
        try:
            yield
        finally:
            self._control("unload-module", loaded.stdout.strip())


def _sink(device: str) -> str:
    return {"microphone": "spoken", "headphones": "headphones", "earpiece": "earpiece"}[device]


def _wait_for_first_bytes(raw: Path, recorder: "subprocess.Popen[bytes]") -> None:
    """The first capture on a fresh server delivers nothing for a while."""
    deadline = time.monotonic() + READY_S
    while raw.stat().st_size == 0:
        if time.monotonic() > deadline or recorder.poll() is not None:
            raise NoSoundServer("nothing can be recorded from the virtual headphones")
        time.sleep(0.02)


def look_again_for_devices() -> None:
    """Make sounddevice, if this process has it loaded, see the devices that are there now."""
    if "sounddevice" in sys.modules:
        sounddevice = sys.modules["sounddevice"]
        sounddevice._terminate()
        sounddevice._initialize()
