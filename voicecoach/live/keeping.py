"""Keeps the sound of what is said, after a yes: each microphone's speaker is asked in each session."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from voicecoach import describe
from voicecoach.conversation import now_at
from voicecoach.errors import Problem
from voicecoach.hear.blocks import RATE_HZ
from voicecoach.hear.ear import Ear
from voicecoach.live.inputs import HeardFrom, Notice
from voicecoach.live.sound_folder import KeptSound, SoundFolder
from voicecoach.session.values import Entry, Speaker
from voicecoach.understand.notes.settings import SoundKept
from voicecoach.understand.values import OpenQuestion

GOES_ON = "The game goes on."


class SoundKeeping:
    """Who said yes, and what is kept. Anybody's "stop keeping sound" holds for every microphone."""

    def __init__(
        self, folder: SoundFolder, ears: Mapping[Speaker, Ear], tell: Callable[[Notice], None]
    ) -> None:
        self._folder, self._ears, self._tell = folder, ears, tell
        self._told_lost = False
        self.begin()

    def begin(self) -> None:
        """A session begins: nobody has said yes, and everybody is asked."""
        self._to_ask: list[Speaker] = list(self._ears)
        self._asked: Speaker | None = None
        self._said_yes: dict[Speaker, str] = {}
        self._mind_ears()

    def due(self) -> Speaker | None:
        """Who is to be asked next; None while an answer is awaited, and once everybody was asked."""
        return self._to_ask[0] if self._to_ask and self._asked is None else None

    def carry_out(self, entry: Entry) -> None:
        """Do what an entry says about sound, before it is confirmed.

        Raises:
            Problem: It can't be done.
        """
        note = entry.note if entry.note is not None or entry.open is None else entry.open.pending
        if not isinstance(note, SoundKept):
            return
        if entry.note is None:
            self._be_asked(note, entry.speaker)
        elif note.value == "on":
            self._folder.make()
            self._said_yes[entry.speaker] = entry.at
            self._told_lost = False
        elif note.value == "off" and self._asked is not None:
            self._said_yes.pop(entry.speaker, None)
        elif note.value == "off":
            self._said_yes.clear()
        else:
            self._folder.forget(every=note.value == "forget all")
        self._mind_ears()

    def follow(self, entry: Entry) -> None:
        """See whether the question is open after an entry. Whatever wasn't a yes was a no, told once."""
        if self._asked is None or _asks(entry.open):
            return
        asked, self._asked = self._asked, None
        answered = entry.note if isinstance(entry.note, SoundKept) else None
        told = answered is not None or entry.say == describe.no_sound()
        if answered is not None and entry.speaker != asked:
            self._to_ask.append(asked)  # nobody says yes for another's microphone
        elif not told:
            self._tell(Notice(describe.no_sound()[0].text))

    def keep(self, item: HeardFrom, answering: OpenQuestion | None, entry: Entry | None) -> None:
        """Keep the sound of what was said, if whoever said it has said yes. A failure is told once.

        Args:
            item: What was said.
            answering: The question that was open.
            entry: What came of it; None where no word was heard.
        """
        consented_at = self._said_yes.get(item.speaker)
        if item.sound is None or consented_at is None:
            return
        seconds = round(item.sound.size / RATE_HZ, 3)

        def told(name: str) -> KeptSound:
            return KeptSound(
                sound=name,
                at=entry.at if entry else now_at(),
                consented_at=consented_at,
                speaker=item.speaker,
                microphone=item.heard.source,
                seconds=seconds,
                heard=item.heard,
                answering=answering,
                outcome=entry.outcome if entry else "no words",
                note=entry.note if entry else None,
                say=tuple(sentence.text for sentence in entry.say) if entry else (),
            )

        try:
            self._folder.keep(item.sound, told)
        except Problem as problem:
            if not self._told_lost:
                self._told_lost = True
                self._tell(Notice(f"{problem} {GOES_ON}"))

    def _be_asked(self, note: SoundKept, speaker: Speaker) -> None:
        if note.value == "on":
            self._asked = speaker
            self._to_ask = [each for each in self._to_ask if each != speaker]
        elif not self._folder.kept:
            raise Problem(describe.sound_not_kept(asked_for=True)[0].text)

    def _mind_ears(self) -> None:
        for speaker, ear in self._ears.items():
            ear.keep_sound(speaker in self._said_yes)


def _asks(open_: OpenQuestion | None) -> bool:
    """True while the question whether sound may be kept is open."""
    return open_ is not None and isinstance(open_.pending, SoundKept) and open_.pending.value == "on"
