"""What the head gives: the end as it lies, what a note did to it, what it asks back, how it looks now."""

from voicecoach.head.values.bodies import Bowl, Came, Death, Jack, JackMove, State
from voicecoach.head.values.bowling import HANDS, Bowling, Line, OutTo, way_out
from voicecoach.head.values.calls import Call, Called, Landmark
from voicecoach.head.values.events import AimAdvice, Event
from voicecoach.head.values.facts import ByPlaces, EndsLeft, Fact, FactName
from voicecoach.head.values.game import EndScore, Game, Score
from voicecoach.head.values.looks import HandLook, Hands, Miss, Openness, Turning, Weight
from voicecoach.head.values.pictures import Holding, Lie, Picture, Sure
from voicecoach.head.values.play import Head, Kept, Play
from voicecoach.head.values.points import Point
from voicecoach.head.values.reasons import (
    Answer,
    AnswerWord,
    Asked,
    Breach,
    BreachName,
    Figures,
    Refusal,
)
from voicecoach.head.values.replies import AskBack, Refused
from voicecoach.head.values.tally import Tally
from voicecoach.understand.notes.eye import Eye, Judging

__all__ = [
    "HANDS",
    "AimAdvice",
    "Answer",
    "AnswerWord",
    "AskBack",
    "Asked",
    "Bowl",
    "Bowling",
    "Breach",
    "BreachName",
    "ByPlaces",
    "Call",
    "Called",
    "Came",
    "Death",
    "EndScore",
    "EndsLeft",
    "Event",
    "Eye",
    "Fact",
    "FactName",
    "Figures",
    "Game",
    "HandLook",
    "Hands",
    "Head",
    "Holding",
    "Jack",
    "JackMove",
    "Judging",
    "Kept",
    "Landmark",
    "Lie",
    "Line",
    "Miss",
    "Openness",
    "OutTo",
    "Picture",
    "Play",
    "Point",
    "Refusal",
    "Refused",
    "Score",
    "State",
    "Sure",
    "Tally",
    "Turning",
    "Weight",
    "way_out",
]
