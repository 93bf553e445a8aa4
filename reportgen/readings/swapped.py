"""Stretches of rows in which day and month were swapped (a spreadsheet did it): put right where the order tells.

Each block of rows of one date may be read as written or with day and month exchanged. The cheapest way through the
file is sought, a leap costing most; each stretch that is exchanged on it is then judged by itself. Two dates that
are one another's exchange lie at least four weeks apart, so that a block can run on from its neighbour in one
reading only: where it runs on, there is no doubt.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.stamps import DAY_MS, NAT, Stamps, breaks
from reportgen.readings.swap_blocks import AHEAD, BACK, SWAPPED, Blocks, following, make_blocks
from reportgen.readings.swap_judge import Verdict, judge

MOST_BLOCKS = 20_000  # a file with more changes of date than this is no run of times
MOST_BACK, FEW_BACK = 0.1, 2  # a file that runs back at more of its changes of date has no order to go by
COSTS = (0.0, 0.05, 1.0, 1.5)  # of EXACT, NEAR, AHEAD, BACK; ours, only their order matters
SWAP_COST, TURN_COST = 0.01, 0.05  # as written, where both readings run on; few turns from one reading to the other
NO_DATE = 1e6


@dataclass(frozen=True, kw_only=True, slots=True)
class Stretch:
    """Rows `first` to `last` of the table, their `count` swapped, and their first and last time [ms on the clock as
    written] `as_written` and `exchanged`; NAT where no such date exists."""

    first: int
    last: int
    count: int
    as_written: tuple[int, int]
    exchanged: tuple[int, int]


@dataclass(frozen=True, kw_only=True, slots=True)
class Righted:
    """`naive`: as Stamps.naive, with what leaves no doubt put right. `stretches`: what was put right. `doubts`: what
    may be swapped and was left as written. `settled`: False where both orders stand in a file that has no run. `step`:
    the usual step [ms], 0 where nothing was put right."""

    naive: Ints
    stretches: tuple[Stretch, ...] = ()
    doubts: tuple[Stretch, ...] = ()
    settled: bool = True
    step: int = 0


Counter = Callable[[], Ints | None]


def put_right(stamps: Stamps, day_first: bool, mixed: bool, counter: Counter = lambda: None) -> Righted:
    """The times of a column with swapped stretches put right.

    Args:
        stamps: The written times.
        day_first: The order of the rest of the file.
        mixed: Both orders are seen in the file, from numbers above 12.
        counter: Gives the numbers of a column that counts the rows, if there is one; asked only where it matters.
    """
    swap = np.zeros(len(stamps.open), dtype=bool) if day_first else stamps.open.copy()
    written = _naive(stamps, swap)
    if not mixed and not breaks(written):
        return Righted(naive=written)
    other = _naive(stamps, ~swap)
    if not bool(((written != NAT) | (other != NAT)).any()):
        return Righted(naive=written)
    blocks = make_blocks(written, other)
    if len(blocks.first) > MOST_BLOCKS:
        return Righted(naive=written, settled=not mixed)
    choice = _choose(blocks)
    if not mixed and not choice.any():
        return Righted(naive=written)
    kinds = _along(blocks, choice)
    if int((kinds == BACK).sum()) > max(FEW_BACK, MOST_BACK * len(kinds)):
        return Righted(naive=written, settled=not mixed)
    verdicts = judge(blocks, choice, mixed, counter())
    return _righted(written, other, blocks, verdicts)


def _naive(stamps: Stamps, swap: NDArray[np.bool_]) -> Ints:
    """Times with first and second exchanged in the marked rows, whatever their format."""
    as_is = stamps.open.copy()
    first, second = stamps.first, stamps.second
    stamps.first, stamps.second = np.where(swap, second, first), np.where(swap, first, second)
    stamps.open = np.zeros(len(swap), dtype=bool)
    naive = stamps.naive(True)
    stamps.first, stamps.second, stamps.open = first, second, as_is
    return naive


def _choose(blocks: Blocks) -> NDArray[np.bool_]:
    """For each block whether it is swapped: the cheapest way through (dynamic programming)."""
    own = np.where(blocks.valid, [0.0, SWAP_COST], NO_DATE)
    turn = np.asarray([[0.0, TURN_COST], [TURN_COST, 0.0]])
    gaps = blocks.begins[1:, None, :] - blocks.ends[:-1, :, None]  # from reading, to reading
    way = _cost(gaps, blocks.step) + turn
    costs = own[0]
    came = np.zeros((len(own), 2), dtype=np.int64)
    for n in range(1, len(own)):
        total = costs[:, None] + way[n - 1]
        came[n] = np.argmin(total, axis=0)
        costs = total.min(axis=0) + own[n]
    choice = np.zeros(len(own), dtype=bool)
    at = int(np.argmin(costs))
    for n in range(len(own) - 1, -1, -1):
        choice[n] = at == SWAPPED
        at = int(came[n][at])
    return choice & ~blocks.neutral


def _cost(gaps: Ints, step: int) -> NDArray[np.float64]:
    """What each following costs; a leap costs a little more the longer it is, so that the nearer date is taken."""
    kinds = following(gaps, step)
    length = 0.1 * np.log10(1.0 + np.abs(gaps) / DAY_MS)
    cost: NDArray[np.float64] = np.asarray(COSTS)[kinds] + np.where(kinds >= AHEAD, length, 0.0)
    return cost


def _along(blocks: Blocks, choice: NDArray[np.bool_]) -> Ints:
    at = choice.astype(np.int64)
    rows = np.arange(len(at))
    return following(blocks.begins[rows[1:], at[1:]] - blocks.ends[rows[:-1], at[:-1]], blocks.step)


def _righted(written: Ints, other: Ints, blocks: Blocks, verdicts: list[Verdict]) -> Righted:
    naive, sure, doubts = written.copy(), [], []
    for verdict in verdicts:
        first, last = int(blocks.first[verdict.first]), int(blocks.last[verdict.last])
        rows = np.arange(first, last + 1)
        changed = rows[(written[rows] != other[rows]) & (other[rows] != NAT)]
        stretch = Stretch(
            first=first,
            last=last,
            count=len(changed),
            as_written=_span(written[changed]),
            exchanged=_span(other[changed]),
        )
        if verdict.sure:
            naive[changed] = other[changed]
            sure.append(stretch)
        else:
            doubts.append(stretch)
    return Righted(naive=naive, stretches=tuple(sure), doubts=tuple(doubts), step=blocks.step)


def _span(naive: Ints) -> tuple[int, int]:
    """The times of the first and last row that have one."""
    known = naive[naive != NAT]
    return (int(known[0]), int(known[-1])) if len(known) else (NAT, NAT)
