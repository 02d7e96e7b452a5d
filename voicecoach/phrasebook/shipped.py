"""The YAML files that come with the program, read by the quickest loader that there is."""

from importlib.resources import files
from typing import Any

import yaml

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""libyaml's, where PyYAML was built with it. Python's own took a quarter of a start: a tenth of a second for
`wording.yaml` alone, and as much again for getting memory and giving it back."""


def parsed(text: str) -> Any:
    """The data in a YAML text of the program's own."""
    return yaml.load(text, _LOADER)


def shipped(name: str, package: str = "voicecoach.phrasebook") -> Any:
    """The data of one file, such as `wording.yaml`."""
    return parsed(files(package).joinpath(name).read_text(encoding="utf-8"))
