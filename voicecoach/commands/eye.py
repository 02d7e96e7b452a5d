"""`voicecoach eye`: the director's calls beside the tape."""

from collections.abc import Sequence
from pathlib import Path

import click

from voicecoach import journal
from voicecoach.coach.eye import found, judging
from voicecoach.coach.eye_lines import eye_lines
from voicecoach.coach.looks import Look, looks
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.errors import Problem
from voicecoach.personal import profile_path, read_if_there, write_profile
from voicecoach.printed import put
from voicecoach.understand.notes.eye import Eye, Judging


@click.command("eye")
@click.argument(
    "journals", metavar="JOURNAL...", nargs=-1, required=True, type=click.Path(exists=True, path_type=Path)
)
@click.option("--keep", is_flag=True, help="Keep the result in the profile, so that the geometry goes by it.")
@click.option("--profile", type=click.Path(dir_okay=False, path_type=Path), help="The profile to keep it in.")
def command(journals: tuple[Path, ...], keep: bool, profile: Path | None) -> None:
    """Compare a director's calls with the tape: bias and spread of distance and of hour.

    The only bowls that count are those that were called and then measured before anything
    moved. A tape measures the distance. If a clock face was laid round the jack, say the hour too:
    "our second measured forty centimetres at three o'clock". A folder stands for the
    journals in it. Figures in brackets are 95 per cent intervals.
    """
    seen = [look for path in journals for each in _inside(path) for look in _looks(each)]
    if not seen:
        raise Problem(
            "No bowl in these journals was called and then measured before anything moved. "
            "Call bowls, then say what the tape says of each."
        )
    eyes = {stood: _tell(stood, [look for look in seen if look.stood == stood]) for stood in ("mat", "head")}
    if keep:
        _keep(eyes, profile or profile_path())


def _inside(path: Path) -> Sequence[Path]:
    return sorted(path.glob("*.jsonl")) if path.is_dir() else [path]


def _looks(path: Path) -> tuple[Look, ...]:
    entries, torn = journal.read(path)
    if torn:
        tell_on_the_side(torn)
    return looks(entries)


def _tell(stood: str, seen: Sequence[Look]) -> Judging | None:
    if not seen:
        return None
    eye = found(seen)
    taken = judging(eye)
    for line in eye_lines(stood, len(seen), eye, taken):
        put(line)
    return taken


def _keep(eyes: dict[str, Judging | None], path: Path) -> None:
    taken = {stood: one for stood, one in eyes.items() if one is not None}
    if not taken:
        raise Problem("There is too little to keep, so the profile stays as it is.")
    profile = read_if_there(path)
    eye = (profile.eye or Eye()).model_copy(update=taken)
    write_profile(profile.model_copy(update={"eye": eye}), path)
    put(f"Kept in {path}.")
