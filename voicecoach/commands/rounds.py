"""A round of practice: its prompts are asked, and what is said or typed answers them."""

from contextlib import AbstractContextManager

from voicecoach import kept_book
from voicecoach.coach.practice import Answering, say
from voicecoach.coach.profile import Profile
from voicecoach.commands.answering import Asking, asking
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected


def partner_for(
    microphone: str | None,
    headphones: str | None,
    pair: Profile,
    understanding: Understanding,
    *,
    silent: bool,
) -> AbstractContextManager[Asking]:
    """Whoever answers: typed, or by that microphone."""
    return asking(
        microphone,
        headphones,
        pair,
        silent=silent,
        book=kept_book.load,
        is_whole=lambda text: understanding.is_whole(text, Expected()),
    )


def go_through(prompts: Answering, partner: Asking) -> None:
    """Ask and listen until the round is over."""
    answers, prompt = partner.answers(), next(prompts)
    while True:
        partner.tell(prompt.say, prompt.open, prompt.unprinted)
        heard = next(answers, None)
        try:
            prompt = prompts.send(heard)
        except StopIteration as end:
            partner.tell((*end.value, say("round", "over")))
            break
