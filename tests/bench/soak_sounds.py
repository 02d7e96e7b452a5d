"""The sounds of an afternoon that holds no note: wind, mowers, crowds and talk, a minute at a time."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass
from importlib import resources

import numpy as np
import yaml

from tests.bench.hearing import corpus, noise
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.lines import Line, number_words
from tests.bench.hearing.voices import VOICES
from voicecoach.hear.blocks import RATE_HZ, Samples

MINUTE = 60 * RATE_HZ
SPOKEN = 0.07
"""The root mean square that the corpus is spoken at: 23 decibels below full scale."""
BY_SCRIPT = ("espeak", "flite")
"""Engines of Debian packages: what they haven't said yet is said now."""
Dice = np.random.Generator


@dataclass(frozen=True)
class Scene:
    """One kind of minute: the level of its noise against a voice, and how often somebody talks close by."""

    name: str
    noise: Callable[[int, Dice, list[Samples]], Samples]
    decibels: float
    gap_s: float | None
    """Mean silence between two things said close by; None where nobody talks."""


def _wind(size: int, dice: Dice, _talk: list[Samples]) -> Samples:
    return noise.shaped(size, dice, -1.0) * (0.2 + noise.gusts(size, dice))


def _mower(size: int, dice: Dice, _talk: list[Samples]) -> Samples:
    return noise.mower(size, dice)


def _outdoors(size: int, dice: Dice, _talk: list[Samples]) -> Samples:
    return noise.outdoors(size, dice)


def _hiss(size: int, dice: Dice, _talk: list[Samples]) -> Samples:
    return noise.pink(size, dice)


SCENES = (
    Scene("wind", _wind, 0, None),
    Scene("talk, calm", _hiss, -30, 1.5),
    Scene("mower", _mower, -3, None),
    Scene("talk in wind", _outdoors, -12, 1.5),
    Scene("crowd", noise.babble, -6, None),
    Scene("talk in a crowd", noise.babble, -14, 2.5),
)


def phrases(count: int, seed: int) -> list[str]:
    """So many different things that people say beside a green."""
    book = yaml.safe_load((resources.files(__package__) / "soak_talk.yaml").read_text(encoding="utf-8"))
    dice, found = random.Random(seed), dict[str, None]()
    while len(found) < count:
        words = {
            "n": number_words(dice.randint(2, 90)),
            "h": number_words(dice.randint(1, 12)),
            "nth": dice.choice(("first", "second", "third", "fourth")),
            "name": dice.choice(book["names"]),
            "thing": dice.choice(book["things"]),
        }
        found[dice.choice(book["talk"]).format(**words)] = None
    return list(found)


def clip(text: str, dice: random.Random, only: str | None = None) -> Clip:
    """A phrase by one of the voices that are always there, or by the one named; spoken now if need be."""
    voices = [voice for voice in VOICES if voice.engine in BY_SCRIPT and only in (None, voice.name)]
    voice = dice.choice(voices)
    said = Clip(
        voice,
        Line(part="scored", form="chatter", text=text, meaning=None),
        dice.choice((0.9, 1.0, 1.1, 1.2)),
    )
    if not said.path.exists():
        corpus.make(said)
    return said


def minute(scene: Scene, dice: Dice, talk: list[Samples], note: tuple[Samples, float] | None) -> Samples:
    """One minute of a scene; `note` is a real note and when it begins, with nobody talking over it."""
    level = SPOKEN * 10 ** (scene.decibels / 20)
    sound = scene.noise(MINUTE, dice, talk)
    sound = np.asarray(sound / np.sqrt(np.mean(np.square(sound))) * level, np.float32)
    begins, ends = MINUTE, MINUTE
    if note:
        begins, ends = int(note[1] * RATE_HZ), int(note[1] * RATE_HZ) + note[0].size
        sound[begins:ends] += note[0]
    if scene.gap_s:
        _talk(sound, scene.gap_s, dice, talk, (begins - RATE_HZ, ends + RATE_HZ))
    return np.clip(sound, -1, 1)


def _talk(sound: Samples, gap_s: float, dice: Dice, talk: list[Samples], quiet: tuple[int, int]) -> None:
    """Put one thing after the other into the sound, louder and softer, except in the quiet stretch."""
    at = int(dice.exponential(gap_s) * RATE_HZ)
    while True:
        said = talk[int(dice.integers(len(talk)))]
        if at + said.size > sound.size:
            return
        if at + said.size < quiet[0] or at > quiet[1]:
            sound[at : at + said.size] += said * np.float32(10 ** (dice.uniform(-8, 3) / 20))
        at += said.size + int(dice.exponential(gap_s) * RATE_HZ)
