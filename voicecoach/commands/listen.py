"""`voicecoach listen`: live use. What is slow to import is imported after the microphone is opened."""

from __future__ import annotations

import gc
import importlib
import sys
from pathlib import Path
from typing import Any

import click

from voicecoach import places
from voicecoach.commands.options import game_option, journal_option, log_option, profile_option
from voicecoach.commands.wanted import Wanted
from voicecoach.live.button_devices import there
from voicecoach.live.early import EarlyMicrophone
from voicecoach.live.quiet import quiet_libraries
from voicecoach.yaml_file import read_yaml


@click.command()
@journal_option
@game_option
@profile_option
@log_option
@click.option("--microphone", metavar="DEVICE", help="Listen to this device (a part of its name will do).")
@click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
@click.option("--player-microphone", metavar="DEVICE", help="The player's own microphone.")
@click.option("--player-headphones", metavar="DEVICE", help="The player's own headphones.")
@click.option(
    "--hold-to-talk",
    is_flag=True,
    help="Hear the director only while the space bar is held down, or a clicker's page key, in this "
    "terminal, or the main button of an earpiece or pedal. The player's own microphone hears as ever.",
)
@click.option("--new-game", is_flag=True, help="Begin another game instead of going on with today's.")
@click.option(
    "--unattended",
    is_flag=True,
    help="Run without a terminal and a keyboard: what matters is spoken, and a game goes on after a failure.",
)
@click.option(
    "--keep-sound",
    type=click.Path(file_okay=False, path_type=Path),
    metavar="FOLDER",
    help="Ask aloud whether the sound of what is said may be kept there, for a fair measurement, and keep "
    "it after a yes. Without this option no sound is ever kept.",
)
@click.option("--short-cautions", is_flag=True, help="Say the cautions in short, for a returning user.")
def command(**options: Any) -> None:
    """Hear the director, confirm each note, and read the head to the player.

    A new game is set up as the pair's profile says, where there is one: voicecoach profile.
    """
    wanted = Wanted(**options)
    if (
        wanted.hold_to_talk
        and (wanted.unattended or not sys.stdin.isatty())
        and not _has_button(wanted.profile)
    ):
        raise click.UsageError(
            "Hold to talk needs a keyboard or a button, and there is none. Start it in a terminal, with "
            "nothing piped into it and without --unattended, or connect a button, or leave the option out."
        )
    gc.disable()  # until all is loaded
    with quiet_libraries():
        microphone = EarlyMicrophone(wanted.microphone or _kept_microphone(wanted.profile))
        try:  # this import takes about a second, the recogniser another, the first sound up to two
            importlib.import_module("voicecoach.commands.listening").listen(wanted, microphone)
        finally:
            microphone.let_go()


def _kept_microphone(profile: Path | None) -> str | None:
    """The microphone that the profile names."""
    return _kept(profile, "microphone")


def _has_button(profile: Path | None) -> bool:
    return bool(there(_kept(profile, "button_device")))


def _kept(profile: Path | None, field: str) -> str | None:
    """What the profile says of one thing. Whether the profile is sound is checked when it is used."""
    file = profile or places.profile()
    kept = read_yaml(file, places.LARGEST_PROFILE, "The profile") if file.exists() else None
    name = kept.get(field) if isinstance(kept, dict) else None
    return name if isinstance(name, str) else None
