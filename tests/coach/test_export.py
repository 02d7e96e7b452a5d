"""The export: what a coach's query engine is given."""

import csv
import json
import math
import random
import re
import statistics
from collections import defaultdict
from pathlib import Path

import click
import duckdb
import pytest
from click.testing import CliRunner, Result

from tests.coach.columns import columns
from tests.coach.games import REACH_M, Told, bowl
from tests.coach.oddities import told
from voicecoach import journal
from voicecoach.coach.moments import moments
from voicecoach.coach.rows import Row, rows
from voicecoach.coach.tables import COLUMNS, as_csv
from voicecoach.commands import export
from voicecoach.errors import Problem
from voicecoach.head.values import Bowl, Event, Jack, JackMove
from voicecoach.understand.values import BowlName, Corrected, Where
from voicecoach.whole_file import write_whole

ROOT = Path(__file__).parents[2]


def _run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(export.command, [str(each) for each in arguments], standalone_mode=False)


def _one_end() -> Told:
    """Two bowls, a third that is taken back and told anew, and the jack moved a metre up the rink."""
    told = Told()
    told.jack(25.0)
    told.rested(bowl("ours", 1, 1.0, 25.0))
    told.rested(bowl("theirs", 1, 0.0, 24.0), heard='=HYPERLINK("x")')
    told.rested(bowl("ours", 2, -3.0, 25.0))
    told.taken_back()
    told.rested(bowl("ours", 2, -0.5, 25.0))
    told.jack_moved(Jack(y_m=26.0, called=True), JackMove(dx_m=0, dy_m=1, where=Where(), relative_sd=0.1))
    return told


def _rows(told: Told) -> list[Row]:
    return list(rows("game.jsonl", moments(told.entries)))


def test_there_is_a_row_for_each_bowl_at_each_moment() -> None:
    found = [(row.moment, row.turn, row.side, row.number, row.named) for row in _rows(_one_end())]
    assert found == [
        (2, 2, "ours", 1, True),
        (3, 3, "ours", 1, False),
        (3, 3, "theirs", 1, True),
        (4, 4, "ours", 1, False),
        (4, 4, "theirs", 1, False),
        (4, 4, "ours", 2, True),
        (5, 5, "ours", 1, False),
        (5, 5, "theirs", 1, False),
        (6, 6, "ours", 1, False),
        (6, 6, "theirs", 1, False),
        (6, 6, "ours", 2, True),
        (7, 7, "ours", 1, False),
        (7, 7, "theirs", 1, False),
        (7, 7, "ours", 2, False),
    ]


def test_gaps_and_hours_are_worked_out_from_the_jack_as_it_lay_then() -> None:
    found = {(row.moment, row.side, row.number): row for row in _rows(_one_end())}
    before, after = found[6, "ours", 1], found[7, "ours", 1]
    assert (before.x_m, before.y_m, before.jack_y_m, after.jack_y_m) == (1.0, 25.0, 25.0, 26.0)
    assert before.gap_m == pytest.approx(1.0 - REACH_M, abs=1e-5)
    assert before.hour_exact == 3.0
    assert after.gap_m == pytest.approx(math.sqrt(2) - REACH_M, abs=1e-5)
    assert after.hour_exact == 4.5
    assert (before.holds, before.shots) == ("ours", 1)
    assert (before.jack_moves, after.jack_moves) == (0, 1)


def test_what_was_taken_back_is_marked_and_what_replaced_it_is_not() -> None:
    marked = {row.moment: row.stands for row in _rows(_one_end())}
    assert marked == {2: True, 3: True, 4: False, 5: True, 6: True, 7: True}


def test_a_bowl_without_a_place_has_no_figures_and_says_why() -> None:
    told = Told()
    told.jack(25.0)
    told.rested(
        Bowl(side="ours", number=1, x_m=None, y_m=None, state="dead", why_dead="in the ditch, not a toucher")
    )
    (row,) = _rows(told)
    assert (row.x_m, row.y_m, row.gap_m, row.hour_exact, row.said_gap_m) == (None,) * 5
    assert (row.state, row.why_dead, row.holds, row.shots) == ("dead", "in the ditch, not a toucher", None, 0)


def test_csv_and_json_lines_hold_the_same_and_csv_holds_no_formula(tmp_path: Path) -> None:
    path = _one_end().write(tmp_path / "game.jsonl")
    for name in ("out.csv", "out.jsonl"):
        assert _run(path, "-o", tmp_path / name).exit_code == 0
    with (tmp_path / "out.csv").open(newline="") as stream:
        as_csv = list(csv.DictReader(stream))
    as_json = [json.loads(line) for line in (tmp_path / "out.jsonl").read_text().splitlines()]
    assert len(as_csv) == len(as_json) == 14
    for one, other in zip(as_csv, as_json, strict=True):
        assert tuple(one) == tuple(other) == COLUMNS
        for column, value in other.items():
            plain = "" if value is None else str(value).lower() if isinstance(value, bool) else str(value)
            assert one[column].removeprefix("'=") == plain.removeprefix("="), column
    assert as_json[1]["heard"] == '=HYPERLINK("x")'
    assert as_csv[1]["heard"] == '\'=HYPERLINK("x")'


def test_without_an_output_the_table_is_on_standard_output(tmp_path: Path) -> None:
    path = _one_end().write(tmp_path / "game.jsonl")
    assert _run(path).output.startswith("journal,end,play,replayed,moment,turn,")
    assert json.loads(_run(path, "--format", "jsonl").output.splitlines()[0])["journal"] == "game.jsonl"


def test_every_column_is_documented() -> None:
    assert columns() in (ROOT / "voicecoach" / "guide" / "export.md").read_text()
    assert "| None |" not in columns()


def test_a_damaged_journal_in_a_folder_is_named_and_the_others_are_written(tmp_path: Path) -> None:
    _one_end().write(tmp_path / "a.jsonl")
    _one_end().write(tmp_path / "c.jsonl")
    content = (tmp_path / "a.jsonl").read_bytes()
    (tmp_path / "b.jsonl").write_bytes(content.replace(b"take that back", b"take that bacc"))
    (tmp_path / "c.jsonl").write_bytes(content[:-20])
    ran = _run(tmp_path, "-o", tmp_path / "out.csv")
    assert ran.return_value == 5
    assert f"Line 5 of the journal {tmp_path / 'b.jsonl'} is damaged" in ran.stderr
    assert f"The end of the journal {tmp_path / 'c.jsonl'} is torn" in ran.stderr
    text = (tmp_path / "out.csv").read_text()
    assert (text.count("a.jsonl"), text.count("b.jsonl"), text.count("c.jsonl")) == (14, 0, 11)


def test_an_output_never_takes_a_journals_place(tmp_path: Path) -> None:
    path = _one_end().write(tmp_path / "game.jsonl")
    content = path.read_bytes()
    for target in (path, tmp_path / "." / "game.jsonl"):
        ran = _run(tmp_path, "-o", target)
        assert isinstance(ran.exception, Problem)
        assert "is the journal itself" in str(ran.exception)
    assert path.read_bytes() == content


@pytest.mark.parametrize("target", ["missing/out.csv", "full"])
def test_an_output_that_cannot_be_written_leaves_nothing_behind(tmp_path: Path, target: str) -> None:
    path = _one_end().write(tmp_path / "game.jsonl")
    (tmp_path / "full").mkdir()
    write_whole(tmp_path / "out.csv", ["as it was"])
    with pytest.raises(Problem, match="can't be written"):
        write_whole(tmp_path / target, ["anything"])
    assert {each.name for each in tmp_path.iterdir()} == {path.name, "full", "out.csv"}


def test_a_place_on_the_centre_line_is_nought_and_not_minus_nought() -> None:
    told = Told()
    told.rested(bowl("ours", 1, -0.0, 25.0))
    told.jack_moved(Jack(x_m=-1e-9), JackMove(dx_m=0, dy_m=0, where=Where(), relative_sd=0.1))
    assert "-0.0" not in "".join(as_csv(_rows(told)))


@pytest.mark.parametrize("name", ["table.xlsx", "table.txt"])
def test_a_name_that_stands_for_no_form_is_refused_unless_the_form_is_said(tmp_path: Path, name: str) -> None:
    path = _one_end().write(tmp_path / "game.jsonl")
    ran = _run(path, "-o", tmp_path / name)
    assert isinstance(ran.exception, click.UsageError)
    assert ".csv or .jsonl" in str(ran.exception)
    assert not (tmp_path / name).exists()
    said = _run(path, "-o", tmp_path / name, "--format", "csv")
    assert said.exit_code == 0
    assert f"The table is in {tmp_path / name}." in said.stderr
    assert (tmp_path / name).read_text().startswith("journal,")


def test_an_empty_folder_is_told_in_words(tmp_path: Path) -> None:
    ran = _run(tmp_path)
    assert isinstance(ran.exception, Problem)
    assert "holds no journal" in str(ran.exception)


def _season(folder: Path) -> dict[int, list[tuple[float, float]]]:
    """A thousand journals; gap and distance past the jack of each of our bowls, by its number."""
    chance = random.Random(20260530)
    truth = defaultdict(list)
    for number in range(1000):
        told = Told()
        told.jack(25.0)
        for turn in range(6):
            x_m, y_m = chance.gauss(0, 1.0), 25.0 + chance.gauss(-0.5, 1.0)
            told.rested(bowl("ours" if turn % 2 == 0 else "theirs", turn // 2 + 1, x_m, y_m))
            if turn % 2 == 0:
                if chance.random() < 0.2:  # called wrongly, and put right
                    x_m, y_m = chance.gauss(0, 1.0), 25.0 + chance.gauss(-0.5, 1.0)
                    name = BowlName(side="ours", number=turn // 2 + 1)
                    put_right = (bowl("ours", turn // 2 + 1, x_m, y_m),)
                    told.add("no", Event(note=Corrected(target=name), bowl=name, bowls=put_right))
                gap_m = max(0.0, math.hypot(x_m, y_m - 25.0) - REACH_M)
                truth[turn // 2 + 1].append((gap_m, y_m - 25.0))
        if number % 10 == 0:
            told.rested(Bowl(side="ours", number=4, x_m=None, y_m=None, state="dead"))
        told.write(folder / f"{number:04}.jsonl")
    return truth


def test_the_query_in_the_guide_answers_over_a_thousand_journals(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("season").mkdir()
    truth = _season(Path("season"))
    assert _run("season/", "-o", "season.csv").exit_code == 0
    query = re.search(
        r'duckdb -c "(.*?)"\n', (ROOT / "voicecoach" / "guide" / "export.md").read_text(), re.DOTALL
    )
    assert query
    answer = duckdb.execute(query[1]).fetchall()
    counted = [(number, bowls, placed) for number, bowls, placed, _, _ in answer]
    assert counted == [(1, 1000, 1000), (2, 1000, 1000), (3, 1000, 1000), (4, 100, 0)]
    for number, _, _, median_gap_m, past_jack_m in answer[:3]:
        assert median_gap_m == pytest.approx(statistics.median(gap for gap, _ in truth[number]), abs=0.006)
        assert past_jack_m == pytest.approx(statistics.fmean(past for _, past in truth[number]), abs=0.006)


def test_each_bowl_delivered_is_settled_in_one_row_with_its_corrected_place(tmp_path: Path) -> None:
    path = told(
        tmp_path / "game.jsonl",
        "jack at twenty five metres",
        "our first, one metre, one o'clock, backhand",
        "no, eleven o'clock",
        "remark on our first: too much grass, again.",
        "their first in the ditch",
        "jack moved one metre to twelve o'clock",
        "our second, two metres, six o'clock",
        "no, theirs",
    )
    found = [row for row in rows("game.jsonl", moments(journal.read(path)[0])) if row.settled]
    assert [(row.side, row.number, row.kind, row.came) for row in found] == [
        ("ours", 1, "corrected", "past"),
        ("theirs", 1, "bowl_rested", "ditch"),
        ("theirs", 2, "corrected", "short"),
    ]
    first, ditched, second = found
    # Eleven o'clock is left of the jack and past it: 30 degrees off 12 (SOURCES, section 4).
    assert first.rest_across_m == pytest.approx(-(1.0 + REACH_M) * 0.5, abs=1e-5)
    assert first.rest_along_m == pytest.approx((1.0 + REACH_M) * math.sqrt(0.75), abs=1e-5)
    assert (first.rest_gap_m, first.rest_jack_m, first.hand) == (1.0, 25.0, "backhand")
    assert first.remark == "Too much grass, again."
    assert (ditched.rest_gap_m, ditched.rest_across_m, ditched.rest_along_m) == (None, None, None)
    assert second.rest_along_m == pytest.approx(-(2.0 + REACH_M), abs=1e-5)
    assert second.rest_jack_m == pytest.approx(26.0)


def test_the_two_plays_of_a_dead_end_are_told_apart(tmp_path: Path) -> None:
    path = told(
        tmp_path / "game.jsonl",
        "our first, one metre, six o'clock",
        "dead end",
        "our first, three metres, twelve o'clock",
        "the end is finished, one shot to us",
    )
    found = [row for row in rows("game.jsonl", moments(journal.read(path)[0])) if row.settled]
    assert [(row.end, row.play, row.replayed, row.came, row.agreed_ours) for row in found] == [
        (1, 1, True, "short", None),
        (1, 2, False, "past", 1),
    ]


def test_a_tie_is_nobodys_and_what_is_too_close_to_call_is_not_sure(tmp_path: Path) -> None:
    path = told(
        tmp_path / "game.jsonl",
        "our first, one metre, three o'clock",
        "their first, one metre, nine o'clock",
        "our second, eighty centimetres, six o'clock",
    )
    found = {row.moment: row for row in rows("game.jsonl", moments(journal.read(path)[0]))}
    assert [(row.holds, row.shots, row.sure) for row in found.values()] == [
        ("ours", 1, True),
        (None, 0, False),
        ("ours", 1, False),
    ]


def test_bowls_that_were_set_apart_are_marked_and_keep_what_was_said(tmp_path: Path) -> None:
    path = told(
        tmp_path / "game.jsonl",
        "our first, eighty centimetres, two o'clock",
        "their first, eighty centimetres, two o'clock",
    )
    first, second = [row for row in rows("game.jsonl", moments(journal.read(path)[0])) if row.settled]
    assert (first.set_apart, second.set_apart) == (False, True)
    assert (second.said_hour, second.said_gap_m) == (2.0, 0.8)
    assert second.hour_exact != 2.0
