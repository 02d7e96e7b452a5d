"""`voicecoach replay`: the head as it was at any moment of a journal."""

import sys
from pathlib import Path

import click

from voicecoach import describe, journal
from voicecoach.commands.options import journal_argument
from voicecoach.commands.showing import tell_if_empty, tell_on_the_side
from voicecoach.commands.stepping import step_through
from voicecoach.commands.telling import Teller
from voicecoach.commands.turns import turn_lines
from voicecoach.head import picture
from voicecoach.head.values import Picture
from voicecoach.printed import plain_json, put
from voicecoach.session.replay import end_under_way, first_of_end, moment, up_to
from voicecoach.session.talk import Talk
from voicecoach.session.values import Entry
from voicecoach.session.view import head_line, json_line, replay_line
from voicecoach.speak.files import write_wav
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.stereo import picture as sound_picture
from voicecoach.story import cut, write_story
from voicecoach.whole_file import refuse_same, write_whole


@click.command()
@journal_argument
@click.option(
    "--end", type=click.IntRange(min=1), help="The end. Its last moment is taken unless --turn names another."
)
@click.option("--turn", type=click.IntRange(min=1), help="The moment right after this turn.")
@click.option("--json", is_flag=True, help="Print one JSON object.")
@click.option(
    "--wav", type=click.Path(dir_okay=False, path_type=Path), help="Keep the read-back in this WAV file."
)
@click.option("--stereo", is_flag=True, help="Each bowl is heard from where it lies.")
@click.option("--picture", "pictured", is_flag=True, help="A four-second sound picture instead of words.")
@click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
@click.option("--turns", is_flag=True, help="Print what was heard beside what was filed, turn by turn.")
@click.option(
    "--steps", is_flag=True, help="Go through the moments one by one: next, back, again, then, stop."
)
@click.option(
    "--story",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Write the end up to that moment as a story file.",
)
def command(
    file: Path,
    end: int | None,
    turn: int | None,
    json: bool,
    wav: Path | None,
    stereo: bool,
    pictured: bool,
    headphones: str | None,
    turns: bool,
    steps: bool,
    story: Path | None,
) -> None:
    """Speak the head as it was: the sum, then every bowl in walking order."""
    _refuse_what_is_left_out(
        {"--story": story, "--turns": turns, "--steps": steps},
        {"--json": json, "--wav": wav, "--picture": pictured},
    )
    for output in filter(None, (wav, story)):
        refuse_same(output, [file])
    entries, repair = journal.read(file)
    if repair:
        tell_on_the_side(repair)
    talk = moment(entries, end=end, turn=turn)
    if end is None and turn is None:
        tell_if_empty(talk.play.head)
    chosen = up_to(entries, talk)
    since = 1 if end is None else first_of_end(entries, end)
    if story:
        _cut(story, chosen, talk)
    elif turns:
        put("\n".join(turn_lines(chosen, since)))
    elif steps:
        step_through(chosen, Mouth(headphones, placed=stereo), sys.stdin, since)
    else:
        _read_back(
            talk,
            Mouth(headphones, placed=stereo),
            json=json,
            wav=wav,
            pictured=pictured,
            must=bool(headphones),
            last=chosen[-1] if chosen else None,
        )


def _refuse_what_is_left_out(others: dict[str, object], read_back: dict[str, object]) -> None:
    """Raise a UsageError for options that don't go together, one of which would be ignored in silence."""
    chosen = [name for name, value in others.items() if value]
    chosen += [name for name, value in read_back.items() if value] if chosen else []
    if len(chosen) > 1:
        raise click.UsageError(f"{' and '.join(chosen)} don't go together: choose one of them.")


def _read_back(
    talk: Talk, mouth: Mouth, *, json: bool, wav: Path | None, pictured: bool, must: bool, last: Entry | None
) -> None:
    seen = picture(talk.play.head)
    sentences = describe.read_back(seen, talk.manner.prefs)
    words = [each.text for each in sentences]
    said = json_line(replay_line(words, seen, describe.order(seen), last)) if json else "\n".join(words)
    put(plain_json(said) if json else said)
    with mouth:
        if wav:
            _save(mouth, seen, sentences, wav, pictured=pictured)
            tell_on_the_side(f"The read-back is in {wav}.")
        if must or not (json or wav):
            Teller(mouth, must=must).speak(sentences, seen if pictured else None)


def _save(
    mouth: Mouth, seen: Picture, sentences: tuple[describe.Sentence, ...], wav: Path, *, pictured: bool
) -> None:
    if pictured:
        write_wav(sound_picture(*describe.bodies(seen)), wav)
    else:
        mouth.save(sentences, wav)


def _cut(story: Path, entries: tuple[Entry, ...], talk: Talk) -> None:
    """Write the end under way at that moment as a story that can be run again."""
    bowls = head_line(picture(talk.play.head)).bowls
    text = write_story(cut(end_under_way(entries), bowls, f"End {talk.play.head.end}, cut from a journal"))
    write_whole(story, [text])
    tell_on_the_side(f"The story is in {story}.")
