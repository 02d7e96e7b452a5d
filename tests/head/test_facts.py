"""Facts beside a confirmation, as a journal keeps them."""

import pytest

from voicecoach.head.values import ByPlaces, EndsLeft, Event, Fact
from voicecoach.understand.values import EndFinished

FACTS: list[Fact] = [
    EndsLeft(ends_left=3),
    ByPlaces(by_places=2, side="theirs"),
    ByPlaces(by_places=0),
    "game over",
    "three ends left",
]
"""The last one is a sentence, as an earlier version kept it."""


@pytest.mark.parametrize("fact", FACTS, ids=str)
def test_a_fact_is_kept_as_a_few_words_and_read_again_as_what_it_was(fact: Fact) -> None:
    event = Event(note=EndFinished(side="ours", shots=2), remarks=(fact,))
    assert all(isinstance(kept, str) for kept in event.model_dump(mode="json")["remarks"])
    assert Event.model_validate_json(event.model_dump_json()) == event
