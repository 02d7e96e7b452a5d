"""How well what the stories say is heard, clean: python -m tests.bench.hearing.stories.

Notes, questions, commands and settings, each said alone, so that one lost answer doesn't hide another.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import click

from tests.bench.hearing.asked import Came, came_of
from tests.games.speaking import spoken
from voicecoach import phrasebook
from voicecoach.hear.blocks import Block, even
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.places import scenarios
from voicecoach.story import read_story
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked


def said(understanding: Understanding) -> Iterator[tuple[str, dict[str, object]]]:
    """What the stories say, noted or answered, that means one thing at any moment."""
    stories = [read_story(path) for path in sorted(scenarios().glob("*/story.yaml"))]
    steps = [step for story in stories for step in story.steps if step.outcome in ("answered", "noted")]
    for say in dict.fromkeys(step.say for step in steps):
        typed = understanding.read(Heard(text=say), Expected())
        if isinstance(typed, Ranked) and typed.doubt is None:
            yield say, typed.notes[0].model_dump()


@click.command()
@click.option(
    "--model", type=click.Path(path_type=Path), help="A speech model's folder; else the one in use."
)
@click.option("--voice", "voices", multiple=True, default=("flite rms", "flite awb"), show_default=True)
def main(model: Path | None, voices: tuple[str, ...]) -> None:
    """Say each, listen, and print what didn't come out right, then a line for each voice."""
    book = phrasebook.load()
    understanding = Understanding(book)
    ear = Ear(Recogniser(model or model_path(), book), lambda text: understanding.is_final(text, Expected()))
    for voice in voices:
        counts: Counter[Came] = Counter()
        for say, meaning in said(understanding):
            heard = tuple(ear.listen(even([Block(spoken(voice, say), 0.0)]), "bench"))
            came = came_of(understanding, heard, meaning)
            counts[came] += 1
            if came != "right":
                print(f"  {came}: {voice}, {say} {[one.text for one in heard]}", flush=True)
        print(f"{voice}, {counts.total()}: {dict(counts)}", flush=True)


if __name__ == "__main__":
    main()
