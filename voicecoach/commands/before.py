"""`voicecoach before`: the round before play."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

import click
from pydantic import ValidationError

from voicecoach import describe
from voicecoach.coach import before
from voicecoach.coach.club import Club
from voicecoach.coach.cues import Cues, agreed
from voicecoach.commands.answering import asking, headphones_option, microphone_option, silent_option
from voicecoach.commands.options import given_file, journal_option, profile_option
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.errors import DataProblem
from voicecoach.faults import first_fault
from voicecoach.hear.values import Heard
from voicecoach.journal import Journal, open_journal, places
from voicecoach.personal import profile_path, read_if_there, read_profile
from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import BeforePlay
from voicecoach.yaml_file import read_yaml

LARGEST = 100_000
"""The largest file that is read, bytes; a club's file is some twenty lines."""


@click.command("before")
@click.option("--club", type=given_file, help="The club's own facts, a YAML file.")
@journal_option
@profile_option
@microphone_option
@headphones_option
@silent_option
def command(
    club: Path | None,
    journal: Path | None,
    profile: Path | None,
    microphone: str | None,
    headphones: str | None,
    silent: bool,
) -> None:
    """Go round with the player before play, step by step.

    Each step is answered by a word, typed or spoken: done, skip, again, back or stop. The
    length of the rink is given in the player's own paces if the profile has them. At the
    end the director says back to the coach what was shown, confirmed and left out.
    What was done and what was left out goes into the journal: today's, unless one is named.
    """
    facts = read_club(club) if club else Club()
    for line in before.outside(facts):
        tell_on_the_side(line)
    pair = read_profile(profile) if profile else read_if_there(profile_path())
    round_ = before.Round(before.steps(facts, pair))
    with (
        _kept(journal) as kept,
        asking(
            microphone,
            headphones,
            pair,
            silent=silent,
            book=lambda: Cues(before.phrases()),
            is_whole=lambda text: before.cue_of(text) is not None,
        ) as partner,
    ):
        partner.tell((*describe.cautions(short=False), *before.begin(round_)))
        for heard in partner.answers():
            cue: before.Cue | None = agreed(heard, before.cue_of)
            if cue is None and heard.source != "typed":
                continue  # talk between people
            after, said = before.answered(round_, cue)
            _file(kept, heard, round_, after)
            round_ = after
            partner.tell(said)
            if round_.over:
                return
        _file(kept, Heard(text=""), round_, before.answered(before.answered(round_, "stop")[0], "skip")[0])


def read_club(path: Path) -> Club:
    """The facts in a club's file.

    Raises:
        DataProblem: It can't be read, or says something that isn't a fact of a club.
    """
    try:
        return Club.model_validate(read_yaml(path, LARGEST, "The club's file") or {})
    except ValidationError as problem:
        fault = first_fault(problem, "a club's file", ", ".join(Club.model_fields))
        raise DataProblem(f"The club's file {path}: {fault}. Put that right.") from problem


@contextmanager
def _kept(journal: Path | None) -> Iterator[Journal]:
    if journal is None:
        now, folder = datetime.now().astimezone(), places.folder()
        journal = places.under_way(now, folder) or places.another(now, folder)
    with open_journal(journal) as opened:
        if opened.repair:
            tell_on_the_side(opened.repair)
        yield opened


def _file(kept: Journal, heard: Heard, round_: before.Round, after: before.Round) -> None:
    """Put what the answer did into the journal, as settings, which change no head."""
    for value in before.changes(round_, after):
        kept.append(
            Entry(
                number=len(kept.entries) + 1,
                at=datetime.now().astimezone().isoformat(timespec="milliseconds"),
                heard=heard,
                outcome="noted",
                note=BeforePlay(value=value),
            )
        )
