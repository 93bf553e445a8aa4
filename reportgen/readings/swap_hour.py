"""An hour by which a stretch of swapped dates stands off: what wrote its dates anew may have moved its clock too."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.readings.digits import Ints
from reportgen.readings.stamps import DAY_MS, HOUR_MS, NAT
from reportgen.readings.swap_blocks import slack
from reportgen.readings.swapped import Stretch


@dataclass(frozen=True, kw_only=True, slots=True)
class Hour:
    """Rows `first` to `last` of the table stand `off_ms` on from the rows above and from those below them, as far as
    `above` and `below` say. `sure`: the row numbers run on at both ends, so that no row is missing or told twice.
    `forward`: the file is written oldest first."""

    first: int
    last: int
    off_ms: int
    above: bool
    below: bool
    sure: bool
    forward: bool

    @property
    def missing(self) -> bool:
        """Of an hour that one end shows: whether it is missing there; else it comes twice."""
        return (self.off_ms > 0) == (self.above == self.forward)


@dataclass(frozen=True, kw_only=True, slots=True)
class Swap:
    """A stretch with its first and last line in the file; `hour` as hour_of, with the lines it reaches over."""

    stretch: Stretch
    lines: tuple[int, int]
    hour: Hour | None = None
    hour_lines: tuple[int, int] | None = None


def hour_of(stretch: Stretch, naive: Ints, utc: Ints, step: int, counts: Ints | None) -> Hour | None:
    """The hour by which a stretch is off; None where it is not, or where neither end shows it.

    Args:
        stretch: Rows that were put right.
        naive: The times of the table's rows [ms on the clock as written], dates put right.
        utc: The same as instants, so that the zone's own changes do not count.
        step: The usual step [ms, negative where the file is written newest first].
        counts: Numbers of the rows, if a column has them.
    """
    if abs(step) > DAY_MS // 2:
        return None
    firsts = _ends(naive, stretch.first, -1, step)
    lasts = _ends(naive, stretch.last, +1, step)
    seen = [_between(first, last, utc, step, counts) for first in firsts for last in lasts]
    hours = [hour for hour in seen if hour is not None]
    ends = [hour for hour in hours if hour.first == stretch.first or hour.last == stretch.last]
    return next((hour for hour in hours if hour.above and hour.below), ends[0] if ends else None)


def _ends(naive: Ints, row: int, way: int, step: int) -> list[int]:
    """Where the hour may begin or end: with the stretch, or beyond a date such as 12/12, or beyond the rows that the
    hour carried over midnight, whose date nothing could swap."""
    over = range(HOUR_MS // max(abs(step), 1) + 1)
    rows = [end + way * n for end in (row, _same_date(naive, row, way)) for n in over]
    return [at for at in dict.fromkeys(rows) if 0 <= at < len(naive)]


def _between(first: int, last: int, utc: Ints, step: int, counts: Ints | None) -> Hour | None:
    above, run_above = _off(utc, _next(utc, first, -1), first, step, counts)
    below, run_below = _off(utc, last, _next(utc, last, +1), step, counts)
    below = None if below is None else -below
    off = above or below
    if not off or (above and below and above != below):
        return None
    sure = above == below and run_above and run_below
    return Hour(first=first, last=last, off_ms=off, above=bool(above), below=bool(below), sure=sure, forward=step > 0)


def _same_date(naive: Ints, row: int, way: int) -> int:
    """The far end of the rows beyond a stretch that bear a date of equal day and month, such as 12/12."""
    at, day = _next(naive, row, way), None
    far = row
    while at is not None:
        date = naive[at] // DAY_MS
        if day is None and _palindrome(int(date)):
            day = date
        if day is None or date != day:
            break
        far, at = at, _next(naive, at, way)
    return far


def _palindrome(days: int) -> bool:
    date = np.datetime64(days, "D")
    month = date.astype("datetime64[M]")
    return int((date - month.astype("datetime64[D]")).astype(int)) + 1 == int(month.astype(int)) % 12 + 1


def _next(times: Ints, row: int, way: int) -> int | None:
    at = row + way
    while 0 <= at < len(times):
        if times[at] != NAT:
            return at
        at += way
    return None


def _off(utc: Ints, upper: int | None, lower: int | None, step: int, counts: Ints | None) -> tuple[int | None, bool]:
    """By what whole hour (−1, 0, +1) the lower row stands off the upper one, None where it is neither; whether the
    numbers of the rows run on."""
    if upper is None or lower is None or NAT in (utc[upper], utc[lower]):
        return None, False
    rows = 1 if counts is None else abs(int(counts[lower] - counts[upper]))
    off = int(utc[lower] - utc[upper]) - step * max(rows, 1)
    near = [hour for hour in (-HOUR_MS, 0, HOUR_MS) if abs(off - hour) <= min(slack(abs(step)), HOUR_MS // 4)]
    return (near[0] if near else None), counts is not None and rows == 1
