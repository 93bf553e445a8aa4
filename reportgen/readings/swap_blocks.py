"""The rows of a column of times as blocks of one date, and how one block follows another in either reading of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.stamps import DAY_MS, HOUR_MS, NAT

EXACT, NEAR, AHEAD, BACK = range(4)  # how a block follows the one before: see `following`
NEAR_DAYS = 2  # a run of times may pause so long and is still one run; as in order.breaks
WRITTEN, SWAPPED = 0, 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Blocks:
    """Consecutive rows of one date, in the order of the file.

    `first`, `last`: row numbers. `begins`, `ends`, shape (blocks, 2): the times of those rows as written and with day
    and month exchanged [ms, rising through a file that is in order whichever way it is written]. `valid`, same shape:
    whether there is such a date. `step`: the usual step from row to row [ms].
    """

    first: Ints
    last: Ints
    begins: Ints
    ends: Ints
    valid: NDArray[np.bool_]
    step: int

    @property
    def open(self) -> NDArray[np.bool_]:
        """Blocks whose two readings are two dates."""
        two: NDArray[np.bool_] = self.valid.all(axis=1) & (self.begins[:, WRITTEN] != self.begins[:, SWAPPED])
        return two

    @property
    def neutral(self) -> NDArray[np.bool_]:
        """Blocks whose two readings are one date, such as 11/11."""
        one: NDArray[np.bool_] = self.valid.all(axis=1) & (self.begins[:, WRITTEN] == self.begins[:, SWAPPED])
        return one


def make_blocks(written: Ints, other: Ints) -> Blocks:
    """The blocks of a column; rows without any date are left out."""
    rows = np.flatnonzero((written != NAT) | (other != NAT))
    both = np.column_stack([written[rows], other[rows]])
    valid = both != NAT
    days = np.where(valid, both // DAY_MS, -1)
    turns = np.flatnonzero((np.diff(days, axis=0) != 0).any(axis=1)) + 1
    starts = np.concatenate([[0], turns])
    stops = np.concatenate([turns, [len(rows)]]) - 1
    times = np.where(valid, both, 0) * direction(written)
    return Blocks(
        first=rows[starts],
        last=rows[stops],
        begins=times[starts],
        ends=times[stops],
        valid=valid[starts],
        step=_usual_step(times, starts),
    )


def direction(naive: Ints) -> int:
    """−1 for a file that is written newest first."""
    steps = np.diff(naive[naive != NAT])
    return -1 if len(steps) and float(np.mean(steps < 0)) > 0.5 else 1


def _usual_step(times: Ints, starts: Ints) -> int:
    """The median step within the blocks, where no reading of a date can disturb it; of one row a day, of all steps."""
    steps = np.diff(times[:, WRITTEN])
    within = np.ones(len(steps), dtype=bool)
    within[starts[1:] - 1] = False
    for chosen in (steps[within & (steps > 0)], steps[steps > 0]):
        if len(chosen):
            return min(int(np.median(chosen)), NEAR_DAYS * DAY_MS)
    return DAY_MS


def following(gap: Ints, step: int) -> Ints:
    """How times follow one another after gaps of so many ms.

    EXACT: after the usual step. NEAR: within two days, or an hour back as clocks are changed. AHEAD: further on. BACK.
    """
    kind = np.select([gap < -HOUR_MS - 60_000, gap > NEAR_DAYS * DAY_MS], [BACK, AHEAD], NEAR)
    exact: Ints = np.where(np.abs(gap - step) <= slack(step), EXACT, kind)
    return exact


def slack(step: int) -> int:
    """How far from the usual step a step may be and still be one [ms]: half of it, at most ten minutes."""
    return min(step // 2, 600_000)
