"""Which microphones and headphones there are; the sound library is loaded only when one is wanted."""

from __future__ import annotations

import importlib
from typing import Any, Literal, NamedTuple

from voicecoach.errors import DeviceProblem
from voicecoach.value import Value


class Kind(NamedTuple):
    """One of the two kinds of device, and what is said about it."""

    way: Literal["input", "output"]
    missing: str
    called: str
    """Before the name that nothing has."""
    several: str
    """Before the name that more than one has."""
    first_hz: tuple[int, ...] = ()
    """Rates that are tried before the device's own."""
    then_hz: tuple[int, ...] = ()
    """Rates that are tried after it, since the rate in the list isn't always one that the device takes."""


MICROPHONE = Kind(
    "input",
    "There is no microphone. Plug one in, or work from recordings.",
    "There is no microphone called",
    "More than one microphone is called",
    first_hz=(16_000,),  # the recogniser's own rate, at which nothing need be resampled
)
HEADPHONES = Kind(
    "output",
    "There are no headphones. Plug some in. Until then everything is printed.",
    "There are no headphones called",
    "More than one pair of headphones is called",
    then_hz=(48_000, 44_100, 16_000, 8_000),
)


class Device(Value):
    """A device, and how it is opened."""

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
            "The sound library PortAudio is missing. On Debian: apt-get install libportaudio2. Recordings "
            "and typed notes work without it, and what would be spoken is printed or saved to a file."
        ) from problem


def names(kind: Kind) -> list[str]:
    """The names of all devices of a kind."""
    return [str(one["name"]) for one in _of(sound_library().query_devices(), kind)]


def look_again() -> None:
    """Read the list of devices afresh, which PortAudio never does by itself.

    This ends every open stream of the process, so close microphone and headphones first. Raises
    DeviceProblem where the sound system can't be started again now.
    """
    library = sound_library()
    try:
        library._terminate()
        library._initialize()
    except library.PortAudioError as problem:
        raise DeviceProblem(f"The sound system doesn't answer: {problem}.") from problem


def named(library: Any, kind: Kind, wanted: str | None) -> Device:
    """The device of this name (or a part of it that only one has), or the default."""
    try:
        found = list(library.query_devices())
    except library.PortAudioError as problem:
        raise DeviceProblem(f"The sound system doesn't answer: {problem}.") from problem
    one = found[_default(library, kind) if wanted is None else _index(_of(found, kind), kind, wanted)]
    index, channels = int(one["index"]), min(_channels(one, kind), 2)
    own_hz = int(one["default_samplerate"])
    tried = (*kind.first_hz, own_hz, *kind.then_hz)
    rate_hz = next((each for each in tried if _takes(library, kind, index, channels, each)), own_hz)
    return Device(index=index, name=str(one["name"]), rate_hz=rate_hz, channels=channels)


def _of(found: Any, kind: Kind) -> list[Any]:
    return [one for one in found if _channels(one, kind) > 0]


def _channels(one: Any, kind: Kind) -> int:
    return int(one[f"max_{kind.way}_channels"])


def _takes(library: Any, kind: Kind, index: int, channels: int, rate_hz: int) -> bool:
    check = getattr(library, f"check_{kind.way}_settings")
    try:
        check(device=index, channels=channels, dtype="float32", samplerate=rate_hz)
    except library.PortAudioError:
        return False
    return True


def _default(library: Any, kind: Kind) -> int:
    try:
        return int(library.query_devices(kind=kind.way)["index"])
    except (library.PortAudioError, ValueError) as problem:
        raise DeviceProblem(kind.missing) from problem


def _index(found: list[Any], kind: Kind, wanted: str) -> int:
    exact = [one for one in found if one["name"] == wanted]
    alike = exact or [one for one in found if wanted.casefold() in str(one["name"]).casefold()]
    listed = "; ".join(str(one["name"]) for one in (alike or found)) or "none"
    if not alike:
        raise DeviceProblem(f"{kind.called} {wanted}. There are: {listed}.")
    if not exact and len(alike) > 1:
        raise DeviceProblem(f"{kind.several} {wanted}: {listed}. Say which.")
    return int(alike[0]["index"])
