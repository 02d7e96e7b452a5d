"""The last of a live session that was ended by "that's all for today": it is said where the game is."""

from __future__ import annotations

from pathlib import Path

from voicecoach import log_file
from voicecoach.coach.profile import Profile
from voicecoach.commands.handing_over import COPIED, COPYING, NOT_THERE, copy_for_coach, where_it_is
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence
from voicecoach.errors import Problem
from voicecoach.live.speaking import Speaking
from voicecoach.phrasebook.numbers import without_digits

SPOKEN_S = 60.0
"""How long the last sentences may take, seconds: the program must end."""


def finish(conversation: Conversation, pair: Profile, voice: Speaking) -> None:
    """Close the journal, say where it is, and copy it to the coach's folder where there is one.

    Raises:
        JournalUnwritable: Entries can't be written.
    """
    path = conversation.journal
    conversation.close()
    if path is not None:
        tell_on_the_side(f"The journal is closed: {path}")
        _say(voice, where_it_is(path))
        if pair.coach_folder:
            _hand_over(path, Path(pair.coach_folder).expanduser(), voice)
    voice.finish(SPOKEN_S)


def _hand_over(path: Path, folder: Path, voice: Speaking) -> None:
    if not folder.is_dir():
        tell_on_the_side(f"{NOT_THERE} The profile names {folder}.")
        _say(voice, NOT_THERE)
        return
    _say(voice, COPYING)
    try:
        copies = copy_for_coach(path, folder)
    except Problem as problem:
        tell_on_the_side(str(problem))
        _say(voice, without_digits(str(problem)))
    except Exception:  # the journal itself is whole and closed, and that was said
        log_file.failed("copying for the coach failed")
        _say(voice, "Something went wrong, and the coach's folder has no copy.")
    else:
        tell_on_the_side(f"{COPIED} {copies.journal} {copies.page}")
        _say(voice, COPIED)


def _say(voice: Speaking, text: str) -> None:
    voice.say((Sentence(text=text),))
