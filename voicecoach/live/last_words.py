"""Says aloud why a session can't begin or had to end; without headphones the terminal beeps."""

from __future__ import annotations

import click

from voicecoach import log_file
from voicecoach.describe.values import Sentence
from voicecoach.errors import Problem
from voicecoach.phrasebook.numbers import without_digits
from voicecoach.sound.bounded import stuck_after
from voicecoach.speak.mouth import Mouth

WITHIN_S = 20.0
"""How long it may take, seconds: the program must end."""


def say_last(text: str, headphones: str | None) -> bool:
    """Say it; False where it can't be heard: the terminal beeps then. The caller prints it as well."""

    def say() -> None:
        with Mouth(headphones) as mouth:
            mouth.say([Sentence(text=without_digits(text))])

    try:
        heard = stuck_after(WITHIN_S, say) is None
    except Problem:
        heard = False
    except Exception:  # whatever the sound library met, the last words are no traceback
        log_file.failed("the last words failed")
        heard = False
    if not heard:
        click.echo("\a", err=True, nl=False)
    return heard
