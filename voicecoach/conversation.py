"""One session on a device: the pure turn joined to the clock and the journal."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack
from datetime import datetime
from pathlib import Path
from types import TracebackType

from voicecoach import describe, phrasebook
from voicecoach.describe.values import Sentence
from voicecoach.errors import Problem
from voicecoach.head import picture
from voicecoach.head.values import Picture, Refused
from voicecoach.hear.values import Heard
from voicecoach.journal import Journal, open_journal
from voicecoach.journal.problems import JournalUnwritable
from voicecoach.session.talk import Talk, resume, step
from voicecoach.session.turn import When, expected, file_note, interrupted, lapse, turn
from voicecoach.session.values import Entry, Speaker, without_private_talk
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Note, Setting


class Conversation:
    """Takes utterances one by one; each is in the journal before its answer is given.

    Attributes:
        talk: The state of the session now.
        repair: What was set aside when the journal was opened, to be told once; None when it was whole.
        repair_spoken: The same for the ear.
        fresh: True when the journal held nothing yet, or only the round before play.
    """

    def __init__(
        self,
        journal: Path | None = None,
        unwritten: Callable[[JournalUnwritable], None] | None = None,
        remember: Callable[[Talk], None] | None = None,
        *,
        wait: bool = False,
    ) -> None:
        """Open or start the journal, if one is wanted, and go on from where it ends.

        Args:
            journal: The file; None to keep nothing.
            unwritten: Told at once when entries can't be written and wait in memory.
            remember: Keeps the settings of a talk for next time; None where they can't be kept.
            wait: Go on in memory where the journal can't be opened for writing, until it can.

        Raises:
            DataProblem: The journal is damaged beyond repair or from a newer version.
            Problem: Another program is writing it.
        """
        self._closing = ExitStack()
        self._journal: Journal | None = None
        self._unwritten = unwritten
        self._remember = remember
        entries: tuple[Entry, ...] = ()
        self.repair: str | None = None
        self.repair_spoken: str | None = None
        if journal is not None:
            self._journal = self._closing.enter_context(open_journal(journal, wait=wait))
            entries, self.repair = self._journal.entries, self._journal.repair
            self.repair_spoken = self._journal.repair_spoken
            if self._journal.trouble and unwritten:
                unwritten(self._journal.trouble)
        self.understanding = Understanding(phrasebook.load())
        self.talk: Talk = resume(entries)
        self.fresh = all(isinstance(e.note, Setting) and e.note.name == "before" for e in entries)

    def take(self, heard: Heard, *, speaker: Speaker = "director", now_s: float | None = None) -> Entry:
        """Carry out one utterance: its entry is journalled, then given back to be spoken.

        Args:
            heard: What was said.
            speaker: Who said it.
            now_s: The time on the audio clock, seconds; None when there is none (typed notes).
        """
        when = When(at=_now(), speaker=speaker, now_s=now_s)
        talk, entry = turn(self.talk, heard, self.understanding, when)
        if entry.outcome == "noted" and isinstance(entry.note, Setting) and entry.note.name == "keep":
            talk, entry = self._kept_for_next_time(entry)
        self._keep(talk, entry)
        return entry

    def file(self, note: Note, source: str) -> Entry:
        """Carry out a note that nobody spoke: `source` is the file it is from."""
        talk, entry = file_note(self.talk, note, source, When(at=_now()))
        self._keep(talk, entry)
        return entry

    def lapse(self, now_s: float) -> Entry | None:
        """Let the open question lapse if it has been open too long; the entry to speak, or None."""
        talk, entry = lapse(self.talk, at=_now(), now_s=now_s)
        if entry is not None:
            self._keep(talk, entry)
        return entry

    def is_whole(self, text: str) -> bool | None:
        """True when these words are a whole note already, so that no more silence need pass."""
        return self.understanding.is_final(text, expected(self.talk, Heard(text=text)))

    def interrupted(self, unfinished: Sentence) -> None:
        """The voice was cut off in this sentence: "go on" begins there."""
        self.talk = interrupted(self.talk, unfinished)

    def picture(self) -> Picture:
        """The head now."""
        return picture(self.talk.play.head)

    def __enter__(self) -> Conversation:
        """The conversation itself; leaving it closes the journal."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the journal."""
        self._closing.close()

    def _kept_for_next_time(self, entry: Entry) -> tuple[Talk, Entry]:
        """Keep the settings before saying so; what went wrong is said instead."""
        try:
            if self._remember is None:
                raise Problem("Settings can't be kept in this session.")
            self._remember(self.talk)
        except Problem as problem:
            refusal = describe.refuse(Refused(why=str(problem)))
            entry = entry.model_copy(update={"outcome": "refused", "note": None, "say": refusal})
        return step(self.talk, entry), entry

    def _keep(self, talk: Talk, entry: Entry) -> None:
        self.talk = talk
        if self._journal is None:
            return
        try:
            self._journal.append(without_private_talk(entry))
        except JournalUnwritable as problem:
            if self._unwritten is None:
                raise
            self._unwritten(problem)


def _now() -> str:
    return datetime.now().astimezone().isoformat(timespec="milliseconds")
