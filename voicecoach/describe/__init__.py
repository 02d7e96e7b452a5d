"""Events, questions and heads in, sentences out."""

from voicecoach.describe.answers import answer
from voicecoach.describe.asking import ask, lapse, refuse
from voicecoach.describe.confirming import confirm
from voicecoach.describe.frames import cautions, frame, written_cautions
from voicecoach.describe.lists import read_back
from voicecoach.describe.order import order
from voicecoach.describe.sums import sum_up
from voicecoach.describe.turn import for_player, my_turn
from voicecoach.describe.values import Preferences, Sentence

__all__ = [
    "Preferences",
    "Sentence",
    "answer",
    "ask",
    "cautions",
    "confirm",
    "for_player",
    "frame",
    "lapse",
    "my_turn",
    "order",
    "read_back",
    "refuse",
    "sum_up",
    "written_cautions",
]
