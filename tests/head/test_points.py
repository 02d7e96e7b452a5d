"""A body has a place or it has none: there is no half of a place, and no place that stands for none."""

import ast
from pathlib import Path

import voicecoach
from voicecoach.head.bodies import lying, seen
from voicecoach.head.values import Bowl, Head, Jack, Point

PACKAGE = Path(voicecoach.__file__).parent


def test_a_body_without_a_place_lies_nowhere() -> None:
    dead = Bowl(side="ours", number=1, x_m=None, y_m=None, state="dead")
    live = Bowl(side="ours", number=2, x_m=0.5, y_m=26.0)
    head = Head(bowls=(dead, live))
    assert dead.place is None
    assert [lies.place for lies in lying(head)] == [Point(0.5, 26.0)]
    assert [lies.jack for lies in seen(head)] == [Point(0.0, 27.0)]


def test_from_a_dead_jack_nothing_is_seen_and_it_is_known_where_it_lay_last() -> None:
    jack = Jack(x_m=None, y_m=None, state="dead", last=(0.2, 30.0))
    assert (jack.place, jack.lay) == (None, Point(0.2, 30.0))
    live = Bowl(side="ours", number=1, x_m=0.5, y_m=26.0)
    assert not seen(Head(bowls=(live,), jack=jack))


def test_no_module_takes_a_missing_place_for_the_middle_of_the_mat_line() -> None:
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.BoolOp) and isinstance(node.op, ast.Or):
                parts = [part.attr for part in node.values if isinstance(part, ast.Attribute)]
                assert not {"x_m", "y_m"} & set(parts), f"{path.name}, line {node.lineno}"
