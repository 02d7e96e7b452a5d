"""What is spoken, as data: the sentence templates of `wording.yaml`."""

import re
from collections.abc import Mapping
from functools import cache

from voicecoach.phrasebook.shipped import shipped


@cache
def wording() -> Mapping[str, str]:
    """Every template and word by its dotted key, such as `confirm.place`."""
    return dict(_flat(shipped("wording.yaml"), ""))


def words(key: str, **slots: str) -> str:
    """The words under a key, with its slots filled."""
    return wording()[key].format(**slots)


def sentence(key: str, **slots: str) -> str:
    """The words under a key as a sentence, or as more than one: each begins with a capital."""
    return capitals(words(key, **slots))


def capitals(text: str) -> str:
    """The text with a capital at the start of each sentence."""
    return re.sub(r"(?:^|(?<=[.?!] ))[a-z]", lambda found: found.group().upper(), text)


@cache
def listed(key: str) -> tuple[str, ...]:
    """Every entry under a key that holds a list, in the order of the file."""
    found: list[str] = []
    while (entry := wording().get(f"{key}.{len(found)}")) is not None:
        found.append(entry)
    return tuple(found)


def _flat(node: object, key: str) -> list[tuple[str, str]]:
    """Pairs of dotted key and text, depth first."""
    if isinstance(node, str):
        return [(key, node)]
    if isinstance(node, dict):
        children = [(str(name), child) for name, child in node.items()]
    elif isinstance(node, list):
        children = [(str(index), child) for index, child in enumerate(node)]
    else:
        raise TypeError(f"wording.yaml: {key} must be text, a list or a table, not {node!r}")
    return [pair for name, child in children for pair in _flat(child, f"{key}.{name}" if key else name)]
