"""What is wrong with data that a person wrote, in plain words: where, and what it must be."""

from pydantic import ValidationError

from voicecoach.printed import plain

_MUST_BE = {
    "greater_than": "more than {gt:g}",
    "greater_than_equal": "at least {ge:g}",
    "less_than": "less than {lt:g}",
    "less_than_equal": "at most {le:g}",
    "literal_error": "{expected}",
    "string_too_long": "at most {max_length} letters long",
    "string_too_short": "at least {min_length} letters long",
    "string_pattern_mismatch": "plain text, on one line",
}
"""What a value must be, with the limit that the library names."""
_MUST_BE_OF = {"float": "a number", "finite": "a number", "int": "a whole number", "bool": "yes or no"} | {
    "string": "text",
    "tuple": "a list",
    "list": "a list",
    "dict": "names with their values",
    "model": "names with their values",
}
"""The same by the first word of the library's error, for the rest."""


def first_fault(problem: ValidationError, what: str, names: str) -> str:
    """The first thing that is wrong with data of the right syntax, and where, in plain words.

    Args:
        problem: What the model found.
        what: What the data should be: "a profile".
        names: The names that it may have.
    """
    fault = problem.errors()[0]
    where = plain(" ".join(_written(str(part)) for part in fault["loc"]))
    kind = fault["type"]
    if kind == "extra_forbidden":
        return f"there is no {where!r} in {what}; there are {names}"
    if kind == "missing":
        return f"{where} is missing"
    if kind in _MUST_BE:
        must = _MUST_BE[kind].format(**fault.get("ctx", {}))
    elif kind.split("_")[0] in _MUST_BE_OF:
        must = _MUST_BE_OF[kind.split("_")[0]]
    else:
        message = fault["msg"].removeprefix("Value error, ")
        return f"{where}: {message}" if where else message
    return f"{where}: it must be {must}" if where else f"{what} must be {must}"


def _written(name: str) -> str:
    """A field as people write it, its unit in full."""
    for end, unit in (("_mm", " in millimetres"), ("_m", " in metres")):
        if name.endswith(end):
            return name.removesuffix(end).replace("_", " ") + unit
    return name.replace("_", " ")
