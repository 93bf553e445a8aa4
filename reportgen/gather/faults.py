"""What is wrong with a review.json, in words: where it stands in it, what was found and what was expected."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from reportgen.gather.texts import on_one_line
from reportgen.season.expectations import expectation

TOLD = 3  # faults of one file that are told one by one
SHOWN = 60  # characters of what was found
_KINDS = {
    "bool_type": "true or false",
    "string_type": "text",
    "string_unicode": "text of whole signs",
    "float_type": "a number",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "finite_number": "a number with an end",
    "list_type": "a list [ ]",
    "dict_type": "a table { }",
    "model_type": "a table { }",
    "date_type": "a day such as 2026-01-14",
    "missing": "this key, which every review has",
    "string_pattern_mismatch": "letters and figures as a review writes them here",
}


def in_words(error: ValidationError) -> str:
    """The first faults one by one, and how many more there are."""
    details = error.errors(include_url=False)
    told = "; ".join(_told(one) for one in details[:TOLD])
    more = len(details) - TOLD
    return told + (f"; and {more:,} more" if more > 0 else "")


def _told(details: ErrorDetails) -> str:
    found = "nothing" if details["type"] == "missing" else _shown(details["input"])
    return f"{_path(details['loc'])}: found {found}, expected {_expected(details)}"


def _expected(details: ErrorDetails) -> str:
    words = _KINDS.get(details["type"])
    return words if words is not None else expectation(details)


def _path(parts: Sequence[str | int]) -> str:
    """As the file has it, entries counted from 1: changes 3 · outcomes 1 · effect."""
    words: list[str] = []
    for part in parts:
        if isinstance(part, int) and words:
            words[-1] += f" {part + 1}"
        else:
            words.append(str(part))
    return " · ".join(words) or "the whole file"


def _shown(value: Any) -> str:
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return f"a list of {len(value):,}"
    if isinstance(value, bool) or value is None:
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        text = on_one_line(value)
        return f"“{text[:SHOWN]}…” ({len(value):,} letters)" if len(text) > SHOWN else f"“{text}”"
    if isinstance(value, int) and abs(value) >= 10**SHOWN:
        return "a number of very many digits"
    return str(value)
