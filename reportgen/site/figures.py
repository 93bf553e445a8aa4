"""A value of review.json in words, by the unit its name ends in; so that story.md can quote it by its path."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from typing import Any

import pandas as pd

from reportgen.dotted import value_at, why_null
from reportgen.wording import NBSP, Wording, clock, day, digits_for, number

STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d")
DATE = re.compile(r"\d{4}-\d\d-\d\d$")


def paths(document: Any, prefix: str = "") -> list[str]:
    """Every dotted path that ends in a value, and every band (estimate, low, high)."""
    if isinstance(document, Mapping):
        found = [prefix] if prefix and "estimate" in document else []
        return found + [p for key, value in document.items() for p in paths(value, f"{prefix}.{key}".strip("."))]
    if isinstance(document, list):
        return [p for n, value in enumerate(document) for p in paths(value, f"{prefix}.{n}".strip("."))]
    return [prefix]


def nearest(path: str, document: Mapping[str, Any]) -> str | None:
    """The known path most like this one."""
    known = [p for p in paths(document) if ".reasons." not in p]
    close = difflib.get_close_matches(path, known, n=1, cutoff=0.5)
    return close[0] if close else None


def quoted(path: str, document: Mapping[str, Any], w: Wording) -> str:
    """The value at a path as the report would print it; where it is null, that it is not known and why.

    Raises:
        KeyError: No such path, or a whole section rather than one value.
    """
    value = value_at(document, path)
    if isinstance(value, Mapping) and "estimate" in value:
        return _band(path, value, document, w)
    if isinstance(value, Mapping | list):
        raise KeyError(path)
    if value is None:
        return f"not known ({_reason(path, document)})"
    return worded(path, value, w)


def _reason(path: str, document: Mapping[str, Any]) -> str:
    return why_null(document, path) or "not on record"


def _band(path: str, band: Mapping[str, Any], document: Mapping[str, Any], w: Wording) -> str:
    if band["estimate"] is None:
        return f"not known ({_reason(path, document)})"
    words = worded(path, band["estimate"], w)
    if band.get("low") is None or band.get("high") is None:
        return words
    low, high = (worded(path, band[end], w) for end in ("low", "high"))
    return f"{words} ({low.split(NBSP)[0]} to {high})"


def worded(path: str, value: Any, w: Wording) -> str:
    """One value in words."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return _moment(value)
    name = next((part for part in reversed(path.split(".")) if part not in ("estimate", "low", "high")), path)
    name = path.split(".")[-2] if name.isdigit() and "." in path else name
    return _quantity(name, float(value), w)


def _moment(value: str) -> str:
    if STAMP.match(value):
        at = pd.Timestamp(value)
        return f"{day(at)}, {clock(at)}"
    return day(pd.Timestamp(value), year=True) if DATE.match(value) else value


def _quantity(name: str, value: float, w: Wording) -> str:
    if name.endswith("_c"):
        return w.temp(value)
    if name.endswith("_k"):
        return w.diff(value)
    if "degree_hours" in name:
        return f"{number(w.diff_value(value))}{NBSP}{w.diff_unit}·h"
    if name == "kg" or (name.endswith("_kg") and "per" not in name):
        return w.mass(value)
    if name.endswith("_pct"):
        return w.percent(value)
    if name.startswith("share"):
        return w.percent(100 * value)
    if "cost" in name or name.endswith(("_value", "price")):
        return w.money(value)
    if "kwh" in name:
        return w.kwh(value, 0 if abs(value) >= 20 else 1)
    if "hours" in name or name.endswith("_h"):
        return w.hours(value, 0 if abs(value) >= 10 or value == round(value) else 1)
    return number(value, 0 if value == round(value) else digits_for(abs(value) / 10))
