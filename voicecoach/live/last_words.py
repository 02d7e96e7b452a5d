"""Why a session can't begin or had to end: said aloud where there are headphones, else the terminal beeps."""

from __future__ import annotations

import threading

import click

from voicecoach import log_file
from voicecoach.describe.numbers import without_digits
from voicecoach.describe.values import Sentence
from voicecoach.errors import Problem
from voicecoach.speak.mouth import Mouth

WITHIN_S = 20.0
"""How long it may take, seconds: the program must end."""


def say_last(text: str, headphones: str | None) -> bool:
    """Say it; False where it can't be heard, after the terminal's bell."""
    done = threading.Event()

    def say() -> None:
        try:
            with Mouth(headphones) as mouth:
                mouth.say([Sentence(text=without_digits(text))])
        except Problem:
            return  # it is printed
        except Exception:  # whatever the sound library met: no traceback among the last words
            log_file.failed("the last words failed")
            return
        done.set()

    speaking = threading.Thread(target=say, name="last words", daemon=True)
    speaking.start()
    speaking.join(WITHIN_S)
    if not done.is_set():
        click.echo("\a", err=True, nl=False)
    return done.is_set()
