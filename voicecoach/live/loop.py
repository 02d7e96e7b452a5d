"""The loop: what comes in is taken, journalled, printed and spoken, one after the other."""

from __future__ import annotations

import queue
from collections.abc import Callable
from dataclasses import dataclass, field

from voicecoach import battery, describe, kept_book, log_file
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.hear.values import Heard
from voicecoach.live.echo import OwnVoice
from voicecoach.live.inputs import HeardFrom, Hush, Inputs, Listening, Notice, Pressed
from voicecoach.live.keeping import SoundKeeping
from voicecoach.live.presses import spoken
from voicecoach.live.speaking import Speaking
from voicecoach.session.about import is_another_game, is_the_end
from voicecoach.session.values import Entry, Speaker
from voicecoach.sound.clock import now_s
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.settings import BeSilent
from voicecoach.understand.values import Corrected, OpenQuestion, Question, TakenBack

LOOK_S = 0.2
"""How often to see whether an open question has lapsed, seconds."""
CATCH_UP_S = 2.0
"""How often to try to write what waits in memory, seconds."""
BATTERY_S = 60.0
"""How often to look at the battery, seconds."""
WRITTEN = "The journal can be written again. Nothing waits any more."
LEAKS = "The microphone hears the voice. Turn it down, or wear headphones that keep it in."


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
    set_up: Callable[[], None]
    """Sets another game up as the pair's profile says."""
    sound: SoundKeeping | None = None
    """Keeps the sound of what is said, after a yes; None where the session was not begun for it."""
    player_voice: str | None = None
    """The voice of the player's own headphones, where it is another."""
    player_faster: int = 0
    """How many steps faster they speak than the director's."""
    over: bool = False
    _greeting: Sentences = ()
    _caught_up_s: float = 0.0
    _battery_s: float = 0.0
    _told_low: battery.Told = field(default_factory=battery.Told)

    def __post_init__(self) -> None:
        self._own_voice = OwnVoice(*{id(voice): voice for voice in (self.director, self.player)}.values())

    def run(self, leaving: Callable[[], bool]) -> None:
        """Go on until `leaving` says so, or somebody says that this is all for today: `over` is True then."""
        while not (self.over or leaving()):
            try:
                self._carry_out(self.inputs.get(timeout=LOOK_S))
            except queue.Empty:
                self._lapse()

    def greet(self, *, short: bool, hold_to_talk: bool = False) -> None:
        """Print and say the cautions and the frame, at the pace and loudness that are set already."""
        self._adjust()
        how = (describe.frame(), describe.hold_to_talk()) if hold_to_talk else (describe.frame(),)
        self._greeting = (*describe.cautions(short=short), *how, *self._where_it_was())
        for sentence in self._greeting:
            self.notify(sentence.text)
        self.director.say(self._greeting)

    def tell(self, notice: Notice) -> None:
        """Print a notice and say it."""
        log_file.note("notice", text=notice.text)
        self.notify(notice.text)
        say = self.director.say_aside if notice.at_once else self.director.say
        say((Sentence(text=notice.text.strip("\a")),))

    def _where_it_was(self) -> Sentences:
        """Where a game is that goes on after a flat battery or a rest; nothing for a new game."""
        if not self.conversation.going_on:
            return ()
        prefs, another = self.conversation.talk.manner.prefs, self.conversation.may_begin_another
        return describe.resumed(self.conversation.picture(), prefs, another=another)

    def _hush(self, speaker: Speaker) -> None:
        """Fall silent for whoever is saying "stop". The word itself is taken once it has been heard out."""
        voice = self._voice_of(speaker)
        unfinished = voice.cut()
        if unfinished is not None:
            self.conversation.interrupted(unfinished)

    def _carry_out(self, item: HeardFrom | Notice | Hush | Pressed) -> None:
        if isinstance(item, Pressed):
            speaking = not (self.director.finish(0) and self.player.finish(0))
            item = HeardFrom(Heard(text=spoken(item.words, speaking=speaking)), "director")
        if isinstance(item, Hush):
            self._hush(item.speaker)
            return
        if isinstance(item, Notice):
            self.tell(item)
            return
        if item.heard.is_wordless:
            self._keep_sound(item, self.conversation.talk.open, None)
            return
        knew = self._own_voice.leaks
        whose = self._own_voice.judge(item.heard)
        if self._own_voice.leaks and not knew:
            self.inputs.put(Notice(LEAKS))
        answering = self.conversation.talk.open
        if whose == "none":
            entry = self.conversation.hear(item.heard, speaker=item.speaker, now_s=now_s())
            if is_another_game(entry):
                self._begin_another()
            self.answer(entry)
            self._keep_sound(item, answering, entry)
            self.over = is_the_end(entry)
        elif whose == "like" and self.conversation.is_whole(item.heard.text) is not False:
            entry = self.conversation.doubt(item.heard, speaker=item.speaker)
            self.answer(entry)
            self._keep_sound(item, answering, entry)

    def _begin_another(self) -> None:
        """Set another game up. Whether sound may be kept is asked anew: others may play."""
        self.set_up()
        if self.sound:
            self.sound.begin()

    def _keep_sound(self, item: HeardFrom, answering: OpenQuestion | None, entry: Entry | None) -> None:
        if self.sound:
            self.sound.keep(item, answering, entry)

    def _ask_for_sound(self) -> None:
        """Ask whether sound may be kept, once all that waits has been spoken."""
        speaker = self.sound.due() if self.sound else None
        if speaker is None or self.conversation.talk.open or not self._voice_of(speaker).finish(0):
            return
        self.answer(self.conversation.ask_for_sound(speaker, now_s()))

    def _voice_of(self, speaker: Speaker) -> Speaking:
        return self.director if speaker == "director" else self.player

    def answer(self, entry: Entry) -> None:
        """Print an entry and speak it."""
        left = () if entry.outcome == "dropped" else self._fall_silent(entry)
        answers = kept_book.load().answers(entry.open)
        for listening in self.ears:
            listening.ear.expect(answers)
        self.show(entry)
        if self.sound:
            self.sound.follow(entry)
        self._adjust()
        shown = self.conversation.picture() if _asks_for_picture(entry) else None
        self._own(entry).say(entry.say, shown)
        self.director.say(left)
        if self.player is not self.director:
            self.player.say(entry.say_to_player)

    def _own(self, entry: Entry) -> Speaking:
        """Whose headphones: the head goes to the player, everything else to whoever spoke."""
        if isinstance(entry.note, Question) and describe.topic_row(entry.note.ask).is_list:
            return self.player
        return self._voice_of(entry.speaker)

    def _adjust(self) -> None:
        """Speak as fast, as loud and from where the listeners have set."""
        manner = self.conversation.talk.manner
        for speaking in (self.director, self.player):
            own = speaking is self.player and self.player is not self.director
            voice = self.player_voice if own and self.player_voice else manner.voice
            speaking.mouth.adjust(manner.rate + (self.player_faster if own else 0), manner.volume, voice)
            speaking.mouth.placed = manner.placed and self.conversation.stereo()

    def _fall_silent(self, entry: Entry) -> Sentences:
        """Make room for the answer. A list stops at once; a confirmation stops only for what isn't a note.

        Returns:
            The cautions that were cut off: only "stop" leaves them out.
        """
        voice = self._own(entry)
        note = entry.note
        if (
            entry.outcome == "noted"
            and not voice.reading
            and not isinstance(note, Corrected | AnySetting | TakenBack)
        ):
            return ()
        unfinished = voice.cut()
        if unfinished is None:
            return ()
        self.conversation.interrupted(unfinished)
        stopped = isinstance(note, BeSilent)
        if stopped or unfinished not in self._greeting:
            return ()
        return self._greeting[self._greeting.index(unfinished) :]

    def _lapse(self) -> None:
        self._catch_up()
        if any(listening.ear.speech_under_way for listening in self.ears):
            return
        self._mind_battery()
        entry = self.conversation.lapse(now_s())
        if entry is not None:
            self.answer(entry)
        self._ask_for_sound()

    def _mind_battery(self) -> None:
        """Tell the director of a low battery, in a pause of both."""
        now = now_s()
        if now - self._battery_s < BATTERY_S or not self.director.finish(0):
            return
        self._battery_s = now
        percent, self._told_low = battery.low(self._told_low, battery.read())
        if percent is not None:
            (said,) = describe.battery_low(percent)
            self.tell(Notice(said.text))

    def _catch_up(self) -> None:
        """Write what waits in memory, without waiting for the next note; say when it could be."""
        if now_s() - self._caught_up_s < CATCH_UP_S:
            return
        self._caught_up_s = now_s()
        if self.conversation.catch_up():
            self.inputs.put(Notice(WRITTEN))


def _asks_for_picture(entry: Entry) -> bool:
    return isinstance(entry.note, Question) and entry.note.ask == "picture"
