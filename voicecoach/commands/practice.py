"""`voicecoach practice`: calling and picturing without a green."""

import random
from datetime import datetime
from pathlib import Path
from typing import Protocol

import click

from voicecoach import journal, kept_book
from voicecoach.coach import after_me, calling, chance_heads, picturing, practice_drawing
from voicecoach.coach.asked import questions
from voicecoach.coach.practice import Answering
from voicecoach.coach.profile import Profile
from voicecoach.coach.profile_notes import notes
from voicecoach.coach.results import Result, least_tried
from voicecoach.coach.round_words import calling_words, compared, picturing_words
from voicecoach.commands.answering import Asking, headphones_option, microphone_option, silent_option
from voicecoach.commands.options import profile_option
from voicecoach.commands.rounds import go_through, partner_for
from voicecoach.conversation import Conversation
from voicecoach.describe import Preferences
from voicecoach.errors import Problem
from voicecoach.head import picture
from voicecoach.head.values import Picture
from voicecoach.hear.values import Heard
from voicecoach.journal import places
from voicecoach.personal import profile_path, read_if_there, read_profile, write_profile
from voicecoach.places import scenarios
from voicecoach.practice_log import add_result, log_path, read_results
from voicecoach.printed import put
from voicecoach.session.replay import moment
from voicecoach.story import read_story
from voicecoach.understand.reading import Understanding
from voicecoach.whole_file import write_whole

FORMS = picturing.forms()
bowls_option = click.option(
    "--bowls", type=click.IntRange(1, 16), default=6, show_default=True, help="Bowls in a head by chance."
)
head_option = click.option(
    "--head", "story", metavar="NAME", help="A head from the scenarios, by its folder's name."
)
seed_option = click.option("--seed", type=int, help="The same number gives the same practice again.")


class Practice(Protocol):
    """A round of practice."""

    def go(self) -> Answering:
        """The prompts, one after another."""

    def result(self, at: str) -> Result:
        """What it came to."""


@click.group("practice")
def command() -> None:
    """Practise calling a head, or keeping a picture of one, without a green.

    Results are kept in the user's data folder and never sent anywhere.
    """


@command.command("calling")
@bowls_option
@head_option
@click.option(
    "--drawing",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Draw the head in this SVG file, instead of saying the figures.",
)
@click.option(
    "--after-me",
    "by_ear",
    is_flag=True,
    help="Say sixteen notes after the program, word for word: in two minutes it gets to know your voice.",
)
@seed_option
@profile_option
@microphone_option
@headphones_option
@silent_option
def call(
    bowls: int,
    story: str | None,
    drawing: Path | None,
    by_ear: bool,
    seed: int | None,
    profile: Path | None,
    microphone: str | None,
    headphones: str | None,
    silent: bool,
) -> None:
    """Call bowls whose places are given along and across the rink, or in a drawing.

    Call each as on the green, typed or spoken: "eighty centimetres, two o'clock". You can
    also say again, skip or stop.
    """
    chance = random.Random(seed)
    if by_ear:
        _after_me(chance, profile, microphone, headphones, silent=silent)
        return
    tasks = (
        calling.tasks(_story_head(story))
        if story
        else calling.by_chance(chance_heads.places(bowls, chance), chance_heads.sides(bowls))
    )
    understanding = Understanding(kept_book.load())
    pair = _pair(profile)
    round_ = calling.Calls(tasks, understanding, _preferences(pair), drawn=drawing is not None)
    if drawing is not None:
        write_whole(drawing, [practice_drawing.drawing(tasks)])
        put(f"The head is drawn in {drawing}.")
    with partner_for(microphone, headphones, pair, understanding, silent=silent) as partner:
        result, before = _play(round_, partner)
        if result.of:
            partner.tell(calling_words(result, before))


def _after_me(
    chance: random.Random,
    profile: Path | None,
    microphone: str | None,
    headphones: str | None,
    *,
    silent: bool,
) -> None:
    """Get to know a voice, and keep its slips in the pair's profile, unless it says to learn nothing."""
    pair, file = _pair(profile), profile or profile_path()
    if pair.learns is False:
        raise Problem("The profile says to learn nothing of the voice. Set learns to yes first.")
    stranger, known = Understanding(kept_book.load()), Understanding(kept_book.load())
    known.voice.slips = pair.slips or ()
    round_ = after_me.AfterMe(after_me.lines(after_me.NOTES, chance), stranger, known)
    with partner_for(microphone, headphones, pair, stranger, silent=silent) as partner:
        go_through(round_.go(), partner)
    if round_.slips != (pair.slips or ()):
        write_profile(pair.model_copy(update={"slips": round_.slips}), file)


@command.command("picturing")
@bowls_option
@head_option
@click.option(
    "--journal", "file", type=click.Path(dir_okay=False, path_type=Path), help="A head from a journal."
)
@click.option("--played", is_flag=True, help="The head of today's journal, as it lies.")
@click.option(
    "--end", type=click.IntRange(min=1), help="The end of the journal; the last one if none is named."
)
@click.option(
    "--form",
    type=click.Choice(FORMS),
    help="How it is read; if none is named, the form that was tried least.",
)
@click.option("--questions", "count", type=click.IntRange(1, 20), default=5, show_default=True)
@click.option("--back", is_flag=True, help="Say the head back, instead of answering questions.")
@seed_option
@profile_option
@microphone_option
@headphones_option
@silent_option
def picture_it(
    bowls: int,
    story: str | None,
    file: Path | None,
    played: bool,
    end: int | None,
    form: str | None,
    count: int,
    back: bool,
    seed: int | None,
    profile: Path | None,
    microphone: str | None,
    headphones: str | None,
    silent: bool,
) -> None:
    """Listen to a head, then answer questions about it, or say it back.

    The head is drawn by chance unless one is named. The forms of reading and the lengths
    are compared over all rounds, so that you find out what you remember best.
    """
    chance = random.Random(seed)
    seen = _head(bowls, story, _todays() if played else file, end, chance)
    length = sum(lie.gap_m is not None and lie.state != "dead" for lie in seen.lies)
    if not length:
        raise Problem("That head has no bowl to picture. Choose another.")
    pair = _pair(profile)
    prefs, understanding = _preferences(pair), Understanding(kept_book.load())
    kind = "saying back" if back else "questions"
    chosen = form or least_tried(read_results(log_path()), FORMS, length, kind)
    asked = () if back else questions(seen, prefs, count, chance)
    memory = picturing.Memory(seen, chosen, understanding, prefs, asked)
    with partner_for(microphone, headphones, pair, understanding, silent=silent) as partner:
        result, before = _play(memory, partner)
        if result.of:
            partner.tell(picturing_words(result, before))


@command.command("results")
def results() -> None:
    """Say how the rounds so far went: the trend of calling, and the forms of picturing by length."""
    found = read_results(log_path())
    called = [each for each in found if each.kind == "calling"]
    tasks = sorted({(each.kind, each.bowls) for each in found if each.form is not None})
    lines = [*(calling_words(called[-1], called[:-1]) if called else ())]
    for kind, bowls in tasks:
        lines += compared(found, bowls, kind)
    for sentence in lines:
        put(sentence.text)
    put(f"{len(found)} rounds are kept in {log_path()}." if found else "No rounds are kept yet.")


def _play(round_: Practice, partner: Asking) -> tuple[Result, tuple[Result, ...]]:
    """Go through a round and keep its result. Returns that result and those before it."""
    go_through(round_.go(), partner)
    return _kept(round_.result(datetime.now().astimezone().isoformat(timespec="seconds")))


def _kept(result: Result) -> tuple[Result, tuple[Result, ...]]:
    before = read_results(log_path())
    if result.of:
        add_result(result, log_path())
    return result, before


def _head(
    bowls: int, story: str | None, file: Path | None, end: int | None, chance: random.Random
) -> Picture:
    if story and file:
        raise click.UsageError(
            "A head comes either from a scenario or from a journal. Leave one of them out."
        )
    if file:
        return picture(moment(journal.read(file)[0], end=end).play.head)
    return _story_head(story) if story else chance_heads.head(bowls, chance)


def _todays() -> Path:
    path = places.under_way(datetime.now().astimezone(), places.folder())
    if path is None:
        raise Problem("No game is under way today. Name a journal with --journal.")
    return path


def _story_head(name: str) -> Picture:
    """The head in which a story of the scenarios ends."""
    path = scenarios() / name / "story.yaml"
    if not path.is_file():
        known = ", ".join(sorted(each.parent.name for each in scenarios().glob("*/story.yaml")))
        raise Problem(f"There is no scenario {name!r}. There are: {known}.")
    conversation = Conversation()
    for step in read_story(path).steps:
        conversation.hear(Heard(text=step.say))
    return conversation.picture()


def _pair(profile: Path | None) -> Profile:
    return read_profile(profile) if profile else read_if_there(profile_path())


def _preferences(pair: Profile) -> Preferences:
    """How the pair's profile wants things to be said."""
    conversation = Conversation()
    for note in notes(pair):
        conversation.file(note, "profile")
    return conversation.talk.manner.prefs
