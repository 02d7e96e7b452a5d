"""The time of day and the battery, asked for: what is said, and what psutil's values mean.

The machine that runs these tests has no battery. psutil's values are those of its own documentation
(psutil 7, `sensors_battery`, from memory), and its reading of Linux's files is tried with files as the
kernel writes them (Documentation/ABI/testing/sysfs-class-power, from memory).
"""

from collections import namedtuple
from pathlib import Path
from typing import Any

import psutil
import pytest

from voicecoach import describe, phrasebook
from voicecoach.battery import LOW, Told, battery, low, read
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Battery
from voicecoach.hear.values import Heard
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, turn
from voicecoach.understand.reading import Understanding

GIVEN = namedtuple("GIVEN", ["percent", "secsleft", "power_plugged"])
UNKNOWN, UNLIMITED = psutil.POWER_TIME_UNKNOWN, psutil.POWER_TIME_UNLIMITED


def said(text: str, at: str = "2026-06-01T15:42:10.000+01:00", now: Battery | None = None) -> str:
    read_ = Understanding(phrasebook.load())
    _, entry = turn(Talk(), Heard(text=text), read_, When(at=at, battery=now))
    assert entry.outcome == "answered", entry
    return " ".join(each.text for each in entry.say)


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ("00:00", "It is twelve o'clock."),
        ("12:01", "It is one minute past twelve."),
        ("09:05", "It is five past nine."),
        ("14:15", "It is a quarter past two."),
        ("14:30", "It is half past two."),
        ("15:42", "It is eighteen minutes to four."),
        ("23:45", "It is a quarter to twelve."),
        ("12:59", "It is one minute to one."),
    ],
)
def test_the_time_is_said_as_people_say_it(at: str, words: str) -> None:
    assert said("what time is it", f"2026-06-01T{at}:10.000+01:00") == words


@pytest.mark.parametrize("question", ["what time is it", "what's the time now"])
def test_a_conversation_tells_the_time_of_its_own_clock(question: str) -> None:
    with Conversation() as conversation:
        entry = conversation.hear(Heard(text=question))
    assert entry.say == describe.time_of_day(entry.at)


@pytest.mark.parametrize(
    ("now", "words"),
    [
        (Battery(percent=62), "The battery is at sixty two per cent."),
        (Battery(percent=93, left_s=16_628), "Battery: ninety three per cent, about four and a half hours."),
        (Battery(percent=9, left_s=3_700), "Battery: nine per cent, about an hour."),
        (Battery(percent=9, left_s=1_500), "Battery: nine per cent, about twenty minutes."),
        (Battery(percent=9, left_s=20), "Battery: nine per cent, about ten minutes."),
        (Battery(percent=100, charging=True), "The battery is at one hundred per cent, and charging."),
        (None, "This device tells of no battery."),
    ],
)
def test_the_battery_is_told_in_at_most_twelve_words(now: Battery | None, words: str) -> None:
    assert said("how's the battery", now=now) == words
    assert len(words.split()) <= 12


@pytest.mark.parametrize(
    ("given", "meant"),
    [
        (GIVEN(93, 16_628, False), Battery(percent=93, left_s=16_628.0)),
        (GIVEN(93, UNKNOWN, False), Battery(percent=93)),
        (GIVEN(99.6, UNLIMITED, True), Battery(percent=100, charging=True)),
        (GIVEN(100.4, UNLIMITED, True), Battery(percent=100, charging=True)),
        (GIVEN(41, UNKNOWN, None), Battery(percent=41)),
        (GIVEN(None, UNKNOWN, None), None),
        (None, None),
    ],
)
def test_what_psutil_gives_is_taken_for_what_it_means(given: Any, meant: Battery | None) -> None:
    assert battery(given) == meant


def test_the_battery_of_this_system_is_read_from_its_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = {"energy_now": 21_000_000, "energy_full": 50_000_000, "power_now": 7_000_000}
    (tmp_path / "BAT0").mkdir()
    for name, value in files.items():
        (tmp_path / "BAT0" / name).write_text(f"{value}\n")
    (tmp_path / "BAT0" / "status").write_text("Discharging\n")
    monkeypatch.setattr(psutil._pslinux, "POWER_SUPPLY_PATH", str(tmp_path))
    assert read() == Battery(percent=42, left_s=3 * 3_600.0)
    (tmp_path / "BAT0" / "status").write_text("Charging\n")
    assert read() == Battery(percent=42, charging=True)
    monkeypatch.setattr(psutil._pslinux, "POWER_SUPPLY_PATH", str(tmp_path / "BAT0"))
    assert read() is None


def test_a_battery_that_runs_down_is_told_once_at_each_level_and_anew_after_charging() -> None:
    told, spoken = Told(), []
    for percent in range(100, 0, -1):
        now, told = low(told, Battery(percent=percent))
        spoken += [] if now is None else [now]
    assert spoken == list(LOW)
    assert low(told, None) == (None, told)
    _, told = low(told, Battery(percent=6, charging=True))
    now, told = low(told, Battery(percent=8))
    assert now == 8
    assert low(told, Battery(percent=8))[0] is None


def test_a_battery_that_is_low_from_the_beginning_is_told_once_and_not_at_every_level() -> None:
    now, told = low(Told(), Battery(percent=4))
    assert now == 4
    assert low(told, Battery(percent=3))[0] is None
    assert describe.battery_low(4)[0].text == "The battery is down to four per cent."


def test_a_figure_that_wavers_about_a_level_is_told_once() -> None:
    told, spoken = Told(), 0
    for percent in (21, 20, 21, 20, 22, 20, 19, 20):
        now, told = low(told, Battery(percent=percent))
        spoken += now is not None
    assert spoken == 1
