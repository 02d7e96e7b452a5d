"""Which headphones there are; the sound library is loaded only when one is wanted."""

from __future__ import annotations

import importlib
from typing import Any

from voicecoach.errors import DeviceProblem
from voicecoach.value import Value

RATES_HZ = (48_000, 44_100, 16_000, 8_000)
"""Tried after the device's own: what the list gives as that isn't always what the device takes."""


class Device(Value):
    """Headphones, and how they are opened."""

    index: int
    """Their number in the sound library's list."""
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
            "Speech can still be saved to a file, and everything is printed."
        ) from problem


def headphones() -> list[str]:
    """The names of all headphones and loudspeakers."""
    library = sound_library()
    return [str(one["name"]) for one in library.query_devices() if one["max_output_channels"] > 0]


def look_again() -> None:
    """Read the list of devices afresh; PortAudio never does so itself.

    Every open stream of the process ends with it: close microphone and headphones first.
    """
    library = sound_library()
    library._terminate()
    library._initialize()


def named(library: Any, wanted: str | None) -> Device:
    """The headphones of this name (or a part of it that only one has), or the default."""
    try:
        found = list(library.query_devices())
    except library.PortAudioError as problem:
        raise DeviceProblem(f"The sound system doesn't answer: {problem}.") from problem
    one = found[_default(library) if wanted is None else _index(found, wanted)]
    index, channels, own_hz = (
        int(one["index"]),
        min(int(one["max_output_channels"]), 2),
        int(one["default_samplerate"]),
    )
    rate_hz = next((each for each in (own_hz, *RATES_HZ) if _takes(library, index, channels, each)), own_hz)
    return Device(index=index, name=str(one["name"]), rate_hz=rate_hz, channels=channels)


def _takes(library: Any, index: int, channels: int, rate_hz: int) -> bool:
    try:
        library.check_output_settings(device=index, channels=channels, dtype="float32", samplerate=rate_hz)
    except library.PortAudioError:
        return False
    return True


def _default(library: Any) -> int:
    try:
        return int(library.query_devices(kind="output")["index"])
    except (library.PortAudioError, ValueError) as problem:
        raise DeviceProblem("There are no headphones. Plug some in; until then all is printed.") from problem


def _index(found: list[Any], wanted: str) -> int:
    outputs = [one for one in found if one["max_output_channels"] > 0]
    exact = [one for one in outputs if one["name"] == wanted]
    alike = exact or [one for one in outputs if wanted.casefold() in str(one["name"]).casefold()]
    names = "; ".join(str(one["name"]) for one in (alike or outputs)) or "none"
    if not alike:
        raise DeviceProblem(f"There are no headphones called {wanted}. There are: {names}.")
    if not exact and len(alike) > 1:
        raise DeviceProblem(f"More than one pair of headphones is called {wanted}: {names}. Say which.")
    return int(alike[0]["index"])
