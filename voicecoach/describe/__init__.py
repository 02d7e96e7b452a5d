"""Events, questions and heads in, sentences out."""

from voicecoach.describe.answers import answer
from voicecoach.describe.asking import ask, lapse, refuse
from voicecoach.describe.confirming import confirm
from voicecoach.describe.frames import cautions, frame, written_cautions
from voicecoach.describe.lists import read_back
from voicecoach.describe.order import order
from voicecoach.describe.setting import confirm_setting
from voicecoach.describe.stops import stop_json, stops
from voicecoach.describe.sums import sum_up
from voicecoach.describe.turn import for_player, my_turn
from voicecoach.describe.values import Preferences, Sentence, Stop, Walking
from voicecoach.describe.walking import walk

__all__ = [
    "Preferences",
    "Sentence",
    "Stop",
    "Walking",
    "answer",
    "ask",
    "cautions",
    "confirm",
    "confirm_setting",
    "for_player",
    "frame",
    "lapse",
    "my_turn",
    "order",
    "read_back",
    "refuse",
    "stop_json",
    "stops",
    "sum_up",
    "walk",
    "written_cautions",
]
