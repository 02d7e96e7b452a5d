"""Classes of sight: what each body means by them, and the defaults they set."""

from collections.abc import Mapping
from functools import cache
from typing import Any

from voicecoach.phrasebook.shipped import shipped


@cache
def _data() -> Mapping[str, Any]:
    data: Mapping[str, Any] = shipped("sight.yaml", "voicecoach.coach")
    return data


def classes(body: str) -> Mapping[str, str]:
    """Each class of a body, with the body's own words for it; none for an unknown body."""
    found: Mapping[str, str] = _data()["bodies"].get(body, {}).get("classes", {})
    return found


def bodies() -> tuple[str, ...]:
    """The bodies that are known, by their short names."""
    return tuple(_data()["bodies"])


def in_full(body: str, sight_class: str) -> str:
    """A class in a sentence that says whose it is."""
    return f"{sight_class} of the {_data()['bodies'][body]['name']}: {classes(body)[sight_class]}"


def defaults(sight_class: str | None) -> Mapping[str, Any]:
    """The settings that a class of sight makes the default."""
    found: Mapping[str, Any] = _data()["defaults"].get(sight_class, {})
    return found
