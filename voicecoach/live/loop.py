"""The loop: what comes in is taken, journalled, printed and spoken, one after the other."""

from __future__ import annotations

import queue
import time
from collections.abc import Callable
from dataclasses import dataclass

from voicecoach import describe
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence
from voicecoach.live.echo import is_echo
from voicecoach.live.inputs import Inputs, Listening, Notice, Said
from voicecoach.live.speaking import Speaking
from voicecoach.session.asking import LISTS
from voicecoach.session.values import Entry
from voicecoach.understand.values import Question

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

    def run(self, leaving: Callable[[], bool]) -> None:
        """Go on until `leaving` says so."""
        while not leaving():
            try:
                self._take(self.inputs.get(timeout=LOOK_S))
            except queue.Empty:
                self._lapse()

    def greet(self, *, short: bool) -> None:
        """Say the cautions and the frame."""
        self.director.say((*describe.cautions(short=short), describe.frame()))

    def _take(self, item: Said | Notice) -> None:
        if isinstance(item, Notice):
            self.notify(item.text)
            self.director.say((Sentence(text=item.text),))
            return
        own = self.director if item.speaker == "director" else self.player
        if item.heard.source != "typed" and is_echo(item.heard.text, own.saying):
            return
        self.answer(self.conversation.take(item.heard, speaker=item.speaker, now_s=time.monotonic()))

    def answer(self, entry: Entry) -> None:
        """Print an entry and speak it."""
        if entry.outcome != "dropped":
            self._fall_silent()
        for listening in self.ears:
            listening.ear.expect(entry.open)
        self.show(entry)
        self._adjust()
        shown = self.conversation.picture() if _asks_for_picture(entry) else None
        self._own(entry).say(entry.say, shown)
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

    def _fall_silent(self) -> None:
        for speaking in {self.director, self.player}:
            unfinished = speaking.cut()
            if unfinished is not None:
                self.conversation.interrupted(unfinished)

    def _lapse(self) -> None:
        if any(listening.ear.speech_under_way for listening in self.ears):
            return
        entry = self.conversation.lapse(time.monotonic())
        if entry is not None:
            self.answer(entry)


def _asks_for_picture(entry: Entry) -> bool:
    return isinstance(entry.note, Question) and entry.note.ask == "picture"
