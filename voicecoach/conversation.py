"""One session on a device: the pure turn joined to the clock and the journal."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from types import TracebackType

from voicecoach import battery, describe, kept_book, log_file
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.errors import DataProblem, Problem
from voicecoach.head import picture
from voicecoach.head.values import Picture
from voicecoach.hear.values import Heard
from voicecoach.journal import Journal, open_journal
from voicecoach.journal.problems import JournalUnwritable
from voicecoach.session.about import concerns_play, is_about_sound, is_another_game, is_the_end, wants_stereo
from voicecoach.session.talk import Talk, resume, step
from voicecoach.session.turn import (
    When,
    doubt,
    expected,
    file_note,
    interrupted,
    lapse,
    turn,
)
from voicecoach.session.values import Entry, Speaker, without_private_talk
from voicecoach.understand.costs import Costs
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.settings import Keep, SoundKept
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Note


class Conversation:
    """Takes utterances one by one. Each is in the journal before its answer is given.

    Attributes:
        talk: The state of the session now.
        repair: What was set aside when the journal was opened, to be told once; None when it was whole.
        repair_spoken: The same for the ear.
        fresh: True when the journal held nothing yet, or only the round before play.
        another: Where another game's journal goes; None where none may be begun by saying so.
        may_end: True where "that's all for today" ends the session; otherwise it ends by itself.
        learn: Keeps what an entry teaches of the pair, given the talk before and after it, and says so; None
            where nothing can be kept.
        sound: Keeps or deletes sound, or raises a Problem; None where the session was not begun for it.
        stereo: Says whether the headphones can place a sound left or right.
        going_on: True when something had been called in the game that the journal holds.
    """

    def __init__(
        self,
        journal: Path | None = None,
        unwritten: Callable[[JournalUnwritable], None] | None = None,
        remember: Callable[[Talk], None] | None = None,
        *,
        wait: bool = False,
        wrong_note: float | None = None,
    ) -> None:
        """Open or start the journal, if one is wanted, and go on from where it ends.

        Args:
            journal: The file; None to keep nothing.
            unwritten: Called at once when entries can't be written and wait in memory.
            remember: Keeps a talk's settings for next time; None where they can't be kept.
            wait: Go on in memory where the journal can't be opened for writing, until it can.
            wrong_note: What a note filed wrongly costs, in questions; None for the usual.

        Raises:
            DataProblem: The journal is damaged beyond repair or from a newer version.
            Problem: Another program is writing it.
        """
        self._closing = ExitStack()
        self._journal: Journal | None = None
        self._unwritten = unwritten
        self._remember = remember
        self._wait = wait
        self.another: Callable[[], Path] | None = None
        self.may_end = False
        self.sound: Callable[[Entry], None] | None = None
        self.stereo: Callable[[], bool] = lambda: True
        self.learn: Callable[[Talk, Talk, Entry], Sentences] | None = None
        self._called = False
        entries: tuple[Entry, ...] = ()
        self.repair: str | None = None
        self.repair_spoken: str | None = None
        if journal is not None:
            self._journal = self._closing.enter_context(open_journal(journal, wait=wait))
            entries, self.repair = self._journal.entries, self._journal.repair
            self.repair_spoken = self._journal.repair_spoken
            if self._journal.trouble and unwritten:
                unwritten(self._journal.trouble)
        costs = Costs() if wrong_note is None else Costs(wrong_note=wrong_note)
        self.understanding = Understanding(kept_book.load(), costs)
        self.talk: Talk = resume(entries)
        self.fresh = all(isinstance(e.note, AnySetting) and e.note.opens_a_journal for e in entries)
        self.going_on = any(concerns_play(e) for e in entries)

    def hear(self, heard: Heard, *, speaker: Speaker = "director", now_s: float | None = None) -> Entry:
        """Hear one utterance and carry it out: its entry is journalled, then given back to be spoken.

        Args:
            heard: What was said.
            speaker: Who said it.
            now_s: The time on the audio clock, seconds; None when there is none (typed notes).
        """
        log_file.note("heard", speaker=speaker, heard=heard)
        when = When(at=now_at(), speaker=speaker, now_s=now_s, battery=battery.read())
        talk, entry = turn(self.talk, heard, self.understanding, when)
        if entry.outcome == "noted" and isinstance(entry.note, Keep):
            talk, entry = self._kept_for_next_time(entry)
        if is_about_sound(entry):
            talk, entry = self._about_sound(talk, entry)
        if is_another_game(entry):
            talk, entry = self._another_game(entry)
        if is_the_end(entry) and not self.may_end:
            talk, entry = self._refused(entry, describe.ends_by_itself())
        if wants_stereo(entry) and not self.stereo():
            talk, entry = self._refused(entry, describe.one_ear())
        learnt = self.learn(self.talk, talk, entry) if self.learn else ()
        if learnt:
            entry = entry.model_copy(update={"say": (*entry.say, *learnt)})
            talk = replace(talk, said=entry.say)
        return self._keep(talk, entry)

    def doubt(self, heard: Heard, *, speaker: Speaker = "director") -> Entry:
        """Ask for an utterance again that may have been the program's own voice."""
        return self._keep(*doubt(self.talk, heard, When(at=now_at(), speaker=speaker)))

    def file(self, note: Note, source: str) -> Entry:
        """Carry out a note that nobody spoke: `source` is the file it is from."""
        return self._keep(*file_note(self.talk, note, source, When(at=now_at())))

    def ask_for_sound(self, speaker: Speaker, now_s: float) -> Entry:
        """Ask a speaker whether sound may be kept."""
        when = When(at=now_at(), speaker=speaker, now_s=now_s)
        return self._keep(*self._about_sound(*file_note(self.talk, SoundKept(value="on"), "", when)))

    def lapse(self, now_s: float) -> Entry | None:
        """Let the open question lapse if it has been open too long. Returns the entry to speak, or None."""
        talk, entry = lapse(self.talk, at=now_at(), now_s=now_s)
        if entry is not None:
            return self._keep(talk, entry)
        self.talk = talk
        return None

    def catch_up(self) -> bool:
        """Write what waits in memory, if that can be done now; True when nothing waits any more."""
        if self._journal is None or not self._journal.pending:
            return False
        try:
            return self._journal.retry()
        except JournalUnwritable as problem:
            self._tell_unwritten(problem)
            return False

    def is_whole(self, text: str) -> bool | None:
        """True when these words are a whole note already, so that no more silence need pass."""
        return self.understanding.is_final(text, expected(self.talk, Heard(text=text)))

    def interrupted(self, unfinished: Sentence) -> None:
        """The voice was cut off in this sentence, and "go on" begins there."""
        self.talk = interrupted(self.talk, unfinished)

    def picture(self) -> Picture:
        """The head now."""
        return picture(self.talk.play.head)

    @property
    def journal(self) -> Path | None:
        """The journal's file; None where nothing is kept."""
        return self._journal.path if self._journal else None

    def close(self) -> None:
        """Close the journal.

        Raises:
            JournalUnwritable: Entries still wait in memory, and can't be written.
        """
        self._closing.close()

    def __enter__(self) -> Conversation:
        """The conversation itself; leaving it closes the journal."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the journal."""
        self.close()

    def _kept_for_next_time(self, entry: Entry) -> tuple[Talk, Entry]:
        """Keep the settings before saying so. If that goes wrong, the reason is said instead."""
        try:
            if self._remember is None:
                raise Problem("Settings can't be kept in this session.")
            self._remember(self.talk)
        except Problem as problem:
            return self._refused(entry, problem)
        return step(self.talk, entry), entry

    def _about_sound(self, talk: Talk, entry: Entry) -> tuple[Talk, Entry]:
        """Keep or delete sound before saying so. If that goes wrong, the reason is said instead."""
        if self.sound is None:
            return self._refused(entry, describe.sound_not_kept(asked_for=False))
        try:
            self.sound(entry)
        except Problem as problem:
            return self._refused(entry, problem)
        return talk, entry

    @property
    def may_begin_another(self) -> bool:
        """True until something is called in this game: till then another can be begun by saying so."""
        return self.another is not None and not self._called

    def _another_game(self, entry: Entry) -> tuple[Talk, Entry]:
        """Close this game's journal and begin another. If that can't be done, the reason is said instead."""
        if self.another is None or self._called:
            return self._refused(entry, describe.no_other_game(under_way=self._called))
        try:
            number = self._begin_journal(self.another(), entry.number)
        except Problem as problem:
            return self._refused(entry, problem)
        first = entry.model_copy(update={"number": number, "open": None})
        return step(Talk(), first), first

    def _refused(self, entry: Entry, why: Problem | Sentences) -> tuple[Talk, Entry]:
        """The same utterance, refused. It changed nothing, and the reason is said instead."""
        why = describe.plainly(getattr(why, "spoken", str(why))) if isinstance(why, Problem) else why
        nothing: dict[str, object] = {
            "note": None,
            "event": None,
            "open": self.talk.open,
            "say_to_player": (),
        }
        refused = entry.model_copy(update={"outcome": "refused", "say": why, **nothing})
        return step(self.talk, refused), refused

    def _begin_journal(self, path: Path, number: int) -> int:
        """Close this journal and begin that one. If nothing is in this one yet, that one is this one.

        Args:
            path: Where it goes.
            number: The number that the next entry has in this journal.

        Returns:
            The number that it has there.
        """
        if self._journal is not None and path.resolve() == self._journal.path:
            return number
        opened = open_journal(path, wait=self._wait)
        self._close_journal()
        self._journal = self._closing.enter_context(opened)
        if opened.trouble and self._unwritten:
            self._unwritten(opened.trouble)
        return 1

    def _close_journal(self) -> None:
        try:
            self._closing.close()
        except JournalUnwritable as problem:
            self._tell_unwritten(problem)

    def _keep(self, talk: Talk, entry: Entry) -> Entry:
        """Journal an entry and go on from its talk. Returns the entry to speak.

        An entry that no journal can hold, such as a remark of a million words, leaves the talk as it was.
        """
        if self._journal is not None:
            try:
                self._journal.append(without_private_talk(entry))
            except JournalUnwritable as problem:
                self._tell_unwritten(problem)
            except DataProblem as problem:
                wordless = entry.model_copy(update={"heard": Heard(text="", source=entry.heard.source)})
                return self._keep(*self._refused(wordless, problem))
        log_file.note(entry.outcome, number=entry.number, said=[each.text for each in entry.say])
        self.talk = talk
        self._called = self._called or concerns_play(entry)
        return entry

    def _tell_unwritten(self, problem: JournalUnwritable) -> None:
        if self._unwritten is None:
            raise problem
        self._unwritten(problem)


def now_at() -> str:
    """The time of day, ISO 8601 with the offset from UTC."""
    return datetime.now().astimezone().isoformat(timespec="milliseconds")
