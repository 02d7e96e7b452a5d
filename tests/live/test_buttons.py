"""Buttons: what each press does, and the reader of the system's events.

No input device can be made here, so pipes stand in the place of the devices' nodes. What goes through them is
written byte for byte as the kernel's headers lay it down (struct input_event on a 64-bit machine).
"""

import os
import queue
import struct
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from voicecoach.commands import listen, profile
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence
from voicecoach.errors import DataProblem, Problem
from voicecoach.hear.values import Heard
from voicecoach.live import button_devices, button_keys
from voicecoach.live.button_devices import ButtonDevice, chosen, listed
from voicecoach.live.button_keys import KEYS, SILENCE, table
from voicecoach.live.buttons import Buttons, System
from voicecoach.live.inputs import Inputs, Notice, Pressed
from voicecoach.live.loop import Live
from voicecoach.live.presses import HELD_S, Event, EventReader, Presses, Say, Talk, spoken
from voicecoach.live.speaking import Speaking
from voicecoach.live.talk_key import TAIL_S, TalkKey
from voicecoach.personal import profile_path, read_profile
from voicecoach.session.values import Entry
from voicecoach.speak.mouth import Mouth

HANGS_S = 60.0
PLAY_PAUSE = 164
"""KEY_PLAYPAUSE (include/uapi/linux/input-event-codes.h, Linux 6.1, read)."""
DOWN = bytes.fromhex("a0d1e46900000000" + "40e2010000000000" + "0100" + "a400" + "01000000")
REPORT = bytes.fromhex("a0d1e46900000000" + "40e2010000000000" + "0000" + "0000" + "00000000")
UP = bytes.fromhex("a0d1e46900000000" + "e069030000000000" + "0100" + "a400" + "00000000")
"""1776603552 s; 123456 and 223712 microseconds; EV_KEY and EV_SYN; 0xa4 is 164; 1 is down and 0 is up."""

# The form is the kernel's (drivers/input/input.c, memory); the keys are an earpiece's (derived).
EARPIECE = """\
I: Bus=0005 Vendor=0000 Product=0000 Version=0000
N: Name="Ada's earpiece (AVRCP)"
P: Phys=00:11:22:33:44:55
S: Sysfs=/devices/virtual/input/input7
U: Uniq=
H: Handlers=kbd event3
B: PROP=0
B: EV=100007
B: KEY=18300 16800000000 8e000000000000 0
B: REL=0

"""
KEYBOARD = """\
I: Bus=0011 Vendor=0001 Product=0001 Version=ab41
N: Name="AT Translated Set 2 keyboard"
H: Handlers=sysrq kbd event0 leds
B: EV=120013
B: KEY=402000000 3803078f800d001 feffffdfffefffff fffffffffffffffe

"""
LID = 'N: Name="Lid Switch"\nH: Handlers=event1\nB: EV=21\nB: SW=1\n\n'


def events(data: bytes) -> list[Event]:
    return list(EventReader().events(data))


def key(code: int, value: int, at_s: float = 0.0) -> Event:
    return Event(at_s, 1, code, value)


def test_bytes_become_events_however_they_are_cut() -> None:
    whole = events(DOWN + REPORT + UP)
    assert [(event.kind, event.code, event.value) for event in whole] == [(1, 164, 1), (0, 0, 0), (1, 164, 0)]
    assert whole[0].at_s == pytest.approx(0x69E4D1A0 + 0.123456)
    for at in range(len(DOWN + UP)):
        reader = EventReader()
        found = [*reader.events((DOWN + UP)[:at]), *reader.events((DOWN + UP)[at:])]
        assert found == [whole[0], whole[2]]


def test_a_press_of_the_main_button_acts_when_it_goes_down_and_once() -> None:
    presses = Presses(table(), hold=False)
    assert presses.take(key(PLAY_PAUSE, 1)) == (Say(SILENCE),)
    assert presses.take(key(PLAY_PAUSE, 2, 0.3)) == ()
    assert presses.take(key(PLAY_PAUSE, 0, 0.4)) == ()


def test_held_down_it_is_the_talk_key_and_pressed_shortly_it_silences() -> None:
    presses = Presses(table(), hold=True)
    assert presses.take(key(PLAY_PAUSE, 1, 10.0)) == (Talk(down=True),)
    assert presses.take(key(PLAY_PAUSE, 2, 10.2)) == ()
    assert presses.take(key(PLAY_PAUSE, 0, 10.0 + HELD_S + 0.01)) == (Talk(down=False),)
    assert presses.take(key(PLAY_PAUSE, 1, 20.0)) == (Talk(down=True),)
    assert presses.take(key(PLAY_PAUSE, 0, 20.0 + HELD_S - 0.01)) == (Talk(down=False), Say(SILENCE))
    assert presses.take(key(PLAY_PAUSE, 0, 21.0)) == (), "it was down before anybody looked"


def test_where_the_kernel_lost_events_a_held_key_is_let_go() -> None:
    presses = Presses(table(), hold=True)
    presses.take(key(PLAY_PAUSE, 1))
    assert presses.take(Event(1.0, 0, 3, 0)) == (Talk(down=False),), "SYN_DROPPED"
    assert presses.take(Event(1.0, 0, 3, 0)) == ()


def test_other_buttons_do_what_the_profile_says_and_the_rest_do_nothing() -> None:
    presses = Presses(table({"page up": "who's holding", "next": button_keys.NOTHING}), hold=True)
    assert presses.take(key(KEYS["page up"], 1)) == (Say("who's holding"),)
    assert presses.take(key(KEYS["page up"], 0)) == ()
    assert presses.take(key(KEYS["next"], 1)) == ()
    assert presses.take(key(KEYS["previous"], 1)) == (Say("say it again"),)
    assert presses.take(key(KEYS["volume up"], 1)) == ()


def test_no_two_buttons_have_one_code_and_an_unknown_one_is_named() -> None:
    assert len(set(KEYS.values())) == len(KEYS)
    with pytest.raises(DataProblem, match="'big red one', and there is none"):
        table({"big red one": "stop"})


@pytest.mark.parametrize("words", sorted(set(button_keys.USUAL.values()) - {SILENCE}))
def test_what_a_button_usually_stands_for_is_understood(words: str) -> None:
    with Conversation() as conversation:
        conversation.hear(Heard(text="our first, eighty centimetres, two o'clock"))
        conversation.hear(Heard(text="start the walk"))
        assert conversation.hear(Heard(text=words)).outcome in ("noted", "answered")


def test_the_main_button_stops_a_voice_that_speaks_and_lets_a_silent_one_go_on() -> None:
    assert spoken(SILENCE, speaking=True) == "stop"
    assert spoken(SILENCE, speaking=False) == "go on"
    assert spoken("who's holding", speaking=True) == "who's holding"


def test_the_kernels_list_names_devices_nodes_and_keys() -> None:
    keyboard, earpiece = listed(KEYBOARD + LID + EARPIECE)
    assert keyboard.is_keyboard
    assert (earpiece.name, earpiece.node) == ("Ada's earpiece (AVRCP)", "event3")
    assert {KEYS["play"], KEYS["pause"], KEYS["next"], KEYS["previous"]} <= earpiece.keys
    assert not earpiece.is_keyboard
    assert list(listed("")) == list(listed("nothing of the kind\n\n")) == []


def test_the_earpiece_is_taken_by_itself_and_a_keyboard_only_by_its_name() -> None:
    assert [device.node for device in chosen(listed(KEYBOARD + LID + EARPIECE), None)] == ["event3"]
    assert [device.node for device in chosen(listed(KEYBOARD + EARPIECE), "set 2")] == ["event0"]
    assert chosen(listed(KEYBOARD), None) == chosen(listed(EARPIECE), "pedal") == ()
    assert button_devices.there(None, Path("/no/such/list")) == ()


class Machine:
    """A list of devices that can change, and pipes for their nodes."""

    def __init__(self, folder: Path) -> None:
        self.listing, self.nodes = folder / "devices", folder / "input"
        self.nodes.mkdir()
        self._changed, self._change = os.pipe()
        self.listing.write_text("")

    @property
    def system(self) -> System:
        return System(self.listing, self.nodes, self._changed)

    def plug(self, text: str, node: str) -> int:
        """A device comes; gives what to write its events into."""
        path = self.nodes / node
        if not path.exists():
            os.mkfifo(path)
        end = os.open(path, os.O_RDWR | os.O_NONBLOCK)
        self.list(text)
        return end

    def list(self, text: str) -> None:
        self.listing.write_text(text)
        os.write(self._change, b".")


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    return Machine(tmp_path)


@pytest.fixture
def inputs() -> Inputs:
    return queue.Queue()


@pytest.fixture
def talk_key() -> TalkKey:
    return TalkKey()


@pytest.fixture
def read(machine: Machine, inputs: Inputs) -> Iterator[Buttons]:
    buttons = Buttons(inputs, table(), None, None, machine.system)
    yield buttons
    buttons.leave()
    buttons.join(HANGS_S)
    assert not buttons.is_alive()


def test_presses_come_from_a_device_that_is_named_when_it_comes_and_told_when_it_goes(
    machine: Machine, inputs: Inputs, read: Buttons
) -> None:
    wire = machine.plug(EARPIECE, "event3")
    read.start()
    assert inputs.get(timeout=HANGS_S) == Notice("The buttons are those of Ada's earpiece (AVRCP).")
    os.write(wire, DOWN[:10])
    os.write(wire, DOWN[10:] + REPORT + UP + REPORT)
    assert inputs.get(timeout=HANGS_S) == Pressed(SILENCE)

    os.close(wire)  # the device goes: its node has no more to give
    lost = inputs.get(timeout=HANGS_S)
    assert lost == Notice("The buttons of Ada's earpiece (AVRCP) have gone.", at_once=True)

    wire = machine.plug(EARPIECE, "event3")
    assert inputs.get(timeout=HANGS_S) == Notice("The buttons are those of Ada's earpiece (AVRCP).")
    os.write(wire, DOWN)
    assert inputs.get(timeout=HANGS_S) == Pressed(SILENCE)
    assert inputs.empty()
    os.close(wire)
    assert isinstance(inputs.get(timeout=HANGS_S), Notice)


def test_the_talk_key_is_down_from_the_press_to_the_release_and_no_longer_when_the_device_goes(
    machine: Machine, inputs: Inputs, talk_key: TalkKey
) -> None:
    buttons = Buttons(inputs, table(), talk_key, "earpiece", machine.system)
    wire = machine.plug(EARPIECE, "event3")
    buttons.start()
    assert "Ada's earpiece" in getattr(inputs.get(timeout=HANGS_S), "text", "")
    os.write(wire, DOWN)
    _wait(lambda: talk_key.open_at(time.monotonic() + 3_600))
    os.close(wire)
    assert "Nothing is heard until it is back" in getattr(inputs.get(timeout=HANGS_S), "text", "")
    assert not talk_key.open_at(time.monotonic() + TAIL_S)
    buttons.leave()
    buttons.join(HANGS_S)


def _wait(until: Callable[[], bool]) -> None:
    ends = time.monotonic() + HANGS_S
    while not until():
        assert time.monotonic() < ends
        time.sleep(0.01)


def test_a_named_device_that_is_not_there_is_told_and_taken_when_it_comes(
    machine: Machine, inputs: Inputs
) -> None:
    buttons = Buttons(inputs, table(), None, "pedal", machine.system)
    buttons.start()
    assert inputs.get(timeout=HANGS_S) == Notice(
        "There are no buttons called pedal. They are taken as soon as they are there."
    )
    wire = machine.plug(EARPIECE.replace("Ada's earpiece (AVRCP)", "A pedal"), "event9".replace("9", "3"))
    assert inputs.get(timeout=HANGS_S) == Notice("The buttons are those of A pedal.")
    buttons.leave()
    buttons.join(HANGS_S)
    os.close(wire)


def test_waiting_for_presses_takes_no_processor_time(machine: Machine, inputs: Inputs, read: Buttons) -> None:
    wire = machine.plug(EARPIECE, "event3")
    read.start()
    inputs.get(timeout=HANGS_S)
    assert read.native_id is not None
    ends = time.monotonic() + HANGS_S
    while time.monotonic() < ends:  # until the change of the list has been taken
        woken = _switches(read.native_id)
        time.sleep(2.0)
        if _switches(read.native_id) == woken:
            break
    else:
        pytest.fail("it never waits for two seconds without a look")
    os.close(wire)


def _switches(thread: int) -> int:
    status = Path(f"/proc/self/task/{thread}/status").read_text()
    return int(status.split("voluntary_ctxt_switches:")[1].split()[0])


def test_a_press_is_taken_as_if_its_words_were_typed() -> None:
    inputs: Inputs = queue.Queue()
    entries: list[Entry] = []
    with Mouth(silent=True) as mouth, Conversation() as conversation:
        voice = Speaking(mouth, lambda _: None, lambda: None)
        live = Live(conversation, inputs, (), voice, voice, entries.append, lambda _: None, lambda: None)
        for words in ("eighty centimetres two o'clock", SILENCE):
            inputs.put(Pressed(words))
        turns = iter(range(3))
        live.run(lambda: next(turns) == 2)
        voice.say((Sentence(text="Something else."),))
        voice.start()
        assert voice.finish(HANGS_S)
        inputs.put(Pressed(SILENCE))
        live.run(lambda: len(entries) == 3)
        voice.leave()
        voice.join(HANGS_S)
        assert [entry.heard.text for entry in entries] == ["eighty centimetres two o'clock", "stop", "go on"]
        assert entries[0].outcome == "noted"


def test_the_buttons_fit_the_struct_of_this_machine() -> None:
    assert struct.calcsize("@llHHi") == len(DOWN) == 24


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))


def _run(*arguments: str) -> Result:
    return CliRunner().invoke(profile.command, arguments, standalone_mode=False)


def test_the_profile_keeps_a_button_with_its_words_and_drops_it_again() -> None:
    assert _run("set", "button", "Page-Up", "who's holding").output == "Button page up: who's holding.\n"
    assert _run("set", "button", "next", "Stop or go on").output == "Button next: stop or go on.\n"
    assert _run("set", "button_device", "pedal").output == "Button device: pedal.\n"
    assert read_profile(profile_path()).buttons == {"page up": "who's holding", "next": SILENCE}
    _run("set", "button", "next", "")
    assert read_profile(profile_path()).buttons == {"page up": "who's holding"}


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("button", "big red one", "stop"), "No button is called 'big red one'. There are: play,"),
        (("button", "next", "make me a sandwich"), "Nobody would understand 'make me a sandwich'"),
        (("button", "next"), "takes its name and its words"),
        (("pace", "0.7", "metres"), "pace takes one value"),
    ],
)
def test_what_cannot_be_set_is_told_and_nothing_changes(arguments: tuple[str, ...], told: str) -> None:
    done = _run("set", *arguments)
    assert done.exception is not None
    assert told in (str(done.exception) or getattr(done.exception, "message", ""))
    assert not profile_path().exists()
    assert isinstance(done.exception, Problem) or "UsageError" in type(done.exception).__name__


def test_hold_to_talk_without_a_terminal_needs_a_button(monkeypatch: pytest.MonkeyPatch) -> None:
    assert not listen._has_button(None)
    monkeypatch.setattr(listen, "there", lambda named: (ButtonDevice("a pedal", "event3", frozenset()),))
    assert listen._has_button(None)
    monkeypatch.undo()
    done = CliRunner().invoke(listen.command, ["--hold-to-talk", "--unattended"])
    assert done.exit_code == 2
    assert "needs a keyboard or a button" in done.output
