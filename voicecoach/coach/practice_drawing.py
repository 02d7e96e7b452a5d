"""A drawing for calling practice: jack and bowls to scale, and no clock face, which would give it away."""

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from voicecoach.coach import shapes
from voicecoach.coach.calling import Task
from voicecoach.coach.labels import Sizes, place
from voicecoach.coach.svg import mm, tag, text
from voicecoach.understand.values import Side

JACK_MM, BOWL_MM = 64, 121
MARGIN = 450
LETTER = 110
"""Height of the letters, millimetres on the green."""
LETTERS: dict[Side, str] = {"ours": "O", "theirs": "T"}
INK, PAPER = "#111", "#fff"
STYLE = (
    f".edge{{fill:{PAPER};stroke:{INK};stroke-width:12px}}.ours .edge{{fill:{INK}}}"
    f".mark{{fill:{INK}}}text{{font:bold {LETTER}px sans-serif;text-anchor:middle}}"
)
ABOUT = "A head to be called. The mat is towards the bottom of the page; the bar is one metre."


def drawing(tasks: Sequence[Task]) -> str:
    """The head as a drawing of its own: the mat is towards the bottom of the page."""
    across = [0, *(mm(task.right_m) for task in tasks)]
    down = [0, *(-mm(task.past_m) for task in tasks)]
    left, top = min(across) - MARGIN, min(down) - MARGIN
    width, height = max(max(across) - left, 1200) + MARGIN, max(down) - top + 2 * MARGIN
    svg = tag(
        "svg",
        [
            tag("title", [ABOUT]),
            tag("style", [STYLE]),
            *_paper(left, top, width, height),
            *_jack(),
            *_bowls(tasks),
        ],
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"{left} {top} {width} {height}",
        role="img",
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
    """With the marks and letters of the coach's page, each name where it covers nothing."""
    middles = [(mm(task.right_m), -mm(task.past_m)) for task in tasks]
    sizes = Sizes(BOWL_MM / 2 + 20, 1.5 * LETTER, LETTER)
    for task, (x, y), name in zip(tasks, middles, place([*middles, (0, 0)], sizes), strict=False):
        yield tag("g", shapes.bowl(task.side, BOWL_MM / 2), class_=task.side, transform=f"translate({x} {y})")
        yield text(f"{LETTERS[task.side]}{task.number}", *name, LETTER)
