"""The base of every value that passes between stages."""

from typing import NoReturn

from pydantic import BaseModel, ConfigDict


class Value(BaseModel):
    """A frozen record: no field can be added, dropped or changed after it is made."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, use_attribute_docstrings=True)


def assert_never(value: NoReturn) -> NoReturn:
    """Stands at the end of a `match` that must have a case for every kind: mypy names a kind that it lacks.

    Raises:
        AssertionError: Always: the type checker was not asked.
    """
    raise AssertionError(f"no case for {value!r}")
