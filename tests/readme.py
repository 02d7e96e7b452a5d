"""The parts of the README that are written from the data: `python -m tests.readme` writes them again."""

import re
from collections.abc import Callable, Iterable
from itertools import groupby
from pathlib import Path

from tests.describe.forms import forms
from voicecoach import phrasebook
from voicecoach.describe import written_cautions

README = Path(__file__).parents[1] / "README.md"


def sentences() -> str:
    """What can be said, grouped by what it is about."""
    groups = groupby(phrasebook.load().examples(), key=lambda example: example.about)
    return "\n\n".join(f"**{about}**\n\n{_list(each.sentence for each in group)}" for about, group in groups)


def heard() -> str:
    """What can be heard: each form's name and an example."""
    return _list(f"{name}: {example}" for name, example in forms())


def cautions() -> str:
    """The cautions, in full."""
    return _list(written_cautions())


PARTS = {"sentences": sentences, "heard": heard, "cautions": cautions}


def written(text: str) -> str:
    """The README with every part written anew between its two marks."""
    for name, part in PARTS.items():
        pattern = rf"(<!-- {name}: written from the data -->\n).*?(<!-- end of {name} -->)"
        text, count = re.subn(pattern, _filled(part()), text, flags=re.S)
        assert count == 1, f"the README has {count} places for {name}"
    return text


def _filled(part: str) -> Callable[[re.Match[str]], str]:
    return lambda match: f"{match[1]}{part}\n{match[2]}"


def _list(lines: Iterable[str]) -> str:
    return "\n".join(f"- {line}" for line in lines)


if __name__ == "__main__":
    README.write_text(written(README.read_text(encoding="utf-8")), encoding="utf-8")
