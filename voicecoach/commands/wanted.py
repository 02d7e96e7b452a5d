"""What the command line of `voicecoach listen` asks for."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple


class Wanted(NamedTuple):
    """What the command line says; None where it leaves the choice to the profile or the system."""

    journal: Path | None
    game: Path | None
    profile: Path | None
    microphone: str | None
    headphones: str | None
    player_microphone: str | None
    player_headphones: str | None
    hold_to_talk: bool
    new_game: bool
    short_cautions: bool
    unattended: bool
    log: Path | None
    keep_sound: Path | None
