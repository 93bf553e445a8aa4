"""Which number of `1/2/2026` is the day: worked out from the whole column, never from one date."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.readings.stamps import CLEARLY, NAT, Stamps, breaks


@dataclass(frozen=True, kw_only=True, slots=True)
class Order:
    """`day_first`: True, False, or None when the column does not settle it. `why`: in words."""

    day_first: bool | None
    why: str
    mixed: bool = False


def day_order(stamps: Stamps) -> Order:
    """The order of day and month in the open rows of a column."""
    rows = stamps.open & stamps.readable
    first, second = stamps.first[rows], stamps.second[rows]
    if not len(first):
        return Order(day_first=True, why="")
    day_seen, month_seen = bool((first > 12).any()), bool((second > 12).any())
    if day_seen and month_seen:
        more_days = int((first > 12).sum()) >= int((second > 12).sum())
        return Order(day_first=more_days, why="day and month stand in both orders", mixed=True)
    if day_seen:
        return Order(day_first=True, why="day before month: a first number is above 12")
    if month_seen:
        return Order(day_first=False, why="month before day: a second number is above 12")
    return _by_run(stamps)


def _by_run(stamps: Stamps) -> Order:
    """The order in which the times run on, when only one does: the other leaps by months."""
    as_day, as_month = stamps.naive(True), stamps.naive(False)
    if np.array_equal(as_day, as_month):
        return Order(day_first=True, why="")
    day, month = breaks(as_day), breaks(as_month)
    if month > CLEARLY * day and month >= 2:
        return Order(day_first=True, why="day before month: read the other way the times leap by months")
    if day > CLEARLY * month and day >= 2:
        return Order(day_first=False, why="month before day: read the other way the times leap by months")
    return Order(day_first=None, why="")


def spans(stamps: Stamps, day_first: bool) -> tuple[int, int]:
    """First and last instant [ms on the clock as written] of that reading."""
    naive = stamps.naive(day_first)
    known = naive[naive != NAT]
    return (int(known.min()), int(known.max())) if len(known) else (NAT, NAT)
