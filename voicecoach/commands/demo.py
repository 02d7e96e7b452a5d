"""`voicecoach demo`: an invented end from recordings, heard, kept and read back."""

from pathlib import Path

import click

from voicecoach import describe, journal, kept_book
from voicecoach.commands.hear import hear_all
from voicecoach.commands.report import game_page
from voicecoach.commands.telling import Teller
from voicecoach.conversation import Conversation
from voicecoach.head import picture
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.places import scenarios
from voicecoach.printed import put
from voicecoach.session.replay import moment
from voicecoach.speak.mouth import Mouth
from voicecoach.story import read_story
from voicecoach.whole_file import write_whole


@click.command()
@click.option(
    "--folder",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("out"),
    show_default=True,
    help="Where the journal, the WAV and the page go.",
)
@click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
def command(folder: Path, headphones: str | None) -> None:
    """Hear the recordings of an invented end, say what came of each, read the head back, write the page."""
    story_file = scenarios() / "first_end" / "story.yaml"
    story = read_story(story_file)
    folder.mkdir(parents=True, exist_ok=True)
    kept, wav = folder / "first_end.jsonl", folder / "first_end.wav"
    kept.unlink(missing_ok=True)
    put("Cautions: " + " ".join(each.text for each in describe.cautions(short=False)))
    put(f"{story.title}. The recordings are in {story_file.parent}.")
    recordings = [str(story_file.parent / step.audio) for step in story.steps if step.audio]
    with Conversation(kept) as conversation:
        hear_all(recordings, conversation, Recogniser(model_path(), kept_book.load()), json=False)
    _read_back(kept, wav, headphones)


def _read_back(kept: Path, wav: Path, headphones: str | None) -> None:
    entries, _ = journal.read(kept)
    talk = moment(entries)
    sentences = describe.read_back(picture(talk.play.head), talk.manner.prefs)
    put("The head:")
    put("\n".join(each.text for each in sentences))
    mouth = Mouth(headphones)
    mouth.save(sentences, wav)
    put(f"The read-back is in {wav}, the journal in {kept}.")
    page = kept.with_suffix(".html")
    write_whole(page, [game_page(kept, "The demo")])
    put(f"The coach's page is in {page}: open it in a browser.")
    with Teller(mouth, must=headphones is not None) as teller:
        teller.speak(sentences)
