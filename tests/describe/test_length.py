"""How long what is spoken takes: words counted, and the default voice measured."""

import random
from collections.abc import Iterator, Sequence

import pytest

from tests.describe.heads import Lay, picture_of
from voicecoach.describe import Preferences, Sentence, cautions, frame, read_back, sum_up
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.values import Event, Picture
from voicecoach.speak.voice import Voice
from voicecoach.understand.values import BowlRested, JackMoved, Note, Side

# As directors call: tens of centimetres, whole and half metres, whole hours.
CALLED_M = (0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 0.9, 1.0, 1.2, 1.5, 1.8, 2.0, 2.5, 3.0)


@pytest.fixture(scope="module")
def voice() -> Iterator[Voice]:
    with Voice() as speaking:
        yield speaking


def seconds(said: Sequence[Sentence], voice: Voice) -> float:
    """What they take at the default pace, pauses included."""
    sounds = [voice.render(one.text, within_s=one.within_s) for one in said]
    return sum(len(sound.samples) / sound.rate_hz for sound in sounds) + sum(one.pause_s for one in said)


def called_head(chance: random.Random, bowls: int) -> Picture:
    """A head called in metres and whole hours, the sides taking turns."""
    sides: tuple[Side, Side] = ("ours", "theirs")
    lays = [
        Lay(sides[index % 2], index // 2 + 1, gap, float(chance.randint(1, 12)), "m" if gap >= 1 else "cm")
        for index, gap in enumerate(chance.choices(CALLED_M, k=bowls))
    ]
    return picture_of(lays)


@pytest.mark.parametrize(("terse", "limit_s"), [(False, 50.0), (True, 32.0)])
def test_sixteen_bowls_of_a_pairs_end_take_at_most_fifty_seconds_and_tersely_thirty_two(
    terse: bool, limit_s: float, voice: Voice
) -> None:
    chance = random.Random(16)
    for _ in range(10):
        said = read_back(called_head(chance, 16), Preferences(terse=terse))
        assert seconds(said, voice) <= limit_s


@pytest.mark.parametrize(("terse", "limit_s"), [(False, 50.0), (True, 32.0)])
def test_they_take_no_longer_after_a_jack_move_when_hours_lie_between(
    terse: bool, limit_s: float, voice: Voice
) -> None:
    chance = random.Random(17)
    for _ in range(3):
        said = read_back(moved_head(chance), Preferences(terse=terse))
        assert any(" or " in one.text for one in said), "the doubt is heard in some hours"
        assert seconds(said, voice) <= limit_s


def moved_head(chance: random.Random) -> Picture:
    """Sixteen bowls told to the engine, the jack moved half a metre past before the last four."""
    play = begin()
    sides: tuple[Side, Side] = ("ours", "theirs")
    notes: list[Note] = [
        BowlRested(
            side=sides[index % 2],
            number=index // 2 + 1,
            gap_m=gap,
            unit="cm",
            hour=chance.randint(1, 12),
            confirmed=True,
        )
        for index, gap in enumerate(chance.choices(CALLED_M, k=16))
    ]
    notes.insert(12, JackMoved(gap_m=0.5, unit="m", remarks=("past",), confirmed=True))
    for note in notes:
        event = decide(play, note)
        play = evolve(play, event) if isinstance(event, Event) else play
    return picture(play.head)


def test_the_sum_has_at_most_twelve_words_and_six_seconds(voice: Voice) -> None:
    chance = random.Random(12)
    for _ in range(50):
        picture = called_head(chance, chance.randint(0, 16))
        if picture.holding and chance.random() < 0.4:
            shots = chance.choice([None, picture.holding.shots])
            unsure = picture.holding.model_copy(update={"sure": shots is None, "shots": shots})
            picture = picture.model_copy(update={"holding": unsure})
        said = sum_up(picture, Preferences())
        assert len(said.text.split()) <= 12
        assert seconds([said], voice) <= 6


def test_all_cautions_take_under_fifteen_seconds_and_the_short_form_under_five(voice: Voice) -> None:
    assert seconds(cautions(short=False), voice) < 15
    assert seconds(cautions(short=True), voice) < 5


def test_the_frame_is_one_short_sentence() -> None:
    assert frame().text == "Twelve is past the jack, seen from the mat."
