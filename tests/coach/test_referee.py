"""Every figure of the page, worked out anew from the export alone."""

import re
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner

from tests.bench.page.games import pairs
from tests.coach import recount
from tests.coach.games import two_ends
from tests.coach.oddities import odd_game, told
from tests.coach.pages import Reader
from voicecoach.commands import export, report

FEET = (
    "triples, we lead",
    *(
        f"{whose} {name}, {gap}, {hour} o'clock{hand}"
        for (name, gap, hour), hand in zip(
            [
                ("first", "four feet", "six"),
                ("second", "two feet six inches", "three"),
                ("third", "three yards", "seven"),
                ("fourth", "eight inches", "twelve"),
                ("fifth", "five feet", "one"),
                ("sixth", "one foot", "nine"),
            ],
            [", forehand", ", backhand"] * 3,
            strict=True,
        )
        for whose, hand in (("our", hand), ("their", ""))
        for gap, hour in [
            (gap, hour) if whose == "our" else (gap.replace("four", "six"), "ten" if hour == "six" else "two")
        ]
    ),
)


class Both(NamedTuple):
    """A game's page and its export."""

    read: Reader
    table: list[recount.Row]
    within: float
    """How far a length on the page may be off, metres: half of its last figure."""


def both(path: Path, within: float = 0.0051) -> Both:
    page, table = path.with_suffix(".html"), path.with_suffix(".csv")
    ran = CliRunner().invoke(report.command, [str(path), "-o", str(page), "--silent"], standalone_mode=False)
    assert ran.exit_code == 0, ran.exception
    ran = CliRunner().invoke(export.command, [str(path), "-o", str(table)], standalone_mode=False)
    assert ran.exit_code == 0, ran.exception
    return Both(Reader(page.read_text()), recount.rows(table.read_text()), within)


@pytest.fixture(scope="module", params=["pairs", "odd", "made of facts", "feet"])
def game(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Both:
    path = tmp_path_factory.mktemp("game") / "game.jsonl"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("VOICECOACH_CONFIG", str(path.parent / "config"))
        if request.param == "pairs":
            return both(pairs(path, ends=8, seed=4))
        if request.param == "odd":
            return both(odd_game(path))
        if request.param == "feet":
            return both(told(path, *FEET), within=0.0128)
        return both(two_ends().write(path))


def test_the_figures_of_both_sides_are_those_of_the_export(game: Both) -> None:
    for side in ("ours", "theirs"):
        wanted = recount.parts(recount.settled(game.table, side))
        (header, *found) = game.read.tables[f"figures-{side}"]
        came = [name.lower() for name in header[2:-3]]
        rows = {row[0]: row for row in found if len(row) > 1}
        assert len(rows) == len([row for row in found if len(row) > 1])
        if side == "theirs":
            wanted = {name: part for name, part in wanted.items() if name in rows or name != "Hand not said"}
        assert set(rows) == set(wanted)
        for name, part in wanted.items():
            count, *counts = map(int, rows[name][1:-3])
            assert count == part.bowls == sum(counts)
            assert {each: number for each, number in zip(came, counts, strict=True) if number} == part.came
            line, length, gap = rows[name][-3:]
            _same(line, _mirrored(line, part.line, name, game), game.within)
            _same(length, part.length, game.within)
            if part.gap is None:
                assert gap == "too few"
            else:
                assert recount.metres(gap) == pytest.approx(part.gap, abs=game.within)


def _mirrored(text: str, wanted: recount.Mean | None, name: str, game: Both) -> recount.Mean | None:
    """A line in the words of a hand, with right as positive again."""
    if wanted is None or not re.search("wide|narrow", text):
        return wanted
    (handed,) = {row["handed"] for row in game.table if row["handed"]}
    wide_is_right = (name == "Forehand") == (handed == "right")
    right = ("wide" in text) == wide_is_right
    assert right == (wanted.mean > 0)
    return recount.Mean(abs(wanted.mean), wanted.half)


def _same(text: str, wanted: recount.Mean | None, within: float) -> None:
    found = recount.signed(text)
    assert (found is None) == (wanted is None), text
    if found and wanted:
        assert found.mean == pytest.approx(wanted.mean, abs=within), text
        assert found.half == pytest.approx(wanted.half, rel=0.01, abs=within), text


def test_the_findings_say_what_the_export_shows(game: Both) -> None:
    said = game.read.sections["game"].replace("\N{NO-BREAK SPACE}", " ")
    part = recount.parts(recount.settled(game.table, "ours"))["All"]
    (length,) = re.findall(r"Length: (.*?\.)(?=[A-Z])", said)
    if part.length is None:
        assert length.startswith("too few bowls to say")
    else:
        leans = abs(part.length.mean) > part.length.half
        assert ("can\N{RIGHT SINGLE QUOTATION MARK}t tell" in length) != leans
        mean, half = re.findall(r"(?:: |take )((?:\d+ ft )?[\d.]+ (?:m|in|ft))", length)
        assert recount.metres(mean) == pytest.approx(abs(part.length.mean), abs=game.within)
        assert recount.metres(half) == pytest.approx(part.length.half, rel=0.01, abs=game.within)
    slope = recount.trend(game.table)
    (trend,) = re.findall(r"Over the ends: (.*?\))", said)
    if slope is None:
        assert trend.startswith("too few bowls or ends to say")
    else:
        assert ("can\N{RIGHT SINGLE QUOTATION MARK}t tell" in trend) == (abs(slope[0]) <= slope[1])
        assert f"{'nearer' if slope[0] < 0 else 'farther'} with each end" in trend
        change, half = re.findall(r"([\d.]+ (?:cm|in))", trend)
        assert recount.metres(change) == pytest.approx(abs(slope[0]), abs=0.0006)
        assert recount.metres(half) == pytest.approx(slope[1], rel=0.01, abs=0.0006)


def _ends(game: Both) -> list[tuple[tuple[int, int], str]]:
    """The plays that have bowls, and the id of each on the page."""
    found = recount.plays(game.table)
    last = dict(found)
    return [
        (play, f"end-{play[0]}" if play[1] == last[play[0]] else f"end-{play[0]}-play-{play[1]}")
        for play in found
    ]


def test_who_held_after_each_bowl_is_what_the_export_counts(game: Both) -> None:
    names = {"ours": "us", "theirs": "them"}
    for play, name in _ends(game):
        wanted = recount.held(recount.of_play(game.table, play))
        told = [row[2] for row in game.read.tables[name][1:] if row[2]]
        said = [
            {"level": "level", "empty": "nobody"}.get(each.side, f"{names.get(each.side)}, {each.shots}")
            + ("" if each.sure else " (too close to call)")
            for each in wanted
        ]
        assert told == said
        count = Counter(each.side for each in wanted)
        assert sum(count.values()) == len(wanted)
        held = (
            f"After {len(wanted)} bowls: we held after {count['ours']}, they after {count['theirs']}, "
            f"level after {count['level']}, nobody after {count['empty']}."
        )
        assert held in game.read.sections[name]
        unsure = sum(not each.sure for each in wanted)
        assert (f"Too close to call after {unsure} of them." in game.read.sections[name]) == bool(unsure)
        assert _bars(game.read, name) == [
            (each.side, each.shots, each.sure) for each in wanted if each.side in names
        ]


def _bars(read: Reader, name: str) -> list[tuple[str, int, bool]]:
    """The bars of an end as drawn: side, shots by their height, and whether they are whole."""
    section = read.text.split(f'<section class="end" id="{name}"')[1].split("</section>")[0]
    found = re.search(r'<svg [^>]*class="held".*?</svg>', section)
    assert found
    svg = ElementTree.fromstring(found[0])
    rects = list(svg.iter("rect"))
    edges = [part for part in svg.iter("line") if part.get("class") == "grid"]
    if edges:  # the agreed result stands apart, last
        x = float(edges[0].attrib["x1"].rstrip("%"))
        rects = [part for part in rects if float(part.attrib["x"].rstrip("%")) < x]
    heights = [float(part.attrib["height"].rstrip("%")) for part in svg.iter("rect")]
    values = [int(part.text or 0) for part in svg.iter("text") if part.get("class") == "value"]
    unit = next((high / value for high, value in zip(heights, values, strict=True)), 1.0)
    return [
        (
            part.attrib["class"].split()[1],
            round(float(part.attrib["height"].rstrip("%")) / unit),
            "unsure" not in part.attrib["class"],
        )
        for part in rects
    ]


def test_the_score_is_what_was_agreed_in_every_end(game: Both) -> None:
    total = [0, 0]
    rows = {row[0]: row for row in game.read.tables["score"][1:]}
    for play, _ in _ends(game):
        row = recount.of_play(game.table, play)[0]
        replayed, agreed = row["replayed"] == "true", (row["agreed_ours"], row["agreed_theirs"])
        name = f"{play[0]}, dead" if replayed else f"{play[0]}, played again" if play[1] > 1 else f"{play[0]}"
        shown = rows[name]
        if replayed or not agreed[0]:
            assert shown[1] == ("dead, played again" if replayed else "not finished")
        else:
            assert tuple(shown[1:3]) == agreed
            total = [total[0] + int(agreed[0]), total[1] + int(agreed[1])]
        assert shown[-2:] == [str(each) for each in total]


def test_the_distances_by_end_count_every_bowl_with_a_place(game: Both) -> None:
    rows = game.read.tables["by-end"][1:]
    for (play, _), row in zip(_ends(game), rows, strict=True):
        gaps = [
            float(each["rest_gap_m"])
            for each in recount.settled(recount.of_play(game.table, play), "ours")
            if each["rest_gap_m"]
        ]
        assert int(row[1]) == len(gaps)
        if gaps:
            assert recount.metres(row[2]) == pytest.approx(sum(gaps) / len(gaps), abs=game.within)


def test_every_bowl_with_a_place_is_a_dot_and_the_means_ellipse_is_hotellings(game: Both) -> None:
    svgs = [
        ElementTree.fromstring(each)
        for each in re.findall(r'<svg [^>]*class="scatter".*?</svg>', game.read.text)
    ]
    drawn = {"ours": [], "theirs": []}  # type: dict[str, list[tuple[float, float]]]
    for svg in svgs:
        dots = [part for part in svg.iter("path") if part.get("class", "") in ("dots ours", "dots theirs")]
        if not dots:
            continue
        side = dots[0].attrib["class"].split()[1]
        places = [
            (int(x) / 1000, -int(y) / 1000) for x, y in re.findall(r"M(-?\d+) (-?\d+)h0", dots[0].attrib["d"])
        ]
        drawn[side] += places
        means = list(svg.iter("ellipse"))
        assert bool(means) == (len(places) >= 5)
        for mean in means:
            _is_hotellings(mean, places)
    for side, found in drawn.items():
        wanted = [
            (float(row["rest_across_m"]), float(row["rest_along_m"]))
            for row in recount.settled(game.table, side)
            if row["rest_gap_m"]
        ]
        assert sorted(found) == [pytest.approx(each, abs=0.0011) for each in sorted(_rounded(wanted))]


def _rounded(places: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    return [(round(1000 * x) / 1000 + 0.0, round(1000 * y) / 1000 + 0.0) for x, y in places]


def _is_hotellings(mean: ElementTree.Element, places: list[tuple[float, float]]) -> None:
    across, along, long, short = recount.ellipse(places)
    found = re.match(r"translate\((-?\d+) (-?\d+)\)", mean.attrib["transform"])
    assert found
    assert (int(found[1]) / 1000, -int(found[2]) / 1000) == pytest.approx((across, along), abs=0.002)
    assert (int(mean.attrib["rx"]) / 1000, int(mean.attrib["ry"]) / 1000) == pytest.approx(
        (long, short), abs=0.004
    )


def test_a_dead_ends_bowls_are_in_the_figures_the_page_and_the_export(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))
    game = both(odd_game(tmp_path / "odd.jsonl"))
    dead = [row for row in game.table if row["replayed"] == "true" and row["settled"] == "true"]
    again = [
        row for row in game.table if (row["end"], row["play"]) == ("2", "2") and row["settled"] == "true"
    ]
    assert (len(dead), len(again)) == (4, 4)
    ours = [row for row in game.table if row["settled"] == "true" and row["side"] == "ours"]
    assert int(game.read.tables["figures-ours"][1][1]) == len(ours) == 11
    assert sum(int(game.read.tables[f"figures-{side}"][1][1]) for side in ("ours", "theirs")) == 23
    assert {"end-2-play-1", "end-2"} <= set(game.read.tables)
