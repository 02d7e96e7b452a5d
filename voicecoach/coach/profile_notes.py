"""A profile as notes for a session, and a session's settings as a profile."""

from collections.abc import Iterator

from pydantic import TypeAdapter

from voicecoach.coach.profile import PRACTISED_SD, UNPRACTISED_SD, Profile
from voicecoach.coach.sight import defaults
from voicecoach.describe import Preferences
from voicecoach.head.values import Game
from voicecoach.session.talk import Talk
from voicecoach.understand.notes.eye import Eye, Judging
from voicecoach.understand.notes.settings import EyeTold, Form, MarkSet, Setting, Stands
from voicecoach.understand.values import GameSet, Note

_SETTING: TypeAdapter[Setting] = TypeAdapter(Setting)

_STEPS = {"rate": ("slower", "faster"), "volume": ("softer", "louder")}


def notes(profile: Profile) -> Iterator[Note]:
    """The notes that set a session up as the profile says; nothing that it leaves open."""
    filled = profile.model_copy(update=_by_class(profile))
    yield from _hearing(filled)
    yield from _steps(filled)
    yield from _caller(filled)
    game = GameSet(hand=filled.hand, bowl_mm=filled.width_mm)
    if game != GameSet():
        yield game


def _by_class(profile: Profile) -> dict[str, object]:
    """What the class of sight sets, where the pair has set nothing."""
    return {
        name: value for name, value in defaults(profile.sight_class).items() if getattr(profile, name) is None
    }


def _hearing(profile: Profile) -> Iterator[Setting]:
    plain = {
        "player": profile.player,
        "voice": profile.voice,
        "units": profile.units,
        "hours": profile.hours,
        "order": profile.order,
        "sides": profile.sides,
        "your": profile.your,
        "form": profile.form,
        "unasked": _on_off(profile.unasked),
        "pace": profile.pace_m,
    }
    for name, value in plain.items():
        if value is not None:
            yield _setting(name, value)
    if profile.terse:
        yield Form(value="terse")
    if profile.groups:
        yield Form(value="groups")


def _steps(profile: Profile) -> Iterator[Setting]:
    for name, (less, more) in _STEPS.items():
        count = getattr(profile, name)
        if count is None:
            continue
        yield _setting(name, "usual")
        for _ in range(abs(count)):
            yield _setting(name, more if count > 0 else less)


def _setting(name: str, value: object) -> Setting:
    return _SETTING.validate_python({"name": name, "value": value})


def _caller(profile: Profile) -> Iterator[Setting]:
    if profile.stands is not None:
        yield Stands(value=profile.stands)
    eye = profile.eye
    if profile.practised is not None:
        guess = Judging(relative_sd=PRACTISED_SD if profile.practised else UNPRACTISED_SD)
        told = eye or Eye()
        eye = Eye(mat=told.mat or guess, head=told.head or guess)
    if eye is not None:
        yield EyeTold(value=eye)
    if profile.aim_m is not None:
        yield MarkSet(value=profile.aim_m)


def _on_off(value: bool | None) -> str | None:
    return None if value is None else "on" if value else "off"


def kept(profile: Profile, talk: Talk) -> Profile:
    """The profile with everything that was set otherwise than usual, or otherwise than the profile has it.

    Devices, marks and all else that isn't said in a session stay as they were.
    """
    said = {**_heard(talk), **_played(talk.play.head.game)}
    changes = {
        name: value
        for name, (value, usual) in said.items()
        if value != (usual if getattr(profile, name) is None else getattr(profile, name))
    }
    return Profile.model_validate({**profile.model_dump(), **changes})


def _heard(talk: Talk) -> dict[str, tuple[object, object]]:
    """Each setting of the listener's: as it is, and as it usually is."""
    manner, prefs, usual = talk.manner, talk.manner.prefs, Preferences()
    order = {True: "hour first", False: "distance first"}
    same = ("units", "hours", "form", "terse", "groups", "unasked", "sides", "pace_m")
    return {
        "player": (manner.player, None),
        "your": (talk.your.side, None),
        "voice": (manner.voice, None),
        "rate": (manner.rate, 0),
        "volume": (manner.volume, 0),
        "order": (order[prefs.hour_first], order[usual.hour_first]),
        **{name: (getattr(prefs, name), getattr(usual, name)) for name in same},
    }


def _played(game: Game) -> dict[str, tuple[object, object]]:
    usual = Game()
    return {
        "hand": (game.hand, None),
        "bowl_mm": (game.bowl_mm, usual.bowl_mm),
        "aim_m": (game.aim_at_m, usual.aim_at_m),
        "stands": (game.stood, usual.stood),
    }
