"""The page: every end and moment as a drawing, as sentences and as sound, and the figures of the game."""

import base64
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from importlib.resources import files
from itertools import groupby

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from voicecoach import describe
from voicecoach.coach import bowling, charts, wording
from voicecoach.coach.box import Box, box
from voicecoach.coach.drawing import drawing
from voicecoach.coach.moments import Moment
from voicecoach.describe.values import Sentence
from voicecoach.head import picture
from voicecoach.head.values import Head, Holding

Playing = Callable[[Sequence[Sentence]], Sequence[tuple[int, int]]]
"""Gives, for sentences, the numbers of the clips to play and the silence after each, milliseconds."""

Steps = dict[str, tuple[str | None, str | None]]
"""For each moment, the ones before and after it."""


@dataclass(frozen=True)
class MomentView:
    """One moment, ready to be set."""

    id: str
    number: int
    heading: str
    heard: str
    answered: str
    stands: bool
    drawing: Markup | None
    sentences: tuple[str, ...]
    out_of_play: str
    play: str
    previous: str | None
    next: str | None


@dataclass(frozen=True)
class EndView:
    """One end, ready to be set."""

    number: int
    moments: tuple[MomentView, ...]
    held: str
    chart: Markup
    remarks: tuple[str, ...]


@dataclass(frozen=True)
class ScoreLine:
    """What one end brought, and the score after it."""

    end: int
    ours: int
    theirs: int
    total_ours: int
    total_theirs: int


def page(
    title: str, moments: Sequence[Moment], playing: Playing, clips: Callable[[], Sequence[bytes]]
) -> str:
    """The whole page as text; `clips` is asked once all `playing` is known."""
    # An end that was begun, taken back and begun again is one end.
    moments = sorted(moments, key=lambda moment: moment.end)
    steps = _steps(moments)
    ends = tuple(
        _end(number, tuple(part), steps, playing) for number, part in groupby(moments, key=lambda m: m.end)
    )
    bowls = bowling.delivered(moments)
    groups = bowling.groups(bowls)
    style, script = _part("style.css"), _part("script.js")
    return (
        _environment()
        .get_template("page.html")
        .render(
            title=title,
            ends=ends,
            scores=scores(moments),
            bowls=bowls,
            groups=groups,
            claims=wording.claims(groups[0]) if groups else [],
            trend=wording.trend(bowling.gap_trend(bowls)),
            by_end=[(end, tuple(part)) for end, part in groupby(bowls, key=lambda one: one.end)],
            scatter=charts.scatter(bowls) if bowls else None,
            trend_chart=charts.by_end(bowls) if bowls else None,
            signed=wording.signed,
            plain=wording.plain,
            cautions=describe.written_cautions(),
            style=Markup(style),
            style_hash=_hash(style),
            script=Markup(script),
            script_hash=_hash(script),
            clips=Markup(json.dumps([base64.b64encode(clip).decode() for clip in clips()])),
        )
    )


def scores(moments: Sequence[Moment]) -> tuple[ScoreLine, ...]:
    """The score by end, as it stood when each end was last finished."""
    last: dict[int, Head] = {moment.end: moment.head for moment in moments if moment.head.finished}
    lines: list[ScoreLine] = []
    ours = theirs = 0
    for end, head in sorted(last.items()):
        score = head.score
        lines.append(ScoreLine(end, score.ours - ours, score.theirs - theirs, score.ours, score.theirs))
        ours, theirs = score.ours, score.theirs
    return tuple(lines)


def _end(number: int, moments: tuple[Moment, ...], steps: Steps, playing: Playing) -> EndView:
    frame = box(moment.head for moment in moments)
    views: list[MomentView] = []
    holdings: list[Holding | None] = []
    for moment in moments:
        view, holding = _moment(moment, frame, steps, playing)
        views.append(view)
        holdings.append(holding)
    last = moments[-1]
    remarks = tuple(sentence.text for sentence in describe.remarks(last.remarks, last.prefs))
    return EndView(number, tuple(views), wording.held(holdings), charts.held(holdings), remarks)


def _moment(
    moment: Moment, frame: Box | None, steps: Steps, playing: Playing
) -> tuple[MomentView, Holding | None]:
    seen = picture(moment.head)
    sentences = describe.read_back(seen, moment.prefs)
    previous, following = steps[_id(moment)]
    view = MomentView(
        id=_id(moment),
        number=moment.number,
        heading=wording.heading(moment),
        heard=moment.entry.heard.text,
        answered=" ".join(sentence.text for sentence in moment.entry.say),
        stands=moment.stands,
        drawing=drawing(seen, frame, moment.event.bowl) if frame and moment.head.bowls else None,
        sentences=tuple(sentence.text for sentence in sentences),
        out_of_play=wording.out_of_play(moment.head),
        play=" ".join(f"{clip} {silent_ms}" for clip, silent_ms in playing(sentences)),
        previous=previous,
        next=following,
    )
    return view, seen.holding


def _steps(moments: Sequence[Moment]) -> Steps:
    order = [_id(moment) for moment in moments]
    around = zip(order, [None, *order], [*order[1:], None], strict=False)
    return {here: (previous, following) for here, previous, following in around}


def _id(moment: Moment) -> str:
    return f"end-{moment.end}-moment-{moment.number}"


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("voicecoach.coach"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _part(name: str) -> str:
    """A file of our own that goes into the page as it is."""
    return (files("voicecoach.coach") / "templates" / name).read_text(encoding="utf-8").strip()


def _hash(text: str) -> str:
    """What the page's own policy lets run: this text and nothing else."""
    return base64.b64encode(sha256(text.encode()).digest()).decode()
