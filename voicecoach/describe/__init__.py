"""Events, questions and heads in, sentences out."""

from voicecoach.describe.answers import answer
from voicecoach.describe.asking import ask, lapse, own_voice, plainly, poor_link, refuse
from voicecoach.describe.confirming import confirm
from voicecoach.describe.frames import cautions, frame, hold_to_talk, written_cautions
from voicecoach.describe.lists import read_back
from voicecoach.describe.order import order
from voicecoach.describe.reasons import opened
from voicecoach.describe.remarks import remarks
from voicecoach.describe.resuming import left_behind, no_other_game, resumed
from voicecoach.describe.setting import confirm_setting, no_pace
from voicecoach.describe.sound_picture import bodies
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
    "bodies",
    "cautions",
    "confirm",
    "confirm_setting",
    "for_player",
    "frame",
    "hold_to_talk",
    "lapse",
    "left_behind",
    "my_turn",
    "no_other_game",
    "no_pace",
    "opened",
    "order",
    "own_voice",
    "plainly",
    "poor_link",
    "read_back",
    "refuse",
    "remarks",
    "resumed",
    "stop_json",
    "stops",
    "sum_up",
    "walk",
    "written_cautions",
]
