"""A speech model that isn't the manifest's: made of the real one, with words taken out of its list."""

import shutil
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from voicecoach import checks, kept_book, model_store, phrasebook, places
from voicecoach.commands.setup import command
from voicecoach.errors import ModelProblem
from voicecoach.hear.blocks import Samples
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.resampling import ToMono16k
from voicecoach.hear.values import Heard
from voicecoach.model_store import another, manifest
from voicecoach.model_trial import instead, lacking
from voicecoach.speak.voice import Voice
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked

OWN = "VOICECOACH_MODEL"
TAKEN_OUT = {
    b"jack": b"jxckal",
    b"metre": b"mxtre",
    b"shall": b"shxll",
    b"nearest": b"nxarest",
    b"knocked": b"knxcked",
    b"eleven": b"exeven",
}
"""Words of the model, and what stands in its list in their place: nothing that anybody says."""


def _without(symbols: bytes, words: dict[bytes, bytes]) -> bytes:
    """A graph whose list of words has other spellings: each is its length in four bytes, and its letters."""
    for word, other in words.items():
        before = len(word).to_bytes(4, "little") + word
        assert before in symbols, word
        symbols = symbols.replace(before, len(other).to_bytes(4, "little") + other)
    return symbols


@pytest.fixture(scope="module")
def given(model_path: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The real model under another name, without some words."""
    folder = tmp_path_factory.mktemp("given") / "vosk-model-of-elsewhere"
    shutil.copytree(model_path, folder)
    graph = folder / "graph" / "Gr.fst"
    graph.write_bytes(_without(graph.read_bytes(), TAKEN_OUT))
    return folder


@pytest.fixture
def place(model_path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A place for models of its own, with the manifest's model in it."""
    store = tmp_path / "models"
    store.mkdir()
    name = manifest.load().name
    shutil.copytree(places.models() / name, store / name)
    monkeypatch.setattr(places, "models", lambda: store)
    monkeypatch.delenv(OWN, raising=False)
    return store


def test_a_model_with_a_graph_for_phrase_lists_is_taken_tried_and_gone_back_from(
    given: Path, place: Path
) -> None:
    done = CliRunner().invoke(command, ["--model", str(given)])
    assert done.exit_code == 0, done.output
    assert model_store.model_path() == place / "another"
    assert "vosk-model-of-elsewhere is used in place of the one that comes with the program" in done.output
    assert "Every measured figure in the guides is another model's" in done.output
    assert "eleven is heard as exeven" in done.output
    assert "jack" in done.output.split("It can't hear these words at all: ")[1].split(".")[0]
    assert "metre" not in done.output.replace("centimetre", ""), "its other spelling is known"

    other = another.used()
    assert other is not None
    assert "eighty" in other.trial.heard
    assert {*other.trial.instead, *other.trial.unheard} >= {"jack", "nearest"}
    assert kept_book.load().misheard == [], "the slips are another model's"
    assert "vosk-model-of-elsewhere is used" in checks._model()
    assert not model_store.wrong_with(model_store.model_path())

    again = CliRunner().invoke(command, [])
    assert again.exit_code == 0, again.output
    assert "vosk-model-of-elsewhere" in again.output

    back = CliRunner().invoke(command, ["--original-model"])
    assert back.exit_code == 0, back.output
    assert model_store.model_path() == place / manifest.load().name
    assert not (place / "another").exists()
    assert kept_book.load().misheard == phrasebook.load().misheard


def test_a_word_it_lacks_is_known_again_by_what_it_writes_instead(given: Path, place: Path) -> None:
    """The graph still has the sound of "eleven", under letters that are no word of the book."""
    model_store.fetch(str(given), tell=lambda line: None)
    other = another.used()
    assert other is not None
    assert other.trial.instead["eleven"] == "exeven"
    book = kept_book.load()
    heard = Recogniser(model_store.model_path(), book).hear(
        _spoken("their second, one metre, eleven o'clock")
    )
    assert "exeven" in heard.text
    meant = Understanding(book).read(heard, Expected())
    typed = Understanding(phrasebook.load()).read(
        Heard(text="their second, one metre, eleven o'clock"), Expected()
    )
    assert isinstance(meant, Ranked)
    assert isinstance(typed, Ranked)
    assert meant.notes[0] == typed.notes[0]


def _spoken(words: str) -> Samples:
    with Voice() as voice:
        sound = voice.render(words)
    stream = ToMono16k(sound.rate_hz)
    return np.concatenate([stream.process(sound.samples), stream.rest()])


def test_a_model_whose_graph_takes_no_phrase_list_is_refused_and_told_why(
    given: Path, place: Path, tmp_path: Path
) -> None:
    whole = tmp_path / "vosk-model-large"
    shutil.copytree(given, whole)
    (whole / "graph" / "HCLr.fst").rename(whole / "graph" / "HCLG.fst")
    done = CliRunner().invoke(command, ["--model", str(whole)])
    assert isinstance(done.exception, ModelProblem)
    assert "has no graph/HCLr.fst. Such a model takes no phrase list" in str(done.exception)
    assert model_store.model_path() != place / "another"


def test_a_model_that_cannot_be_loaded_is_refused_and_the_old_one_stays(
    given: Path, place: Path, tmp_path: Path
) -> None:
    torn = tmp_path / "vosk-model-torn"
    shutil.copytree(given, torn)
    graph = torn / "graph" / "Gr.fst"
    graph.write_bytes(graph.read_bytes()[:5_000_000])
    with pytest.raises(ModelProblem, match="can't be loaded"):
        model_store.fetch(str(torn), tell=lambda line: None)
    assert not (place / "another").exists()
    assert model_store.model_path().name == manifest.load().name


def test_a_damaged_copy_of_the_manifests_own_model_is_not_taken_for_another(
    model_path: Path, place: Path, tmp_path: Path
) -> None:
    copy = tmp_path / manifest.load().name
    shutil.copytree(model_path, copy)
    (copy / "graph" / "Gr.fst").write_bytes(b"short")
    with pytest.raises(ModelProblem, match=r"graph/Gr\.fst doesn't match"):
        model_store.fetch(str(copy), tell=lambda line: None)


def test_damage_to_it_is_told_with_both_ways_out(given: Path, place: Path) -> None:
    model_store.fetch(str(given), tell=lambda line: None)
    (place / "another" / "am" / "final.mdl").write_bytes(b"torn")
    with pytest.raises(ModelProblem, match=r"am/final\.mdl has 4 bytes.*--original-model"):
        model_store.model_path()


def test_words_are_lacked_where_no_spelling_of_them_is_known() -> None:
    book = phrasebook.load()
    unknown = {"metres", "metre", "jack", "touch"}
    lacks = lacking(book, lambda word: word not in unknown)
    assert {"jack", "toucher"} <= set(lacks)
    assert not {"metre", "centimetre"} & set(lacks)


@pytest.mark.parametrize(
    ("heard", "kept"),
    [
        ({"toucher": "touch a"}, {"toucher": "touch a"}),
        ({"jack": "check", "check": "check"}, {}),
        ({"jack": "eight"}, {}),
        ({"jack": ""}, {}),
        ({"jack": "a b c d"}, {}),
    ],
    ids=["a word of its own", "two alike", "a word with a meaning", "nothing", "too long"],
)
def test_only_what_can_mean_nothing_else_is_taken_for_a_word(
    heard: dict[str, str], kept: dict[str, str]
) -> None:
    assert instead(heard, {"eight", "a"}) == kept
