"""Whether it is told that recognising falls behind, by how old the sound is block by block."""

import pytest

from voicecoach.live.lag import Lag


def told_at(ages_s: list[float]) -> list[int]:
    lag = Lag()
    return [at for at, age_s in enumerate(ages_s) if lag.tells(age_s)]


@pytest.mark.parametrize(
    ("ages_s", "told"),
    [
        ([0.0] * 50, []),
        ([0.0, 4.9, 0.0], []),
        ([0.0, 5.1, 9.0, 20.0], [1]),
        ([0.0, 5.1, 0.5, 5.1], [1, 3]),
        ([0.0, 5.1, 4.0, 5.1], [1]),  # it hadn't caught up in between
        ([12.0, 11.0, 8.0, 5.5, 3.0, 0.5, 0.0], []),  # what came while the program was loaded
        ([12.0, 14.0, 17.1, 20.0], [2]),  # it isn't caught up with
        ([12.0, 6.0, 0.9, 5.1], [3]),
    ],
)
def test_it_is_told_once_until_it_has_caught_up_and_not_for_what_came_during_the_start(
    ages_s: list[float], told: list[int]
) -> None:
    assert told_at(ages_s) == told
