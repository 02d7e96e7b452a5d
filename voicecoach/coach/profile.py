"""A pair's profile: who they are and how they want it, as one small file that they can read."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from voicecoach.coach.sight import bodies, classes, in_full
from voicecoach.session.settings import PACE_M
from voicecoach.understand.notes.eye import Eye
from voicecoach.understand.slips import MOST, Slips
from voicecoach.value import Value

Form = Literal["head", "nearest four", "ours", "theirs", "changed", "round the clock", "short"]
Size = Literal["00", "0", "1", "2", "3", "4", "5", "6", "7"]
SIZES: tuple[Size, ...] = ("00", "0", "1", "2", "3", "4", "5", "6", "7")
SMALLEST_MM, LARGEST_MM = 116.0, 131.0
"""Sizes 00 to 7 in use (club laws pages, quoted); those between are taken evenly (derived)."""
UNPRACTISED_SD, PRACTISED_SD = 0.29, 0.15
"""Relative spread of a called distance until a tape has told (working values, our own choice)."""
Words = Annotated[str, Field(min_length=1, max_length=80, pattern=r"^[^\p{Cc}\p{Zl}\p{Zp}]*$")]

Folder = Annotated[str, Field(min_length=1, max_length=400, pattern=r"^[^\p{Cc}\p{Zl}\p{Zp}]*$")]


class Profile(Value):
    """What a pair keeps. None: not set, the usual holds."""

    player: Words | None = None
    """What the player is called."""
    hand: Literal["right", "left"] | None = None
    """The hand that bowls."""
    sight_body: str | None = None
    """The body whose classes of sight are meant, by its short name."""
    sight_class: Literal["B1", "B2", "B3", "B4"] | None = None
    """The class, as that body defines it; it only sets defaults."""
    units: Literal["as called", "metres", "feet"] | None = None
    """Units to hear."""
    hours: Literal["as called", "whole", "halves"] | None = None
    """Whole or half hours."""
    rate: Annotated[int, Field(ge=-5, le=5)] | None = None
    """Steps faster than usual, slower when negative."""
    volume: Annotated[int, Field(ge=-6, le=4)] | None = None
    """Steps louder than usual, softer when negative."""
    order: Literal["distance first", "hour first"] | None = None
    """What comes first in the place of a bowl."""
    form: Form | None = None
    """What is heard when the head is asked for."""
    terse: bool | None = None
    """True for the shortest list."""
    groups: bool | None = None
    """True to hear a group at a time."""
    unasked: bool | None = None
    """True to hear one sentence after each bowl, unasked."""
    sides: Literal["ours", "yours"] | None = None
    """Words for the sides."""
    your: Literal["ours", "theirs"] | None = None
    """Whose bowls this director's "your" means; None to be asked."""
    learns: bool | None = None
    """False to keep, and to go by, nothing of how the director's words are heard."""
    slips: Annotated[Slips, Field(max_length=MOST)] | None = None
    """Words that the ear wrote for other words of the director's voice, with counts."""
    pace_m: Annotated[float, Field(ge=PACE_M[0], le=PACE_M[1])] | None = None
    """Length of the player's pace, metres."""
    stance: Words | None = None
    """How the player delivers."""
    mark: Words | None = None
    """What the player aims at."""
    aim_m: Annotated[float, Field(gt=0, le=40)] | None = None
    """Distance of that mark in front of the mat line, metres."""
    microphone: Words | None = None
    """The director's microphone, by its name or a part of it."""
    headphones: Words | None = None
    """The director's headphones."""
    player_microphone: Words | None = None
    """The player's own microphone."""
    player_headphones: Words | None = None
    """The player's own headphones."""
    bowl_size: Size | None = None
    """Size of the player's bowls, 00 to 7."""
    bowl_mm: Annotated[float, Field(ge=112, le=131)] | None = None
    """Width of the player's bowls, millimetres, where it is known: it counts before the size (law 52)."""
    director: Words | None = None
    """What the director is called."""
    stands: Literal["mat", "head"] | None = None
    """Where the director usually calls from."""
    practised: bool | None = None
    """False for a director who hasn't yet practised calling."""
    voice: Folder | None = None
    """The director's voice, or the one that all hear: `voicecoach check --voices` names them."""
    player_voice: Folder | None = None
    """The player's own voice, for headphones of the player's own."""
    player_rate: Annotated[int, Field(ge=-5, le=5)] | None = None
    """How much faster than usual the player's own headphones speak, in steps, slower when negative."""
    button_device: Words | None = None
    """The earpiece, clicker, pedal or keypad whose buttons are taken, by its name or a part of it."""
    buttons: dict[Words, Words] | None = None
    """What its keys stand for, by their names: words as they may be typed."""
    wrong_note: Annotated[float, Field(ge=1, le=50)] | None = None
    """What a note filed wrongly costs, in questions: with more, more is asked."""
    coach_folder: Folder | None = None
    """Where the game is copied for the coach at the end of the day, such as a stick."""
    eye: Eye | None = None
    """How the director judges, where a tape has told."""

    @model_validator(mode="after")
    def _class_of_a_body(self) -> Profile:
        if self.sight_body is not None and self.sight_body not in bodies():
            raise ValueError(f"the body must be one of {', '.join(bodies())}")
        if self.sight_class and self.sight_body is None:
            raise ValueError(
                f"a class of sight needs its body: set sight body to {' or '.join(bodies())} first"
            )
        if self.sight_class and self.sight_body and self.sight_class not in classes(self.sight_body):
            raise ValueError(f"{self.sight_body} has no class {self.sight_class}")
        return self

    @property
    def width_mm(self) -> float | None:
        """Width of the player's bowls, millimetres."""
        if self.bowl_mm is not None or self.bowl_size is None:
            return self.bowl_mm
        step = (LARGEST_MM - SMALLEST_MM) / (len(SIZES) - 1)
        return round(SMALLEST_MM + step * SIZES.index(self.bowl_size))


NAMES = tuple(Profile.model_fields)
SETTABLE = tuple(name for name in NAMES if name not in ("eye", "buttons"))
"""Everything but the eye, which only a tape can tell, and the buttons, which are set one by one."""
SPOKEN_NAMES = ", ".join([*(name.removesuffix("_m").replace("_", " ") for name in SETTABLE), "button"])
"""The same as people write them."""


def named(text: str) -> str:
    """A field by its name as people may write it: `sight class`, `Sight-Class`."""
    return "_".join(text.lower().replace("-", " ").replace("_", " ").split())


def lines(profile: Profile) -> tuple[str, ...]:
    """The profile in plain lines, only what is set."""
    found = []
    hidden = {"eye", "buttons", "slips", *({"sight_body"} if profile.sight_class else ())}
    for name, value in profile.model_dump(exclude_none=True, exclude=hidden).items():
        words = {True: "yes", False: "no"}.get(value, value) if isinstance(value, bool) else value
        if name == "sight_class" and profile.sight_body:
            words = in_full(profile.sight_body, value)
        found.append(f"{_label(name)}: {words}.")
    found += [f"Button {key}: {words}." for key, words in (profile.buttons or {}).items()]
    found += [
        f"Heard as {slip.heard}, said {slip.said}: {slip.times} times; right as heard: {slip.right} times."
        for slip in profile.slips or ()
    ]
    return (*found, *_eye_lines(profile.eye)) if profile.eye else tuple(found)


def _label(name: str) -> str:
    words = name.removesuffix("_m").removesuffix("_mm").replace("_", " ")
    unit = ", metres" if name.endswith("_m") else ", millimetres" if name.endswith("_mm") else ""
    return words.capitalize() + unit


def _eye_lines(eye: Eye) -> tuple[str, ...]:
    found = []
    for place, judging in (("mat", eye.mat), ("head", eye.head)):
        if judging is not None:
            found.append(
                f"Eye from the {place}: calls {judging.says:.2f} metres for each metre, spread "
                f"{judging.relative_sd:.2f} of the distance; hour {judging.hour_shift:+.2f}, "
                f"spread {judging.hour_sd:.2f}."
            )
    return tuple(found)
