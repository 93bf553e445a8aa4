"""A file whose rows do not run on: days outside the season among days inside it, leaps back by days, times told anew.

Whatever the cause, such rows are never passed over in silence. Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.file_rows import FileRows
from reportgen.readings.marks import USED
from reportgen.readings.stamps import DAY_MS, HOUR_MS, NAT
from reportgen.readings.swap_blocks import NEAR_DAYS, slack

SHARE = 0.02  # of a file's rows that have a time
HANDFUL = 5
AGREEING = 0.9  # of the times told again after a leap back: the file holds exports that overlap
YEARS_DAYS = (365, 366, 730, 731)  # a wrong year puts a row so many days off
Bools = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, slots=True)
class Stray:
    """Rows `first` to `last` (places in FileRows) outside the season; `above` and `below` are the nearest rows that
    lie inside it, None where there is none."""

    first: int
    last: int
    above: int | None
    below: int | None


def strays(rows: FileRows, start_ms: int, end_ms: int) -> list[Stray]:
    """Runs of rows outside the season whose neighbours in the file lie inside it.

    A run that crosses the first or last day is no stray, nor is one at either end of the file that is in order there:
    a year-long export has both. Empty where they are few.
    """
    at = np.flatnonzero(rows.utc != NAT)
    utc = rows.utc[at]
    if not len(utc) or not bool(((utc < start_ms) | (utc > end_ms)).any()):
        return []
    edges = _parts(utc)
    inside = np.asarray([bool(((utc[a:b] >= start_ms) & (utc[a:b] <= end_ms)).any()) for a, b in edges], dtype=bool)
    if not inside.any() or inside.all():
        return []
    found = [(a, b) for a, b in _outside(inside) if _is_stray(utc, edges, (a, b), (start_ms, end_ms))]
    count = sum(edges[b][1] - edges[a][0] for a, b in found)
    if _few(count, utc):
        return []
    return [
        Stray(
            first=int(at[edges[a][0]]),
            last=int(at[edges[b][1] - 1]),
            above=int(at[edges[a][0] - 1]) if a > 0 else None,
            below=int(at[edges[b][1]]) if b < len(edges) - 1 else None,
        )
        for a, b in found
    ]


def _parts(utc: Ints) -> list[tuple[int, int]]:
    """The rows between leaps by days, as (first, one past the last)."""
    steps = np.diff(utc)
    cuts = np.flatnonzero((steps < -DAY_MS) | (steps > NEAR_DAYS * DAY_MS)) + 1
    edges = [0, *cuts.tolist(), len(utc)]
    return list(pairwise(edges))


def _outside(inside: Bools) -> list[tuple[int, int]]:
    """First and last of each run of parts that lie wholly outside."""
    flips = np.flatnonzero(np.diff(np.concatenate([[False], ~inside, [False]]).astype(np.int8)))
    return [(int(a), int(b) - 1) for a, b in flips.reshape(-1, 2)]


def _is_stray(utc: Ints, edges: Sequence[tuple[int, int]], run: tuple[int, int], season: tuple[int, int]) -> bool:
    """Between parts inside the season always; at an end of the file where the clock runs on and only the date leaps,
    by whole years, or to the far side of the season."""
    first, last = run
    if first > 0 and last < len(edges) - 1:
        return True
    border = edges[first][0] if first > 0 else edges[last][1]
    usual = _usual(utc)
    leap = int(utc[border] - utc[border - 1]) - usual
    days = round(leap / DAY_MS)
    off = abs(leap - days * DAY_MS)
    runs_on = min(off, abs(off - HOUR_MS)) <= slack(usual)
    far = utc[border] < season[0] if first > 0 else utc[border - 1] > season[1]
    return runs_on and (bool(far) or abs(days) in YEARS_DAYS)


def _few(count: int, utc: Ints) -> bool:
    """A handful, or neither 2 % of the rows nor a day's worth of them."""
    return count <= HANDFUL or (count <= SHARE * len(utc) and count * _usual(utc) < DAY_MS)


def _usual(utc: Ints) -> int:
    steps = np.diff(utc)
    steps = steps[steps > 0]
    return min(int(np.median(steps)), DAY_MS) if len(steps) else DAY_MS


def leaps_back(rows: FileRows) -> Ints:
    """Places of rows more than a day before the row above them, where no overlap of exports explains it.

    What follows such a leap tells times anew: if nearly all of them with the same values, the file holds exports put
    together. Empty where there is no more than a handful.
    """
    at = np.flatnonzero(rows.utc != NAT)
    back = np.flatnonzero(np.diff(rows.utc[at]) < -DAY_MS) + 1
    if len(back) <= HANDFUL:
        return np.empty(0, dtype=np.int64)
    again, differs = told_again(rows)
    ends = np.append(back[1:], len(at))
    lone = []
    for begin, end in zip(back.tolist(), ends.tolist(), strict=True):
        own = at[begin:end]
        repeats, unlike = int((again[own] >= 0).sum()), int(differs[own].sum())
        if not repeats or unlike > (1 - AGREEING) * repeats:
            lone.append(int(at[begin]))
    return np.asarray(lone if len(lone) > HANDFUL else [], dtype=np.int64)


def told_again(rows: FileRows) -> tuple[Ints, Bools]:
    """For each row the first row of the file that bears its time, −1 for that row itself; whether a value differs."""
    again = np.full(len(rows.utc), -1, dtype=np.int64)
    differs = np.zeros(len(rows.utc), dtype=bool)
    known = np.flatnonzero(rows.utc != NAT)
    if bool((np.diff(rows.utc[known]) > 0).all()):
        return again, differs
    order = known[np.argsort(rows.utc[known], kind="stable")]
    same = np.concatenate([[False], np.diff(rows.utc[order]) == 0])
    if not same.any():
        return again, differs
    leader = order[np.maximum.accumulate(np.where(same, 0, np.arange(len(order))))]
    again[order[same]] = leader[same]
    later = np.flatnonzero(again >= 0)
    for name, code in rows.codes.items():
        both = (code[later] == USED) & (code[again[later]] == USED)
        values = rows.values[name]
        differs[later] |= both & (values[later] != values[again[later]])
    return again, differs


def told_otherwise(rows: FileRows) -> tuple[Ints, Ints]:
    """Rows whose time stands in an earlier row too, with another value, and those earlier rows.

    Empty where they are few: a clock set back does that.
    """
    again, differs = told_again(rows)
    late = np.flatnonzero(differs)
    known = rows.utc[rows.utc != NAT]
    if _few(len(late), known):
        late = late[:0]
    return late, again[late]
