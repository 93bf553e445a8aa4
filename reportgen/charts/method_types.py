"""One method as the method page tells it."""

from __future__ import annotations

from dataclasses import dataclass

RATE_COLUMNS = ("what", "logged", "heater", "on average", "typically", "in the range", "of")


@dataclass(frozen=True, kw_only=True, slots=True)
class Method:
    """A paragraph, its equations in plain text, where they come from, where they end, and how wrong they were.

    `rates`: rows of the study's table, in the order of RATE_COLUMNS.
    """

    slug: str
    page: str  # whose numbers it makes
    title: str
    text: str
    formula: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    limit: str = ""
    measured: str = ""
    rates: tuple[tuple[str, ...], ...] = ()
