"""The laws that the program goes by, as data: the table of `laws.yaml`."""

from collections.abc import Mapping
from functools import cache
from typing import Any, NamedTuple

from voicecoach.phrasebook.shipped import shipped


class Law(NamedTuple):
    """One row of the table."""

    number: str
    edition: str
    """The short name of the edition, such as `CM3`."""
    line: str
    """What it says, in our own words."""


@cache
def _data() -> Mapping[str, Any]:
    found: Mapping[str, Any] = shipped("laws.yaml")
    return found


@cache
def laws() -> tuple[Law, ...]:
    """Every law, in the order of the book of laws."""
    return tuple(Law(**row) for row in _data()["laws"])


def edition(law: Law) -> str:
    """The edition's name in full."""
    name: str = _data()["editions"][law.edition]
    return name
