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


@command.command("set", context_settings={"ignore_unknown_options": True})  # "-2" is a value
@click.argument("name")
@click.argument("value")
@click.argument("words", required=False)
@click.pass_obj
def set_one(path: Path, name: str, value: str, words: str | None) -> None:
    """Set one thing: voicecoach profile set pace 0.7. An empty value takes it out.

    A button takes two: voicecoach profile set button next "who's holding". The words are
    those that one might type; "stop or go on" silences the voice or lets it go on, and
    "nothing" makes a button do nothing.
    """
    before = read_if_there(path)
    wanted: object
    if named(name) == "button":
        field, wanted = "buttons", _buttons(before, value, words)
    elif words is not None:
        raise click.UsageError(f"{name} takes one value. Put it in quotation marks if it has several words.")
    else:
        field, wanted = _field(name), _value(value)
        if field in ("voice", "player_voice") and wanted is not None:
            from voicecoach import voices_check  # noqa: PLC0415 - the sound library isn't needed elsewhere here

            wanted = voices_check.chosen(value)
    try:
        after = Profile.model_validate({**before.model_dump(), field: wanted})
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


def _buttons(before: Profile, key: str, words: str | None) -> dict[str, str] | None:
    """The buttons with this one set, or taken out where its words are empty."""
    from voicecoach import button_words  # noqa: PLC0415 - reads the phrase book, which nothing else here needs

    if words is None:
        raise click.UsageError(
            'A button takes its name and its words: voicecoach profile set button next "who\'s holding"'
        )
    others = {name: said for name, said in (before.buttons or {}).items() if name != button_words.key(key)}
    if words.strip():
        others[button_words.key(key)] = button_words.words(words)
    return others or None


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
