"""`voicecoach walk`: the walk up to the head of a journal, stop by stop."""

import json as json_format
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import click

from voicecoach import describe, journal
from voicecoach.commands.options import journal_argument
from voicecoach.commands.showing import tell_if_empty, tell_on_the_side
from voicecoach.commands.telling import Teller
from voicecoach.describe import Walking
from voicecoach.head import picture
from voicecoach.session.replay import moment
from voicecoach.speak.mouth import Mouth
from voicecoach.understand.values import Walk

STEPS = get_args(Walk.model_fields["step"].annotation)


@click.command()
@journal_argument
@click.option("--end", type=click.IntRange(min=1), help="The end; the last one if none is named.")
@click.option("--json", is_flag=True, help="Print one JSON object for each stop.")
@click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
def command(file: Path, end: int | None, json: bool, headphones: str | None) -> None:
    """Walk up to the head, stop by stop.

    Each line of standard input is a step: next (or an empty line), back, again, here, where, turn, stop.
    """
    entries, repair = journal.read(file)
    if repair:
        tell_on_the_side(repair)
    talk = moment(entries, end=end)
    if end is None:
        tell_if_empty(talk.play.head)
    seen, prefs = picture(talk.play.head), talk.manner.prefs
    if json:
        for stop in describe.stops(seen):
            click.echo(json_format.dumps(describe.stop_json(stop)))
        return
    with Teller(Mouth(headphones), must=headphones is not None) as teller:
        walking: Walking | None = None
        for step in ("start", *_steps()):
            walking, said = describe.walk(Walk.model_validate({"step": step}), walking, seen, prefs)
            teller.tell(said)
            if walking is None:
                return


def _steps() -> Iterator[str]:
    """The steps on standard input. Anything else is answered with the list of steps."""
    for line in sys.stdin:
        word = line.strip().lower() or "next"
        if word in STEPS:
            yield word
        else:
            click.echo(f"Say one of: {', '.join(STEPS)}.")
