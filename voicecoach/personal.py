"""The pair's own file in the user's configuration folder. It never leaves the device."""

from pathlib import Path

import yaml
from pydantic import ValidationError

from voicecoach import places
from voicecoach.coach.profile import SPOKEN_NAMES, Profile
from voicecoach.errors import DataProblem, Problem, shown, what_to_do, why
from voicecoach.faults import first_fault
from voicecoach.whole_file import write_whole
from voicecoach.yaml_file import read_yaml

ABOUT = (
    "# A pair's profile for voicecoach. You may change or remove any line, or the whole file.\n"
    "# It stays on this device.\n"
)


def profile_path() -> Path:
    """Where the profile is kept when nobody says where."""
    return places.profile()


def read_profile(path: Path) -> Profile:
    """The profile in a file.

    Raises:
        DataProblem: It can't be read, or says something that a profile doesn't have.
    """
    try:
        return Profile.model_validate(read_yaml(path, places.LARGEST_PROFILE, "The profile") or {})
    except ValidationError as problem:
        raise DataProblem(
            f"The profile {shown(path)}: {profile_fault(problem)}. Put that right."
        ) from problem


def read_if_there(path: Path) -> Profile:
    """The profile in a file; an empty profile if there is no such file."""
    return read_profile(path) if path.exists() else Profile()


def write_profile(profile: Profile, path: Path) -> None:
    """Write a profile for the user alone.

    Raises:
        Problem: It can't be written.
    """
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise Problem(f"{shown(path.parent)} can't be made: {why(error)}. {what_to_do(error)}") from None
    fields = profile.model_dump(exclude_none=True, mode="json")
    write_whole(path, [ABOUT, yaml.safe_dump(fields, sort_keys=False, allow_unicode=True) if fields else ""])


def profile_fault(problem: ValidationError) -> str:
    """The first thing that is wrong with a profile, and where."""
    return first_fault(problem, "a profile", SPOKEN_NAMES)
