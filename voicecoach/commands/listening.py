"""A live session, from its first sound until it is told to stop."""

from __future__ import annotations

import errno
import gc
import queue
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import AbstractContextManager, closing, contextmanager, nullcontext
from datetime import datetime
from functools import partial
from pathlib import Path
from types import FrameType

from voicecoach import kept_book
from voicecoach.afforded import afford
from voicecoach.coach.profile import Profile
from voicecoach.commands import all_for_today
from voicecoach.commands.opening import remember, take_up
from voicecoach.commands.showing import show, tell_on_the_side
from voicecoach.commands.wanted import Wanted
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.game_file import read_game
from voicecoach.hear.ear import Ear
from voicecoach.hear.microphone import Microphone
from voicecoach.hear.recogniser import Recogniser
from voicecoach.journal import JournalUnwritable, places
from voicecoach.journal.problems import unopened
from voicecoach.learning import Learning
from voicecoach.live import button_keys
from voicecoach.live.beginning import begin
from voicecoach.live.devices import Devices
from voicecoach.live.inputs import Inputs, Listening, Notice, Typing
from voicecoach.live.keeping import SoundKeeping
from voicecoach.live.keyboard import KeyTyping, echo, reader, single_keys
from voicecoach.live.last_words import say_last
from voicecoach.live.loop import Live
from voicecoach.live.running import marked
from voicecoach.live.sound_folder import SoundFolder
from voicecoach.live.speaking import Speaking
from voicecoach.live.talk_key import TalkEar, TalkKey
from voicecoach.log_file import logging_to
from voicecoach.model_store import model_path
from voicecoach.personal import profile_path, read_if_there, read_profile
from voicecoach.session.values import Speaker
from voicecoach.speak.mouth import Mouth

AGAIN = "The program failed and has started again: the game goes on."
READY = "Ready. The voice comes out of {headphones}."


def listen(wanted: Wanted, microphone: Microphone) -> None:
    """Listen until told to stop. Whatever ends it too early is also said aloud, if it can be."""
    try:
        with logging_to(wanted.log), _watched(wanted) as failed:
            _listen(wanted, microphone, failed=failed)
    except Problem as problem:
        say_last(getattr(problem, "spoken", str(problem)), wanted.headphones)
        raise


def _watched(wanted: Wanted) -> AbstractContextManager[bool]:
    """Unattended, it is marked that the program runs. Gives True when its last run failed."""
    return marked(places.where().parent / "unattended.running") if wanted.unattended else nullcontext(False)


def _listen(wanted: Wanted, microphone: Microphone, *, failed: bool) -> None:
    key = TalkKey() if wanted.hold_to_talk else None
    inputs: Inputs = queue.Queue()
    setting = read_game(wanted.game) if wanted.game else None
    folder = SoundFolder(wanted.keep_sound) if wanted.keep_sound else None
    pair = _pair(wanted)
    with (
        single_keys() if key and not wanted.unattended and sys.stdin.isatty() else nullcontext(),
        Conversation(
            _journal(wanted),
            unwritten=partial(_unwritten, inputs),
            remember=partial(remember, wanted.profile),
            wait=True,
            wrong_note=pair.wrong_note,
        ) as conversation,
        closing(Devices()) as devices,
    ):
        conversation.may_end = True
        conversation.learn = Learning(wanted.profile or profile_path(), conversation.understanding.voice)
        conversation.another = None if wanted.journal else _another
        players = wanted.player_microphone or pair.player_microphone
        ears = tuple(_ears(inputs, conversation, devices, key, microphone, players))
        conversation.stereo = lambda: devices.stereo
        live = _live(ears, conversation, inputs, devices, wanted, pair)
        if folder:
            live.sound = SoundKeeping(folder, {each.speaker: each.ear for each in ears}, inputs.put)
            conversation.sound = live.sound.carry_out
        begin(ears, live.tell)
        if conversation.repair and conversation.repair_spoken:
            tell_on_the_side(conversation.repair)
            inputs.put(Notice(conversation.repair_spoken))
        gc.freeze()  # all that was loaded stays, so the collector need never look at it again
        gc.enable()
        _read_buttons(inputs, pair, key)
        if not wanted.unattended:
            (KeyTyping(inputs, key, reader(), echo) if key and sys.stdin.isatty() else Typing(inputs)).start()
        if wanted.profile or conversation.fresh:
            take_up(conversation, pair, str(wanted.profile or profile_path()))
        if again := failed and conversation.going_on:
            live.tell(Notice(AGAIN))
        else:
            live.greet(short=wanted.short_cautions, hold_to_talk=wanted.hold_to_talk)
        if wanted.unattended and not again:
            live.tell(Notice(READY.format(headphones=live.director.mouth.speaks_through)))
        if setting:
            live.answer(conversation.file(setting, str(wanted.game)))
        with _leaving() as left:
            live.run(left.is_set)
        if live.over:
            all_for_today.finish(conversation, pair, live.director)


def _live(
    ears: tuple[Listening, ...],
    conversation: Conversation,
    inputs: Inputs,
    devices: Devices,
    wanted: Wanted,
    pair: Profile,
) -> Live:
    """The session, with its voices."""
    player_headphones = wanted.player_headphones or pair.player_headphones
    director = _voice(wanted.headphones or pair.headphones, inputs, devices)
    player = _voice(player_headphones, inputs, devices) if player_headphones else director
    devices.ears, devices.voices = ears, (director, player) if player_headphones else (director,)
    return Live(
        conversation,
        inputs,
        ears,
        director,
        player,
        show=lambda entry: show(entry, conversation.picture(), json=False),
        notify=tell_on_the_side,
        set_up=lambda: _set_up(conversation, wanted),
        player_voice=pair.player_voice,
        player_faster=0 if pair.player_rate is None else pair.player_rate - (pair.rate or 0),
    )


def _read_buttons(inputs: Inputs, pair: Profile, key: TalkKey | None) -> None:
    """Take the buttons of earpieces, clickers and pedals, where the system is one that gives them."""
    table = button_keys.table(pair.buttons)
    if sys.platform.startswith("linux"):
        from voicecoach.live.buttons import Buttons  # noqa: PLC0415 - other systems lack what it imports

        Buttons(inputs, table, key, pair.button_device).start()
    elif pair.button_device:
        inputs.put(Notice("This system gives no buttons to the program. Its keyboard works."))


def _pair(wanted: Wanted) -> Profile:
    """The pair's profile as it is now."""
    return read_profile(wanted.profile) if wanted.profile else read_if_there(profile_path())


def _set_up(conversation: Conversation, wanted: Wanted) -> None:
    """Set another game up as the first one was: by the profile, and by the file of the game."""
    take_up(conversation, _pair(wanted), str(wanted.profile or profile_path()))
    if wanted.game:
        conversation.file(read_game(wanted.game), str(wanted.game))


def _journal(wanted: Wanted) -> Path:
    """The journal that was named, or today's. A mistyped folder is told before anything begins."""
    if wanted.journal and not wanted.journal.absolute().parent.is_dir():
        raise unopened(wanted.journal, FileNotFoundError(errno.ENOENT, "no such folder"))
    return wanted.journal or _todays(wanted.new_game)


def _todays(new_game: bool) -> Path:
    """The journal where nobody named one: today's game goes on by itself, after a flat battery too."""
    now = datetime.now().astimezone()
    try:
        folder = places.folder()
        going_on = None if new_game else places.under_way(now, folder)
        return going_on or places.another(now, folder)
    except (
        JournalUnwritable
    ):  # it is told when the journal is opened; notes wait in memory until there is a place
        return places.where() / f"{now.date().isoformat()}.jsonl"


def _another() -> Path:
    return places.another(datetime.now().astimezone(), places.folder())


def _unwritten(inputs: Inputs, problem: JournalUnwritable) -> None:
    """Tell it in full on standard error, and aloud without the name of the file."""
    tell_on_the_side(str(problem))
    inputs.put(Notice(problem.spoken, at_once=True))


def _ears(
    inputs: Inputs,
    conversation: Conversation,
    devices: Devices,
    key: TalkKey | None,
    director: Microphone,
    player: str | None,
) -> Iterator[Listening]:
    wanted: list[tuple[Microphone, Speaker, TalkKey | None]] = [(director, "director", key)]
    if player is not None:
        wanted.append((Microphone(player), "player", None))
    for microphone, speaker, held in wanted:
        recogniser = Recogniser(model_path(), kept_book.load())  # one hears one utterance at a time
        afford(recogniser, len(wanted))
        whole = conversation.is_whole
        ear = TalkEar(recogniser, whole, held) if held else Ear(recogniser, whole)
        yield Listening(microphone, speaker, ear, inputs, devices)


def _voice(device: str | None, inputs: Inputs, devices: Devices) -> Speaking:
    speaking = Speaking(Mouth(device), lambda message: inputs.put(Notice(message)), devices.refresh)
    speaking.mouth.voice.start()
    speaking.start()
    return speaking


@contextmanager
def _leaving() -> Iterator[threading.Event]:
    """An event that is set when the program is told to stop, by Control-C, a signal or a closed terminal."""
    left = threading.Event()

    def leave(_signal: int, _frame: FrameType | None) -> None:
        left.set()

    wanted = [each for each in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, each)]
    before = {each: signal.signal(getattr(signal, each), leave) for each in wanted}
    try:
        yield left
    finally:
        for each, handler in before.items():
            signal.signal(getattr(signal, each), handler)
