"""The margin in the sum is the difference of the two figures that are read beside it, whatever the head."""

import random

import pytest

from tests.describe.stranger import hear, metres
from tests.head.acts import bowl, jack, played
from voicecoach.describe import Preferences, answer
from voicecoach.head import decide, evolve, picture
from voicecoach.head.values import Event, Game, Picture
from voicecoach.understand.values import Question

GAPS = ((0.15, "cm"), (0.35, "cm"), (0.85, "cm"), (1.0, "m"), (1.2, "m"), (1.5, "m"), (2.3, "m"))
FEET = ((0.3048, "ft"), (0.4572, "ft"), (0.6096, "ft"), (1.524, "ft"), (1.8288, "yd"))


def chance_head(seed: int) -> Picture:
    """Up to six bowls; in every other head the jack moves after them, so that the figures are worked out."""
    dice = random.Random(seed)
    play = played([], Game(widest_m=100.0))
    units = dice.choice((GAPS, FEET, (*GAPS, *FEET)))
    for _ in range(dice.randint(2, 6)):
        gap_m, unit = dice.choice(units)
        event = decide(play, bowl(gap_m, dice.randint(1, 24) / 2, unit=unit))
        if isinstance(event, Event):
            play = evolve(play, event)
    if seed % 2:
        event = decide(play, jack(dice.choice((0.2, 0.5)), dice.randint(1, 12)))
        play = evolve(play, event) if isinstance(event, Event) else play
    return picture(play.head)


@pytest.mark.parametrize("units", ["as called", "metres", "feet"])
def test_the_margin_is_the_difference_of_the_figures_beside_it(units: str) -> None:
    prefs = Preferences.model_validate({"units": units})
    margins = 0
    for seed in range(250):
        said = [one.text for one in answer(Question(ask="holding"), chance_head(seed), prefs, None)]
        _, by, margin = said[0].rstrip(".").partition(", by ")
        if not by:
            continue
        near, far = (hear(text) for text in said[1:3])
        assert near is not None
        assert far is not None
        assert metres(margin) == pytest.approx(far.gap_m - near.gap_m, abs=0.003), said
        margins += 1
    assert margins > 40, "most of the heads should have one"
