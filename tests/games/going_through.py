"""A game that has been told is gone through again, however it was told: what is replayed is what was live."""

import csv
import json
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from tests.games.telling import Game, replayed, retold, run
from voicecoach import journal
from voicecoach.commands import export, eye, replay, report, walk
from voicecoach.story import read_story

REMARKS = {
    "windy_singles": ("Our first", "Shoulder dropped."),
    "rainy_pairs": ("Our seventh", "Good line."),
    "triples_in_feet": ("Your first", "Good weight."),
}
# Bowls taped before anything moved: our third of the windy game was called, then the jack moved.
TAPED = {"windy_singles": "1 call", "rainy_pairs": "2 calls", "triples_in_feet": "2 calls"}
LEVEL_M = 0.3 + 1e-9
EVERY = 6
"""Every so many turns of a game are replayed."""


def last_head(game: Game, end: int) -> dict[str, Any]:
    """The head as it was live when an end was over."""
    heads: list[dict[str, Any]] = [turn["head"] for turn in game.turns if turn["head"]["end"] == end]
    return heads[-1]


class GoneThrough:
    """What holds for every game, by whichever way it reached its journal: the fixture `game`."""

    def test_every_note_comes_to_what_the_story_says_and_the_score_to_what_it_adds_up_to(
        self, game: Game
    ) -> None:
        assert [turn["outcome"] for turn in game.turns] == [step.outcome for step in game.story.steps]
        score = game.turns[-1]["head"]["score"]
        assert score == {
            "ours": game.expected.ours,
            "theirs": game.expected.theirs,
            "ends": len(game.expected.bowls),
        }
        assert [len(last_head(game, end)["bowls"]) for end in game.ends] == list(game.expected.bowls)

    def test_a_replayed_turn_is_the_head_as_it_was_live(self, game: Game) -> None:
        for turn in game.turns[::EVERY]:
            assert replayed(game, "--turn", turn["turn"])["head"] == turn["head"], turn["turn"]

    def test_a_replayed_end_is_its_last_head_in_walking_order(self, game: Game) -> None:
        for end in game.ends:
            line = replayed(game, "--end", end)
            assert line["head"] == last_head(game, end)
            placed = [bowl for bowl in line["head"]["bowls"] if bowl["y_m"] is not None]
            order = [each for each in line["order"] if each != "jack"]
            assert len(order) == len(placed) == len(line["order"]) - 1
            assert line["order"].count("jack") == 1
            along = {(bowl["side"], bowl["number"]): bowl["y_m"] for bowl in placed}
            ups = [along[each["side"], each["number"]] for each in order]
            # Those level with each other, centres within 0.3 m along the rink, come left before right.
            assert all(later >= earlier - LEVEL_M for earlier, later in pairwise(ups))

    def test_the_turns_stand_beside_what_was_filed(self, game: Game) -> None:
        lines = run(replay.command, game.journal, "--turns").splitlines()
        assert [line for line in lines if line.startswith("End ")] == [f"End {end}" for end in game.ends]
        heard = [line.removeprefix("  Heard: ") for line in lines if line.startswith("  Heard: ")]
        assert heard == [
            "talk that was not kept" if turn["outcome"] == "dropped" else turn["heard"] for turn in game.turns
        ]
        changed = sum("This changes an earlier note." in line for line in lines)
        words = ("no,", "make that", "take that back", "should be")
        assert changed == sum(
            step.say.startswith(words) or " should be " in step.say for step in game.story.steps
        )

    @pytest.mark.usefixtures("nobody_listens")
    def test_the_moments_are_gone_through_forward_and_back(self, game: Game) -> None:
        printed = run(replay.command, game.journal, "--steps", said=["next", "next", "back", "then", "stop"])
        shown = [int(turn) for turn in re.findall(r"^Turn (\d+), ", printed, re.MULTILINE)]
        assert len(shown) == 4
        assert shown[1] == shown[3] > shown[0]
        entry = journal.read(game.journal)[0][shown[3] - 1]
        then = [sentence.text for sentence in (*entry.say, *entry.say_to_player)]
        assert printed.splitlines()[-len(then) :] == then

    def test_every_end_cut_out_runs_again_to_the_same_head(self, game: Game, tmp_path: Path) -> None:
        for end in game.ends:
            cut = tmp_path / f"{end}.yaml"
            run(replay.command, game.journal, "--end", end, "--story", cut)
            story = read_story(cut)
            turns = retold(story, tmp_path / f"{end}.jsonl")
            assert [turn["outcome"] for turn in turns] == [step.outcome for step in story.steps]
            live, again = last_head(game, end), turns[-1]["head"]
            assert again["jack"] == live["jack"]
            assert again["bowls"] == live["bowls"]

    def test_the_export_agrees_with_the_head_of_every_end(self, game: Game, tmp_path: Path) -> None:
        table = tmp_path / "game.csv"
        run(export.command, game.journal, "-o", table)
        rows = list(csv.DictReader(table.read_text(encoding="utf-8").splitlines()))
        for end in game.ends:
            of_end = [row for row in rows if row["end"] == str(end)]
            last = max(int(row["moment"]) for row in of_end)
            head = last_head(game, end)
            found = {(row["side"], int(row["number"])): row for row in of_end if int(row["moment"]) == last}
            assert set(found) == {(bowl["side"], bowl["number"]) for bowl in head["bowls"]}
            for bowl in head["bowls"]:
                row = found[bowl["side"], bowl["number"]]
                for name in ("x_m", "y_m", "gap_m", "hour_exact"):
                    assert (float(row[name]) if row[name] else None) == bowl[name], (name, bowl)
                assert (row["state"], row["toucher"]) == (bowl["state"], str(bowl["toucher"]).lower())
                assert float(row["jack_y_m"]) == head["jack"]["y_m"]
        assert {row["stood"] for row in rows if row["stands"] == "true"} == {"", "mat", "tape"}

    def test_the_report_holds_every_end_in_the_sentences_of_its_read_back(
        self, game: Game, tmp_path: Path
    ) -> None:
        page = tmp_path / "game.html"
        run(report.command, game.journal, "-o", page, "--silent")
        text = page.read_text(encoding="utf-8")
        for end in game.ends:
            moments = re.findall(rf">End {end}, moment (\d+): ", text)
            assert [int(number) for number in moments] == list(range(1, len(moments) + 1))
            for sentence in replayed(game, "--end", end)["say"]:
                assert f"<li>{sentence.replace(chr(39), '&#39;')}</li>" in text, sentence
        bowl, remark = REMARKS[game.name]
        beside = rf"<td>{bowl}: [^<]*<br><small>Remark: {remark}</small>"
        assert re.search(beside, text), "a remark stands beside its bowl"

    def test_the_tape_of_each_game_is_too_little_to_judge_a_directors_eye_by(self, game: Game) -> None:
        printed = run(eye.command, game.journal)
        assert printed.startswith(f"From behind the mat: {TAPED[game.name]} beside the tape.")
        assert "The working values stay" in printed

    def test_the_stops_of_the_walk_pass_everything_that_lies_on_the_green(self, game: Game) -> None:
        for end in game.ends:
            stops = [
                json.loads(line)
                for line in run(walk.command, game.journal, "--end", end, "--json").splitlines()
            ]
            passed = [each for stop in stops for each in stop["level"]]
            head = last_head(game, end)
            assert passed.count("jack") == 1
            bowls = {(each["side"], each["number"]): each for each in passed if each != "jack"}
            lying = [bowl for bowl in head["bowls"] if bowl["y_m"] is not None]
            assert set(bowls) == {(bowl["side"], bowl["number"]) for bowl in lying}
            for bowl in lying:
                stop = bowls[bowl["side"], bowl["number"]]
                assert stop["aside_m"] == pytest.approx(abs(bowl["x_m"]), abs=0.001)
                assert stop["on"] in (
                    ("left",) if bowl["x_m"] < -0.001 else ("right",) if bowl["x_m"] > 0.001 else (None,)
                )
            assert [stop["at_m"] for stop in stops] == sorted(stop["at_m"] for stop in stops)

    @pytest.mark.usefixtures("nobody_listens")
    def test_the_walk_is_spoken_stop_by_stop_and_ends_with_what_is_to_be_gathered(self, game: Game) -> None:
        for end in game.ends:
            stops = run(walk.command, game.journal, "--end", end, "--json").splitlines()
            lines = run(
                walk.command, game.journal, "--end", end, said=["next"] * (len(stops) + 1)
            ).splitlines()
            ours = sum(bowl["side"] == "ours" for bowl in last_head(game, end)["bowls"])
            words = {3: "Three", 4: "Four", 8: "Eight", 9: "Nine"}
            whose = "yours" if game.name == "triples_in_feet" else "ours"
            assert lines[-3:] == [
                "The walk is over.",
                "Director: see the player to a safe place off the path before you gather bowls.",
                f"{words[ours]} are {whose}.",
            ]
            assert "Never leave the player alone on or near the green." in lines
