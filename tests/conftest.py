"""What many tests share: the speech model, and a machine with sound. Missing means failed, not skipped."""

import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.virtual_sound import NoSoundServer, VirtualSound, look_again_for_devices
from voicecoach import model_store
from voicecoach.errors import ModelProblem

settings.register_profile("unhurried", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("unhurried")  # a busy machine is no fault of the program

LONG = re.compile(r"test_(whole_.*|.*_aloud|listen|hear_command)\.py")
"""Files that take a minute or more, mostly at the pace of speech: begun first, other workers do the rest."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Long files first."""
    items.sort(key=lambda item: LONG.fullmatch(item.path.name) is None)


@pytest.fixture(scope="session", autouse=True)
def _nobodys_profile(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """An empty configuration folder, so that no test goes by the profile of whoever runs it."""
    with pytest.MonkeyPatch.context() as patch:
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
