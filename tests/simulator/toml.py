"""Writes season.toml: enough of TOML 1.0 for it (tables, arrays of tables, inline tables, dates)."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping, Sequence
from typing import Any


def dumps(data: Mapping[str, Any]) -> str:
    """The season as TOML: plain keys first, then a block for each table and each of a list of tables."""
    lines = [f"{key} = {value(item)}" for key, item in data.items() if not _is_block(item)]
    for key, item in data.items():
        if isinstance(item, Mapping):
            lines += ["", f"[{key}]", *_pairs(item)]
        elif _is_block(item):
            for table in item:
                lines += ["", f"[[{key}]]", *_pairs(table)]
                lines += [
                    line
                    for name, inner in table.items()
                    if isinstance(inner, Mapping) and name == "measures"
                    for line in ("", f"[{key}.{name}]", *_pairs(inner))
                ]
    return "\n".join(lines) + "\n"


def value(item: Any) -> str:
    """One value as TOML."""
    if isinstance(item, bool):
        return "true" if item else "false"
    if isinstance(item, dt.date):
        return item.isoformat()
    if isinstance(item, str):
        return json.dumps(item, ensure_ascii=False)
    if isinstance(item, Mapping):
        return "{ " + ", ".join(f"{key} = {value(inner)}" for key, inner in item.items()) + " }"
    if isinstance(item, Sequence):
        return "[" + ", ".join(value(inner) for inner in item) + "]"
    return repr(item)


def _is_block(item: Any) -> bool:
    if isinstance(item, Mapping):
        return True
    return isinstance(item, list) and bool(item) and isinstance(item[0], Mapping)


def _pairs(table: Mapping[str, Any]) -> list[str]:
    return [
        f"{key} = {value(inner)}"
        for key, inner in table.items()
        if not (isinstance(inner, Mapping) and key == "measures")
    ]
