"""The parts of the guides that are written from the data: `python -m tests.readme` writes them again."""

import re
from collections.abc import Callable, Iterable
from importlib.resources import files
from itertools import groupby
from pathlib import Path

from tests.describe.forms import forms
from voicecoach import phrasebook
from voicecoach.coach.drawing import drawn as drawn_head
from voicecoach.coach.drawn import Manner
from voicecoach.coach.measure import Measure
from voicecoach.conversation import Conversation
from voicecoach.describe import Preferences, read_back, written_cautions
from voicecoach.head.values import Picture
from voicecoach.hear.values import Heard
from voicecoach.places import PACKAGE, scenarios
from voicecoach.story import read_story

README = Path(__file__).parents[1] / "README.md"
SAYINGS = PACKAGE / "guide" / "sayings.md"
HEARING = PACKAGE / "guide" / "hearing.md"
HEAD = PACKAGE / "guide" / "head.svg"


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


def head() -> str:
    """The head of the demo, as it is read back."""
    return _list(sentence.text for sentence in read_back(_demo_head(), Preferences()))


PARTS: dict[Path, dict[str, Callable[[], str]]] = {
    README: {"head": head, "cautions": cautions},
    SAYINGS: {"sentences": sentences},
    HEARING: {"heard": heard},
}
"""Each guide, and the parts of it that are written from the data."""


def written(guide: Path) -> str:
    """A guide as it ought to be: every part written anew between its two marks."""
    text = guide.read_text(encoding="utf-8")
    for name, part in PARTS[guide].items():
        pattern = rf"(<!-- {name}: written from the data -->\n).*?(<!-- end of {name} -->)"
        text, count = re.subn(pattern, _filled(part()), text, flags=re.S)
        assert count == 1, f"{guide} has {count} places for {name}"
    return text


def drawn() -> str:
    """The head of the demo as the coach's page draws it, with the page's own styles: one SVG."""
    shown = _demo_head()
    manner = Manner(
        Measure(), {"ours": "O", "theirs": "T"}, "The head of the demo, to scale, seen from the mat."
    )
    scene = drawn_head([shown], 0, manner)
    assert scene is not None, "the demo's head is empty"
    opening, rest = str(scene.svg).split(">", 1)
    found = re.search(r'viewBox="\S+ \S+ (\d+) (\d+)"', opening)
    assert found is not None
    width, height = map(int, found.groups())
    place = f'xmlns="http://www.w3.org/2000/svg" width="{width // 10}" height="{height // 10}"'
    parts = rest.replace("/><", "/>\n<").replace("</g><", "</g>\n<").replace("</text><", "</text>\n<")
    return f"{opening.replace('<svg', f'<svg {place}')}>\n<style>\n{_styles()}\n</style>\n{parts}\n"


def _styles() -> str:
    """The page's rules for drawings, light and dark."""
    page = (files("voicecoach.coach") / "templates" / "style.css").read_text(encoding="utf-8")
    rules = [line for line in page.splitlines() if line.startswith(("svg ", "svg.head "))]
    colours, _ = page.split("@media print", 1)
    return "\n".join([colours.rstrip(), "svg { background: var(--sheet); }", *rules])


def _demo_head() -> Picture:
    with Conversation() as conversation:
        for step in read_story(scenarios() / "first_end" / "story.yaml").steps:
            conversation.hear(Heard(text=step.say))
        return conversation.picture()


def _filled(part: str) -> Callable[[re.Match[str]], str]:
    return lambda match: f"{match[1]}{part}\n{match[2]}"


def _list(lines: Iterable[str]) -> str:
    return "\n".join(f"- {line}" for line in lines)


if __name__ == "__main__":
    for each in PARTS:
        each.write_text(written(each), encoding="utf-8")
    HEAD.write_text(drawn(), encoding="utf-8")
