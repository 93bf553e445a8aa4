"""Dead rows: a logger that starts up or loses its power writes 0 and error codes where nothing was measured.

A row in which every declared value that is there is 0 or a sentinel *may* be one; empty cells agree. It is one when a
column of it shows that 0 cannot have been. Frost at 0.0 °C with an empty humidity cell, or a night in which light and
power are both 0, shows no such thing and stays. Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.marks import DEAD_ROW, SENTINEL, USED
from reportgen.readings.merge import Merged
from reportgen.readings.numbers import Floats
from reportgen.units import MEASURES, is_temperature, of_kind

Bools = NDArray[np.bool_]
HALF_HOUR_MS, TWO_HOURS_MS = 30 * 60_000, 2 * 3_600_000
NEAR_K, HOURLY_K, FAR_K = 3.0, 5.0, 10.0  # no house leaps to 0 and back by this in half an hour, two hours, at all
PAIR = 3.0  # two temperatures that are both 0 tell as much by a third of it
RUN = 3  # so many zeros running tell as much as two columns that agree
COUNTERS = of_kind("counter")
OVER = dict.fromkeys(of_kind("humidity"), 105.0)  # above it humidity is an error, up to it a wet sensor

# How far from 0 both neighbours must lie before a 0 is no reading. Power and switches may always be 0.
AWAY: Mapping[str, float] = MappingProxyType(
    dict.fromkeys(of_kind("humidity"), 5.0)
    | dict.fromkeys(of_kind("moisture"), 0.05)
    | {name: 50.0 if MEASURES[name].kept == "W/m²" else 100.0 for name in of_kind("light")}
)
LIGHTS = of_kind("light")
NEVER_ZERO = of_kind("humidity")  # air is never that dry, whatever its neighbours


@dataclass(frozen=True, kw_only=True, slots=True)
class _Cells:
    """The cells of the rows that have a time, by instant; shape (n,) each, by measure.

    `there`: neither empty nor unread nor set aside before; `zero`: 0 as written; `sentinel`: stands for no reading.
    """

    utc: Ints
    values: Mapping[str, Floats]
    there: Mapping[str, Bools]
    zero: Mapping[str, Bools]
    sentinel: Mapping[str, Bools]


def mark_dead_rows(merged: Merged) -> None:
    """Codes the rows in which nothing was measured; in a row that lives, a 0 beside a sentinel that cannot be."""
    names = tuple(merged.values)
    _mark_one_number(merged)
    cells = _cells(merged)
    any_zero = np.logical_or.reduce([cells.zero[name] for name in names])
    if not any_zero.any():
        return
    alive = np.logical_or.reduce([cells.there[name] & ~cells.zero[name] & ~cells.sentinel[name] for name in names])
    doubtful = any_zero & ~alive
    beside = any_zero & alive & np.logical_or.reduce([cells.sentinel[name] for name in names])
    dead = np.zeros(len(cells.utc), dtype=bool)
    for name in names:
        dead[_cannot_be(cells, name, doubtful, doubtful | beside)] = True
        dead[_failed_then(cells, name, doubtful, alive)] = True
    for name in names:
        code = merged.codes[name]
        code[merged.order[dead & cells.there[name]]] = DEAD_ROW
        code[merged.order[_cannot_be(cells, name, beside, doubtful | beside)]] = SENTINEL


def _mark_one_number(merged: Merged) -> None:
    """Codes rows in which all columns hold one number that one of them cannot have: −1 of a temperature beside −1 %."""
    if len(merged.values) < 2:
        return
    there = np.array([code == USED for code in merged.codes.values()])
    values = np.where(there, np.array(list(merged.values.values())), np.nan)
    alone = there.sum(axis=0) < 2
    values[:, alone] = 0.0
    same = np.nanmax(values, axis=0) == np.nanmin(values, axis=0)
    cannot = np.zeros(len(same), dtype=bool)
    for row, name in enumerate(merged.values):
        cannot |= there[row] & ((values[row] < MEASURES[name].lowest) | (values[row] > OVER.get(name, np.inf)))
    for code in merged.codes.values():
        code[same & cannot & ~alone & (code == USED)] = DEAD_ROW


def _cells(merged: Merged) -> _Cells:
    rows = merged.order
    codes = {name: code[rows] for name, code in merged.codes.items()}
    return _Cells(
        utc=merged.utc[rows],
        values={name: values[rows] for name, values in merged.values.items()},
        there={name: (code == USED) | (code == SENTINEL) for name, code in codes.items()},
        zero={name: merged.raw_zero[name][rows] & (code == USED) for name, code in codes.items()},
        sentinel={name: code == SENTINEL for name, code in codes.items()},
    )


def _failed_then(cells: _Cells, name: str, doubtful: Bools, alive: Bools) -> Ints:
    """Doubtful rows with a sentinel in this column, where the living rows before and after have none.

    A probe that is broken for days writes its sentinel beside true zeros too, and tells nothing of them.
    """
    at = np.flatnonzero(doubtful & cells.sentinel[name])
    living = np.flatnonzero(alive)
    if not len(at) or not len(living):
        return at
    before, after = _neighbours(living, at)
    return at[~cells.sentinel[name][before] & ~cells.sentinel[name][after]]


def _cannot_be(cells: _Cells, name: str, asked: Bools, doubted: Bools) -> Ints:
    """Rows among `asked` whose 0 in this column cannot be, by the column's nearest readings in no doubted row."""
    at = np.flatnonzero(asked & cells.zero[name])
    if not len(at) or not (name in AWAY or name in COUNTERS or is_temperature(name)):
        return at[:0]
    good = np.flatnonzero(cells.there[name] & ~cells.sentinel[name] & ~doubted)
    if not len(good):
        return at if name in NEVER_ZERO else at[:0]
    before, after = _neighbours(good, at)
    values = cells.values[name]
    if name in COUNTERS:  # one that truly begins again does not come back to where it was
        return at[(before < at) & (at < after) & (values[before] > 0) & (values[after] >= values[before])]
    away = np.minimum(np.abs(values[before] - values[at]), np.abs(values[after] - values[at]))
    if name in LIGHTS:  # it is 0 every night: only a darkness of minutes between two bright readings is none
        brief = (before < at) & (at < after) & (cells.utc[after] - cells.utc[before] <= 2 * HALF_HOUR_MS)
        return at[brief & (away > AWAY[name])]
    return at[away > (AWAY[name] if name in AWAY else _leap_k(cells, at, before, after))]


def _leap_k(cells: _Cells, at: Ints, before: Ints, after: Ints) -> Floats:
    """By how much a temperature must leap to 0 and back before the 0 is none [K]; shape of `at`.

    Less where the leaps take little time, and where two temperatures say the same. A logger of one column has no
    second value that agrees: there a single 0 must be a jump in itself.
    """
    _, first, run, length = np.unique(before + len(cells.utc) * after, return_index=True, return_inverse=True,
                                      return_counts=True)  # fmt: skip
    begins, ends = at[first][run], at[first + length - 1][run]
    comes = np.where(before < at, cells.utc[begins] - cells.utc[before], 0)
    goes = np.where(after > at, cells.utc[after] - cells.utc[ends], 0)
    slow = np.maximum(comes, goes)
    limit = np.where(slow <= HALF_HOUR_MS, NEAR_K, np.where(slow <= TWO_HOURS_MS, HOURLY_K, FAR_K))
    warmths = np.sum([zero[at] for name, zero in cells.zero.items() if is_temperature(name)], axis=0)
    limit = np.where((warmths > 1) & (slow <= TWO_HOURS_MS), limit / PAIR, limit)
    agreed = (len(cells.values) > 1) | (length[run] >= RUN)
    return np.where(agreed, limit, FAR_K)


def _neighbours(good: Ints, at: Ints) -> tuple[Ints, Ints]:
    """The nearest good row before and after each; at an end of the record the one that there is, for both."""
    place = np.searchsorted(good, at)
    return good[np.maximum(place - 1, 0)], good[np.minimum(place, len(good) - 1)]
