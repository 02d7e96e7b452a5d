"""What a session teaches of the pair, kept in their profile at once and told where it is new."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from voicecoach import describe, log_file
from voicecoach.coach.profile import Profile
from voicecoach.describe.values import Sentences
from voicecoach.errors import Problem
from voicecoach.head import merged
from voicecoach.hear.values import Heard
from voicecoach.personal import read_if_there, write_profile
from voicecoach.session.talk import Talk
from voicecoach.session.turn import expected
from voicecoach.session.values import Entry
from voicecoach.understand.known_voice import KnownVoice
from voicecoach.understand.notes.bowls import name_said
from voicecoach.understand.notes.settings import YourMeans
from voicecoach.understand.slips import added
from voicecoach.understand.values import Corrected, Expected, Note, TakenBack, Where


class _Said(NamedTuple):
    heard: Heard
    expected: Expected
    note: Note | None = None


class Learning:
    """Looks at each entry; a profile that can't be read or written teaches nothing, and the game goes on."""

    def __init__(self, profile: Path, voice: KnownVoice | None = None) -> None:
        """Begin with what the profile holds.

        Args:
            profile: The pair's profile.
            voice: What reads the director's words, to be told of the slips; None to learn none.

        Raises:
            DataProblem: The profile isn't one.
        """
        self._profile = profile
        kept = read_if_there(profile) if profile.is_file() else Profile()
        self._known = None if voice is None or kept.learns is False else voice
        if self._known is not None:
            self._known.slips = kept.slips or ()
        self._waits: _Said | None = None
        self._filed: _Said | None = None

    def __call__(self, before: Talk, after: Talk, entry: Entry) -> Sentences:
        """Keep what the entry teaches. Returns what to say of it.

        Args:
            before: The talk before the entry.
            after: The talk after it.
            entry: What was said, and what came of it.
        """
        try:
            self._voice(before, entry)
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

    def _voice(self, before: Talk, entry: Entry) -> None:
        """The slips of the director's voice, from notes that were asked about and confirmed, or put right.

        A note that nobody put right by the next was right: that is counted, too, for words that were slips.
        """
        if self._known is None or entry.speaker != "director":
            return
        note = entry.note if entry.outcome == "noted" else None
        spoken = _Said(entry.heard, expected(before, entry.heard)) if entry.heard.readings else None
        if isinstance(note, Corrected | TakenBack):
            self._put_right(note)
        elif isinstance(note, Where):
            self._taken(note, spoken)
        if entry.outcome in ("asked", "refused") and spoken is not None:
            self._waits = self._waits if before.open is not None else spoken
        elif entry.outcome != "dropped":
            self._waits = None

    def _put_right(self, note: Corrected | TakenBack) -> None:
        """The last note was wrong: what it is after a correction is what was said."""
        filed, self._filed = self._filed, None
        if filed is None or filed.note is None or isinstance(note, TakenBack):
            return
        if note.target not in (None, name_said(filed.note)):
            return  # it was another bowl's note
        if (right := merged(filed.note, note)) is not None:
            self._learn(filed, right)

    def _taken(self, note: Note, spoken: _Said | None) -> None:
        """The last note was right, and what was asked about is known now."""
        if self._filed is not None and self._filed.note is not None:
            self._learn(self._filed, self._filed.note, only_right=True)
        if self._waits is not None:
            self._learn(self._waits, note)
        self._filed = spoken._replace(note=note) if spoken and self._waits is None else None

    def _learn(self, said: _Said, note: Note, *, only_right: bool = False) -> None:
        assert self._known is not None
        new = self._known.taught(said.heard, note, said.expected)
        slips = added(self._known.slips, new._replace(slips=()) if only_right else new)
        if slips == self._known.slips:
            return
        write_profile(read_if_there(self._profile).model_copy(update={"slips": slips}), self._profile)
        self._known.slips = slips
