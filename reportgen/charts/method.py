"""How it was worked out: each method in plain words, with equation, source, limit and measured error."""

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
