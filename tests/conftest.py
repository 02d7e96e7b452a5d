"""What many tests share: the speech model, and a machine with sound. Missing means failed, not skipped."""

import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.virtual_sound import NoSoundServer, VirtualSound, look_again_for_devices
from voicecoach import model_store, phrasebook
from voicecoach.errors import ModelProblem
from voicecoach.hear.recogniser import Recogniser

settings.register_profile("unhurried", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("unhurried")  # a busy machine is no fault of the program

HERE = Path(__file__).parent
LONG = re.compile(r"test_(whole_.*|.*_aloud|listen|hear_command)\.py")
"""Files that take a minute or more, mostly at the pace of speech: begun first, other workers do the rest."""
WAITING = {"live", "speak"}
"""Folders of tests that mostly wait for sound: begun next, so that others have work while they wait."""


SLOW = {"sound_server", "model_path", "browser", "installed", "voice"}
"""What tests with these are about takes its time: sound, the voice, the model, a browser, a set-up."""
SLOW_FILES = {"test_kill.py", "test_log.py", "test_page.py"}
"""They start the whole program time and again, or speak a whole page."""
SLOW_FOLDERS = {"live", "speak", "setup", "hear", "sound", "fuzz", "bench", "games"}


def pytest_addoption(parser: pytest.Parser) -> None:
    """Adds --quick."""
    parser.addoption("--quick", action="store_true", help="leave out what needs sound, model or browser")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Long files first, then those that wait; with --quick only what needs no sound, model or browser."""
    items.sort(key=lambda item: (LONG.fullmatch(item.path.name) is None, _folder(item) not in WAITING))
    if config.getoption("quick"):
        slow = [item for item in items if _is_slow(item)]
        config.hook.pytest_deselected(items=slow)
        items[:] = [item for item in items if not _is_slow(item)]


def _is_slow(item: pytest.Item) -> bool:
    names = set(getattr(item, "fixturenames", ()))
    return bool(names & SLOW) or item.path.name in SLOW_FILES or _folder(item) in SLOW_FOLDERS


def _folder(item: pytest.Item) -> str:
    return item.path.relative_to(HERE).parts[0]


@pytest.fixture(scope="session", autouse=True)
def _nobodys_profile(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """An empty configuration folder and cache, so that no test goes by what whoever runs it has there."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("VOICECOACH_CACHE", str(tmp_path_factory.mktemp("cache")))
        patch.setenv("VOICECOACH_CONFIG", str(tmp_path_factory.mktemp("config")))
        yield


@pytest.fixture(scope="session")
def model_path() -> Path:
    """The speech model's folder."""
    try:
        return model_store.model_path()
    except ModelProblem as problem:
        pytest.fail(str(problem), pytrace=False)


@pytest.fixture(scope="session")
def recogniser(model_path: Path) -> Recogniser:
    """One recogniser for all tests that hear: loading it takes a second."""
    return Recogniser(model_path, phrasebook.load())


@pytest.fixture(scope="session")
def sound_server() -> Iterator[VirtualSound]:
    """A private sound server; this process and its children see its devices and no others."""
    folder = Path(tempfile.mkdtemp(prefix="voicecoach-"))
    sound = VirtualSound(folder)
    try:
        with pytest.MonkeyPatch.context() as patch:
            for name, value in sound.environment.items():
                patch.setenv(name, value)
            sound.start()
            look_again_for_devices()
            yield sound
        look_again_for_devices()
    except NoSoundServer as problem:
        pytest.fail(str(problem), pytrace=False)
    finally:
        sound.stop()
        shutil.rmtree(folder, ignore_errors=True)
