"""Events, questions and heads in, sentences out.

What comes in: what a note did (`Event`), what has to be asked or refused, or how the head looks
(`Picture`); and `Preferences`, the way in which one listener wants to hear it. What goes out: `Sentence`
values, each with its text, the pause after it and the place that it speaks of.

A sentence is made for someone who holds it in mind without a picture. One bowl is one sentence of three
pieces, always in the same order: whose and which, how far, which hour. A read-back begins with one sentence
that sums up. Then come the bowls in walking order, from the mat up the rink, the jack in its place, groups
of three or fewer with a pause between them. What sounds alike is said in two ways ("nine o'clock, left";
"sixteen centimetres, one six"). A figure has no more decimals than a person would say, and doubt is spoken:
"about", "between four and five", "too close to call from here".

All English is in the phrase book's `wording.yaml`; the modules here choose the template and fill its slots
with words, never with digits. A confirmation says back what was called, as it was called, in its own unit:
the speaker is to check the ear, not arithmetic. Everything else is said as it lies now.

This stage may not change anything or decide anything about the head, and does not know how its sentences
are spoken. It describes and never advises: the choice is the pair's. The same values always give the same
sentences.
"""

from voicecoach.describe.answers import answer, topic_row
from voicecoach.describe.asking import ask, lapse, own_voice, plainly, poor_link, refuse
from voicecoach.describe.confirming import confirm
from voicecoach.describe.device import battery, battery_low, time_of_day
from voicecoach.describe.frames import cautions, frame, hold_to_talk, written_cautions
from voicecoach.describe.line_answers import (
    angle_answer,
    jack_answer,
    miss_answer,
    no_target,
    speed_answer,
    turning_answer,
    weight_answer,
    without_answer,
)
from voicecoach.describe.lists import read_back
from voicecoach.describe.open_hands import hands_answer, hands_sentence
from voicecoach.describe.order import order
from voicecoach.describe.reasons import opened
from voicecoach.describe.remarks import remarks
from voicecoach.describe.resuming import ends_by_itself, left_behind, no_other_game, one_ear, resumed
from voicecoach.describe.setting import (
    confirm_set,
    confirm_setting,
    kept_for_next_time,
    may_sound_be_kept,
    no_pace,
    no_sound,
    nothing_deleted,
    sound_not_kept,
    which_to_delete,
    your_means,
)
from voicecoach.describe.sound_picture import bodies
from voicecoach.describe.stops import stop_json, stops
from voicecoach.describe.sums import sum_up
from voicecoach.describe.turn import for_player, my_turn
from voicecoach.describe.values import Battery, Preferences, Sentence, Stop, Walking
from voicecoach.describe.walking import walk

__all__ = [
    "Battery",
    "Preferences",
    "Sentence",
    "Stop",
    "Walking",
    "angle_answer",
    "answer",
    "ask",
    "battery",
    "battery_low",
    "bodies",
    "cautions",
    "confirm",
    "confirm_set",
    "confirm_setting",
    "ends_by_itself",
    "for_player",
    "frame",
    "hands_answer",
    "hands_sentence",
    "hold_to_talk",
    "jack_answer",
    "kept_for_next_time",
    "lapse",
    "left_behind",
    "may_sound_be_kept",
    "miss_answer",
    "my_turn",
    "no_other_game",
    "no_pace",
    "no_sound",
    "no_target",
    "nothing_deleted",
    "one_ear",
    "opened",
    "order",
    "own_voice",
    "plainly",
    "poor_link",
    "read_back",
    "refuse",
    "remarks",
    "resumed",
    "sound_not_kept",
    "speed_answer",
    "stop_json",
    "stops",
    "sum_up",
    "time_of_day",
    "topic_row",
    "turning_answer",
    "walk",
    "weight_answer",
    "which_to_delete",
    "without_answer",
    "written_cautions",
    "your_means",
]
