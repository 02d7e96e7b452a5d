"""What `listen`, `hear` and `tell` have in common: opening a conversation."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from pydantic import ValidationError

from voicecoach.coach.profile import Profile
from voicecoach.coach.profile_notes import kept, notes
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.game_file import read_game
from voicecoach.learning import Learning
from voicecoach.personal import profile_fault, profile_path, read_if_there, read_profile, write_profile
from voicecoach.phrasebook.wording import capitals
from voicecoach.session.talk import Talk
from voicecoach.session.values import Entry


def take_up(conversation: Conversation, profile: Profile, source: str) -> tuple[Entry, ...]:
    """Set a session up as a profile says. Returns the entries that did it."""
    return tuple(conversation.file(note, source) for note in notes(profile))


def remember(path: Path | None, talk: Talk) -> None:
    """Keep a session's settings in a profile; None for the one in the configuration folder.

    Raises:
        Problem: One of them is out of what a profile takes, or it can't be written.
    """
    file = path or profile_path()
    try:
        profile = kept(read_if_there(file), talk)
    except ValidationError as problem:
        fault = capitals(profile_fault(problem))
        raise Problem(
            f"The settings can't be kept. {fault}. Set that anew, then keep the settings."
        ) from None
    write_profile(profile, file)


@contextmanager
def conversation(
    journal: Path | None, game: Path | None, profile: Path | None = None
) -> Iterator[Conversation]:
    """A conversation set up by the profile and then by the game's file, read back on standard error."""
    setting = read_game(game) if game else None
    pair = read_profile(profile) if profile else None
    with Conversation(
        journal,
        unwritten=lambda problem: tell_on_the_side(str(problem)),
        remember=partial(remember, profile),
        wrong_note=pair.wrong_note if pair else None,
    ) as opened:
        opened.learn = Learning(profile, opened.understanding.voice) if profile else None
        if opened.repair:
            tell_on_the_side(opened.repair)
        if pair:
            take_up(opened, pair, str(profile))
            tell_on_the_side(f"The profile {profile} is used.")
        if setting:
            entry = opened.file(setting, str(game))
            tell_on_the_side(" ".join(sentence.text for sentence in entry.say))
        yield opened
