"""A drawing for calling practice: jack and bowls to scale, and no clock face, which would give it away."""

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from voicecoach.coach.calling import Task
from voicecoach.coach.svg import mm, tag, text
from voicecoach.understand.values import Side

JACK_MM, BOWL_MM = 64, 121
MARGIN = 450
LETTER = 110
"""Height of the letters, millimetres on the green."""
LETTERS: dict[Side, str] = {"ours": "O", "theirs": "T"}
INK, PAPER = "#111", "#fff"
ABOUT = "A head to be called. The mat is towards the bottom of the page; the bar is one metre."


def drawing(tasks: Sequence[Task]) -> str:
    """The head as a drawing of its own: the mat is towards the bottom of the page."""
    across = [0, *(mm(task.right_m) for task in tasks)]
    down = [0, *(-mm(task.past_m) for task in tasks)]
    left, top = min(across) - MARGIN, min(down) - MARGIN
    width, height = max(max(across) - left, 1200) + MARGIN, max(down) - top + 2 * MARGIN
    svg = tag(
        "svg",
        [tag("title", [ABOUT]), *_paper(left, top, width, height), *_jack(), *_bowls(tasks)],
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"{left} {top} {width} {height}",
        role="img",
        font_family="sans-serif",
        fill=INK,
    )
    return f"{svg}\n"


def _paper(left: int, top: int, width: int, height: int) -> Iterator[Markup]:
    bottom = top + height - 80
    yield tag("rect", x=left, y=top, width=width, height=height, fill=PAPER)
    yield tag("path", d=f"M{left + 100} {bottom - 140}h1000", stroke=INK, stroke_width=20)
    yield text("1 m, mat this way", left + 600, bottom, LETTER)


def _jack() -> Iterator[Markup]:
    yield tag("circle", r=JACK_MM // 2, fill=PAPER, stroke=INK, stroke_width=14)


def _bowls(tasks: Sequence[Task]) -> Iterator[Markup]:
    for task in tasks:
        x, y = mm(task.right_m), -mm(task.past_m)
        fill = INK if task.side == "ours" else PAPER
        yield tag("circle", cx=x, cy=y, r=BOWL_MM / 2 - 6, fill=fill, stroke=INK, stroke_width=12)
        yield text(f"{LETTERS[task.side]}{task.number}", x, y - BOWL_MM, LETTER)
