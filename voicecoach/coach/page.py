"""The page: what happened, what the player is doing, and each head to look at, to read and to hear."""

import base64
import json
import re
from collections.abc import Callable, Sequence
from functools import cache
from hashlib import sha256
from importlib.resources import files

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from voicecoach import describe
from voicecoach.coach.bowling_view import bowling_view
from voicecoach.coach.end_view import Clips, EndView, Sayings, end_view
from voicecoach.coach.game_view import game_view
from voicecoach.coach.record import Record
from voicecoach.coach.wording import Words


def page(title: str, record: Record, playing: Clips, clips: Callable[[], Sequence[bytes]]) -> str:
    """The whole page as text; `clips` is asked once all `playing` is known."""
    words = Words(record.prefs, record.measure)
    game = game_view(record, words)
    sayings = Sayings(playing)
    ends = tuple(
        end_view(section, record, result, words, sayings)
        for section, result in zip(record.sections, game.results, strict=True)
    )
    data = {
        "ends": {end.result.id: [end.final, end.states] for end in ends if end.states},
        "said": sayings.said,
    }
    return rendered(
        "page.html",
        title=title,
        game=game,
        words=words,
        ends=ends,
        bowling=bowling_view(record, words) if record.bowls else None,
        heads=_json(data),
        clips=_json([base64.b64encode(clip).decode() for clip in clips()]),
        script_text=part("script.js"),
    )


def rendered(template: str, *, script_text: str = "", **values: object) -> str:
    """A page of ours: one file with its style and script in it, which its own policy alone lets run."""
    style = part("style.css")
    text = (
        _environment()
        .get_template(template)
        .render(
            cautions=describe.written_cautions(),
            style=Markup(style),
            style_hash=_hash(style),
            script=Markup(script_text),
            script_hash=_hash(script_text),
            **values,
        )
    )
    return re.sub(r">\n+<", "><", text)  # a line between two tags would be one more node


def _json(data: object) -> Markup:
    """Data for the script: no markup in it ends its element."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026"))


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("voicecoach.coach"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def part(name: str) -> str:
    """A file of our own that goes into the page as it is."""
    return (files("voicecoach.coach") / "templates" / name).read_text(encoding="utf-8").strip()


def _hash(text: str) -> str:
    """What the page's own policy lets run: this text and nothing else."""
    return base64.b64encode(sha256(text.encode()).digest()).decode()


__all__ = ["EndView", "page", "part", "rendered"]
