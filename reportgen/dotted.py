"""Dotted paths: how review.json names a value (`heat.cost`, `frost.crops.0.margin_k`), walked in this place alone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def value_at(whole: Any, path: str) -> Any:
    """What stands at a path of review.json, or of the frozen results it is made from.

    Raises:
        KeyError: No such path.
    """
    here = whole
    for part in path.split("."):
        here = _step(here, part, path)
    return here


def _step(here: Any, part: str, path: str) -> Any:
    if isinstance(here, Mapping):
        key = part if part in here or not part.isdigit() else int(part)
        if key in here:
            return here[key]
    elif isinstance(here, tuple | list):
        if part.isdigit() and int(part) < len(here):
            return here[int(part)]
    elif not isinstance(here, str | int | float):
        for name in (part, f"{part}_"):  # `from` is no name for a field
            if hasattr(here, name):
                return getattr(here, name)
    raise KeyError(path)


def why_null(document: Mapping[str, Any], path: str) -> str | None:
    """Why the value at a path is null: the reason its section gives for it or for the key above it; None without."""
    section, _, rest = path.partition(".")
    told = document.get(section)
    reasons = told.get("reasons") or {} if isinstance(told, Mapping) else {}
    while rest:
        if rest in reasons:
            return str(reasons[rest])
        rest = rest.rpartition(".")[0]
    return None
