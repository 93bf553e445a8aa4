"""Blocks of rows in which day and month were swapped (a spreadsheet did it): put right where the run of times tells.

Days are taken in the order of the file. Each block of rows of one date may be read as written or swapped; the choice
that leaves the fewest leaps is kept, if it leaves clearly fewer than the file has as written.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.order import CLEARLY, breaks
from reportgen.readings.stamps import DAY_MS, NAT, Stamps

MOST_BLOCKS = 20_000  # a file with more changes of date than this is no run of times
NEXT_DAYS = 2  # the next block of a run lies at most so many days on; as in order.breaks
SWAP_COST = 0.01  # as written, where both readings run on


@dataclass(frozen=True, kw_only=True, slots=True)
class Righted:
    """`naive`: as Stamps.naive, with swapped rows put right. `rows`: how many. `settled`: no doubt is left."""

    naive: Ints
    rows: int
    settled: bool


def put_right(stamps: Stamps, day_first: bool, mixed: bool) -> Righted:
    """The times of a column with swapped blocks put right; `mixed` says that both orders are seen in it."""
    swaps = _swaps(stamps, day_first)
    written = _naive(stamps, swaps)
    if not mixed and breaks(written) < 2:
        return Righted(naive=written, rows=0, settled=True)
    other = _naive(stamps, ~swaps)
    blocks = _blocks(written, other)
    if len(blocks) - 1 > MOST_BLOCKS:
        return Righted(naive=written, rows=0, settled=not mixed)
    firsts = blocks[:-1]
    forward = _direction(written)
    choice = _choose(written[firsts] // DAY_MS, other[firsts] // DAY_MS, written[firsts], other[firsts], forward)
    swap = np.repeat(choice, np.diff(blocks))
    righted = np.where(swap, other, written)
    better = CLEARLY * breaks(righted) <= breaks(written) and bool(swap.any())
    if better or (mixed and not bool((righted == NAT)[stamps.readable].any()) and breaks(righted) <= 1):
        return Righted(naive=righted, rows=int(swap.sum()), settled=True)
    return Righted(naive=written, rows=0, settled=not mixed)


def _swaps(stamps: Stamps, day_first: bool) -> NDArray[np.bool_]:
    """Rows whose first number is read as the month."""
    if day_first:
        return np.zeros(len(stamps.open), dtype=bool)
    return stamps.open.copy()


def _naive(stamps: Stamps, swap: NDArray[np.bool_]) -> Ints:
    """Times with first and second exchanged in the marked rows, whatever their format."""
    as_is = stamps.open.copy()
    first, second = stamps.first, stamps.second
    stamps.first, stamps.second = np.where(swap, second, first), np.where(swap, first, second)
    stamps.open = np.zeros(len(swap), dtype=bool)
    naive = stamps.naive(True)
    stamps.first, stamps.second, stamps.open = first, second, as_is
    return naive


def _blocks(written: Ints, other: Ints) -> Ints:
    """Where each block of rows of one date begins, and the end."""
    day, swapped = np.where(written == NAT, 0, written // DAY_MS), np.where(other == NAT, 0, other // DAY_MS)
    turns = np.flatnonzero((np.diff(day) != 0) | (np.diff(swapped) != 0)) + 1
    return np.concatenate([[0], turns, [len(written)]])


def _direction(naive: Ints) -> int:
    steps = np.diff(naive[naive != NAT])
    return -1 if len(steps) and float(np.mean(steps < 0)) > 0.5 else 1


def _choose(day: Ints, swapped: Ints, written: Ints, other: Ints, forward: int) -> NDArray[np.bool_]:
    """For each block whether it is swapped: the cheapest way through, a leap costing 1 (dynamic programming)."""
    options = np.column_stack([day, swapped]) * forward
    valid = np.column_stack([written != NAT, other != NAT])
    costs = np.where(valid[0], [0.0, SWAP_COST], 1e6)
    came = np.zeros((len(day), 2), dtype=np.int64)
    for n in range(1, len(day)):
        step = options[n][None, :] - options[n - 1][:, None]
        leap = np.where((step >= 0) & (step <= NEXT_DAYS), 0.0, 1.0)
        total = costs[:, None] + leap
        came[n] = np.argmin(total, axis=0)
        costs = total.min(axis=0) + np.where(valid[n], [0.0, SWAP_COST], 1e6)
    choice = np.zeros(len(day), dtype=bool)
    at = int(np.argmin(costs))
    for n in range(len(day) - 1, -1, -1):
        choice[n] = at == 1
        at = int(came[n][at])
    return choice
