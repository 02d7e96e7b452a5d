"""Sound is kept after a yes and never without one, all by voice: virtual microphone, real recogniser."""

import json
import stat
import subprocess
import time
import wave
from collections.abc import Iterator, Mapping
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner

from tests.bench.hearing import kept
from tests.games.speaking import keep, spoken
from tests.live.listening_in import Ears
from tests.live.session import LiveSession
from tests.live.test_todays_journal import home
from tests.schemas import schema
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.live.sound_folder import README, read
from voicecoach.places import PACKAGE
from voicecoach.understand.notes.settings import SoundKept

__all__ = ["home"]

ASKED = "Asked. May I keep the sound of what you say"
NOT_KEPT = "No sound is kept."
NOTE = "our second, eighty centimetres, two o'clock"
NOTED = "Noted. Our second: eighty centimetres, two o'clock."


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Path]:
    """Recordings of what is said here, by flite's rms."""
    folder = tmp_path_factory.mktemp("said")
    lines = {
        "yes": "yes",
        "no": "no",
        "note": NOTE,
        "stop": "stop keeping sound",
        "forget": "forget the sound",
    }
    lines |= {"all": "all of it", "last": "the last sound", "that": "forget that"}
    lines["other"] = "their first, one metre, six o'clock"
    for name, words in lines.items():
        keep(spoken("flite rms", words), folder / f"{name}.wav")
    return {name: folder / f"{name}.wav" for name in lines}


def say(sound: VirtualSound, session: LiveSession, recording: Path, comes_to: str) -> str:
    sound.play_into_microphone(recording)
    return session.wait_for(comes_to).text


def sounds(folder: Path) -> list[Path]:
    return sorted(folder.glob("*.wav"))


def every_file(*folders: Path) -> Iterator[Path]:
    for folder in folders:
        yield from (path for path in folder.rglob("*") if path.is_file())


def holds_sound(path: Path) -> bool:
    """True for a file that begins as recordings do: RIFF, FLAC, Ogg (their formats' own first four bytes)."""
    return path.read_bytes()[:4] in (b"RIFF", b"fLaC", b"OggS")


def test_after_a_spoken_yes_each_utterance_is_a_wav_beside_what_came_of_it_and_the_bench_scores_it(
    sound_server: VirtualSound, tmp_path: Path, said: Mapping[str, Path]
) -> None:
    folder = tmp_path / "kept"
    with LiveSession(sound_server, tmp_path / "live.jsonl", "--keep-sound", str(folder)) as session:
        session.wait_for(ASKED)
        assert not folder.exists(), "nothing is there before the yes"
        say(sound_server, session, said["yes"], "Noted. From now on the sound is kept.")
        assert sounds(folder) == []
        say(sound_server, session, said["note"], NOTED)
        session.type("who holds")
        session.wait_for("Answered.")
        assert sum(ASKED in line for line in session.printed) == 1
    (wav,) = sounds(folder)
    told = read(wav.with_suffix(".json"))
    jsonschema.Draft202012Validator(json.loads(schema("kept"))).validate(
        json.loads(wav.with_suffix(".json").read_text(encoding="utf-8"))
    )
    assert (told.outcome, told.speaker, told.say) == ("noted", "director", (NOTED.removeprefix("Noted. "),))
    assert told.note is not None
    assert told.heard.readings
    agreed = SoundKept(value="on", confirmed=True)
    consent = next(entry for entry in journal.read(tmp_path / "live.jsonl")[0] if entry.note == agreed)
    assert told.consented_at == consent.at
    with wave.open(str(wav)) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, 16_000)
        assert file.getnframes() / 16_000 == pytest.approx(told.seconds, abs=0.001)
    assert (folder / README).read_text("utf-8") == (PACKAGE / "guide" / "kept-sound.md").read_text("utf-8")
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert {stat.S_IMODE(path.stat().st_mode) & 0o077 for path in [wav, wav.with_suffix(".json")]} == {0}

    scored = CliRunner().invoke(kept.main, [str(folder)])
    assert scored.exit_code == 1
    assert "NAME.truth.yaml" in scored.output
    meaning = "{kind: bowl_rested, side: ours, number: 2, gap_m: 0.8, hour: 2}"
    truth = wav.with_suffix(".truth.yaml")
    truth.write_text(f"text: {NOTE}\nmeaning: {meaning}\n", encoding="utf-8")
    scored = CliRunner().invoke(kept.main, [str(folder)], catch_exceptions=False)
    assert "director: 1 notes, right at once 100.0 %" in scored.output
    assert "heard again: 1 notes, right at once 100.0 %" in scored.output
    truth.write_text(f"text: {NOTE}\nmeaning: {meaning.replace('hour: 2', 'hour: 3')}\n", encoding="utf-8")
    scored = CliRunner().invoke(kept.main, [str(folder)], catch_exceptions=False)
    assert "director: 1 notes, right at once 0.0 %, wrong 100.0 %" in scored.output
    assert "heard again: 1 notes, right at once 0.0 %, wrong 100.0 %" in scored.output


def test_by_voice_keeping_ends_and_what_was_kept_is_deleted(
    sound_server: VirtualSound, tmp_path: Path, said: Mapping[str, Path]
) -> None:
    folder = tmp_path / "kept"
    with LiveSession(sound_server, tmp_path / "live.jsonl", "--keep-sound", str(folder)) as session:
        session.wait_for(ASKED)
        session.type("yes")
        session.wait_for("the sound is kept.")
        say(sound_server, session, said["note"], NOTED)
        say(sound_server, session, said["that"], "Asked. Take back the note, or delete the last sound")
        session.type("the last sound")  # that of "forget that" itself
        session.wait_for("Noted. The last sound is deleted.")
        assert [read(path.with_suffix(".json")).outcome for path in sounds(folder)] == ["noted"]
        say(sound_server, session, said["forget"], "Asked. Delete the last sound, or all of it?")
        say(sound_server, session, said["all"], "Noted. All sound of this session is deleted.")
        session.type("forget the sound")
        session.wait_for("Asked. Delete the last sound")
        session.type("all of it")
        session.wait_for("Noted. All sound of this session is deleted.")
        assert {path.name for path in every_file(folder)} == {README}
        say(sound_server, session, said["stop"], f"Noted. {NOT_KEPT}")
        kept_by_then = sounds(folder)
        say(sound_server, session, said["note"], NOTED)
        assert sounds(folder) == kept_by_then
        session.type("keep the sound")
        session.wait_for(ASKED)
        session.type("yes")
        session.wait_for("the sound is kept.")


@pytest.mark.parametrize("answer", ["no", "note", None])
def test_a_no_another_note_and_silence_all_keep_nothing_and_that_is_told_once(
    sound_server: VirtualSound, tmp_path: Path, said: Mapping[str, Path], answer: str | None
) -> None:
    folder = tmp_path / "kept"
    with LiveSession(sound_server, tmp_path / "live.jsonl", "--keep-sound", str(folder)) as session:
        session.wait_for(ASKED)
        if answer:
            sound_server.play_into_microphone(said[answer])
        session.wait_for(NOT_KEPT)
        session.type("their first, a metre, six o'clock")
        session.wait_for("Noted. Their first")
        session.type("who holds")
        session.wait_for("Answered.")
        time.sleep(3)
        told = [line for line in session.printed if NOT_KEPT in line or ASKED in line]
        assert len(told) == 2, "asked once, told once"
    assert not folder.exists()
    assert not any(map(holds_sound, every_file(tmp_path)))


def test_without_the_option_no_sound_is_asked_for_or_written_anywhere(
    sound_server: VirtualSound, tmp_path: Path, home: Mapping[str, str], said: Mapping[str, Path]
) -> None:
    temporary = tmp_path / "temporary"
    temporary.mkdir()
    places = {**home, "TMPDIR": str(temporary), "HOME": str(tmp_path / "home")}
    with LiveSession(sound_server, tmp_path / "live.jsonl", environment=places) as session:
        say(sound_server, session, said["note"], NOTED)
        session.type("keep the sound")
        refused = session.wait_for("Refused. ").text
        own_voice = {path for path in every_file(temporary) if holds_sound(path)}
        assert set(filter(holds_sound, every_file(tmp_path))) == own_voice
    assert "Sound can only be kept where" in refused
    assert not any("May I keep" in line for line in session.printed)
    assert not any(map(holds_sound, every_file(tmp_path))), "the voice leaves none of its own either"


def test_unattended_it_asks_aloud_and_a_spoken_yes_is_enough(
    sound_server: VirtualSound, tmp_path: Path, home: Mapping[str, str], said: Mapping[str, Path]
) -> None:
    folder = tmp_path / "kept"
    options = ("--unattended", "--keep-sound", str(folder))
    with sound_server.record_headphones() as recording:
        session = LiveSession(sound_server, None, *options, keyboard=subprocess.DEVNULL, environment=home)
        with session:
            begin = Ears(recording).now()
            session.wait_for(ASKED)
            Ears(recording).wait_until_over(begin, 1.0)
            say(sound_server, session, said["yes"], "the sound is kept.")
            say(sound_server, session, said["note"], NOTED)
    assert [read(path.with_suffix(".json")).outcome for path in sounds(folder)] == ["noted"]


def test_a_folder_that_goes_is_told_once_and_the_game_goes_on(
    sound_server: VirtualSound, tmp_path: Path, said: Mapping[str, Path]
) -> None:
    folder = tmp_path / "kept"
    with LiveSession(sound_server, tmp_path / "live.jsonl", "--keep-sound", str(folder)) as session:
        session.wait_for(ASKED)
        session.type("yes")
        session.wait_for("the sound is kept.")
        folder.rename(tmp_path / "gone")
        say(sound_server, session, said["note"], NOTED)
        session.wait_for("The sound can't be kept: its folder is not there.")
        session.type("take that back")
        session.wait_for("Noted. Taken back")
        say(sound_server, session, said["other"], "Noted. Their first: one metre, six o'clock.")
        session.type("who holds")
        session.wait_for("Answered.")
        assert sum("The sound can't be kept" in line for line in session.printed) == 1
    assert sounds(tmp_path / "gone") == []
