"""Without a terminal and a keyboard: what is spoken at the start, and after a failure.

systemd doesn't run here, so the test does what the unit says: it starts the command again when it failed.
"""

import signal
import subprocess
import sys
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

from tests.live.session import LISTEN, LiveSession
from tests.live.test_todays_journal import ONE, RESUMED, home
from tests.virtual_sound import VirtualSound
from voicecoach import at_start
from voicecoach.commands.listening import AGAIN
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.journal import places
from voicecoach.live.running import marked

__all__ = ["home"]


def unattended(sound: VirtualSound, home: Mapping[str, str]) -> LiveSession:
    return LiveSession(sound, None, "--unattended", keyboard=subprocess.DEVNULL, environment=home)


def play(home: Mapping[str, str]) -> None:
    """Call one bowl in today's game."""
    folder = Path(home["XDG_DATA_HOME"]) / "voicecoach" / "journals"
    folder.mkdir(parents=True)
    with Conversation(places.another(datetime.now().astimezone(), folder)) as before:
        before.hear(Heard(text=ONE))


def test_the_unit_starts_what_is_tried_here() -> None:
    assert (*LISTEN[2:], "--unattended", "--short-cautions") == at_start.ARGUMENTS
    assert f"ExecStart={sys.executable} -m voicecoach" in at_start.unit()


def test_it_says_what_it_listens_to_and_speaks_through_and_after_a_failure_that_the_game_goes_on(
    sound_server: VirtualSound, home: Mapping[str, str]
) -> None:
    play(home)
    session = unattended(sound_server, home)
    session.wait_for(RESUMED[0])
    assert sound_server.headphones in session.wait_for("Ready.").text
    session.wait_for(f"Listening on {sound_server.microphone}")
    assert AGAIN not in session.printed
    session.process.send_signal(signal.SIGKILL)
    assert session.end() == -signal.SIGKILL

    with unattended(sound_server, home) as again:
        told = again.printed[again.printed.index(AGAIN) :]
        assert RESUMED[0] not in again.printed
        assert [line for line in told if not line.startswith("Listening on")] == [AGAIN]
    with unattended(sound_server, home) as in_order:
        assert RESUMED[0] in in_order.printed
        assert AGAIN not in in_order.printed


def test_a_mark_from_before_the_machine_was_started_tells_of_no_failure(tmp_path: Path) -> None:
    file = tmp_path / "data" / "unattended.running"
    with marked(file) as failed:
        assert not failed
        assert file.exists()
        whole = file.read_text(encoding="utf-8")
    assert not file.exists()
    file.write_text("another start of the machine", encoding="utf-8")
    with marked(file) as failed:
        assert not failed
    file.write_text(whole, encoding="utf-8")
    with marked(file) as failed:
        assert failed
