"""`voicecoach profile`: what a pair keeps on this device."""

from pathlib import Path

import click
from pydantic import ValidationError

from voicecoach.coach.profile import NAMES, SETTABLE, SPOKEN_NAMES, Profile, lines, named
from voicecoach.errors import Problem
from voicecoach.personal import profile_fault, profile_path, read_if_there, write_profile
from voicecoach.printed import put

YES_OR_NO = {"yes": True, "no": False}


@click.group("profile", invoke_without_command=True)
@click.option(
    "--profile",
    "file",
    type=click.Path(dir_okay=False, path_type=Path),
    help="The file; if none is named, the one in the configuration folder.",
)
@click.pass_context
def command(context: click.Context, file: Path | None) -> None:
    """Show or change the pair's profile, a small file that stays on this device.

    During voicecoach listen, saying "keep my settings" writes it too.
    """
    context.obj = file or profile_path()
    if context.invoked_subcommand is None:
        context.invoke(show)


@command.command()
@click.pass_obj
def show(path: Path) -> None:
    """Say what the profile holds, and where it is."""
    profile = read_if_there(path)
    for line in lines(profile):
        put(line)
    if profile == Profile():
        put(f"Nothing is set. One can set {SPOKEN_NAMES}.")
    put(f"The profile is in {path}." if path.exists() else f"The profile would be in {path}.")


@command.command("set")
@click.argument("name")
@click.argument("value")
@click.pass_obj
def set_one(path: Path, name: str, value: str) -> None:
    """Set one thing: voicecoach profile set pace 0.7. An empty value takes it out."""
    field = _field(name)
    before = read_if_there(path)
    try:
        after = Profile.model_validate({**before.model_dump(), field: _value(value)})
    except ValidationError as problem:
        raise Problem(f"Nothing was changed: {profile_fault(problem)}.") from None
    write_profile(after, path)
    for line in set(lines(after)) - set(lines(before)) or {
        f"{field.removesuffix('_m').replace('_', ' ').capitalize()}: not set."
    }:
        put(line)


@command.command()
@click.pass_obj
def delete(path: Path) -> None:
    """Delete the whole profile."""
    if not path.exists():
        put("There is no profile.")
        return
    path.unlink()
    put(f"{path} is deleted.")


def _field(name: str) -> str:
    """The field that is meant; its unit may be left out."""
    plain = named(name)
    for field in (plain, f"{plain}_m", f"{plain}_mm"):
        if field in SETTABLE:
            return field
    if plain in NAMES:
        raise Problem(
            "The eye is found with a tape: voicecoach eye JOURNAL --keep. To drop it, edit the file."
        )
    raise Problem(f"A profile has no {name!r}. One can set {SPOKEN_NAMES}.")


def _value(text: str) -> object:
    """The value as it was written; None where there is none."""
    if not text.strip():
        return None
    if text in YES_OR_NO:
        return YES_OR_NO[text]
    return text.strip()
