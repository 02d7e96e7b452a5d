"""The loop: what comes in is taken, journalled, printed and spoken, one after the other."""

from __future__ import annotations

import queue
from collections.abc import Callable
from dataclasses import dataclass

from voicecoach import describe
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence
from voicecoach.live.echo import is_echo
from voicecoach.live.inputs import Hush, Inputs, Listening, Notice, Said
from voicecoach.live.speaking import Speaking
from voicecoach.session.asking import LISTS
from voicecoach.session.values import Entry, Speaker
from voicecoach.sound.clock import now_s
from voicecoach.understand.values import Corrected, Question, Setting, TakenBack

LOOK_S = 0.2
"""How often to see whether an open question has lapsed, seconds."""


@dataclass
class Live:
    """A live session."""

    conversation: Conversation
    inputs: Inputs
    ears: tuple[Listening, ...]
    director: Speaking
    player: Speaking
    """The player's own headphones, or the director's when there is one pair."""
    show: Callable[[Entry], None]
    notify: Callable[[str], None]
    _greeting: tuple[Sentence, ...] = ()

    def run(self, leaving: Callable[[], bool]) -> None:
        """Go on until `leaving` says so."""
        while not leaving():
            try:
                self._take(self.inputs.get(timeout=LOOK_S))
            except queue.Empty:
                self._lapse()

    def greet(self, *, short: bool, hold_to_talk: bool = False) -> None:
        """Print and say the cautions and the frame, at the pace and loudness that are set already."""
        self._adjust()
        how = (describe.frame(), describe.hold_to_talk()) if hold_to_talk else (describe.frame(),)
        self._greeting = (*describe.cautions(short=short), *how)
        for sentence in self._greeting:
            self.notify(sentence.text)
        self.director.say(self._greeting)

    def _hush(self, speaker: Speaker) -> None:
        """Fall silent for whoever is saying "stop"; the word itself is taken when it has been heard out."""
        voice = self.director if speaker == "director" else self.player
        unfinished = voice.cut()
        if unfinished is not None:
            self.conversation.interrupted(unfinished)

    def _take(self, item: Said | Notice | Hush) -> None:
        if isinstance(item, Hush):
            self._hush(item.speaker)
            return
        if isinstance(item, Notice):
            self.notify(item.text)
            say = self.director.say_aside if item.at_once else self.director.say
            say((Sentence(text=item.text.strip("\a")),))
            return
        own = self.director if item.speaker == "director" else self.player
        if item.heard.source != "typed" and is_echo(item.heard.text, own.saying):
            return
        self.answer(self.conversation.take(item.heard, speaker=item.speaker, now_s=now_s()))

    def answer(self, entry: Entry) -> None:
        """Print an entry and speak it."""
        left = () if entry.outcome == "dropped" else self._fall_silent(entry)
        for listening in self.ears:
            listening.ear.expect(entry.open)
        self.show(entry)
        self._adjust()
        shown = self.conversation.picture() if _asks_for_picture(entry) else None
        self._own(entry).say(entry.say, shown)
        self.director.say(left)
        if self.player is not self.director:
            self.player.say(entry.say_to_player)

    def _own(self, entry: Entry) -> Speaking:
        """Whose ear: the head goes to the player, everything else to whoever spoke."""
        if isinstance(entry.note, Question) and entry.note.ask in LISTS:
            return self.player
        return self.director if entry.speaker == "director" else self.player

    def _adjust(self) -> None:
        """Speak as fast, as loud and from where the listeners have set."""
        manner = self.conversation.talk.manner
        for speaking in (self.director, self.player):
            speaking.mouth.adjust(manner.rate, manner.volume)
            speaking.mouth.placed = manner.placed

    def _fall_silent(self, entry: Entry) -> tuple[Sentence, ...]:
        """Make room for the answer: a list stops at once, a confirmation only for what isn't a note.

        Returns:
            The cautions that were cut off: only "stop" leaves them out.
        """
        voice = self._own(entry)
        note = entry.note
        if (
            entry.outcome == "noted"
            and not voice.reading
            and not isinstance(note, Corrected | Setting | TakenBack)
        ):
            return ()
        unfinished = voice.cut()
        if unfinished is None:
            return ()
        self.conversation.interrupted(unfinished)
        stopped = isinstance(note, Setting) and note.name == "stop"
        if stopped or unfinished not in self._greeting:
            return ()
        return self._greeting[self._greeting.index(unfinished) :]

    def _lapse(self) -> None:
        if any(listening.ear.speech_under_way for listening in self.ears):
            return
        entry = self.conversation.lapse(now_s())
        if entry is not None:
            self.answer(entry)


def _asks_for_picture(entry: Entry) -> bool:
    return isinstance(entry.note, Question) and entry.note.ask == "picture"
