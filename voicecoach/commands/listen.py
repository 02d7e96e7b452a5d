"""`voicecoach listen`: live."""

from __future__ import annotations

import os
import queue
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from datetime import datetime
from functools import partial
from pathlib import Path
from types import FrameType

import click

from voicecoach import phrasebook
from voicecoach.commands.opening import game_option, journal_option, profile_option, remember, take_up
from voicecoach.commands.showing import show, tell_on_the_side
from voicecoach.conversation import Conversation
from voicecoach.errors import DeviceProblem
from voicecoach.game_file import read_game
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.journal import JournalUnwritable, places
from voicecoach.live.devices import Devices
from voicecoach.live.inputs import Inputs, Listening, Notice, Typing
from voicecoach.live.keyboard import KeyTyping, echo, reader, single_keys
from voicecoach.live.loop import Live
from voicecoach.live.quiet import quiet_libraries
from voicecoach.live.speaking import Speaking
from voicecoach.live.talk_key import TalkEar, TalkKey
from voicecoach.model_store import model_path
from voicecoach.personal import profile_path, read_if_there, read_profile
from voicecoach.session.values import Speaker
from voicecoach.speak.mouth import Mouth

FIRST_SOUND_S = 6.0
"""How long the first sound of a microphone may take: a sound server that has just started needs 2 s."""


@click.command()
@journal_option
@game_option
@profile_option
@click.option("--microphone", metavar="DEVICE", help="Listen to this device (a part of its name will do).")
@click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
@click.option("--player-microphone", metavar="DEVICE", help="The player's own microphone.")
@click.option("--player-headphones", metavar="DEVICE", help="The player's own headphones.")
@click.option(
    "--hold-to-talk",
    is_flag=True,
    help="Hear the director only while the space bar is held down, or a clicker's page key, in this "
    "terminal. The player's own microphone hears as ever.",
)
@click.option("--new-game", is_flag=True, help="Begin another game instead of going on with today's.")
@click.option("--short-cautions", is_flag=True, help="Say the cautions in short, for a returning user.")
def command(
    journal: Path | None,
    game: Path | None,
    profile: Path | None,
    microphone: str | None,
    headphones: str | None,
    player_microphone: str | None,
    player_headphones: str | None,
    hold_to_talk: bool,
    new_game: bool,
    short_cautions: bool,
) -> None:
    """Hear the director, confirm each note, and read the head to the player.

    A new game is set up as the pair's profile says, where there is one: voicecoach profile.
    """
    key = _talk_key() if hold_to_talk else None
    inputs: Inputs = queue.Queue()
    setting = read_game(game) if game else None
    pair = read_profile(profile) if profile else read_if_there(profile_path())
    microphone, headphones = microphone or pair.microphone, headphones or pair.headphones
    player_microphone = player_microphone or pair.player_microphone
    player_headphones = player_headphones or pair.player_headphones
    with (
        quiet_libraries(),
        single_keys() if key else nullcontext(),
        Conversation(
            journal or _todays(new_game),
            unwritten=partial(_unwritten, inputs),
            remember=partial(remember, profile),
            wait=True,
        ) as conversation,
    ):
        devices = Devices()
        ears = tuple(_ears(inputs, conversation, devices, key, microphone, player_microphone))
        director = _voice(headphones, inputs, devices)
        player = _voice(player_headphones, inputs, devices) if player_headphones else director
        devices.ears, devices.voices = ears, (director, player) if player_headphones else (director,)
        live = Live(
            conversation,
            inputs,
            ears,
            director,
            player,
            show=lambda entry: show(entry, conversation.picture(), json=False),
            notify=tell_on_the_side,
        )
        _begin(ears, conversation, inputs)
        (KeyTyping(inputs, key, reader(), echo) if key else Typing(inputs)).start()
        if profile or conversation.fresh:
            take_up(conversation, pair, str(profile or profile_path()))
        live.greet(short=short_cautions, hold_to_talk=hold_to_talk)
        if setting:
            live.answer(conversation.file(setting, str(game)))
        with _leaving() as left:
            live.run(left.is_set)
        devices.close()
    if devices.hung:
        _leave_at_once()


def _leave_at_once() -> None:
    """End without PortAudio's own tidying up, which aborts a process in which one of its calls has hung."""
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(0)


def _todays(new_game: bool) -> Path:
    """The journal that nobody named: today's game goes on by itself, after a flat battery too."""
    now, folder = datetime.now().astimezone(), places.folder()
    going_on = None if new_game else places.under_way(now, folder)
    return going_on or places.another(now, folder)


def _unwritten(inputs: Inputs, problem: JournalUnwritable) -> None:
    """In full on the side, and aloud without the name of the file."""
    tell_on_the_side(str(problem))
    inputs.put(Notice(problem.spoken))


def _talk_key() -> TalkKey:
    if not sys.stdin.isatty():
        raise click.UsageError(
            "Hold to talk needs a keyboard, and standard input is none. Start it in a terminal, with "
            "nothing piped into it, or leave --hold-to-talk out."
        )
    return TalkKey()


def _ears(
    inputs: Inputs,
    conversation: Conversation,
    devices: Devices,
    key: TalkKey | None,
    director: str | None,
    player: str | None,
) -> Iterator[Listening]:
    wanted: list[tuple[str | None, Speaker, TalkKey | None]] = [(director, "director", key)]
    if player is not None:
        wanted.append((player, "player", None))
    for device, speaker, held in wanted:
        recogniser = Recogniser(model_path(), phrasebook.load())  # one hears one utterance at a time
        whole = conversation.is_whole
        ear = TalkEar(recogniser, whole, held) if held else Ear(recogniser, whole)
        yield Listening(device, speaker, ear, inputs, devices)


def _voice(device: str | None, inputs: Inputs, devices: Devices) -> Speaking:
    speaking = Speaking(Mouth(device), lambda message: inputs.put(Notice(message)), devices.refresh)
    speaking.start()
    return speaking


def _begin(ears: tuple[Listening, ...], conversation: Conversation, inputs: Inputs) -> None:
    """Start to listen; a microphone that gives nothing at all is told before anything else happens."""
    for listening in ears:
        listening.start()
    for listening in ears:
        if not listening.wait_until_heard(FIRST_SOUND_S):
            raise DeviceProblem(_why_silent(inputs))
    if conversation.repair and conversation.repair_spoken:
        tell_on_the_side(conversation.repair)
        inputs.put(Notice(conversation.repair_spoken))


def _why_silent(inputs: Inputs) -> str:
    while not inputs.empty():
        item = inputs.get_nowait()
        if isinstance(item, Notice):
            return item.text
    return "No sound comes from the microphone. Plug it in, or choose another with --microphone."


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
