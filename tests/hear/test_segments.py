"""Where an utterance begins and ends, with a detector that is a list."""

from collections.abc import Iterator

import numpy as np
import pytest

from voicecoach.hear.blocks import BLOCK, BLOCK_S, Block, Samples
from voicecoach.hear.segments import Segmenter, Utterance


class Listed:
    """A voice detector that says what it was told: True for a block of speech."""

    def __init__(self, talk: list[bool]) -> None:
        self._talk = iter(talk)

    def __call__(self, samples: Samples) -> float:
        return 0.9 if next(self._talk) else 0.1


def numbered(count: int) -> Iterator[Block]:
    """Blocks whose samples are their own number, scaled to stay within full scale."""
    for number in range(count):
        yield Block(np.full(BLOCK, number / 10_000, np.float32), number * BLOCK_S)


def split(talk: list[bool], whole: bool | None = None) -> list[Utterance]:
    is_whole = None if whole is None else (lambda: whole)
    return list(Segmenter(is_whole, Listed(talk)).segment(numbered(len(talk))))


def quiet(seconds: float) -> list[bool]:
    return [False] * round(seconds / BLOCK_S)


def loud(seconds: float) -> list[bool]:
    return [True] * round(seconds / BLOCK_S)


def test_what_came_just_before_the_speech_is_kept_so_that_first_words_are_not_lost() -> None:
    (one,) = split(quiet(2) + loud(1) + quiet(2))
    assert one.started_s == pytest.approx(2, abs=0.04)
    before_s = one.started_s - one.samples[0] * 10_000 * BLOCK_S
    assert 0.5 <= before_s <= 0.75


def test_speech_that_begins_with_the_recording_is_kept_from_its_first_sample() -> None:
    (one,) = split(loud(1) + quiet(2))
    assert one.samples[0] == 0


def test_the_times_are_those_of_the_speech_without_the_silence_round_it() -> None:
    (one,) = split(quiet(1) + loud(1.5) + quiet(2))
    assert (one.started_s, one.ended_s) == pytest.approx((1.0, 2.5), abs=0.05)


@pytest.mark.parametrize(("whole", "pause_s", "pieces"), [(True, 0.35, 2), (True, 0.2, 1), (False, 0.6, 1)])
def test_a_whole_note_ends_sooner_than_a_part_of_one(whole: bool, pause_s: float, pieces: int) -> None:
    found = split(loud(1) + quiet(pause_s) + loud(1) + quiet(2), whole)
    assert len(found) == pieces


def test_a_part_of_a_note_waits_for_no_more_than_0_7_seconds() -> None:
    assert len(split(loud(1) + quiet(0.75) + loud(1) + quiet(2), whole=False)) == 2


def test_without_a_judge_half_a_second_of_silence_ends_an_utterance() -> None:
    assert len(split(loud(1) + quiet(0.4) + loud(1) + quiet(2))) == 1
    assert len(split(loud(1) + quiet(0.6) + loud(1) + quiet(2))) == 2


def test_a_judge_who_cannot_say_is_no_judge() -> None:
    for pause_s in (0.4, 0.6):
        talk = loud(1) + quiet(pause_s) + loud(1) + quiet(2)
        judged = list(Segmenter(lambda: None, Listed(talk)).segment(numbered(len(talk))))
        assert len(judged) == len(split(talk))


def test_nothing_is_longer_than_eight_seconds_of_speech() -> None:
    found = split(loud(20) + quiet(1))
    assert [round(one.ended_s - one.started_s) for one in found] == [8, 8, 4]


def test_no_sample_of_speech_is_lost_or_heard_twice_where_talk_is_cut() -> None:
    first, second, _ = split(loud(20) + quiet(1))
    assert second.samples[0] > first.samples[-1]
    assert second.samples[0] - first.samples[-1] < 1.5 / 10_000


def test_a_click_is_no_utterance() -> None:
    assert split([*quiet(1), True, True, *quiet(1)]) == []


def test_the_pause_before_a_tail_is_the_tails_own_pre_roll() -> None:
    _, tail = split(loud(1) + quiet(0.45) + loud(1) + quiet(1), whole=True)
    assert tail.started_s - tail.samples[0] * 10_000 * BLOCK_S > 0.3


def test_what_is_under_way_when_the_sound_ends_is_given() -> None:
    (one,) = split(quiet(1) + loud(1))
    assert one.ended_s == pytest.approx(2, abs=0.05)
