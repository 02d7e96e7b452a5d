"""One bowl, one sentence: whose and which, how far, which hour."""

from typing import Literal, NamedTuple

from voicecoach.describe.distances import as_called, bare, can_be_called, family, rounded, worked_out
from voicecoach.describe.hours import SideWords, hour_said, side_words
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Lie, Picture
from voicecoach.phrasebook.numbers import ordinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import BowlName, Side

_FINE_M = 0.15
"""Below this a called gap is told to the centimetre or the inch: by eye, too, two inches are not one."""
_SAME_M = 0.005
"""Gaps that differ by less are one gap."""


Manner = Literal["plain", "toucher", "measured"]
"""What else is said of a bowl beside its name."""


class Style(NamedTuple):
    """How to word the sentence of one bowl."""

    side: SideWords = "where it helps"
    brief: bool = False
    """True in a long list."""
    manner: Manner = "plain"


ASKED = Style("full")
"""For a bowl that was asked for, or that holds shot."""
BARE = Style("none")
FACT_WORDS = 12
"""The asked fact is told in no more words."""


def side_name(side: Side, prefs: Preferences, form: str) -> str:
    """A side in the listener's words: form `our`, `ours`, `we`, `us` or `hold`."""
    return words(f"sides.{prefs.sides}.{side}.{form}")


def bowl_name(side: Side, number: int, prefs: Preferences) -> str:
    """`our second`."""
    return words("name", side=side_name(side, prefs, "our"), number=ordinal(number))


def is_as_called(lie: Lie, picture: Picture) -> bool:
    """True while the bowl is spoken as it was called."""
    return any(
        bowl.as_called for bowl in picture.head.bowls if (bowl.side, bowl.number) == (lie.side, lie.number)
    )


def find(picture: Picture, name: BowlName) -> Lie | None:
    """How a bowl lies, by its name."""
    return next((lie for lie in picture.lies if (lie.side, lie.number) == (name.side, name.number)), None)


def distance_words(lie: Lie, picture: Picture, prefs: Preferences) -> str | None:
    """The gap in words: as called while it stands as called, else rounded at its doubt."""
    if lie.gap_m is None:
        return None
    exact = _exact_gap(lie, picture)
    if exact == 0:
        return words("distance.touching")
    kind = family(lie.unit, prefs.units)
    if exact is None or _in_another_unit(lie, prefs):
        say = bare if prefs.terse else worked_out
        return say(lie.gap_m if exact is None else exact, _doubt_m(lie, exact), kind)
    if prefs.terse and kind == "metric":
        return bare(exact, 0.0, kind)
    return as_called(exact, lie.unit, picture.head.game.bowl_mm / 1000)


def said_gap_m(lie: Lie, picture: Picture, prefs: Preferences) -> float | None:
    """The gap as its sentence says it, rounded where that is, metres."""
    if lie.gap_m is None:
        return None
    exact = _exact_gap(lie, picture)
    if exact is None or _in_another_unit(lie, prefs):
        gap_m = lie.gap_m if exact is None else exact
        return rounded(gap_m, _doubt_m(lie, exact), family(lie.unit, prefs.units))
    return exact


def _in_another_unit(lie: Lie, prefs: Preferences) -> bool:
    """True where a bowl called in feet is read in metres, or the other way round."""
    return (family(lie.unit, prefs.units) == "metric") != (family(lie.unit) == "metric")


def _doubt_m(lie: Lie, exact: float | None) -> float:
    """The doubt to round at: a called gap of a few inches is no rounder for being read in another unit."""
    return 0.0 if exact is not None and exact < _FINE_M else lie.gap_sd_m


def _exact_gap(lie: Lie, picture: Picture) -> float | None:
    """The gap as taped or as called, metres; None where it had to be worked out."""
    if lie.measured:
        return lie.gap_m
    if not is_as_called(lie, picture) or lie.said is None or lie.gap_m is None:
        return None
    if lie.gap_m < _SAME_M and (lie.said.gap_m == 0 or "touching" in lie.said.remarks):
        return 0.0
    said = lie.said.gap_m
    in_words = lie.said.hour is None  # "a metre short" is along the rink, which may not be the gap
    if said is None or (in_words and abs(said - lie.gap_m) > _SAME_M):
        return None
    return said if can_be_called(said, lie.unit, picture.head.game.bowl_mm / 1000) else None


def place_words(lie: Lie, picture: Picture, prefs: Preferences, style: Style) -> str:
    """Distance and hour of a bowl in words, in the order the listener wants."""
    distance = distance_words(lie, picture, prefs)
    said = hour_said(lie, is_as_called(lie, picture), prefs, style.brief)
    if distance is None or said is None:
        return distance or words("place.no jack" if picture.head.jack.state == "dead" else "place.unknown")
    side = side_words(said, lie, style.side, prefs)
    hour_text = words("hour.with side", hour=said.text, side=side) if side else said.text
    key = "place.hour first" if prefs.hour_first else "place.distance first"
    return words(key, distance=distance, hour=hour_text)


def bowl_sentence(lie: Lie, picture: Picture, prefs: Preferences, style: Style) -> Sentence:
    """The sentence for one bowl, whatever became of it."""
    name = bowl_name(lie.side, lie.number, prefs)
    about = BowlName(side=lie.side, number=lie.number)
    if lie.state == "dead":
        return Sentence(text=sentence("dead bowl", name=name), about=about)
    place = place_words(lie, picture, prefs, style)
    if lie.state == "ditch":
        place = words("in the ditch", place=place) if lie.gap_m is not None else words("ditch only")
    manner = "terse" if prefs.terse else "brief" if style.brief else style.manner
    text = sentence(f"bowl.{manner}", name=name, place=place)
    where = (lie.across_m, lie.along_m)
    spot = (where[0], where[1]) if where[0] is not None and where[1] is not None else None
    return Sentence(text=text, about=about, place=spot)


def one_bowl(lie: Lie, picture: Picture, prefs: Preferences, manner: Manner = "plain") -> Sentence:
    """One bowl that was asked for, in `FACT_WORDS` at most: the hour says already on which side it lies."""
    styles = (Style("full", manner=manner), Style("none", manner=manner), ASKED, BARE)
    told = [bowl_sentence(lie, picture, prefs, style) for style in styles]
    return next((one for one in told if len(one.text.split()) <= FACT_WORDS), told[-1])


def shot_bowl(picture: Picture) -> Lie | None:
    """The bowl that holds shot, or is the likeliest to."""
    if picture.holding is None or picture.holding.side is None:
        return None
    return nearest(picture, picture.holding.side)


def nearest(picture: Picture, side: Side | None = None) -> Lie | None:
    """The nearest bowl of a side, or of both."""
    near = by_gap(picture, side)
    return near[0] if near else None


def by_gap(picture: Picture, side: Side | None = None) -> tuple[Lie, ...]:
    """The live bowls of a side, or of both, the nearest first."""
    live = [lie for lie in picture.lies if lie.state != "dead" and lie.gap_m is not None]
    live = [lie for lie in live if side in (None, lie.side)]
    return tuple(sorted(live, key=lambda lie: (lie.gap_m, lie.side, lie.number)))
