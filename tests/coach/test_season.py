"""The season's page: games in a row with results, line and length with intervals, the director's eye."""

import random
import tracemalloc
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.bench.page.games import pairs
from tests.coach import recount
from tests.coach.directors import Director, play
from tests.coach.games import Told, bowl
from tests.coach.oddities import odd_game, told
from tests.coach.pages import Reader
from voicecoach import journal
from voicecoach.coach.season import Season, season, spans
from voicecoach.coach.season_view import season_page
from voicecoach.commands import export, report
from voicecoach.errors import Problem
from voicecoach.head.values import Game, Score
from voicecoach.understand.values import Remark


def _report(*arguments: str | Path) -> Result:
    return CliRunner().invoke(report.command, [str(each) for each in arguments], standalone_mode=False)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three games of pairs, an odd one, one in which every bowl was taped, and a journal without a game."""
    inside = tmp_path_factory.mktemp("season")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("VOICECOACH_CONFIG", str(inside / "config"))
        for number in range(3):
            pairs(inside / f"pairs {number}.jsonl", ends=4, seed=number)
        odd_game(inside / "odd.jsonl")
        play(Director(says=0.8), 5, random.Random(4), inside / "taped.jsonl")
        Told().write(inside / "nothing.jsonl")
    return inside


@pytest.fixture(scope="module")
def read(folder: Path) -> Reader:
    out = folder / "season.html"
    ran = _report(folder, "-o", out)
    assert ran.exit_code == 0, ran.exception
    return Reader(out.read_text())


def test_the_games_stand_in_a_row_with_their_results(read: Reader, folder: Path) -> None:
    header, *rows = read.tables["game-by-game"]
    assert header[:6] == ["Game", "When", "Journal", "Format", "Score", "Result"]
    assert [row[2] for row in rows] == ["pairs 0", "pairs 1", "pairs 2", "odd", "taped"]
    for row in rows:
        score = journal.read(folder / f"{row[2]}.jsonl")[0]
        whole = Season()
        whole.add(row[2], score)
        game = whole.games[0]
        assert row[4] == f"{game.ours} to {game.theirs}"
        margin = game.ours - game.theirs
        assert row[5] == ("ahead" if margin > 0 else "behind" if margin < 0 else "level")
    assert "Journals without a game: 1." in read.sections["season"]
    assert read.sections["season"].startswith(folder.name + "5 games. We came out ahead in ")


def test_a_game_that_was_over_was_won_or_lost() -> None:
    whole = Season()
    for ours in (2, 0):
        told = Told()
        told.game(Game(ends=1))
        told.rested(bowl("ours", 1, 0.0, 26.0))
        told.finished(Score(ours=ours, theirs=1, ends=1), "ours", 2)
        whole.add(f"game {ours}", told.entries)
    rows = Reader(season_page("A season", whole)).tables["game-by-game"][1:]
    assert [row[5] for row in rows] == ["won", "lost"]


def test_the_figures_of_the_season_and_of_each_game_are_those_of_the_export(
    read: Reader, folder: Path
) -> None:
    out = folder / "season.csv"
    assert (
        CliRunner().invoke(export.command, [str(folder), "-o", str(out)], standalone_mode=False).exit_code
        == 0
    )
    table = recount.rows(out.read_text())
    for side in ("ours", "theirs"):
        wanted = recount.parts(recount.settled(table, side))
        rows = {row[0]: row for row in read.tables[f"figures-{side}"][1:] if len(row) > 1}
        assert set(rows) <= set(wanted) | {"Hand not said"}
        for name, row in rows.items():
            _is_part(row[1:-3], row[-3:], wanted[name])
    for row in read.tables["game-by-game"][1:]:
        mine = [each for each in table if each["journal"] == f"{row[2]}.jsonl"]
        part = recount.part(recount.settled(mine, "ours"))
        assert int(row[6]) == part.bowls
        _is_part([row[6]], row[7:], part)


def _is_part(counts: list[str], figures: list[str], part: recount.Part) -> None:
    assert int(counts[0]) == part.bowls
    if len(counts) > 1:
        assert sum(map(int, counts[1:])) == part.bowls
    for text, wanted in zip(figures[:2], (part.line, part.length), strict=True):
        found = recount.signed(text)
        assert (found is None) == (wanted is None)
        if found and wanted:
            assert found == pytest.approx(wanted, rel=0.01, abs=0.0051)
    if part.gap is not None:
        assert recount.metres(figures[2]) == pytest.approx(part.gap, abs=0.0051)


def test_the_directors_eye_is_told_over_time(read: Reader) -> None:
    (row,) = read.tables["looks"][1:]
    assert row[:2] == ["1 to 5", "From behind the mat"]
    assert "per cent too short" in row[2]


def test_the_page_has_no_script_and_asks_for_nothing_from_elsewhere(read: Reader) -> None:
    assert "script" not in {tag for tag, _ in read.tags}
    for tag, attributes in read.tags:
        for name in ("src", "href", "data", "action"):
            value = attributes.get(name) or "#"
            assert value.startswith(("#", "data:")), f"{tag} {name}={value}"
        assert "style" not in attributes
    policy = next(each["content"] or "" for _, each in read.tags if each.get("http-equiv"))
    assert "script-src" not in policy


def test_a_damaged_journal_is_named_and_the_others_make_the_page(tmp_path: Path) -> None:
    for name in ("a", "b", "c"):
        told(
            tmp_path / f"{name}.jsonl",
            "our first, one metre, six o'clock",
            "their first, a metre, two o'clock",
        )
    path = tmp_path / "b.jsonl"
    path.write_bytes(path.read_bytes().replace(b"six o'clock", b"six o'cluck"))
    ran = _report(tmp_path, "-o", tmp_path / "season.html")
    assert ran.return_value == 5
    assert f"the journal {path} is damaged" in ran.stderr
    rows = Reader((tmp_path / "season.html").read_text()).tables["game-by-game"][1:]
    assert [row[2] for row in rows] == ["a", "c"]


def test_a_folder_without_a_journal_is_told_in_words(tmp_path: Path) -> None:
    ran = _report(tmp_path, "-o", tmp_path / "season.html")
    assert isinstance(ran.exception, Problem)
    assert "holds no journal" in str(ran.exception)


def test_a_season_never_takes_a_journals_place(tmp_path: Path) -> None:
    path = told(tmp_path / "a.jsonl", "our first, one metre, six o'clock")
    ran = _report(tmp_path, "-o", path)
    assert isinstance(ran.exception, Problem)
    assert "is the journal itself" in str(ran.exception)


def test_a_season_in_which_the_hand_changed_says_left_and_right() -> None:
    whole = Season()
    for hand in ("right", "left"):
        told = Told()
        told.game(Game.model_validate({"hand": hand}))
        for number in range(1, 13):
            side: Remark = "forehand" if number % 2 else "backhand"
            told.rested(bowl("ours", number, 0.1 * number, 26.0), remarks=(side,))
        whole.add(hand, told.entries)
        rows = {row[0]: row for row in Reader(season_page("A season", whole)).tables["figures-ours"]}
        assert ("m wide" in rows["Forehand"][-3]) == (hand == "right")
        assert ("m narrow" in rows["Backhand"][-3]) == (hand == "right")
        assert "m right" in rows["All"][-3]


def test_many_games_are_drawn_together_and_listed_one_by_one() -> None:
    whole = Season()
    for number in range(90):
        told = Told()
        for name in range(1, 7):
            told.rested(bowl("ours", name, 0.1 * name, 26.0 + 0.01 * number))
        whole.add(f"{number:02}", told.entries)
    found = spans(whole.games, 40)
    assert len(found) == 30
    assert [part.name for part in found[:2]] == ["1\N{EN DASH}3", "4\N{EN DASH}6"]
    assert sum(part.bowls.count for part in found) == 540
    assert len(Reader(season_page("A season", whole)).tables["game-by-game"]) == 91


def _peak(count: int, path: Path) -> int:
    """The most memory that so many games take while they are read, bytes."""
    tracemalloc.start()
    season((f"{number}", journal.read(path)[0]) for number in range(count))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak


def test_what_is_kept_of_a_game_is_small_whatever_it_holds(tmp_path: Path) -> None:
    path = pairs(tmp_path / "game.jsonl", ends=3)
    _peak(2, path)
    # A journal of this length takes about a megabyte while it is read; what is kept of it, a few kB.
    assert (_peak(30, path) - _peak(5, path)) / 25 < 10_000
