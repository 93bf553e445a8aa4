"""How it was worked out: every method in plain words, with its equation, its source, its limit and its measured error."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Method:
    """One method."""

    slug: str
    title: str
    text: str
    formula: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    limit: str = ""
    measured: str = ""


METHODS: tuple[Method, ...] = ()
