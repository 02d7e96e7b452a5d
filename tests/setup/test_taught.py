"""Weights that were taught noise are laid over the model, checked, and taken off again."""

import hashlib
import json
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from tests.setup.conftest import CONTENT, manifest_of, use
from voicecoach import model_store
from voicecoach.commands.setup import command
from voicecoach.errors import ModelProblem
from voicecoach.model_store.manifest import ModelFile, Taught, load
from voicecoach.model_store.taught import laid_over, packed

SOUNDS = CONTENT["am/final.mdl"]
PLACES = [(0, 4), (1_000, 100)]
WEIGHTS = packed(PLACES, np.arange(104).astype(np.float16))


def listed(path: str, data: bytes) -> ModelFile:
    return ModelFile(path=path, size_bytes=len(data), sha256=hashlib.sha256(data).hexdigest())


@pytest.fixture
def taught(store: Path, aar: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the tiny model with taught weights goes; the weights lie beside the manifest."""
    (tmp_path / "tiny.weights").write_bytes(WEIGHTS)
    given = Taught(
        name="tiny-taught",
        title="A tiny model, taught",
        made_by="The tests",
        licence="Apache-2.0",
        origin="",
        weights=listed("tiny.weights", WEIGHTS),
        changed=listed("am/final.mdl", laid_over(SOUNDS, WEIGHTS)),
    )
    manifest = manifest_of(aar, "http://127.0.0.1:9/tiny-model.zip").model_copy(update={"taught": given})
    use(manifest, tmp_path, monkeypatch)
    return store / "tiny-taught"


def test_set_up_lays_them_over_when_asked_to_and_that_model_is_used(
    store: Path, aar: Path, taught: Path
) -> None:
    assert model_store.fetch(str(aar)) == store / "tiny-model" == model_store.model_path()
    assert model_store.fetch(noise=True) == taught == model_store.model_path()
    assert model_store.fetch() == taught == model_store.model_path()
    assert (taught / "am" / "final.mdl").read_bytes() == laid_over(SOUNDS, WEIGHTS) != SOUNDS
    assert (taught / "graph" / "Gr.fst").read_bytes() == CONTENT["graph/Gr.fst"]
    assert (store / "tiny-model" / "am" / "final.mdl").read_bytes() == SOUNDS
    assert not model_store.wrong_with(taught)


def test_every_weight_is_moved_by_its_difference_and_nothing_else_changes() -> None:
    made = laid_over(SOUNDS, WEIGHTS)
    before, after = (np.frombuffer(one, "<f4", 100, 1_000) for one in (SOUNDS, made))
    assert np.array_equal(after, before + np.arange(4, 104, dtype=np.float32))
    assert made[16:1_000] == SOUNDS[16:1_000]
    assert made[1_400:] == SOUNDS[1_400:]


def test_the_original_is_gone_back_to_and_may_be_taught_again(
    store: Path, aar: Path, taught: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    model_store.fetch(str(aar), noise=True)
    assert model_store.fetch(noise=False) == store / "tiny-model" == model_store.model_path()
    assert not taught.exists()
    assert "as its makers made it" in capsys.readouterr().err
    assert model_store.fetch() == store / "tiny-model"
    assert model_store.fetch(noise=True) == taught == model_store.model_path()


def test_the_command_has_an_option_for_it(store: Path, aar: Path, taught: Path) -> None:
    done = CliRunner().invoke(command, ["--model", str(aar), "--noise-model"])
    assert done.exit_code == 0, done.output
    assert model_store.model_path() == taught
    assert CliRunner().invoke(command, ["--original-model"]).exit_code == 0
    assert model_store.model_path() == store / "tiny-model"


def test_a_model_that_was_there_before_is_taught_without_being_fetched(
    store: Path, aar: Path, taught: Path
) -> None:
    model_store.fetch(str(aar))
    before = (store / "tiny-model").stat().st_ino
    assert model_store.fetch(noise=True) == taught
    assert (store / "tiny-model").stat().st_ino == before


def test_taught_weights_that_are_damaged_are_refused_and_the_original_stays_in_use(
    store: Path, aar: Path, taught: Path, tmp_path: Path
) -> None:
    (tmp_path / "tiny.weights").write_bytes(WEIGHTS[:-1] + b"?")
    with pytest.raises(ModelProblem, match=r"tiny\.weights doesn't match"):
        model_store.fetch(str(aar), noise=True)
    assert not taught.exists()
    assert model_store.model_path() == store / "tiny-model"


def test_a_taught_model_that_is_damaged_is_made_anew(aar: Path, taught: Path) -> None:
    model_store.fetch(str(aar), noise=True)
    (taught / "am" / "final.mdl").write_bytes(b"?" * len(SOUNDS))
    assert "am/final.mdl doesn't match" in model_store.wrong_with(taught)[0]
    assert model_store.fetch() == taught
    assert not model_store.wrong_with(taught)


@pytest.mark.parametrize(
    "weights",
    [
        b"",
        b"something else",
        WEIGHTS[:60],
        WEIGHTS[:-8],
        packed([(0, 5)], np.zeros(4, np.float16)),
        packed([(len(SOUNDS) - 4, 2)], np.zeros(2, np.float16)),
        packed([(-4, 2)], np.zeros(2, np.float16)),
    ],
    ids=["empty", "no weights", "cut early", "cut late", "too few", "past the end", "before the beginning"],
)
def test_what_is_no_file_of_weights_for_this_model_is_refused(weights: bytes) -> None:
    with pytest.raises(ModelProblem, match=r"no file of taught weights|has no \d+ weights at byte"):
        laid_over(SOUNDS, weights)


def test_the_manifest_says_whose_they_are(model_path: Path) -> None:
    given = load().taught
    assert given is not None
    assert given.licence == "Apache-2.0"
    assert "python -m tests.bench.lesson" in given.origin
    assert json.loads(given.model_dump_json())["weights"]["path"] == "outdoors.weights"
    assert not model_store.wrong_with(model_path)
