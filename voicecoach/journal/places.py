"""Where journals are kept when nobody says where, and in which of them today's game goes on."""

import re
from datetime import datetime, timedelta
from pathlib import Path

from platformdirs import user_data_path

from voicecoach.journal.problems import unopened

SAME_GAME = timedelta(hours=6)
"""A journal that was written to this recently holds the game under way, even if the date has changed."""

_NAME = re.compile(r"(\d{4}-\d{2}-\d{2})(?:-(\d+))?\.jsonl")


def where() -> Path:
    """The folder of the user's journals, whether or not it can be made."""
    return user_data_path("voicecoach", appauthor=False) / "journals"


def folder() -> Path:
    """The folder of the user's journals. If it isn't there it is made, for the user alone."""
    path = where()
    try:
        path.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise unopened(path, error) from None
    return path


def under_way(now: datetime, where: Path) -> Path | None:
    """The journal of the game under way, if there is one: today's last, or one that was written to just now.

    A flat battery may set the clock back, so a date after today's counts as today's.
    """
    found = _journals(where)
    if not found:
        return None
    day, _, path = found[-1]
    written = datetime.fromtimestamp(path.stat().st_mtime, now.tzinfo)
    return path if day >= now.date().isoformat() or now - written < SAME_GAME else None


def another(now: datetime, where: Path) -> Path:
    """A name for the journal of a new game: today's date, with a number from the day's second game on."""
    found = _journals(where)
    # The new game sorts last even after the clock has jumped back.
    day = max([now.date().isoformat(), *(day for day, _, _ in found)])
    last = max((number for when, number, _ in found if when == day), default=0)
    return where / (f"{day}-{last + 1}.jsonl" if last else f"{day}.jsonl")


def _journals(where: Path) -> list[tuple[str, int, Path]]:
    """Date, number within the day and path of each journal that holds anything, the last game last."""
    try:
        named = [(_NAME.fullmatch(path.name), path) for path in where.iterdir()]
        return sorted(
            (name[1], int(name[2] or 1), path) for name, path in named if name and path.stat().st_size
        )
    except OSError as error:
        raise unopened(where, error) from None
