"""The first sound of the microphones: one that gives none, or refuses, is told before all else."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from voicecoach.errors import DeviceProblem, DeviceRefused
from voicecoach.live.inputs import Listening, Notice
from voicecoach.sound.clock import now_s

FIRST_SOUND_S = 6.0
"""How long the first sound of a microphone may take: a sound server that has just started needs 2 s."""
TRIED_S = 15.0
"""How long a microphone that refuses at first is tried again: the sound server of a busy machine may."""
LOOK_S = 0.1
AGAIN = "It is tried again for fifteen seconds."
LATE = "No sound comes from the microphone yet. It has fifteen seconds more."
"""A sound server that has only just been started with the machine, or a busy one, takes its time."""
SILENT = "No sound comes from the microphone. Plug it in, or choose another with --microphone."


def begin(ears: Sequence[Listening], tell: Callable[[Notice], None]) -> None:
    """Start to listen, and wait until each microphone gives sound.

    Args:
        ears: The microphones.
        tell: Says a notice aloud: that a microphone refuses, and is tried again.

    Raises:
        DeviceProblem: One of them gives no sound.
    """
    for ear in ears:
        ear.start()
    for ear in ears:
        _wait_for_sound(ear, tell)


def _wait_for_sound(ear: Listening, tell: Callable[[Notice], None]) -> None:
    told, until_s = False, now_s() + FIRST_SOUND_S
    while not ear.wait_until_heard(LOOK_S):
        refused, late = isinstance(ear.trouble, DeviceRefused), now_s() > until_s
        if not told and (refused or (late and ear.trouble is None)):
            told, until_s = True, now_s() + TRIED_S
            tell(Notice(f"{ear.trouble} {AGAIN}" if refused else LATE, at_once=True))
        elif late:
            raise DeviceProblem(str(ear.trouble or SILENT))
