"""What the sound thread is given, block by block."""

import threading

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from voicecoach.speak.feed import Feed
from voicecoach.speak.loudness import CEILING
from voicecoach.speak.values import Samples


def drawn(feed: Feed, blocks: list[int], channels: int) -> Samples:
    """What a device gets that asks for blocks of these lengths."""
    taken = []
    for length in blocks:
        block = np.ones((length, channels), np.float32)
        feed.fill(block)
        taken.append(block)
    return np.concatenate(taken)


def pieces_of(lengths: list[int]) -> list[Samples]:
    numbers = np.arange(1, sum(lengths) + 1, dtype=np.float32) / 1_000
    return np.split(numbers, np.cumsum(lengths)[:-1])


@given(
    lengths=st.lists(st.integers(0, 60), min_size=1, max_size=8),
    blocks=st.lists(st.integers(1, 70), min_size=1, max_size=40),
    channels=st.sampled_from([1, 2]),
)
def test_the_size_of_the_blocks_changes_nothing_and_silence_follows(
    lengths: list[int], blocks: list[int], channels: int
) -> None:
    feed, pieces = Feed(channels), pieces_of(lengths)
    for piece in pieces:
        feed.put(piece)
    taken = drawn(feed, blocks, channels)
    expected = np.zeros(max(len(taken), sum(lengths)), np.float32)
    expected[: sum(lengths)] = np.concatenate(pieces)
    for column in taken.T:
        assert np.array_equal(column, expected[: len(taken)])
    assert feed.given == min(sum(blocks), sum(lengths))


def test_a_piece_is_heard_once_its_last_frame_is_out_of_the_device() -> None:
    feed = Feed(channels=1)
    for piece in pieces_of([10, 10]):
        feed.put(piece)
    drawn(feed, [15], 1)
    assert feed.heard(held=0) == 1
    assert feed.heard(held=6) == 0


def test_what_was_not_played_can_be_handed_over_again() -> None:
    feed = Feed(channels=1)
    for piece in pieces_of([10, 10, 10]):
        feed.put(piece)
    first = drawn(feed, [25], 1)
    feed.back_to(5)
    assert np.array_equal(drawn(feed, [20], 1), first[5:])


def test_nothing_is_given_after_a_stop() -> None:
    stopped = threading.Event()
    feed = Feed(channels=1, stopped=stopped)
    feed.put(np.full(100, 0.5, np.float32))
    assert drawn(feed, [10], 1).all()
    stopped.set()
    assert not drawn(feed, [10], 1).any()
    assert feed.given == 10


def test_left_and_right_are_mixed_for_a_single_ear_and_nothing_passes_the_ceiling() -> None:
    feed = Feed(channels=1)
    feed.put(np.array([[0.2, 0.4], [9.0, 9.0]], np.float32))
    taken = drawn(feed, [2], 1)[:, 0]
    assert np.allclose(taken, [0.3, CEILING])
