"""What a session teaches of the pair, kept in their profile at once and told where it is new."""

from __future__ import annotations

from pathlib import Path

from voicecoach import describe, log_file
from voicecoach.describe.values import Sentences
from voicecoach.errors import Problem
from voicecoach.personal import read_if_there, write_profile
from voicecoach.session.talk import Talk
from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import YourMeans


class Learning:
    """Looks at each entry; a profile that can't be read or written teaches nothing, and the game goes on."""

    def __init__(self, profile: Path) -> None:
        self._profile = profile

    def __call__(self, before: Talk, after: Talk, entry: Entry) -> Sentences:
        """Keep what the entry teaches. Returns what to say of it.

        Args:
            before: The talk before the entry.
            after: The talk after it.
            entry: What was said, and what came of it.
        """
        try:
            return self._your(before, after, entry)
        except Problem:
            log_file.failed("the profile keeps nothing")
            return ()

    def _your(self, before: Talk, after: Talk, entry: Entry) -> Sentences:
        """Whose bowls "your" means, once it has been answered, or said.

        What a session gathers from a note that needed no question may be the ear's mistake: it isn't kept.
        """
        side, said = after.your.side, isinstance(entry.note, YourMeans)
        answered = before.open is not None and before.open.slot == "side" and side is not None
        if side == before.your.side or not (said or answered):
            return ()
        kept = read_if_there(self._profile)
        if kept.your != side:
            write_profile(kept.model_copy(update={"your": side}), self._profile)
        elif not said:
            return ()
        return describe.kept_for_next_time() if said or side is None else describe.your_means(side)
