"""A microphone that is opened while the program is loaded: its first sound is there when it is taken up."""

import time
from itertools import takewhile

import numpy as np
import pytest

from tests.virtual_sound import VirtualSound
from voicecoach.errors import DeviceProblem
from voicecoach.live.early import EarlyMicrophone
from voicecoach.places import scenarios

NOTE = scenarios() / "first_end" / "03-theirs.wav"


def test_what_comes_before_it_is_taken_up_is_not_lost_and_later_it_opens_anew(
    sound_server: VirtualSound,
) -> None:
    early = EarlyMicrophone(sound_server.microphone)
    time.sleep(2.5)  # until the sound server gives its first sound
    sound_server.play_into_microphone(NOTE)
    with early as microphone:
        assert microphone.device is not None
        before = microphone.stream.active
        heard = list(takewhile(lambda block: block.at_s < 4, microphone))
    assert before
    assert np.abs(np.concatenate([block.samples for block in heard])).max() > 0.05
    assert not early.stream.active
    with early as microphone:
        assert next(iter(microphone)).at_s == 0


def test_a_microphone_that_is_missing_is_told_where_it_is_taken_up(sound_server: VirtualSound) -> None:
    early = EarlyMicrophone("nonesuch")
    with pytest.raises(DeviceProblem, match=sound_server.microphone), early:
        pass


def test_one_that_nobody_takes_up_is_let_go(sound_server: VirtualSound) -> None:
    early = EarlyMicrophone(sound_server.microphone)
    early.let_go()
    assert not early.stream.active
