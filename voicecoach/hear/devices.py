"""Which microphones there are; the sound library is loaded only when one is wanted."""

from __future__ import annotations

import importlib
from typing import Any

from voicecoach.errors import DeviceProblem
from voicecoach.hear.blocks import RATE_HZ
from voicecoach.value import Value


class Device(Value):
    """A microphone, and how it is opened."""

    index: int
    """Its number in the sound library's list."""
    name: str
    rate_hz: int
    channels: int


def sound_library() -> Any:
    """Load sounddevice; where PortAudio is missing, say what to install."""
    try:
        return importlib.import_module("sounddevice")
    except OSError as problem:
        raise DeviceProblem(
            "The sound library PortAudio is missing. On Debian: apt-get install libportaudio2. "
            "Recordings and typed notes work without it."
        ) from problem


def microphones() -> list[str]:
    """The names of all microphones."""
    library = sound_library()
    return [str(one["name"]) for one in library.query_devices() if one["max_input_channels"] > 0]


def look_again() -> None:
    """Read the list of devices afresh; PortAudio never does so itself.

    Every open stream of the process ends with it: close microphone and headphones first.
    """
    library = sound_library()
    library._terminate()
    library._initialize()


def named(library: Any, wanted: str | None) -> Device:
    """The microphone of this name (or a part of it that only one has), or the default."""
    try:
        found = list(library.query_devices())
    except library.PortAudioError as problem:
        raise DeviceProblem(f"The sound system doesn't answer: {problem}.") from problem
    index = _default(library) if wanted is None else _index(found, wanted)
    one = found[index]
    channels = min(int(one["max_input_channels"]), 2)
    return Device(
        index=index, name=str(one["name"]), rate_hz=_rate(library, index, channels, one), channels=channels
    )


def _default(library: Any) -> int:
    try:
        return int(library.query_devices(kind="input")["index"])
    except (library.PortAudioError, ValueError) as problem:
        raise DeviceProblem("There is no microphone. Plug one in, or work from recordings.") from problem


def _index(found: list[Any], wanted: str) -> int:
    inputs = [one for one in found if one["max_input_channels"] > 0]
    exact = [one for one in inputs if one["name"] == wanted]
    alike = exact or [one for one in inputs if wanted.casefold() in str(one["name"]).casefold()]
    if not alike:
        names = "; ".join(str(one["name"]) for one in inputs) or "none"
        raise DeviceProblem(f"There is no microphone called {wanted}. There are: {names}.")
    if not exact and len(alike) > 1:
        names = "; ".join(str(one["name"]) for one in alike)
        raise DeviceProblem(f"More than one microphone is called {wanted}: {names}. Say which.")
    return int(alike[0]["index"])


def _rate(library: Any, index: int, channels: int, one: Any) -> int:
    """16 kHz where the device has it, so that nothing need be resampled; else its own rate."""
    try:
        library.check_input_settings(device=index, channels=channels, dtype="float32", samplerate=RATE_HZ)
    except library.PortAudioError:
        return int(one["default_samplerate"])
    return RATE_HZ
