"""What can go wrong with a journal, in words."""

from pathlib import Path

from voicecoach.errors import Problem, shown, what_to_do, why


class JournalBusy(Problem):
    """Another process writes this journal."""


class JournalUnwritable(Problem):
    """The journal can't be written now."""

    def __init__(self, message: str, spoken: str) -> None:
        super().__init__(message)
        self.spoken = spoken
        """The same for the ear, without names of files or digits."""


def busy(path: Path) -> JournalBusy:
    """Another process has the journal open."""
    return JournalBusy(
        f"Another voicecoach is writing the journal {shown(path)}. Close that one, or choose another journal."
    )


def unopened(path: Path, error: OSError) -> JournalUnwritable:
    """The journal could not be opened."""
    end = f"can't be opened for writing: {why(error)}. {what_to_do(error)}"
    return JournalUnwritable(f"The journal {shown(path)} {end}", f"The journal {end}")


def unwritten(path: Path, error: OSError) -> JournalUnwritable:
    """An entry could not be written, and is kept in memory."""
    end = f"can't be written: {why(error)}. Notes are kept in memory until it can be. {what_to_do(error)}"
    return JournalUnwritable(f"The journal {shown(path)} {end}", f"The journal {end}")


def damaged(problem: Problem) -> JournalUnwritable:
    """The journal can't go on with what is in its place, so entries are kept in memory."""
    return JournalUnwritable(
        f"{problem} Notes are kept in memory.",
        "Something else is in the journal's place. Notes are kept in memory. Choose another place.",
    )


def not_a_journal(name: str) -> str:
    """The message for a file that was never a journal."""
    return f"{name} is not a voicecoach journal: its first line isn't one of ours. Nothing was changed."


def given_up(path: Path, pending: int) -> JournalUnwritable:
    """The journal is closed, and entries still wait."""
    message = f"The last {pending} notes could not be written to the journal {shown(path)}, and are lost."
    return JournalUnwritable(message, "The last notes could not be written to the journal, and are lost.")
