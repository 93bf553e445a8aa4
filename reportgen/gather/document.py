"""Bytes of a stranger's file → the values of its JSON, within limits; anything else is refused in words."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from reportgen import limits


class Unfit(Exception):
    """A file that cannot be taken; the message says why, in words."""


def values_of(raw: bytes) -> dict[str, Any]:
    """The outermost table of a JSON file. A number that is none (NaN, Infinity) stays, for its key to be told.

    Raises:
        Unfit: It is longer than limits.REVIEW_BYTES, no UTF-8, no JSON, nested too deeply, names one key twice in a
            table, or holds more tables than limits.REVIEW_TABLES.
    """
    if len(raw) > limits.REVIEW_BYTES.most:
        raise Unfit(f"it is longer than a review can be: {limits.REVIEW_BYTES.words} are read")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Unfit(f"its text is not UTF-8 (at byte {error.start:,}), as a review.json is") from None
    try:
        found = json.loads(text, object_pairs_hook=_table())
    except json.JSONDecodeError as error:
        raise Unfit(_no_json(text, error)) from None
    except RecursionError:
        raise Unfit("its lists or tables are nested deeper than in any review") from None
    except ValueError:
        raise Unfit("it holds a number of thousands of digits") from None
    if not isinstance(found, dict):
        raise Unfit("it is JSON, but no review: a review.json is one table { … }")
    return found


def _table() -> Callable[[list[tuple[str, Any]]], dict[str, Any]]:
    """What makes a table of its pairs, counting them."""
    left = limits.REVIEW_TABLES.most

    def table(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        nonlocal left
        left -= 1
        if left < 0:
            raise Unfit(f"it holds more tables than a review can: {limits.REVIEW_TABLES.words} are read")
        made = dict(pairs)
        if len(made) < len(pairs):
            twice = next(key for n, (key, _) in enumerate(pairs) if key in {earlier for earlier, _ in pairs[:n]})
            raise Unfit(f"a table in it has the key {twice[:60]!r} twice: which of the two is meant cannot be known")
        return made

    return table


def _no_json(text: str, error: json.JSONDecodeError) -> str:
    if not text.strip():
        return "it is empty"
    if error.pos >= len(text.rstrip()) or "Unterminated" in error.msg:
        return f"it ends in the middle (line {error.lineno:,}): it was cut off on its way; ask for it again"
    return f"it is no JSON (line {error.lineno:,}, column {error.colno:,}: {error.msg.lower()})"
