"""The base of every value that passes between stages."""

import ast
import inspect
import textwrap
from itertools import pairwise
from typing import NoReturn

from pydantic import BaseModel, ConfigDict, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema


class Value(BaseModel):
    """A frozen record: no field can be added, dropped or changed after it is made."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, core_schema: CoreSchema, handler: GetJsonSchemaHandler, /
    ) -> JsonSchemaValue:
        """Describe each field by the docstring below it.

        Pydantic can do so too, but reads the source of every class for it at every start: 0.1 s.
        """
        schema = handler(core_schema)
        fields = handler.resolve_ref_schema(schema).get("properties", {})
        for each in reversed(cls.__mro__[: cls.__mro__.index(Value)]):
            for name, text in _docstrings(each).items():
                if name in fields and cls.model_fields[name].description is None:
                    fields[name]["description"] = text
        return schema


def assert_never(value: NoReturn) -> NoReturn:
    """Stands at the end of a `match` that must have a case for every kind: mypy names a kind that it lacks.

    Raises:
        AssertionError: Always: the type checker was not asked.
    """
    raise AssertionError(f"no case for {value!r}")


def _docstrings(of: type) -> dict[str, str]:
    """The docstring below each field of a class, by the field's name."""
    found = {}
    (definition,) = ast.parse(textwrap.dedent(inspect.getsource(of))).body
    assert isinstance(definition, ast.ClassDef)
    for field, below in pairwise(definition.body):
        if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name):
            match below:
                case ast.Expr(value=ast.Constant(value=str(text))):
                    found[field.target.id] = inspect.cleandoc(text)
    return found
