"""Games told in words, by a seed: what a journal of a real afternoon holds, without anybody's afternoon."""

import random
from collections.abc import Callable
from pathlib import Path

from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.numbers import cardinal, ordinal

HOURS = ("twelve", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
HANDS = (", forehand", ", backhand", "")
REMARKS = ("shoulder dropped", "a good delivery", "took too much grass", "the green is slower here")


class Telling:
    """Says notes to a conversation, and answers what it asks back with yes."""

    def __init__(self, conversation: Conversation) -> None:
        self._conversation = conversation

    def say(self, words: str) -> bool:
        """True when the note was taken."""
        entry = self._conversation.hear(Heard(text=words))
        while entry.outcome == "asked":
            answer = "yes" if entry.open and entry.open.slot == "yes or no" else "take that back"
            entry = self._conversation.hear(Heard(text=answer))
        return entry.outcome == "noted"


def centimetres(metres: float) -> str:
    """A distance as it is called: `one metre twenty`, `eighty centimetres`."""
    whole, rest = divmod(round(metres * 20) * 5, 100)
    if not whole:
        return f"{cardinal(max(rest, 5))} centimetres"
    metre = "one metre" if whole == 1 else f"{cardinal(whole)} metres"
    return f"{metre} {cardinal(rest)}" if rest else metre


def pairs(path: Path, ends: int = 25, seed: int = 1, bowls: int = 8) -> Path:
    """A game of so many ends of pairs, `bowls` a side in each; the journal's path."""
    chance = random.Random(seed)
    with Conversation(path) as conversation:
        say = Telling(conversation).say
        assert say("pairs, we lead, mat line at two metres, rink five metres wide")
        assert say("green thirty six metres long")
        for end in range(1, ends + 1):
            if end > 1:
                assert say("next end")
            assert say(f"jack at {cardinal(chance.randint(24, 30))} metres")
            _end(say, bowls, chance)
    return path


def _end(say: Callable[[str], bool], bowls: int, chance: random.Random) -> None:
    leads = chance.choice((("our", "their"), ("their", "our")))
    for number in range(1, bowls + 1):
        for whose in leads:
            _bowl(say, f"{whose} {ordinal(number)}", whose == "our", chance)
    if chance.random() < 0.5:
        say(f"jack moved {centimetres(chance.uniform(0.2, 0.6))} to twelve o'clock")
    if chance.random() < 0.5:
        say(f"remark on our {ordinal(chance.randint(1, bowls))}: {chance.choice(REMARKS)}")
    shots, whose = chance.randint(1, 3), chance.choice(("us", "them"))
    assert say(f"the end is finished, {cardinal(shots)} shots to {whose}")


def _bowl(say: Callable[[str], bool], name: str, hand: bool, chance: random.Random) -> None:
    """One bowl; where there is no room for it, it comes to rest elsewhere."""
    while True:
        gap_m = min(4.0, 0.1 + chance.expovariate(1.0))
        said = f"{name}, {centimetres(gap_m)}, {chance.choice(HOURS)} o'clock"
        if say(said + (chance.choice(HANDS) if hand else "")):
            break
    if chance.random() < 0.04:
        say(f"correction, {name} {chance.choice(HOURS)} o'clock")
