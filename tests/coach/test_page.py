"""The page as text: whole, self-contained, escaped, small and quick."""

import base64
import hashlib
import html
import json
import re
import time
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.coach.games import Told, called, two_ends
from voicecoach import describe
from voicecoach.coach.moments import moments
from voicecoach.coach.page import page, scores
from voicecoach.commands import report
from voicecoach.errors import Problem
from voicecoach.head import picture
from voicecoach.head.values import Jack, Score
from voicecoach.speak.voice import Voice, VoiceProblem, split

NASTY = "<script>alert('heard')</script>"


class Reader(HTMLParser):
    """Every tag with its attributes, and all text by the id of the article it is in."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.articles: dict[str, str] = {}
        self._in = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag == "article":
            self._in = dict(attrs)["id"] or ""

    def handle_data(self, data: str) -> None:
        self.articles[self._in] = self.articles.get(self._in, "") + data


def _silent(told: Told, title: str = "A game") -> str:
    return page(title, moments(told.entries), lambda _: (), list)


def test_every_moment_is_there_with_the_sentences_of_its_read_back() -> None:
    told = two_ends()
    read = Reader(_silent(told))
    for moment in moments(told.entries):
        text = read.articles[f"end-{moment.end}-moment-{moment.number}"]
        for sentence in describe.read_back(picture(moment.head), moment.prefs):
            assert sentence.text in text
        assert moment.entry.heard.text in text


def test_what_was_taken_back_and_what_is_out_of_play_are_told() -> None:
    read = Reader(_silent(two_ends()))
    taken = [name for name, text in read.articles.items() if "This note was taken back later." in text]
    assert taken == ["end-1-moment-14"]
    assert "Their bowl 5 is dead." in read.articles["end-1-moment-12"]


def test_names_and_words_with_markup_are_shown_and_are_no_markup() -> None:
    text = _silent(two_ends(heard=NASTY), title=f"{NASTY}</title>")
    assert text.count("<script") == 2
    assert html.escape(NASTY, quote=False) in text.replace("&#39;", "'")
    assert NASTY in "".join(Reader(text).articles.values())


def test_the_page_asks_for_nothing_from_elsewhere() -> None:
    read = Reader(_silent(two_ends()))
    for tag, attributes in read.tags:
        for name in ("src", "href", "data", "action", "srcset", "poster"):
            value = attributes.get(name) or "#"
            assert value.startswith(("#", "data:")), f"{tag} {name}={value}"
        assert "style" not in attributes
        assert not [name for name in attributes if name.startswith("on")]
    assert not {"link", "iframe", "object", "embed", "base"} & {
        tag for tag, each in read.tags if tag != "link"
    }
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


def test_ids_are_unique_and_every_link_within_the_page_leads_somewhere() -> None:
    told = two_ends()
    told.taken_back()  # the score of the second end
    told.taken_back()  # its bowl
    told.taken_back()  # its jack
    told.taken_back()  # the second end itself
    told.next_end(2)
    told.jack(25.0)
    read = Reader(_silent(told))
    ids = [attributes["id"] for _, attributes in read.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in read.tags:
        for reference in ("href", "aria-labelledby", "aria-describedby"):
            target = attributes.get(reference)
            if target and target != "data:,":
                assert target.removeprefix("#") in ids


def test_the_score_by_end_is_what_each_end_brought() -> None:
    lines = [
        (line.end, line.ours, line.theirs, line.total_ours, line.total_theirs)
        for line in scores(moments(two_ends().entries))
    ]
    assert lines == [(1, 2, 0, 2, 0), (2, 0, 1, 2, 1)]


def test_an_empty_journal_makes_a_page_that_says_so() -> None:
    text = _silent(Told())
    assert "the journal holds no note that changed a head" in text
    assert "None of our bowls was called." in text
    assert "No end was finished with a score." in text


def _report(*arguments: str | Path) -> Result:
    return CliRunner().invoke(report.command, [str(each) for each in arguments], standalone_mode=False)


def test_each_clause_is_in_the_page_once_and_every_moment_plays_its_read_back(tmp_path: Path) -> None:
    journal, out = two_ends().write(tmp_path / "game.jsonl"), tmp_path / "page.html"
    assert _report(journal, "-o", out).exit_code == 0
    text = out.read_text()
    found = re.search(r'<script type="application/json" id="clips">(.*?)</script>', text)
    assert found
    sounds = [base64.b64decode(each) for each in json.loads(found[1])]
    assert len(sounds) == len(set(sounds))
    for moment in moments(two_ends().entries):
        article = text.split(f'<article class="moment" id="end-{moment.end}-moment-{moment.number}"')[1]
        play = re.search(r'data-play="([\d ]+)"', article)
        assert play
        numbers = [int(number) for number in play[1].split()]
        clauses = [
            clause
            for sentence in describe.read_back(picture(moment.head), moment.prefs)
            for clause in split(sentence.text)
        ]
        assert len(numbers) == 2 * len(clauses)
        assert max(numbers[::2]) < len(sounds)


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
    assert "data-play" not in out.read_text()


def test_the_page_never_takes_the_journals_place(tmp_path: Path) -> None:
    journal = two_ends().write(tmp_path / "game.jsonl")
    ran = _report(journal, "-o", journal, "--silent")
    assert isinstance(ran.exception, Problem)
    assert "is the journal itself" in str(ran.exception)


def _long_game() -> Told:
    """Twenty-five ends of fours, sixteen bowls in each, the jack moved once in each."""
    told = Told()
    for end in range(1, 26):
        if end > 1:
            told.next_end(end)
        told.jack(25.0)
        jack = Jack(y_m=25.0, called=True)
        for number in range(1, 9):
            for turn, side in enumerate(("ours", "theirs")):
                gap_m = 0.2 + 0.05 * ((7 * number + 11 * turn + 3 * end) % 40)
                hour = float(1 + (5 * number + 7 * turn + end) % 12)
                told.rested(called("ours" if side == "ours" else "theirs", number, gap_m, hour, jack))
        told.finished(Score(ours=end, ends=end), "ours", 1)
    return told


def test_a_game_of_twenty_five_ends_makes_a_page_in_five_seconds_of_under_five_megabytes(
    tmp_path: Path,
) -> None:
    journal, out = _long_game().write(tmp_path / "game.jsonl"), tmp_path / "page.html"
    before = time.process_time()
    assert _report(journal, "-o", out).exit_code == 0
    # Processor time, since other work on the machine must not decide; the voice works beside it.
    assert time.process_time() - before < 5.0
    assert out.stat().st_size < 5_000_000
    assert out.read_text().count("<article") == 25 * 18 + 24
