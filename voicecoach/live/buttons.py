"""Buttons in the hand, in the ear and under the foot, read from the system's input devices.

It waits for events and never looks by itself: for presses on the devices' nodes, and for devices that come
and go on the kernel's list of them, which tells a waiting program of every change.
"""

from __future__ import annotations

import fcntl
import os
import select
import threading
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from voicecoach import log_file
from voicecoach.live.button_devices import LIST, ButtonDevice, there
from voicecoach.live.inputs import Inputs, Notice, Pressed
from voicecoach.live.presses import EVENT, Act, EventReader, Presses, Talk
from voicecoach.live.talk_key import TalkKey

GRAB = 0x40044590
"""EVIOCGRAB (include/uapi/linux/input.h of Linux 6.1, read): no other program gets these presses as well."""
FORBIDDEN = (
    "This user may not read the buttons of {name}. Have an administrator run: usermod -aG input USER, with "
    "the user's name. Then log in again."
)
SETTLE_S = 0.5
"""How long after a change of the list a new device is opened, seconds: its rights come a moment later."""
_READ = 64 * EVENT.size


class System(NamedTuple):
    """Where the system has its input devices."""

    listing: Path = LIST
    """The kernel's list of them."""
    nodes: Path = Path("/dev/input")
    """The folder of their nodes."""
    changes: int | None = None
    """What becomes readable when the list has changed; None for the list itself."""


class _Node:
    """One device that is open."""

    def __init__(self, device: ButtonDevice, path: Path, presses: Presses) -> None:
        self.name, self.node = device.name, device.node
        self.presses = presses
        self.reader = EventReader()
        self.fd = os.open(path, os.O_RDONLY | os.O_NONBLOCK)
        if device.is_keyboard:
            return  # somebody may be typing on it, Control-C too
        with suppress(OSError):  # another program has taken it for itself, or it is no device
            fcntl.ioctl(self.fd, GRAB, 1)


class Buttons(threading.Thread):
    """Reads the buttons, and tells which device has them, and that it has gone."""

    def __init__(
        self,
        inputs: Inputs,
        table: dict[int, str],
        key: TalkKey | None,
        named: str | None = None,
        system: System | None = None,
    ) -> None:
        """Prepare to read.

        Args:
            inputs: Where presses and notices go.
            table: What each key does, by its code.
            key: The talk key, where the main button is one while it is held down.
            named: The device that the profile names, by a part of its name.
            system: Where the devices are; None for where Linux has them.
        """
        super().__init__(name="buttons", daemon=True)
        self._inputs, self._table, self._key, self._named = inputs, table, key, named
        self._system = system or System()
        self._open: dict[int, _Node] = {}
        self._refused: set[str] = set()
        self._poll = select.poll()
        self._woken, self._wake = os.pipe()

    def run(self) -> None:
        """Read until told to leave."""
        try:
            changes = self._system.changes
            changes = os.open(self._system.listing, os.O_RDONLY) if changes is None else changes
        except OSError:
            return  # a system that has no such list
        self._poll.register(changes, select.POLLIN | select.POLLPRI)
        self._poll.register(self._woken, select.POLLIN)
        try:
            self._look(first=True)
            while self._take(self._poll.poll(), changes):
                pass
        except Exception:  # a session goes on without its buttons
            log_file.failed("reading the buttons failed")
            self._tell("The buttons have failed. Everything else goes on.")

    def leave(self) -> None:
        """Stop reading."""
        os.write(self._wake, b".")

    def _take(self, ready: Iterable[tuple[int, int]], changes: int) -> bool:
        """Take what has come; False when told to leave."""
        for fd, _ in ready:
            if fd == self._woken:
                return False
            if fd == changes:
                os.read(changes, 65536)
                time.sleep(SETTLE_S)
                self._look()
            elif fd in self._open:
                self._read(self._open[fd])
        return True

    def _read(self, node: _Node) -> None:
        try:
            data = os.read(node.fd, _READ)
        except BlockingIOError:
            return
        except OSError:
            data = b""
        if not data:
            self._lose(node)
            return
        for event in node.reader.events(data):
            self._do(node.presses.take(event))

    def _do(self, acts: tuple[Act, ...]) -> None:
        for act in acts:
            if not isinstance(act, Talk):
                self._inputs.put(Pressed(act.words))
            elif self._key is not None:
                turn: Callable[[float], None] = self._key.hold if act.down else self._key.let_go
                turn(time.monotonic())

    def _lose(self, node: _Node) -> None:
        self._poll.unregister(node.fd)
        os.close(node.fd)
        del self._open[node.fd]
        self._do(node.presses.let_go())
        deaf = " Nothing is heard until it is back." if self._key is not None and not self._open else ""
        self._tell(f"The buttons of {node.name} have gone.{deaf}", at_once=True)

    def _look(self, *, first: bool = False) -> None:
        """Open the devices that are there and not open yet."""
        found = there(self._named, self._system.listing)
        opened = {node.node for node in self._open.values()}
        for device in found:
            if device.node not in opened:
                self._take_up(device)
        self._refused &= {device.node for device in found}
        if first and self._named is not None and not found:
            self._tell(
                f"There are no buttons called {self._named}. They are taken as soon as they are there."
            )

    def _take_up(self, device: ButtonDevice) -> None:
        try:
            node = _Node(
                device, self._system.nodes / device.node, Presses(self._table, hold=self._key is not None)
            )
        except PermissionError:
            if device.node not in self._refused:
                self._refused.add(device.node)
                self._tell(FORBIDDEN.format(name=device.name))
            return
        except OSError:
            return  # it has gone again: the list will tell
        self._open[node.fd] = node
        self._poll.register(node.fd, select.POLLIN)
        self._tell(f"The buttons are those of {device.name}.")

    def _tell(self, text: str, *, at_once: bool = False) -> None:
        self._inputs.put(Notice(text, at_once=at_once))
