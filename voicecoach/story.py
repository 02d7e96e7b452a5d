"""Stories: what is said in an end and what must come of it. They are run as text or through the ear."""

from pathlib import Path

import yaml
from pydantic import Field, ValidationError

from voicecoach import kept_book
from voicecoach.errors import DataProblem
from voicecoach.faults import first_fault
from voicecoach.hear.values import Heard
from voicecoach.session.values import Entry, Outcome
from voicecoach.session.view import BowlLine
from voicecoach.session.your import your_means
from voicecoach.understand.misheard import THEIRS
from voicecoach.understand.notes.settings import YourMeans
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlName, Expected, Ranked, Side, says_all_of
from voicecoach.value import Value
from voicecoach.yaml_file import read_yaml

LARGEST = 1_000_000
"""The largest story that is read, bytes; a long game takes some tens of thousands."""
USUAL_VOICE = "flite rms"


class StoryLine(Value):
    """One utterance of a story."""

    say: str = Field(min_length=1)
    """The words."""
    outcome: Outcome
    """What must come of them."""
    audio: str | None = Field(default=None, pattern=r"^[^/\\\x00-\x1f]*[^/\\\x00-\x1f.][^/\\\x00-\x1f]*$")
    """The recording, a file beside the story. It is a bare name, which can't lead anywhere else."""
    voice: str | None = None
    """The synthetic voice that says it, as engine and name; the story's own where the step names none."""


class Lying(Value):
    """Where one bowl must lie when the story ends."""

    side: Side
    number: int
    gap_m: float | None = None
    hour: float | None = None
    """As it would be spoken."""
    state: str = "live"

    def name(self) -> BowlName:
        """The bowl."""
        return BowlName(side=self.side, number=self.number)


class Story(Value):
    """A story file."""

    title: str
    about: str = ""
    voice: str = USUAL_VOICE
    """The synthetic voice that tells it aloud, as engine and name."""
    steps: tuple[StoryLine, ...]
    head: tuple[Lying, ...] = ()
    """Every bowl as it must lie at the end; empty when the story doesn't say."""


def read_story(path: Path) -> Story:
    """The story in a YAML file.

    Raises:
        DataProblem: It can't be read, or isn't a story.
    """
    try:
        return Story.model_validate(read_yaml(path, LARGEST, "The story"))
    except ValidationError as problem:
        fault = first_fault(problem, "a story", ", ".join(Story.model_fields))
        raise DataProblem(f"{path} is not a story: {fault}. Put that right.") from problem


def write_story(story: Story) -> str:
    """The story as the text of a file."""
    return yaml.safe_dump(story.model_dump(exclude_defaults=True, mode="json"), sort_keys=False, width=100)


def _as_typed(entry: Entry, understanding: Understanding) -> str:
    """The words heard. If they mean the note only to the ear, with its slips, another transcript is taken.

    What the profile says of "your" was said by nobody, and the notes after it hang on it.
    """
    if isinstance(entry.note, YourMeans) and entry.note.value != "unknown":
        return your_means(entry.note.value)
    heard = entry.heard.text
    theirs = " ".join(THEIRS.get(word, word) for word in heard.split())
    for text in (heard, *(reading.text for reading in entry.heard.readings), theirs):
        read = understanding.read(Heard(text=text), Expected())
        if entry.note is not None and isinstance(read, Ranked) and says_all_of(entry.note, read.notes[0]):
            return text
    return entry.heard.text


def cut(entries: tuple[Entry, ...], bowls: tuple[BowlLine, ...], title: str) -> Story:
    """A story made of a journal's entries: what was heard, what came of it, and how the head lies after."""
    understanding = Understanding(kept_book.load())
    steps = tuple(
        StoryLine(say=say, outcome=entry.outcome)
        for entry in entries
        if (say := _as_typed(entry, understanding).strip())
    )
    head = tuple(
        Lying(side=bowl.side, number=bowl.number, gap_m=bowl.gap_m, hour=bowl.hour, state=bowl.state)
        for bowl in bowls
    )
    return Story(title=title, steps=steps, head=head)
