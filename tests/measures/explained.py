"""Every null and every empty array of a section of review.json has its reason."""

from __future__ import annotations

from typing import Any


def unexplained(section: dict[str, Any]) -> list[str]:
    """Dotted paths of nulls and empty arrays without words in `reasons` (their own, or those of an array above)."""
    reasons = section["reasons"]
    return [path for path in _empty(section, "") if path not in reasons and not path.startswith("reasons")]


def _empty(value: Any, path: str) -> list[str]:
    if value is None or value == []:
        return [path]
    items: list[tuple[str, Any]] = []
    if isinstance(value, dict):
        items = [(str(key), inner) for key, inner in value.items() if key != "reasons"]
    if isinstance(value, list):
        items = [(str(i), inner) for i, inner in enumerate(value)]
    return [found for key, inner in items for found in _empty(inner, f"{path}.{key}" if path else key)]
