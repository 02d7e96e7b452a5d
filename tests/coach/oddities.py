"""A journal with everything odd that a page must bear, told in words as on the green.

It has steps left out before play; a question asked back; a correction of a place and one of an owner; a
remark with stops in it; a note taken back; bowls too close to lie as called; a toucher, ditched and lost
bowls; the jack moved; a level head; a dead end played again; an end without a score; an end scored against
the places called.
"""

from pathlib import Path

from click.testing import CliRunner

from voicecoach.commands import before
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard

GAME = (
    "pairs, we lead, mat line at two metres, rink five metres wide",
    "green thirty six metres long",
    "right handed",
)
FIRST = (
    "jack at twenty seven metres",
    "our first, one metre twenty, six o'clock, forehand",
    "their first, eighty centimetres, three o'clock",
    "our second, one metre, one o'clock, backhand",
    "no, eleven o'clock",
    "remark on our second: too much grass, again; the shoulder dropped!",
    "their second in the ditch",
    "our third, fifty centimetres",
    "nine o'clock",
    "their third out of the rink",
    "our fourth, twenty centimetres, six o'clock, forehand",
    "their fourth, twenty centimetres, six o'clock",
    "their fifth, thirty centimetres, six o'clock",
    "our fifth, touching, three o'clock, toucher",
    "their sixth, two metres, twelve o'clock",
    "take that back",
    "their sixth, two metres, one o'clock",
    "jack moved thirty centimetres to twelve o'clock",
    "our sixth, forty centimetres, five o'clock, backhand",
    "remark: the wind got up, from the left.",
    "the end is finished, three shots to us",
)
DEAD = (
    "jack at twenty five metres",
    "their first, seventy centimetres, two o'clock",
    "our first, thirty centimetres, ten o'clock, forehand",
    "their second, one metre, five o'clock",
    "our second, two metres, six o'clock, forehand",
    "dead end",
)
AGAIN = (
    "jack at twenty nine metres",
    "our first, two metres ten, five o'clock, forehand",
    "their first, forty centimetres, nine o'clock",
    "our second, one metre ten, four o'clock, backhand",
    "their second, one metre thirty, two o'clock",
    "the end is over, no score",
)
LEVEL = (
    "jack at twenty four metres",
    "our first, sixty centimetres, three o'clock, forehand",
    "their first, sixty centimetres, nine o'clock",
    "our second, one metre, six o'clock, backhand",
    "no, theirs",
    "the end is finished, one shot to them",
)


def told(path: Path, *words: str) -> Path:
    """A journal of these notes; a question back is answered by the next of them."""
    with Conversation(path) as conversation:
        for each in words:
            entry = conversation.hear(Heard(text=each))
            assert entry.outcome in ("noted", "asked"), (each, entry.say)
    return path


def odd_game(path: Path, *first: str) -> Path:
    """The journal; `first` are notes before the game, such as how things are to be said."""
    typed = "done\nskip\ndone\nstop\ndone\n"
    order = ["--journal", str(path), "--silent"]
    ran = CliRunner().invoke(before.command, order, input=typed, standalone_mode=False)
    assert ran.exit_code == 0, ran.exception
    return told(path, *first, *GAME, *FIRST, "next end", *DEAD, *AGAIN, "next end", *LEVEL)
