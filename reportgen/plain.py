"""Frozen results → plain JSON values, by one rule for every section of review.json.

A result's field names are the keys of its section (`from_` becomes `from`). A field whose dataclass metadata says
`json=False` (tables, lines, anything only a page needs) stays out. NaN becomes null, a Timestamp ISO 8601 with
offset, a tuple a list. A section's `reasons` maps dotted paths within the section to words.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping
from datetime import date
from typing import Any

import numpy as np
import pandas as pd

PAGE_ONLY: Mapping[str, bool] = {"json": False}  # use as: table: pd.DataFrame = field(metadata=PAGE_ONLY)


def plain(value: Any) -> Any:
    """A result as JSON values (dict, list, str, int, float, bool, None).

    Raises:
        TypeError: A value has no plain form; results hold only what review.json can say.
    """
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, np.generic):
        return plain(value.item())
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if value is pd.NaT:
        return None
    if isinstance(value, pd.Timestamp | date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): plain(inner) for key, inner in value.items()}
    if isinstance(value, tuple | list):
        return [plain(inner) for inner in value]
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        kept = [f for f in dataclasses.fields(value) if f.metadata.get("json", True)]
        return {f.name.rstrip("_"): plain(getattr(value, f.name)) for f in kept}
    raise TypeError(f"no plain form for {type(value).__name__}")
