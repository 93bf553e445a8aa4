"""What a value of season.toml should have been, in a grower's words instead of the checking library's."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pydantic_core import ErrorDetails

_BY_KIND: Mapping[str, str] = MappingProxyType(
    {
        "bool": "true or false, without quotes",
        "string": 'text in quotes, such as "bench"',
        "float": "a number, without quotes and with a point: 48.6",
        "int": "a whole number, without quotes",
        "finite": "a plain number",
        "date": "a date without quotes, such as 2025-10-18",
        "tuple": 'a list in [ ], such as ["loggers/bench.csv"]',
        "dict": "a table of its own, or { … }",
        "model": 'a table of its own, or { … }: { column = "Temp", unit = "degC" }',
    }
)
_PATTERNS: Mapping[str, str] = MappingProxyType(
    {
        "^[A-Z]{3}$": 'three capital letters, such as "EUR"',
        r"^([01]\d|2[0-4])-([01]\d|2[0-4])$": 'two hours of the day, such as "22-06"',
    }
)
_LENGTHS: Mapping[str, str] = MappingProxyType(
    {
        "string_too_short": "something between the quotes",
        "string_too_long": "at most {} letters",
        "too_short": "at least one entry",
        "too_long": "at most {} of them",
    }
)
_BOUNDS = (
    ("greater_than_equal", "ge", "at or above {}"),
    ("greater_than", "gt", "above {}"),
    ("less_than_equal", "le", "at or below {}"),
    ("less_than", "lt", "below {}"),
)


def expectation(details: ErrorDetails) -> str:
    """One line on what the value should have been."""
    kind, context = details["type"], details.get("ctx", {})
    for name, key, words in _BOUNDS:
        if kind == name:
            return words.format(f"{context[key]:g}".replace("-", "\u2212"))
    if kind == "string_pattern_mismatch":
        return _PATTERNS.get(str(context.get("pattern")), "another form of text")
    if kind in _LENGTHS:
        return _LENGTHS[kind].format(context.get("max_length"))
    if kind == "literal_error":
        return f"one of: {str(context['expected']).replace(' or ', ', ')}"
    by_kind = next((words for start, words in _BY_KIND.items() if kind.startswith(start)), None)
    if by_kind is not None:
        return by_kind
    message = details["msg"].removeprefix("Value error, ").removeprefix("Input should be ")
    return message[:1].lower() + message[1:]
