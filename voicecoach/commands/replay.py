"""`voicecoach replay`: the head as it was at any moment of a journal."""

from pathlib import Path

import click

from voicecoach import describe, journal
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.errors import DeviceProblem
from voicecoach.head import picture
from voicecoach.session.replay import moment
from voicecoach.session.view import json_line, replay_line
from voicecoach.speak.mouth import Mouth


@click.command()
@click.argument("file", metavar="JOURNAL", type=click.Path(dir_okay=False, path_type=Path))
@click.option("--end", type=click.IntRange(min=1), help="The end; its last moment unless --turn says which.")
@click.option("--turn", type=click.IntRange(min=1), help="The moment right after this turn.")
@click.option("--json", is_flag=True, help="Print one JSON object.")
@click.option(
    "--wav", type=click.Path(dir_okay=False, path_type=Path), help="Also keep the read-back in this WAV file."
)
@click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
def command(
    file: Path, end: int | None, turn: int | None, json: bool, wav: Path | None, headphones: str | None
) -> None:
    """Speak the head as it was: the sum, then every bowl in walking order."""
    entries, repair = journal.read(file)
    if repair:
        tell_on_the_side(repair)
    talk = moment(entries, end=end, turn=turn)
    seen = picture(talk.play.head)
    sentences = describe.read_back(seen, talk.manner.prefs)
    if json:
        click.echo(json_line(replay_line([each.text for each in sentences], seen, describe.order(seen))))
    else:
        click.echo("\n".join(each.text for each in sentences))
    mouth = Mouth(headphones)
    if wav:
        mouth.save(sentences, wav)
        tell_on_the_side(f"The read-back is in {wav}.")
    if headphones or not (json or wav):
        speak(mouth, sentences, must=headphones is not None)


def speak(mouth: Mouth, sentences: tuple[describe.Sentence, ...], *, must: bool) -> None:
    """Speak to the headphones; without any, the printed lines have to do unless a device was named."""
    try:
        mouth.say(sentences)
    except DeviceProblem as problem:
        if must:
            raise
        tell_on_the_side(f"{problem} The head is printed above.")
