"""What is read back can be said as a note, and means the same bowl: the phrase book knows its words."""

import random

import pytest

from tests.describe.heads import picture_of, random_lays
from voicecoach.describe import Preferences, Sentence, read_back
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.values import Event
from voicecoach.hear.values import Heard
from voicecoach.phrasebook import load
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, Ranked


@pytest.fixture(scope="module")
def understanding() -> Understanding:
    return Understanding(load())


def read(understanding: Understanding, text: str) -> BowlRested:
    spelt = text.lower().rstrip(".").translate(str.maketrans("", "", ":,"))
    ranked = understanding.read(Heard(text=spelt), Expected())
    assert isinstance(ranked, Ranked), (text, ranked)
    note = ranked.notes[0]
    assert isinstance(note, BowlRested), (text, note)
    return note


def test_every_called_bowl_read_back_is_understood_as_the_same_note(understanding: Understanding) -> None:
    chance = random.Random(5)
    for _ in range(25):
        lays = random_lays(chance, chance.randint(1, 12), as_called=True)
        called = {(lay.side, lay.number): lay for lay in lays if lay.state == "live"}
        for said in read_back(picture_of(lays), Preferences()):
            if said.about is None or (said.about.side, said.about.number) not in called:
                continue
            lay = called[said.about.side, said.about.number]
            note = read(understanding, said.text)
            assert (note.side, note.number) == (lay.side, lay.number)
            assert note.hour == lay.hour
            assert note.gap_m == pytest.approx(lay.gap_m, abs=0.0013)


def test_a_head_told_from_its_own_read_back_is_the_same_head(understanding: Understanding) -> None:
    chance = random.Random(8)
    for _ in range(5):
        first = _told(understanding, [f"{name} {place}" for name, place in _notes(chance)])
        again = _told(understanding, [said.text for said in first if said.about])
        assert sorted(said.text for said in first) == sorted(said.text for said in again)


def _notes(chance: random.Random) -> list[tuple[str, str]]:
    """Notes of a head spread out enough that no two bowls touch."""
    hours = ["one", "three", "four", "six", "seven", "eight", "ten", "twelve"]
    chance.shuffle(hours)
    names = [
        f"{side} {number}" for number in ("first", "second", "third", "fourth") for side in ("our", "their")
    ]
    gaps = ["thirty centimetres", "sixty centimetres", "one metre", "one and a half metres", "two metres"]
    return [(name, f"{chance.choice(gaps)} {hour} o'clock") for name, hour in zip(names, hours, strict=True)]


def _told(understanding: Understanding, texts: list[str]) -> list[Sentence]:
    play = begin()
    for text in texts:
        event = decide(play, read(understanding, text))
        assert isinstance(event, Event), (text, event)
        play = evolve(play, event)
    return list(read_back(picture(play.head), Preferences()))
