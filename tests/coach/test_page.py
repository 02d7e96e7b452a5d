"""The page as text: whole, self-contained, escaped, small; each end, both plays of a dead one, each note."""

import base64
import hashlib
import html
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.bench.page.games import pairs
from tests.coach.games import Told, called, two_ends
from tests.coach.oddities import odd_game, told
from tests.coach.pages import Reader
from voicecoach import describe, journal
from voicecoach.coach.page import page
from voicecoach.coach.record import record
from voicecoach.commands import report
from voicecoach.errors import Problem
from voicecoach.head import picture
from voicecoach.head.values import Game, Jack, Score
from voicecoach.speak.voice import Voice, VoiceProblem, split

NASTY = "<script>alert('heard')</script>"
LARGEST, MOST_NODES = 3_500_000, 12_000


def _silent(told: Told, title: str = "A game") -> str:
    return page(title, record(told.entries), lambda _: (), list)


def _of(path: Path) -> Reader:
    return Reader(page("A game", record(journal.read(path)[0]), lambda _: (), list))


def _report(*arguments: str | Path) -> Result:
    return CliRunner().invoke(report.command, [str(each) for each in arguments], standalone_mode=False)


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))


@pytest.fixture
def odd(tmp_path: Path) -> Reader:
    return _of(odd_game(tmp_path / "odd.jsonl"))


def test_every_moment_is_there_with_the_sentences_of_its_read_back() -> None:
    told = two_ends()
    read = Reader(_silent(told))
    found, said = record(told.entries), read.data("heads")["said"]
    for section in found.sections:
        final, states = read.data("heads")["ends"][f"end-{section.end}"]
        assert len(states) == len(section.moments)
        for moment, (number, words, sentences, *_) in zip(section.moments, states, strict=True):
            assert number == moment.number
            wanted = describe.read_back(picture(moment.head), found.prefs) if moment.head.bowls else ()
            assert [said[at][0] for at in sentences] == [sentence.text for sentence in wanted]
            assert words.split(".")[0] in read.sections[f"end-{section.end}"]
        for at in states[final][2]:
            assert said[at][0] in read.sections[f"end-{section.end}"]


def test_what_was_taken_back_and_what_is_out_of_play_are_told() -> None:
    rows = Reader(_silent(two_ends())).tables["end-1"]
    assert [row[0] for row in rows if "Taken back later." in row[1]] == ["14"]
    assert "Their fifth is dead." in Reader(_silent(two_ends())).sections["end-1"]


def test_both_plays_of_a_dead_end_have_their_head_their_bowls_and_a_link(odd: Reader) -> None:
    assert "dead, played again" in odd.sections["end-2-play-1"]
    assert "their first: seventy centimetres, two o'clock" in odd.sections["end-2-play-1"].lower()
    assert "their first: forty centimetres, nine o'clock" in odd.sections["end-2"].lower()
    links = [each["aria-label"] for tag, each in odd.tags if tag == "a" and "aria-label" in each]
    assert links == [
        "End 1: 3 to us",
        "End 2, dead: dead, played again",
        "End 2, played again: no score",
        "End 3: 1 to them",
    ]
    assert [row[:2] for row in odd.tables["by-end"][1:]] == [
        ["1", "6"],
        ["2, dead", "2"],
        ["2", "2"],
        ["3", "1"],
    ]


def test_the_score_by_end_is_what_each_end_brought(odd: Reader) -> None:
    assert odd.tables["score"][1:] == [
        ["1", "3", "0", "3", "0"],
        ["2, dead", "dead, played again", "3", "0"],
        ["2, played again", "0", "0", "3", "0"],
        ["3", "0", "1", "3", "1"],
    ]
    assert "We lead, 3 to 1, after 3 ends." in odd.sections["game"]


@pytest.mark.parametrize(
    ("game", "score", "result"),
    [
        (Game(), Score(ours=2, ends=1), "We lead, 2 to 0, after 1 end."),
        (Game(ends=1), Score(ours=2, ends=1), "We won, 2 to 0, after 1 end."),
        (Game(ends=1), Score(theirs=3, ends=1), "They won, 3 to 0, after 1 end."),
        (Game(up_to=3), Score(ours=2, ends=1), "We lead, 2 to 0, after 1 end."),
        (Game(), Score(ends=1), "Level, 0 each, after 1 end."),
        (Game(), None, "No end was finished with a score."),
    ],
)
def test_the_result_is_told_in_words(game: Game, score: Score | None, result: str) -> None:
    told = Told()
    told.game(game)
    told.rested(called("ours", 1, 1.0, 3.0))
    if score:
        told.finished(score, "ours" if score.ours else "theirs" if score.theirs else None, 1)
    assert result in Reader(_silent(told)).sections["game"]


def test_a_remark_keeps_its_stops_and_stands_beside_its_bowl(odd: Reader) -> None:
    (row,) = [row for row in odd.tables["end-1"] if "Remark: Too much grass" in row[1]]
    assert "Remark: Too much grass, again; the shoulder dropped!" in row[1]
    assert row[1].startswith("Our second: ")


def test_a_correction_stands_beside_what_was_first_heard_and_a_doubt_beside_what_it_led_to(
    odd: Reader,
) -> None:
    cells = [
        row[1].replace("\N{LEFT DOUBLE QUOTATION MARK}", '"').replace("\N{RIGHT DOUBLE QUOTATION MARK}", '"')
        for row in odd.tables["end-1"]
    ]
    (corrected,) = [cell for cell in cells if "First heard" in cell]
    assert corrected.startswith("Our second: one metre, eleven o'clock.")
    assert (
        'First heard: "our second, one metre, one o\'clock, backhand"; corrected: "no, eleven o\'clock".'
        in corrected
    )
    (asked,) = [cell for cell in cells if "Which way: what o'clock?" in cell]
    assert asked.startswith("Our third: fifty centimetres, nine o'clock")
    assert 'Heard "our third, fifty centimetres"' in asked
    (other,) = [row[1] for row in odd.tables["end-3"] if "First heard" in row[1]]
    assert other.startswith("Their second: one metre, six o'clock.")


def test_what_the_round_before_play_left_out_is_named(odd: Reader) -> None:
    assert "Left out before play: the way to the green" in odd.sections["game"]
    assert "the rooms" not in odd.sections["game"]


def test_bowls_that_were_set_apart_say_so_where_they_lie(odd: Reader) -> None:
    apart = [
        row[1] for row in odd.tables["end-1"] if "Too close to another to lie where it was called" in row[1]
    ]
    assert len(apart) == 2
    assert apart[0].startswith("Their fourth: twenty centimetres, six o'clock.")
    assert "said hour 6, lies at 6.5" in apart[0]


def test_a_level_head_is_nobodys_on_the_page_as_in_the_export(odd: Reader) -> None:
    assert [row[2] for row in odd.tables["end-3"] if row[2]][1:] == [
        "us, 1",
        *["level (too close to call)"] * 2,
    ]
    assert "we held after 1, they after 0, level after 2, nobody after 0." in odd.sections["end-3"]


def test_a_side_has_one_wording_on_the_whole_page(tmp_path: Path) -> None:
    read = _of(odd_game(tmp_path / "yours.jsonl", "say your and their"))
    text = "".join(read.sections.values())
    heard = re.sub("\N{LEFT DOUBLE QUOTATION MARK}.*?\N{RIGHT DOUBLE QUOTATION MARK}", "", text)
    assert not re.findall(r"\b[Oo]urs?\b|\b[Ww]e\b|\b[Uu]s\b|\bO\d", heard)
    assert "You lead, 3 to 1" in text
    assert "Your second: one metre, eleven o'clock." in text
    labels = set(re.findall(">([A-Z]\\d)\N{MULTIPLICATION SIGN}?<", read.text))
    assert {"Y1", "T1"} <= labels
    assert not [label for label in labels if label.startswith("O")]
    assert not re.findall(r"\b[Oo]ur bowl|\b[Tt]heir bowl \d", text)


def test_a_game_in_feet_has_nothing_metric(tmp_path: Path) -> None:
    read = _of(
        told(
            tmp_path / "feet.jsonl",
            "our first, four feet, six o'clock",
            "their first, two feet six inches, three o'clock",
            "our second, one foot, nine o'clock",
            "their second, three feet, twelve o'clock",
            "our third, six inches, one o'clock",
            "our fourth, two feet, two o'clock",
            "our fifth, five feet, seven o'clock",
        )
    )
    text = "".join(read.sections.values()).replace("\N{NO-BREAK SPACE}", " ")
    assert not re.findall(r"\d (?:m|cm)\b|metre", text)
    assert "feet from the jack" in text
    assert "3 ft" in text
    assert "three feet round the jack" in text


def test_names_and_words_with_markup_are_shown_and_are_no_markup() -> None:
    told = two_ends(heard=NASTY)
    told.add(f"no, {NASTY}", told.entries[3].event.model_copy(update={}))  # type: ignore[union-attr]
    text = _silent(told, title=f"{NASTY}</title>")
    assert text.count("<script") == 3
    assert html.escape(NASTY, quote=False) in text.replace("&#39;", "'")


def test_the_page_asks_for_nothing_from_elsewhere() -> None:
    read = Reader(_silent(two_ends()))
    for tag, attributes in read.tags:
        for name in ("src", "href", "data", "action", "srcset", "poster"):
            value = attributes.get(name) or "#"
            assert value.startswith(("#", "data:")), f"{tag} {name}={value}"
        assert "style" not in attributes
        assert not [name for name in attributes if name.startswith("on")]
    assert not {"iframe", "object", "embed", "base"} & {tag for tag, _ in read.tags}
    style = Path(report.__file__).parents[1] / "coach" / "templates" / "style.css"
    assert "url(" not in style.read_text()
    assert "@import" not in style.read_text()


def test_the_pages_own_policy_lets_its_own_style_and_script_run_and_nothing_else() -> None:
    text = _silent(two_ends())
    policy = next(
        attributes["content"] or ""
        for tag, attributes in Reader(text).tags
        if attributes.get("http-equiv") == "Content-Security-Policy"
    )
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy
    for kind, pattern in (("style", "<style>(.*?)</style>"), ("script", "<script>(.*?)</script>")):
        (inside,) = re.findall(pattern, text, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(inside.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy


def test_ids_are_unique_and_every_link_within_the_page_leads_somewhere(odd: Reader) -> None:
    told = two_ends()
    told.taken_back()  # the score of the second end
    told.taken_back()  # its bowl
    told.taken_back()  # its jack
    told.taken_back()  # the second end itself
    told.next_end(2)
    told.jack(25.0)
    for read in (odd, Reader(_silent(told))):
        ids = [attributes["id"] for _, attributes in read.tags if "id" in attributes]
        assert len(ids) == len(set(ids))
        for _, attributes in read.tags:
            for reference in ("href", "aria-labelledby", "aria-describedby"):
                target = attributes.get(reference)
                if target and target != "data:,":
                    assert target.removeprefix("#") in ids


def test_an_empty_journal_makes_a_page_that_says_so() -> None:
    text = _silent(Told())
    assert "the journal holds no note that changed a head" in text
    assert "No bowl was called." in text
    assert "No end was finished with a score." in text
    assert text.count("too few bowls") == 3


def test_each_clause_is_in_the_page_once_and_every_sentence_is_spoken(tmp_path: Path) -> None:
    journal, out = two_ends().write(tmp_path / "game.jsonl"), tmp_path / "page.html"
    assert _report(journal, "-o", out).exit_code == 0
    read = Reader(out.read_text())
    sounds = [base64.b64decode(each) for each in read.data("clips")]
    assert len(sounds) == len(set(sounds))
    for text, order in read.data("heads")["said"]:
        assert len(order) == 2 * len(split(text))
        assert max(order[::2]) < len(sounds)


def test_without_a_voice_the_page_is_written_without_sound_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def mute(_voice: Voice, _text: str) -> None:
        raise VoiceProblem("The voice can't speak.")

    monkeypatch.setattr(Voice, "render", mute)
    journal, out = two_ends().write(tmp_path / "game.jsonl"), tmp_path / "page.html"
    ran = _report(journal, "-o", out)
    assert ran.exit_code == 0
    assert "The voice can't speak. The page is written without sound." in ran.stderr
    assert Reader(out.read_text()).data("clips") == []


def test_the_page_never_takes_the_journals_place(tmp_path: Path) -> None:
    journal = two_ends().write(tmp_path / "game.jsonl")
    ran = _report(journal, "-o", journal, "--silent")
    assert isinstance(ran.exception, Problem)
    assert "is the journal itself" in str(ran.exception)


def test_twenty_five_ends_of_pairs_with_sound_keep_to_their_size(tmp_path: Path) -> None:
    path, out = pairs(tmp_path / "game.jsonl"), tmp_path / "page.html"
    assert _report(path, "-o", out).exit_code == 0
    read = Reader(out.read_text())
    assert out.stat().st_size <= LARGEST
    assert read.elements <= MOST_NODES
    assert len(read.data("clips")) > 100
    assert sum(name.startswith("end-") for name in read.sections) == 25


def test_a_bowl_that_touches_ties_no_more_than_any_other_level_bowl() -> None:
    told = Told()
    told.jack(25.0)
    told.rested(called("ours", 1, 0.0, 3.0, Jack(y_m=25.0)))
    told.rested(called("theirs", 1, 0.0, 9.0, Jack(y_m=25.0)))
    read = Reader(_silent(told))
    assert [row[2] for row in read.tables["end-1"] if row[2]][1:] == ["us, 1", "level"]
