"""The keys a table of season.toml may have, found by walking the models."""

from __future__ import annotations

import typing
from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel

from reportgen.season.models import Season


def keys_at(path: Sequence[str | int]) -> list[str]:
    """The keys a table of season.toml may have, found by walking the models."""
    here: Any = Season
    for part in path:
        if isinstance(part, int):
            continue
        model = _model_in(here)
        here = _by_key(here) if model is None else _fields(model).get(str(part))
        if here is None:
            return []
    model = _model_in(here)
    return sorted(_fields(model)) if model is not None else []


def _fields(model: type[BaseModel]) -> dict[str, Any]:
    fields = {field.alias or name: field.annotation for name, field in model.model_fields.items()}
    return {name: kind for name, kind in fields.items() if name != "folder"}


def _by_key(annotation: Any) -> Any:
    """What the values of a mapping are, if it is one."""
    return typing.get_args(annotation)[1] if typing.get_origin(annotation) is dict else None


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """The model an annotation holds, through tuples and unions; a mapping by key holds none itself."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    if typing.get_origin(annotation) is dict:
        return None
    return next((model for inner in typing.get_args(annotation) if (model := _model_in(inner)) is not None), None)
