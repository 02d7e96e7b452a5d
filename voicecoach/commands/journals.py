"""Many journals read one after another: a bad one is named, and the others are read all the same."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from voicecoach import journal
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.errors import Problem
from voicecoach.session.values import Entry


class Reading:
    """Gives each journal's path and entries; `status` is the exit status that the worst of them takes."""

    def __init__(self, paths: Iterable[Path]) -> None:
        self.paths = paths
        self.status = 0

    def __iter__(self) -> Iterator[tuple[Path, tuple[Entry, ...]]]:
        for path in self.paths:
            entries = self._entries(path)
            if entries is not None:
                yield path, entries

    def _entries(self, path: Path) -> tuple[Entry, ...] | None:
        try:
            entries, torn = journal.read(path)
        except Problem as problem:
            tell_on_the_side(str(problem))
            self.status = max(self.status, problem.exit_status)
            return None
        if torn:
            tell_on_the_side(torn)
        return entries


def found(given: Path) -> list[Path]:
    """The journals that an argument stands for, by name.

    Raises:
        Problem: It is a folder without a journal.
    """
    if not given.is_dir():
        return [given]
    inside = sorted(path for path in given.glob("*.jsonl") if path.is_file())
    if not inside:
        raise Problem(f"{given} holds no journal: no file in it ends in .jsonl.")
    return inside
