"""`voicecoach hear` and `replay` as a user runs them, on the recordings of the first end."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import soundfile

from voicecoach import phrasebook
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.places import scenarios
from voicecoach.story import read_story
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected

FOLDER = scenarios() / "first_end"
STORY = read_story(FOLDER / "story.yaml")
RECORDINGS = [str(FOLDER / step.audio) for step in STORY.steps if step.audio]


def voicecoach(*words: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "voicecoach", *words],
        capture_output=True,
        text=True,
        check=False,
        timeout=1_200,
    )


def objects(output: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in output.splitlines()]


@pytest.fixture(scope="module")
def heard_end(
    model_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, list[dict[str, Any]]]:
    kept = tmp_path_factory.mktemp("end") / "end.jsonl"
    done = voicecoach("hear", *RECORDINGS, "--json", "--journal", str(kept))
    assert done.returncode == 0, done.stderr
    return kept, objects(done.stdout)


def test_every_recording_comes_out_as_its_story_says(
    heard_end: tuple[Path, list[dict[str, Any]]],
) -> None:
    _, lines = heard_end
    assert [line["outcome"] for line in lines] == [step.outcome for step in STORY.steps]
    assert [line["source"] for line in lines] == RECORDINGS
    bowls = {(bowl["side"], bowl["number"]): bowl for bowl in lines[-1]["head"]["bowls"]}
    assert len(bowls) == len(STORY.head)
    for lying in STORY.head:
        bowl = bowls[lying.side, lying.number]
        assert bowl["hour"] == lying.hour
        assert bowl["gap_m"] == pytest.approx(lying.gap_m, abs=0.005)


def test_the_read_back_recognised_again_names_nine_bowls_in_ten_rightly(
    heard_end: tuple[Path, list[dict[str, Any]]], recogniser: Recogniser, tmp_path: Path
) -> None:
    kept, _ = heard_end
    wav = tmp_path / "head.wav"
    done = voicecoach("replay", str(kept), "--json", "--wav", str(wav))
    assert done.returncode == 0, done.stderr
    (replayed,) = objects(done.stdout)
    understanding = Understanding(phrasebook.load())
    ear = Ear(recogniser, lambda text: understanding.is_whole(text, Expected()))
    back = " ".join(heard.text for heard in ear.listen(blocks(wav), "read-back"))
    names = {f"{side} {nth}" for side in ("our", "their") for nth in ("first", "second", "third", "fourth")}
    spoken = [plain(text) for text in replayed["say"] if plain(text).startswith(tuple(names))]
    assert len(spoken) == len(STORY.head)
    assert sum(text in back for text in spoken) >= 0.9 * len(spoken), (spoken, back)


def plain(sentence: str) -> str:
    """A sentence as a recogniser writes it."""
    return "".join(letter for letter in sentence.lower() if letter.isalnum() or letter in "' ")


def test_silence_in_place_of_the_recordings_leaves_nothing_to_read_back(
    model_path: Path, tmp_path: Path
) -> None:
    silences = []
    for recording in RECORDINGS:
        samples, rate_hz = soundfile.read(recording)
        silences.append(str(tmp_path / Path(recording).name))
        soundfile.write(silences[-1], 0 * samples, rate_hz)
    kept = tmp_path / "silence.jsonl"
    done = voicecoach("hear", *silences, "--json", "--journal", str(kept))
    assert (done.returncode, done.stdout) == (0, "")
    (replayed,) = objects(voicecoach("replay", str(kept), "--json").stdout)
    assert replayed["head"]["bowls"] == []
    assert replayed["head"]["holding"] is None


def test_fresh_takes_each_recording_as_a_session_of_its_own(model_path: Path) -> None:
    lines = objects(voicecoach("hear", *RECORDINGS[1:3], "--json", "--fresh").stdout)
    assert [line["turn"] for line in lines] == [1, 1]
    assert [len(line["head"]["bowls"]) for line in lines] == [1, 1]


def test_a_recording_that_cant_be_read_is_named_and_the_others_are_heard(
    model_path: Path, tmp_path: Path
) -> None:
    broken = tmp_path / "broken.wav"
    broken.write_bytes(b"RIFF but nothing more")
    done = voicecoach("hear", str(broken), RECORDINGS[1], "--json")
    assert done.returncode == 5
    assert "broken.wav" in done.stderr
    assert "Traceback" not in done.stderr
    assert [line["outcome"] for line in objects(done.stdout)] == ["noted"]
