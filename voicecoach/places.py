"""Where data is kept. The program's own is beside the package in a checkout, and inside it once installed."""

import os
from pathlib import Path

import platformdirs

PACKAGE = Path(__file__).parent
LARGEST_PROFILE = 100_000
"""The largest profile that is read, bytes; one is some thirty lines."""


def checkout() -> Path | None:
    """The checkout this package runs from; None for an installed wheel."""
    root = PACKAGE.parent
    return root if (root / "pyproject.toml").is_file() and (root / "models").is_dir() else None


def models() -> Path:
    """Where the speech model is kept: `models/` in a checkout, else the user's data folder."""
    root = checkout()
    return root / "models" if root else platformdirs.user_data_path("voicecoach", appauthor=False) / "models"


def another_model() -> Path:
    """What is noted of a speech model that isn't the manifest's; where there is none, that one is used."""
    return models() / "another.json"


def manifest() -> Path:
    """The list of the speech model's files, with their hashes."""
    return (checkout() or PACKAGE) / "models" / "manifest.json"


def scenarios() -> Path:
    """The recorded ends that come with the program."""
    return (checkout() or PACKAGE) / "scenarios"


def cache() -> Path:
    """What can be made again at any time: in the user's cache, or where VOICECOACH_CACHE names a folder."""
    given = os.environ.get("VOICECOACH_CACHE")
    return Path(given) if given else platformdirs.user_cache_path("voicecoach", appauthor=False)


def profile() -> Path:
    """The pair's profile: in the user's configuration folder, or in the one that VOICECOACH_CONFIG names."""
    given = os.environ.get("VOICECOACH_CONFIG")
    folder = Path(given) if given else platformdirs.user_config_path("voicecoach", appauthor=False)
    return folder / "profile.yaml"
