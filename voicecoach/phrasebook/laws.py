"""The laws that the program goes by, as data: the table of `laws.yaml`."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

import yaml


class Law(NamedTuple):
    """One row of the table."""

    number: str
    edition: str
    """The short name of the edition, such as `CM3`."""
    line: str
    """What it says, in our own words."""


@cache
def _data() -> Mapping[str, Any]:
    found: Mapping[str, Any] = yaml.safe_load(
        files("voicecoach.phrasebook").joinpath("laws.yaml").read_text("utf-8")
    )
    return found


@cache
def laws() -> tuple[Law, ...]:
    """Every law, in the order of the book of laws."""
    return tuple(Law(**row) for row in _data()["laws"])


def edition(law: Law) -> str:
    """The edition's name in full."""
    name: str = _data()["editions"][law.edition]
    return name
