"""One line of the plan for next winter."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

What = Literal["keep", "undo", "try", "buy", "log"]
ORDER: tuple[What, ...] = ("keep", "undo", "try", "buy", "log")


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """One thing to do, why, and when.

    `when`: the date by which, or on which it begins, next winter. `cost`: money in the season's currency, if it costs
    some. `finding`: slug of the finding it follows from.
    """

    what: What
    text: str
    why: str  # the arithmetic, or what it rests on
    how_sure: str
    caution: str | None = None
    when: date | None = None
    cost: float | None = None
    finding: str | None = None

    def without_finding(self) -> Step:
        """The same step where the finding it would follow from was not told."""
        return replace(self, finding=None)


def next_year(day: date) -> date:
    """The same date a year on; 29 February becomes 28 February."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)
