"""What is left of a faulty season.toml once its faulty keys are taken out: so that the other faults are seen too."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

from pydantic import ValidationError

from reportgen.season.explain import real_path
from reportgen.season.models import Season

ROUNDS = 5  # a key taken out may leave its table without what it needs, and so on upwards
GONE = object()


def rest_of(data: dict[str, Any], make: Callable[[dict[str, Any]], Season]) -> Season | None:
    """The season of the sound keys; None where too little is left."""
    left = copy.deepcopy(data)
    for _ in range(ROUNDS):
        try:
            return make(left)
        except ValidationError as error:
            paths = {_culprit(details["type"], real_path(details["loc"], left)) for details in error.errors()}
            if () in paths:
                return None
            for path in paths:
                _take_out(left, path)
            left = _swept(left)
    return None


def _culprit(kind: str, path: tuple[str | int, ...]) -> tuple[str | int, ...]:
    """The key to take out: for one that is missing, the table that lacks it."""
    return path[:-1] if kind == "missing" else path


def _take_out(here: Any, path: tuple[str | int, ...]) -> None:
    for part in path[:-1]:
        try:
            here = here[part]
        except (KeyError, IndexError, TypeError):
            return  # gone with a table above it
    if isinstance(here, dict):
        here.pop(path[-1], None)
    elif isinstance(here, list) and isinstance(path[-1], int) and path[-1] < len(here):
        here[path[-1]] = GONE


def _swept(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _swept(inner) for key, inner in value.items() if inner is not GONE}
    if isinstance(value, list):
        return [_swept(inner) for inner in value if inner is not GONE]
    return value
