"""SVG by hand: whole millimetres of the green, up the rink is up the page, every text escaped."""

from collections.abc import Iterable
from functools import cache, lru_cache

from markupsafe import Markup, escape


def mm(metres: float) -> int:
    """Metres as whole millimetres."""
    return round(metres * 1000)


def tag(name: str, inside: Iterable[Markup | str] = (), **attributes: object) -> Markup:
    """One element; `class_` stands for `class`, an underscore within for a hyphen, None for nothing."""
    return _element(name, Markup("").join(inside), tuple(attributes.items()))


# Most parts of a drawing are those of the moment before.
@lru_cache(maxsize=8192)
def _element(name: str, content: Markup, attributes: tuple[tuple[str, object], ...]) -> Markup:
    listed = "".join(
        f' {_attribute(key)}="{value if isinstance(value, int | float) else escape(value)}"'
        for key, value in attributes
        if value is not None
    )
    return Markup(f"<{name}{listed}>{content}</{name}>" if content else f"<{name}{listed}/>")


@cache
def _attribute(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


def text(words: str, x: float, y: float, size: float, **attributes: object) -> Markup:
    """Words, their middle at a point; their height is the drawing's, or a class's."""
    return tag("text", [words], x=round(x), y=round(y + 0.35 * size), **attributes)


def picture(
    inside: Iterable[Markup], box: tuple[int, int, int, int], said: str, class_: str, size: int
) -> Markup:
    """A drawing that a screen reader takes as one image with these words; `size` is that of its words."""
    return tag(
        "svg",
        inside,
        viewBox=" ".join(map(str, box)),
        role="img",
        aria_label=said,
        class_=class_,
        font_size=size,
        text_anchor="middle",
    )


def fluid(inside: Iterable[Markup], said: str, class_: str) -> Markup:
    """A drawing as wide as its place: what is in it stands in per cent, and its words keep their size."""
    return tag("svg", inside, role="img", aria_label=said, class_=class_)


def stretched(inside: Iterable[Markup]) -> Markup:
    """Lines within a fluid drawing: a hundred by a hundred, pulled to its width and height."""
    return tag("svg", inside, viewBox="0 0 100 100", preserveAspectRatio="none", width="100%", height="100%")


def per(share: float) -> str:
    """A share as per cent."""
    return f"{100 * share:.2f}".rstrip("0").rstrip(".") + "%"
