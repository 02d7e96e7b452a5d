"""How many decodes listen: a question of what one takes, and of how much of a core may be used."""

from itertools import pairwise
from pathlib import Path

import pytest

from voicecoach import afforded, kept_book
from voicecoach.hear.affordable import Speed, affordable, core
from voicecoach.hear.decodes import DECODES, LEAST, MAIN, MOST, fewer
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import load
from voicecoach.places import scenarios
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, Ranked

NOTE = scenarios() / "first_end" / "11-ours.wav"
SAID = "our fourth, thirty centimetres, one o'clock"


@pytest.mark.parametrize(
    ("decode", "core_share", "ears", "count"),
    [
        (0.037, 1.0, 1, 3),  # measured on a desktop core
        (0.037, 1.0, 2, 3),
        (0.1, 1.0, 1, 3),  # a core a third as quick
        (0.037, 0.25, 1, 3),
        (0.037, 0.25, 2, 2),
        (0.2, 1.0, 1, 3),
        (0.3, 1.0, 1, 2),
        (0.037, 0.1, 1, 2),
        (5.0, 1.0, 1, 2),
        (0.0, 1.0, 1, 3),  # a clock too coarse to tell
    ],
)
def test_a_slower_device_decodes_less(decode: float, core_share: float, ears: int, count: int) -> None:
    assert affordable(Speed(decode=decode, core=core_share), ears) == count


def test_no_device_decodes_more_for_being_slower() -> None:
    counts = [affordable(Speed(decode=0.01 * step)) for step in range(1, 100)]
    assert all(before >= after for before, after in pairwise(counts))
    assert (counts[0], counts[-1]) == (MOST, LEAST)


@pytest.mark.parametrize("in_noise", [False, True])
@pytest.mark.parametrize("count", range(1, MOST + 1))
def test_so_many_count_with_noise_and_without_and_the_main_one_is_among_them(
    count: int, in_noise: bool
) -> None:
    counting = [decode for decode in fewer(count) if decode.counts(in_noise=in_noise)]
    assert len(counting) == count
    assert MAIN.name in {decode.name for decode in counting}


def test_all_of_them_is_what_there_is() -> None:
    assert fewer(MOST) == DECODES


def _groups(root: Path, lines: str, files: dict[str, str]) -> tuple[Path, Path]:
    for name, text in files.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text)
    (root / "self").write_text(lines)
    return root, root / "self"


NEWER = "0::/user.slice/play.scope\n"
OLDER = "5:devices:/\n2:cpu,cpuacct:/box\n0::/\n"


# The forms of these files: Linux, Documentation/admin-guide/cgroup-v2.rst ("cpu.max") and
# Documentation/scheduler/sched-bwc.rst ("cpu.cfs_quota_us"), from memory.
@pytest.mark.parametrize(
    ("lines", "files", "share"),
    [
        (NEWER, {"user.slice/play.scope/cpu.max": "25000 100000\n"}, 0.25),
        (NEWER, {"user.slice/play.scope/cpu.max": "max 100000\n"}, 1.0),
        (NEWER, {"user.slice/cpu.max": "50000 100000\n"}, 0.5),  # a group that its group is in
        (
            NEWER,
            {"user.slice/cpu.max": "50000 100000", "user.slice/play.scope/cpu.max": "80000 100000"},
            0.5,
        ),
        (
            NEWER,
            {"user.slice/play.scope/cpu.max": "400000 100000\n"},
            1.0,
        ),  # four cores, of which it uses one
        (NEWER, {"user.slice/play.scope/cpu.max": "nonsense"}, 1.0),
        (NEWER, {}, 1.0),
        (
            OLDER,
            {"cpu,cpuacct/box/cpu.cfs_quota_us": "10000\n", "cpu,cpuacct/box/cpu.cfs_period_us": "100000\n"},
            0.1,
        ),
        (
            OLDER,
            {"cpu,cpuacct/box/cpu.cfs_quota_us": "-1\n", "cpu,cpuacct/box/cpu.cfs_period_us": "100000\n"},
            1.0,
        ),
        ("", {}, 1.0),
        ("no such form", {}, 1.0),
    ],
)
def test_the_quota_that_the_system_sets_is_read(
    tmp_path: Path, lines: str, files: dict[str, str], share: float
) -> None:
    assert core(*_groups(tmp_path, lines, files)) == share


def test_without_control_groups_all_of_a_core_may_be_used(tmp_path: Path) -> None:
    assert core(tmp_path, tmp_path / "nothing") == 1.0


def test_a_note_is_heard_and_understood_with_each_number_of_decodes(model_path: Path) -> None:
    book = kept_book.load()
    recogniser, understanding = Recogniser(model_path, book), Understanding(book)
    meant = BowlRested(side="ours", number=4, gap_m=0.3, unit="cm", hour=1.0)
    for count in range(MOST, LEAST - 1, -1):
        recogniser.keep(count)
        heard = recogniser.hear(load(NOTE))
        assert len({reading.decode for reading in heard.readings}) == count
        read = understanding.read(heard, Expected())
        assert isinstance(read, Ranked)
        assert read.notes[0] == meant, count
        assert read.doubt is None


def test_what_was_chosen_and_what_it_costs_is_said(model_path: Path) -> None:
    count, speed = afforded.afford(Recogniser(model_path, kept_book.load()))
    assert speed.decode > 0
    assert LEAST <= count <= MOST
    assert "percent of the processor" in afforded.in_words(count, speed)


@pytest.mark.parametrize("count", range(LEAST, MOST + 1))
def test_every_number_has_its_words_and_fewer_have_their_cost(count: int) -> None:
    said = afforded.in_words(count, Speed(decode=0.05, core=0.2))
    assert "25 percent of the processor, of which the system gives it 20 percent of one core" in said
    assert ("all 3 ways" in said) == (count == MOST)
    assert ("of a hundred notes" in said) == (count < MOST)
