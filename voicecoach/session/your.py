"""Whose "your" is: the player's, as some callers say, or the ear's spelling of "their".

It is learned from what a caller answers, or told: by voice, or by the pair's profile, which keeps what was
answered. Each way is an entry of the journal, so that a replay knows it from the same moment on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from voicecoach.session.values import Entry
from voicecoach.understand.misheard import has_your
from voicecoach.understand.notes.settings import YourMeans
from voicecoach.understand.values import Corrected, Side

ENOUGH = 2
"""After so many bowls of theirs that were heard as "your", and none of ours, it is asked about no more."""


@dataclass(frozen=True)
class Your:
    """What is known of one caller."""

    side: Side | None = None
    """Whose bowls are meant by "your"; None until it is known."""
    theirs: int = 0
    """How many bowls of theirs were heard as "your"."""
    heard: bool = False
    """True while the last note had it: its answer, or a correction to ours, tells whose it was."""

    def after(self, entry: Entry, *, asked: bool) -> Your:
        """What is known after an entry; `asked` is true where a question was open before it."""
        if entry.outcome == "dropped":
            return self
        noted = entry.note if entry.outcome == "noted" else None
        if isinstance(noted, YourMeans):
            return Your(side=None if noted.value == "unknown" else noted.value)
        same_note = asked or isinstance(noted, Corrected)
        heard = has_your(entry.heard.text) or (self.heard and same_note)
        side: Side | None = getattr(noted, "side", None)
        if heard and side == "ours":
            return Your(side="ours", heard=True)
        if heard and side == "theirs" and self.side is None:
            theirs = self.theirs + 1
            return Your(side="theirs" if theirs >= ENOUGH else None, theirs=theirs, heard=True)
        return replace(self, heard=heard)


def your_means(side: Side) -> str:
    """How that is said, so that it can be told again."""
    return f"your means {side}"
