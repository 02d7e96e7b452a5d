"""The parts of the comparison that can be told right from wrong without a clock."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.bench.against import lines, programs
from tests.bench.against.measured import Decision, Report, Tally, tally
from tests.bench.against.process import Cost, cost_over, family, memory_mb
from tests.bench.against.sounds import LEAD_S, TAIL_S, Recorded, laid, recorded, streams

REPORT = Report(ready_s=6.0, ready_work_s=5.5, notes={}, memory_mb=258.4)
BESIDE = Report(ready_s=1.2, ready_work_s=1.1, notes={}, memory_mb=172.0)
QUIET = np.zeros(0, np.float32)
SAID = [
    Recorded("our first, one metre, six o'clock", "noted", QUIET),
    Recorded("lovely morning for it", "dropped", QUIET),
    Recorded("their first, two metres, one o'clock", "noted", QUIET),
]


def decision(at_s: float, decided: object) -> Decision:
    return Decision(at_s=at_s, spoken_s=at_s + 0.25, decided=decided)


def test_the_true_end_of_speech_is_where_the_loud_part_of_a_stream_ends() -> None:
    sounds, marks = streams(recorded()[:3])
    for mark in marks:
        end = round(mark.ended_s * 16_000)
        before, after = sounds["calm"][end - 800 : end], sounds["calm"][end : end + 800]
        assert np.sqrt(np.mean(before**2)) > 2 * np.sqrt(np.mean(after**2))
    assert marks[1].began_s == pytest.approx(marks[0].ended_s + TAIL_S)
    assert sounds["calm"].size == sounds["in wind"].size


def test_lines_are_laid_one_after_another_on_one_clock() -> None:
    _, marks = laid([np.ones(16_000, np.float32), np.ones(8_000, np.float32)], LEAD_S, TAIL_S)
    assert [mark.ended_s for mark in marks] == [1.5, 4.5]
    assert [mark.began_s for mark in marks] == [0.0, 3.5]


def test_the_last_decision_before_the_next_note_counts_and_what_was_cut_or_filed_for_nothing_is_told() -> (
    None
):
    _, marks = laid([np.ones(16_000, np.float32)] * 3, LEAD_S, TAIL_S)
    came = tally(
        SAID,
        marks,
        [
            decision(1.0, "our first one metre"),
            decision(2.0, "our first one metre six o'clock"),
            decision(5.5, "no eleven o'clock"),
            decision(9.5, "their first two metres five o'clock"),
        ],
    )
    assert came.decisions_s == pytest.approx((0.5, 1.0))
    assert came.spoken_s == pytest.approx((0.75, 1.25))
    assert (came.notes, came.right, came.in_pieces) == (2, 1, 1)
    assert (came.chatter, came.filed) == (1, 1)


def test_our_own_decisions_count_by_their_notes() -> None:
    _, marks = laid([np.ones(16_000, np.float32)], LEAD_S, TAIL_S)
    wrong = {"outcome": "noted", "note": {"kind": "bowl_rested"}}
    assert tally(SAID[:1], marks, [decision(2.0, wrong)]).right == 0
    assert tally(SAID[:1], marks, [decision(2.0, {"outcome": "dropped", "note": None})]).right == 0


def test_each_line_says_what_it_measures_of_whom_and_how_it_compares() -> None:
    assert lines.wait("Decision, calm", "this program", (0.3, 0.5, 0.41), (1.0, 0.82, 0.5), True) == (
        "Decision, calm, this program: median 0.41 s, 0.500 times the bare stack's; slowest 0.50 s of 3. "
        "The floor is 0.4 s of silence: 0.01 s above it; the model's own is 0.15 s: 0.26 s above it."
    )
    assert lines.wait("Decision, calm", "pocketsphinx", (0.25,), (), False) == (
        "Decision, calm, pocketsphinx: median 0.25 s; slowest 0.25 s of 1. "
        "The floor is 0.4 s of silence: 0.15 s under it."
    )
    assert lines.wait("Decision, calm", "pocketsphinx", (), (), False).endswith(
        "never, no note got that far."
    )
    assert lines.live("wind", "this program", Cost(0.05, 112.3, 233.4), Cost(0.1, 40.0, 150.0)) == (
        "Listening live to wind, this program: 5.00 percent of one core, 0.500 times the bare stack's; "
        "112 wake-ups a second, 233 MB of proportional memory."
    )
    assert lines.memory("this program", REPORT, BESIDE) == (
        "Resident memory at its highest, this program: 258 MB, 1.50 times the bare stack's."
    )
    assert lines.start("this program", REPORT, None) == (
        "Start until the first block, this program: 6.00 s; 5.50 s of processor time in it."
    )
    came = Tally((0.4,), (0.5,), notes=2, right=1, in_pieces=0, chatter=1, filed=0)
    assert lines.notes("calm", "this program", came) == (
        "Notes calm, this program: 1 of 2 decided before the next one, 1 as they were said, "
        "0 cut in pieces; 0 of 1 taken for a note that was chatter."
    )


BUSY_AND_IDLE = """
import subprocess, sys, time
helper = subprocess.Popen([sys.executable, "-c", "while True: pass"])
print(helper.pid, flush=True)
while True:
    time.sleep(0.01)
"""


def test_what_a_process_costs_is_seen_from_outside_with_its_helpers_and_how_often_it_wakes() -> None:
    with subprocess.Popen([sys.executable, "-c", BUSY_AND_IDLE], stdout=subprocess.PIPE, text=True) as parent:
        assert parent.stdout is not None
        helper = int(parent.stdout.readline())
        try:
            assert family(parent.pid) == [parent.pid, helper]
            whole = cost_over(parent.pid, 1.5)
            assert whole.share > 0.02, "the helper's work counts, whatever else the machine does"
            assert whole.wakes > 5
            assert memory_mb(parent.pid) > memory_mb(helper) > 1
        finally:
            os.kill(helper, signal.SIGKILL)
            parent.kill()


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0512, "0.051"), (0.5, "0.500"), (1.234, "1.23"), (45.67, "45.7"), (12345.6, "12346")],
)
def test_a_figure_has_as_many_digits_as_mean_something(value: float, text: str) -> None:
    assert lines.figure(value) == text


def test_a_program_whose_package_is_missing_is_said_to_be_left_out(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr(programs, "PROGRAMS", {"a rival": ("no.module", (), ("not_here",))})
    assert list(programs.reports(tmp_path)) == []
    assert capsys.readouterr().out == (
        "The lines of a rival are left out: not_here isn't here (pip install not_here).\n"
    )


def test_a_program_that_fails_is_said_to_be_left_out(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr(programs, "PROGRAMS", {"a rival": ("no.module", (), (sys.__name__,))})
    assert list(programs.reports(tmp_path)) == []
    assert capsys.readouterr().out.startswith("The lines of a rival are left out: ")
