"""An end as it may be spoken in each of eight countries comes out as it was played, with its score.

The talk is common practice, no source: written by us from general knowledge of how the game is spoken of.
"""

from pathlib import Path

import pytest

from tests.session.test_stories import assert_lies_as_written, tell
from voicecoach.story import read_story

FOLDER = Path(__file__).parent
SCORES = {
    "england": (0, 1),
    "scotland": (0, 0),
    "ireland": (1, 0),
    "wales": (2, 0),
    "australia": (1, 0),
    "new_zealand": (0, 1),
    "south_africa": (0, 2),
    "canada": (2, 0),
}
"""Ours and theirs, after the end."""


@pytest.mark.parametrize("country", SCORES)
def test_an_end_in_a_countrys_own_words_comes_out_as_it_was_played(country: str) -> None:
    story = read_story(FOLDER / f"{country}.yaml")
    conversation = tell(story)
    assert len(story.head) >= 3
    assert_lies_as_written(story, conversation)
    score = conversation.picture().head.score
    assert (score.ours, score.theirs, score.ends) == (*SCORES[country], 1)


def test_every_story_has_its_score() -> None:
    assert {path.stem for path in FOLDER.glob("*.yaml")} == set(SCORES)
