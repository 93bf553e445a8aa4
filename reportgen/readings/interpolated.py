"""Stretches that were computed and not measured: many decimals where the file otherwise has few.

Somebody, or some program, filled a gap along a curve, and such numbers end in ⅓ or 0.0714…; a sensor's end in its own
steps. Three more decimals in three rows running is the sign (season-folder contract); a straight line is none, since a
third of honest readings lie on one. What counts is a file's own habit: a file converted from °F, or averaged, has
long decimals everywhere, and there they are honest.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.numbers import Floats

Bools = NDArray[np.bool_]
MORE = 3  # decimals more than usual, and rows running (season-folder contract)
ROWS = 3
MOST = 9  # more decimals than this are not told apart: a workbook stores 21.3 as 21.300000000000001
SAME = 2e-12  # relative; a few last places of a stored number
LARGE = 1e6
RUNNING, FIFTH = 6, 0.2  # values running, and the share of a file's rows, that show its usual decimals; ours
HALF, SENSOR = 0.5, 7
SAMPLE = 20_000
HABIT = 0.99  # so many long numbers on the steps of °F are no accident
FEW = 50  # … of at least so many
FAHRENHEIT_DECIMALS = 1


def interpolated(values: Floats) -> Bools:
    """Which values of one column of one file, as written and in the order of its rows, were computed.

    Shape (n,) → (n,); NaN stays out and parts no stretch.
    """
    mask = np.zeros(len(values), dtype=bool)
    rows = np.flatnonzero(np.abs(values) < LARGE)  # neither NaN nor an error code
    known = values[rows]
    usual = usual_decimals(known)
    if usual + MORE > MOST:
        return mask
    long = ~_has(known, usual + MORE - 1)
    if float(np.mean(long)) > HALF:  # what most of a file does is no fault, but for decimals that no sensor writes
        long = ~_has(known, max(usual + MORE, SENSOR) - 1)
    if int(long.sum()) < ROWS:
        return mask
    long[long] = _long_digits(known[long], known[~long])
    if _from_fahrenheit(known[long]):
        return mask
    mask[rows[_stretches(known, long, usual)]] = True
    return mask


def usual_decimals(values: Floats) -> int:
    """The fewest decimals in which a fifth of a column is written in one go; MOST + 1 where it is never so.

    In one go: six values running that differ. Numbers made of °F, or of means, are short now and then and never six
    times running; a plateau of 100 % says nothing of the rest.
    """
    starts = np.flatnonzero(np.concatenate([[True], np.diff(values) != 0])) if len(values) else np.empty(0, np.int64)
    moved, rows = values[starts], np.diff(np.append(starts, len(values)))
    for decimals in range(MOST + 1):
        short = np.concatenate([[False], _has(moved, decimals), [False]])
        edges = np.flatnonzero(np.diff(short.astype(np.int8))).reshape(-1, 2)
        edges = edges[edges[:, 1] - edges[:, 0] >= RUNNING]
        total = np.concatenate([[0], np.cumsum(rows)])
        if int((total[edges[:, 1]] - total[edges[:, 0]]).sum()) >= max(FIFTH * len(values), 1):
            return decimals
    return MOST + 1


def _has(values: Floats, decimals: int) -> Bools:
    """Whether a value does with so many decimals."""
    return np.asarray(np.abs(np.round(values, decimals) - values) <= SAME * np.maximum(np.abs(values), 1.0))


def _long_digits(values: Floats, others: Floats) -> Bools:
    """Whether a value also has more significant digits than the file writes: 0.0012 in a file of 12.35 has not."""
    asked = others[:: max(len(others) // SAMPLE, 1)]
    digits = next((n for n in range(1, 16) if float(np.mean(_shortened(asked, n))) >= HABIT), 16)
    return ~_shortened(values, digits + 1)


def _shortened(values: Floats, digits: int) -> Bools:
    """Whether a value does with so many significant digits."""
    size = np.abs(values)
    scale = 10.0 ** (digits - 1 - np.floor(np.log10(np.where(size > 0, size, 1.0))))
    return np.asarray(np.abs(np.round(values * scale) - values * scale) <= SAME * np.maximum(size, 1.0) * scale)


def _from_fahrenheit(values: Floats) -> bool:
    """Whether long numbers are °C made of a sensor's °F: then they lie on its steps."""
    on_step = _has(values * 1.8 + 32.0, FAHRENHEIT_DECIMALS) if len(values) >= FEW else np.zeros(1, dtype=bool)
    return float(np.mean(on_step)) >= HABIT


def _stretches(values: Floats, long: Bools, usual: int) -> Ints:
    """Rows of every stretch: long numbers, shorter ones between them that are still too long for the file or lie on
    their neighbours' line, three and more running."""
    part = long | ~_has(values, usual)
    middle = np.zeros(len(values), dtype=bool)
    bend = np.abs(values[2:] - 2 * values[1:-1] + values[:-2])
    middle[1:-1] = part[:-2] & part[2:] & (bend <= 10.0**-MOST)
    part |= middle
    edges = np.flatnonzero(np.diff(np.concatenate([[False], part, [False]]).astype(np.int8))).reshape(-1, 2)
    sums = np.concatenate([[0], np.cumsum(long)])
    kept = edges[(edges[:, 1] - edges[:, 0] >= ROWS) & (sums[edges[:, 1]] - sums[edges[:, 0]] >= ROWS)]
    return (
        np.concatenate([np.arange(first, last) for first, last in kept]) if len(kept) else np.empty(0, dtype=np.int64)
    )
