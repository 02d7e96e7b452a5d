"""The base of every value that passes between stages."""

from pydantic import BaseModel, ConfigDict


class Value(BaseModel):
    """A frozen record: no field can be added, dropped or changed after it is made."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, use_attribute_docstrings=True)
