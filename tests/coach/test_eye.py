"""The director's eye: what comes out for made-up directors is what was put in."""

import random
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.coach.directors import Director, look, play
from voicecoach import journal
from voicecoach.coach.eye import Found, found, judging
from voicecoach.coach.looks import looks
from voicecoach.coach.quantiles import chi_squared, student
from voicecoach.commands import eye
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.head.values import Holding
from voicecoach.hear.values import Heard
from voicecoach.personal import read_profile
from voicecoach.understand.notes.eye import Eye, Judging
from voicecoach.understand.notes.settings import EyeTold

SHORT_CALLER = Director(says=0.85, spread=0.20, hour_shift=0.4, hour_sd=0.3)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A configuration folder of the test's own."""
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))
    return tmp_path / "config" / "profile.yaml"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(eye.command, [str(each) for each in arguments], standalone_mode=False)


def eyes(director: Director, count: int, directors: int) -> list[Found]:
    chance = random.Random(20261125)
    return [found([look(director, chance) for _ in range(count)]) for _ in range(directors)]


@pytest.mark.parametrize(
    "director",
    [Director(), Director(spread=0.29, floor_m=0.08), SHORT_CALLER, Director(1.2, 0.12, stands="head")],
)
def test_the_intervals_hold_the_known_bias_and_spread_of_made_up_directors(director: Director) -> None:
    seen = eyes(director, 40, 400)
    held = {
        "says": sum(each.far.says.holds(director.says) for each in seen if each.far.says),
        "spread": sum(each.far.relative_sd.holds(director.spread) for each in seen if each.far.relative_sd),
        "shift": sum(
            each.hours.hour_shift.holds(director.hour_shift) for each in seen if each.hours.hour_shift
        ),
    }
    for name, count in held.items():
        assert 0.92 * 400 <= count <= 0.985 * 400, name  # 95 in 100, within what four hundred can show


def test_with_many_calls_every_figure_comes_out() -> None:
    (eye_found,) = eyes(SHORT_CALLER, 4000, 1)
    taken = judging(eye_found)
    assert taken is not None
    assert taken.says == pytest.approx(0.85, rel=0.02)
    assert taken.relative_sd == pytest.approx(0.20, rel=0.05)
    assert taken.hour_shift == pytest.approx(0.4, abs=0.05)
    assert taken.hour_sd == pytest.approx(0.3, abs=0.05)


def test_the_floor_comes_out_for_a_director_without_bias() -> None:
    (eye_found,) = eyes(Director(spread=0.1, floor_m=0.08), 4000, 1)
    assert eye_found.floor_m is not None
    assert eye_found.floor_m.value == pytest.approx(0.08, rel=0.1)


def test_a_bias_that_may_be_chance_is_not_taken() -> None:
    taken = [judging(each) for each in eyes(Director(), 30, 400)]
    for unbiased in (
        [one and one.says == 1.0 for one in taken],
        [one and one.hour_shift == 0 for one in taken],
    ):
        assert sum(map(bool, unbiased)) >= 0.92 * 400


def test_nothing_is_claimed_from_too_few_calls() -> None:
    (eye_found,) = eyes(SHORT_CALLER, 4, 1)
    assert judging(eye_found) is None
    assert eye_found.far.says is None
    assert eye_found.hours.hour_shift is None


def test_each_band_of_distance_has_its_own_bias_and_every_call_is_in_one() -> None:
    (eye_found,) = eyes(SHORT_CALLER, 2000, 1)
    assert [band.from_m for band in eye_found.bands] == [0.0, 0.4, 1.0, 2.0]
    assert sum(band.count for band in eye_found.bands) == 2000
    for band in eye_found.bands[1:]:
        assert band.says is not None
        assert band.says.value == pytest.approx(0.85, abs=0.04)


def test_quantiles_are_those_of_the_tables() -> None:
    # Common statistical tables, from memory: Student's t and chi squared.
    for freedom, value in ((4, 2.776), (9, 2.262), (39, 2.023)):
        assert student(0.975, freedom) == pytest.approx(value, rel=0.002)
    for probability, freedom, value in (
        (0.975, 9, 19.02),
        (0.025, 9, 2.700),
        (0.975, 39, 58.12),
        (0.025, 39, 23.65),
    ):
        assert chi_squared(probability, freedom) == pytest.approx(value, rel=0.01)


@pytest.mark.parametrize("stands", ["mat", "head"])
def test_a_game_that_was_taped_gives_the_eye_from_where_the_director_stood(
    tmp_path: Path, stands: str, home: Path
) -> None:
    director = SHORT_CALLER._replace(stands=stands)  # type: ignore[arg-type]
    path = tmp_path / "taped.jsonl"
    play(director, 12, random.Random(7), path)
    seen = looks(journal.read(path)[0])
    assert len(seen) == 48
    assert {each.stood for each in seen} == {stands}
    result = run(path, "--keep")
    assert result.exit_code == 0, result.output
    kept = read_profile(home).eye
    assert kept is not None
    told: Judging | None = getattr(kept, stands)
    assert told is not None
    assert told.says == pytest.approx(0.85, abs=0.08)
    assert told.relative_sd == pytest.approx(0.20, abs=0.06)
    assert told.hour_shift == pytest.approx(0.4, abs=0.25)
    place = "From behind the mat" if stands == "mat" else "From the head"
    assert result.output.startswith(f"{place}: 48 calls beside the tape.")
    assert "too short" in result.output


def entries_of(tmp_path: Path, *notes: str) -> Path:
    path = tmp_path / "told.jsonl"
    with Conversation(path) as conversation:
        for note in notes:
            assert conversation.hear(Heard(text=note)).outcome == "noted", note
    return path


CALLED, TAPED = "our first, eighty centimetres, two o'clock", "our first measured one metre"


@pytest.mark.parametrize(
    ("notes", "said"),
    [
        ((CALLED, TAPED), [(0.8, 1.0, None)]),
        ((CALLED, "our first measured one metre at three o'clock"), [(0.8, 1.0, 3.0)]),
        ((CALLED, TAPED, "our first measured ninety centimetres"), [(0.8, 0.9, None)]),
        ((CALLED, "jack moved half a metre to twelve o'clock", TAPED), []),
        ((CALLED, TAPED, "take that back"), []),
        (
            (
                "our first, six o'clock, touching the jack",
                "their first, a metre at six",
                "our first measured ten centimetres",
            ),
            [],
        ),
    ],
)
def test_only_what_was_taped_before_anything_moved_is_compared(
    tmp_path: Path, notes: tuple[str, ...], said: list[tuple[float, float, float | None]]
) -> None:
    entries, _ = journal.read(entries_of(tmp_path, "jack at twenty six metres", *notes))
    found_looks = [(round(each.said_gap_m, 6), each.true_gap_m, each.true_hour) for each in looks(entries)]
    assert found_looks == said


def test_without_a_tape_the_command_says_what_to_do(tmp_path: Path) -> None:
    result = run(entries_of(tmp_path, CALLED))
    assert isinstance(result.exception, Problem)
    assert "Call bowls, then say what the tape says" in str(result.exception)


def test_too_little_is_not_kept(tmp_path: Path, home: Path) -> None:
    result = run(entries_of(tmp_path, CALLED, TAPED), "--keep")
    assert isinstance(result.exception, Problem)
    assert not home.exists()
    assert "The working values stay" in result.output


def holding(eye_known: Eye | None) -> Holding:
    conversation = Conversation()
    if eye_known:
        conversation.file(EyeTold(value=eye_known), "test")
    for note in ("our first, one metre, three o'clock", "their first, one metre twenty, nine o'clock"):
        assert conversation.hear(Heard(text=note)).outcome == "noted"
    found_holding = conversation.picture().holding
    assert found_holding is not None
    return found_holding


def test_the_geometry_goes_by_the_directors_own_eye() -> None:
    # 1.0 m against 1.2 m, each log-normal with relative spread 0.15, are in the right order with
    # probability 0.805; with 0.05 it is 0.995 (derived: the normal distribution at ln 1.2 / (0.05 * sqrt 2)).
    assert holding(None).probability == pytest.approx(0.805, abs=0.015)
    sharp = holding(Eye(mat=Judging(relative_sd=0.05, floor_m=0.01)))
    assert sharp.probability == pytest.approx(0.995, abs=0.005)
    assert sharp.sure
    assert holding(Eye(head=Judging(relative_sd=0.05, floor_m=0.01))).probability < 0.82


def test_a_known_bias_counts_when_a_call_is_held_against_the_tape() -> None:
    conversation = Conversation()
    eye_known = Eye(mat=Judging(says=0.8, relative_sd=0.05, floor_m=0.01))
    conversation.file(EyeTold(value=eye_known), "test")
    for note in (
        "our first, one metre, three o'clock",
        "their first, one metre, nine o'clock",
        "their first measured one metre ten",
    ):
        assert conversation.hear(Heard(text=note)).outcome == "noted"
    found_holding = conversation.picture().holding
    assert found_holding is not None
    # What is called one metre lies, for this director, about 1.25 m away: the taped 1.1 m is nearer.
    assert (found_holding.side, found_holding.sure) == ("theirs", True)


def test_taking_back_a_note_keeps_the_eye() -> None:
    conversation = Conversation()
    eye_known = Eye(mat=Judging(relative_sd=0.05))
    conversation.hear(Heard(text=CALLED))
    conversation.file(EyeTold(value=eye_known), "test")
    conversation.hear(Heard(text="take that back"))
    assert conversation.talk.play.head.game.eye == eye_known
