"""A dead microphone is noticed within a second, and a live one never taken for dead: by a clock passed in."""

from collections.abc import Iterator

import numpy as np

from voicecoach.hear.blocks import BLOCK_S
from voicecoach.hear.pulse import FIRST_S, LOOK_S, Pulse, State

HOURS_8 = 8 * 3_600
STALL_S = 1.5


def arrivals(seconds: float, seed: int) -> Iterator[float]:
    """When blocks come: a little late each, now and then half a second, and then several at once.

    Every ten minutes others keep the processor from the program: what was due comes right after that.
    """
    dice = np.random.default_rng(seed)
    due = BLOCK_S * np.arange(1, round(seconds / BLOCK_S))
    late = dice.exponential(0.004, due.size)
    late += np.where(dice.random(due.size) < 0.001, dice.uniform(0.1, 0.6, due.size), 0.0)
    come = due + late
    stalled = (come % 600 > 300) & (come % 600 < 300 + STALL_S + 0.01)
    come = np.where(stalled, come // 600 * 600 + 300 + STALL_S + 0.01, come)
    return iter(np.maximum.accumulate(come).tolist())


def listened(coming: Iterator[float], until_s: float, busy_s: float = 0.0) -> Iterator[tuple[float, State]]:
    """What the pulse says at each look, to whoever recognises something for so long every ten seconds."""
    pulse, now_s, count = Pulse(0.0), 0.0, 0
    come_s = next(coming, float("inf"))
    while now_s < until_s:
        pulse.waits(now_s)
        if come_s <= now_s + LOOK_S:
            now_s = max(now_s, come_s)
            yield now_s, pulse.came(come_s)
            come_s = next(coming, float("inf"))
            count += 1
            if count % 300 == 0:
                now_s += busy_s
        else:
            stalled = now_s % 600 < 300 < now_s % 600 + LOOK_S
            now_s = now_s // 600 * 600 + 300 + STALL_S if stalled else now_s + LOOK_S
            yield now_s, pulse.nothing(now_s)


def test_no_false_alarm_in_eight_hours() -> None:
    states = [state for _, state in listened(arrivals(HOURS_8, seed=1), HOURS_8 - 1, busy_s=4.0)]
    assert len(states) > HOURS_8 / BLOCK_S * 0.99
    assert set(states) == {"well"}


def test_a_microphone_that_stays_open_but_gives_nothing_is_noticed_within_a_second() -> None:
    for stops_s in np.linspace(100, 101, 21):
        coming = iter([at_s for at_s in arrivals(200, seed=3) if at_s < stops_s])
        noticed_s = next(now_s for now_s, state in listened(coming, 200) if state == "gone")
        assert noticed_s - stops_s < 1


def test_the_first_sound_may_take_as_long_as_a_sound_server_that_has_just_started() -> None:
    waits = list(listened(iter(()), FIRST_S + 1))
    assert [state for now_s, state in waits if now_s < FIRST_S - 0.2] == ["well"] * 48
    assert waits[-1][1] == "gone"
    assert all(state == "well" for _, state in listened(iter([FIRST_S - 0.5, FIRST_S - 0.4]), FIRST_S))


def test_sleep_while_waiting_is_no_fault_of_the_microphone() -> None:
    pulse = Pulse(0.0)
    pulse.waits(0.1)
    assert pulse.came(0.12) == "well"
    pulse.waits(0.13)
    assert pulse.nothing(600.0) == "stood still"
    assert pulse.gap_s == 600.0 - 0.12


def test_sleep_while_busy_shows_between_two_blocks() -> None:
    pulse = Pulse(0.0)
    assert [pulse.came(at_s) for at_s in (0.1, 0.13, 90.0)] == ["well", "well", "stood still"]
