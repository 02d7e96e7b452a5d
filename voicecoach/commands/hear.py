"""`voicecoach hear`: recordings, in order."""

from collections.abc import Iterable
from pathlib import Path

import click

from voicecoach import kept_book
from voicecoach.commands.opening import conversation
from voicecoach.commands.options import game_option, given_name, journal_option, log_option, profile_option
from voicecoach.commands.showing import show, tell_on_the_side
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.hear.values import Heard
from voicecoach.log_file import logging_to
from voicecoach.model_store import model_path

BETWEEN_S = 2.0
"""Silence that is taken to lie between two recordings, seconds, so that they are never one breath."""


@click.command()
@click.argument("recordings", metavar="WAV...", nargs=-1, required=True, type=given_name)
@click.option("--json", is_flag=True, help="Print one JSON object for each utterance.")
@click.option("--fresh", is_flag=True, help="Take each recording as a session of its own.")
@journal_option
@game_option
@profile_option
@log_option
def command(
    recordings: tuple[str, ...],
    json: bool,
    fresh: bool,
    journal: Path | None,
    game: Path | None,
    profile: Path | None,
    log: Path | None,
) -> int:
    """Take notes from recordings, in order, as one session."""
    if fresh and journal:
        raise click.UsageError(
            "A journal keeps one session, and --fresh makes several: leave one of them out."
        )
    recogniser = Recogniser(model_path(), kept_book.load())
    status = 0
    with logging_to(log):
        for session in ([name] for name in recordings) if fresh else [recordings]:
            with conversation(journal, game, profile) as opened:
                status = max(status, hear_all(session, opened, recogniser, json=json))
    return status


def hear_all(recordings: Iterable[str], opened: Conversation, recogniser: Recogniser, *, json: bool) -> int:
    """Hear recordings into one conversation, printing each turn.

    Returns:
        The exit status: 0, or that of a recording which could not be read; the others are heard all the same.
    """
    ear, status, begun_s = Ear(recogniser, opened.is_whole), 0, 0.0
    for name in recordings:
        try:
            for heard in ear.listen(blocks(name), name):
                _carry_out(_later(heard, begun_s), opened, json=json)
                ear.expect(kept_book.load().answers(opened.talk.open))
        except Problem as problem:
            tell_on_the_side(str(problem))
            status = problem.exit_status
        begun_s += ear.clock_s + BETWEEN_S
    return status


def _carry_out(heard: Heard, opened: Conversation, *, json: bool) -> None:
    lapsed = opened.lapse(heard.started_s or 0.0)
    if lapsed is not None:
        tell_on_the_side(" ".join(sentence.text for sentence in lapsed.say))
    entry = opened.hear(heard)
    show(entry, opened.picture(), json=json)


def _later(heard: Heard, by_s: float) -> Heard:
    """The utterance on the session's clock, which runs on from one recording to the next."""
    started_s, ended_s = heard.started_s or 0.0, heard.ended_s or 0.0
    return heard.model_copy(update={"started_s": started_s + by_s, "ended_s": ended_s + by_s})
