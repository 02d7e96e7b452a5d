"""The folder for sound: for its owner alone, whole pairs of files or none, and never among others' files."""

import os
import resource
import stat
from pathlib import Path

import numpy as np
import pytest

from voicecoach.errors import Problem
from voicecoach.hear.blocks import Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.hear.values import Heard
from voicecoach.live.sound_folder import README, KeptSound, SoundFolder
from voicecoach.places import scenarios

SOUND: Samples = np.linspace(-1.5, 1.5, 16_000, dtype=np.float32)


def told(name: str) -> KeptSound:
    return KeptSound(
        sound=name,
        at="2026-12-01T10:00:00+00:00",
        consented_at="2026-12-01T09:00:00+00:00",
        speaker="director",
        microphone="a microphone",
        seconds=1.0,
        heard=Heard(text="our second"),
        outcome="dropped",
    )


def opened(path: Path) -> SoundFolder:
    folder = SoundFolder(path)
    folder.make()
    return folder


def test_nothing_is_made_until_it_is_to_be(tmp_path: Path) -> None:
    SoundFolder(tmp_path / "kept")
    assert list(tmp_path.iterdir()) == []


def test_the_last_sound_or_all_of_the_session_go_and_those_of_another_session_stay(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    first = opened(path)
    first.keep(SOUND, told)
    (path / "19990101-000000-0001.wav").write_bytes(b"of another session")
    for _ in range(2):
        first.keep(SOUND, told)
    assert first.kept == 3
    first.forget(every=False)
    assert len(list(path.glob("*.wav"))) == 3
    first.forget(every=True)
    assert first.kept == 0
    assert {each.name for each in path.iterdir()} == {README, "19990101-000000-0001.wav"}


def test_on_a_full_disk_neither_file_of_a_sound_is_left(tmp_path: Path) -> None:
    folder = opened(tmp_path / "kept")
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, hard))
    try:
        with pytest.raises(Problem, match="can't be kept: the file has reached its largest size"):
            folder.keep(SOUND, told)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert {each.name for each in (tmp_path / "kept").iterdir()} == {README}
    folder.keep(SOUND, told)
    assert folder.kept == 1


def test_a_folder_of_other_files_that_others_can_see_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "desktop"
    path.mkdir(mode=0o755)
    opened(path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o700, "an empty one is closed"
    shared = tmp_path / "shared"
    shared.mkdir(mode=0o755)
    (shared / "letter.txt").write_text("a letter")
    with pytest.raises(Problem, match="Others can look into the folder"):
        SoundFolder(shared)
    assert stat.S_IMODE(shared.stat().st_mode) == 0o755
    with pytest.raises(Problem, match="no folder above it"):
        SoundFolder(tmp_path / "nowhere" / "kept")


def test_files_are_for_their_owner_alone_whatever_the_user_usually_gives(tmp_path: Path) -> None:
    usual = os.umask(0)
    try:
        opened(tmp_path / "kept").keep(SOUND, told)
    finally:
        os.umask(usual)
    modes = {each.name: stat.S_IMODE(each.stat().st_mode) & 0o077 for each in (tmp_path / "kept").iterdir()}
    assert set(modes.values()) == {0}, modes


def test_an_ear_holds_no_sound_unless_it_is_told_to_and_gives_each_away_once(recogniser: Recogniser) -> None:
    recording = scenarios() / "first_end" / "03-theirs.wav"
    ear = Ear(recogniser)
    (heard,) = ear.listen(blocks(recording), "test")
    assert ear.sound_of(heard) is None
    ear.keep_sound(True)
    (heard,) = ear.listen(blocks(recording), "test")
    sound = ear.sound_of(heard)
    assert sound is not None
    assert heard.ended_s is not None
    assert heard.started_s is not None
    assert sound.size / 16_000 >= heard.ended_s - heard.started_s
    assert ear.sound_of(heard) is None
    ear.keep_sound(False)
    (heard,) = ear.listen(blocks(recording), "test")
    assert ear.sound_of(heard) is None
