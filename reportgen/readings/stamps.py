"""A column of written times → their parts, whatever the formats in it; the order of day and month may stay open."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.digits import Digits, Ints, digits
from reportgen.readings.shapes import Shape, understand

Floats = NDArray[np.float64]
_Number = Callable[[str], Ints]
NAT = int(np.iinfo(np.int64).min)
DAY_MS, HOUR_MS = 86_400_000, 3_600_000
CLEARLY = 3  # the worse reading must break the run of times this many times as often; common practice, no source
SHAPES_TRIED = 500  # a column with more kinds of text than this is no column of times
_SERIAL_EPOCH_DAYS = 25_569  # day number of 1970-01-01 in spreadsheets (1900 system); from memory, tested on a workbook


@dataclass(kw_only=True, slots=True)
class Stamps:
    """Written times, one row each.

    `year`, `first`, `second`: the date; `open` marks rows in which first and second may be day and month or month and
    day, elsewhere first is the day and second the month. `clock_ms`: since midnight. `offset_ms`: of a written offset,
    NAT without one. `readable`: that a time stands there. `shape`: number of the row's shape in `shapes`, −1 if none.
    """

    year: Ints
    first: Ints
    second: Ints
    clock_ms: Ints
    offset_ms: Ints
    open: NDArray[np.bool_]
    readable: NDArray[np.bool_]
    shape: Ints
    shapes: list[tuple[str, Shape]]

    def naive(self, day_first: bool | NDArray[np.bool_]) -> Ints:
        """Milliseconds since 1970 on the clock as written; NAT where no such date exists."""
        swap = self.open & ~np.asarray(day_first)
        day, month = np.where(swap, self.second, self.first), np.where(swap, self.first, self.second)
        good = self.readable & (month >= 1) & (month <= 12) & (day >= 1) & (self.year >= 1970) & (self.year < 2200)
        months = np.where(good, (self.year - 1970) * 12 + month - 1, 0)
        began = months.astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)
        ended = (months + 1).astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)
        good &= day <= ended - began
        return np.where(good, (began + day - 1) * DAY_MS + self.clock_ms, NAT)


def read_stamps(texts: Sequence[str]) -> Stamps:
    """The parts of every text; what is no time is marked unreadable."""
    found = digits(texts)
    kinds, examples = pd.factorize(found.shape)
    stamps = _blank(len(texts))
    two = np.zeros(len(texts), dtype=bool)
    if len(examples) > SHAPES_TRIED:
        common = np.argsort(-np.bincount(kinds))[:SHAPES_TRIED]
    else:
        common = np.arange(len(examples))
    firsts = np.full(len(examples), -1)
    firsts[kinds[::-1]] = np.arange(len(texts))[::-1]
    for kind in common:
        example = texts[firsts[kind]]
        shape = understand(example)
        if shape is not None:
            rows = slice(None) if len(examples) == 1 else np.flatnonzero(kinds == kind)
            stamps.shape[rows] = len(stamps.shapes)
            stamps.shapes.append((example, shape))
            _fill(stamps, rows, shape, found)
            if shape.open_order and not shape.dotted and "Y" in shape.at:
                two |= _two_digits(rows, shape, found)
    if two.any():
        _year_in_front(stamps, two)
    return stamps


def _two_digits(rows: slice | Ints, shape: Shape, found: Digits) -> NDArray[np.bool_]:
    """Which of all rows are of that shape and write a day, a month and a year by two digits or fewer."""
    marked = np.zeros(len(found.numbers), dtype=bool)
    numbers = found.numbers[rows]
    marked[rows] = (found.lengths[rows][:, shape.at["Y"]] <= 2) & (numbers[:, shape.at["a"]] >= 10)
    return marked


def _year_in_front(stamps: Stamps, two: NDArray[np.bool_]) -> None:
    """Takes 25-12-01 for 1 December 2025 where the times run on only so: with the year last they leap by years."""
    last = stamps.year[two] % 100
    if not two[stamps.open].all() or not bool(((last >= 1) & (last <= 31) & (stamps.second[two] <= 12)).all()):
        return
    turned = replace(
        stamps,
        year=np.where(two, stamps.first + 2000, stamps.year),
        first=np.where(two, stamps.year % 100, stamps.first),
        open=stamps.open & ~two,
    )
    as_it_stands = min(_breaks(stamps, True), _breaks(stamps, False))
    if as_it_stands >= 2 and as_it_stands > CLEARLY * _breaks(turned, True):
        stamps.year, stamps.first, stamps.open = turned.year, turned.first, turned.open


def _breaks(stamps: Stamps, day_first: bool) -> int:
    """Places where the times do not run on, and rows that have no such date."""
    naive = stamps.naive(day_first)
    return breaks(naive) + int((stamps.readable & (naive == NAT)).sum())


def breaks(naive: Ints) -> int:
    """Places where the times run back by more than an hour or leap ahead by more than two days."""
    known = naive[naive != NAT]
    steps = np.diff(known)
    if len(steps) and float(np.mean(steps < 0)) > 0.5:
        steps = -steps
    return int(((steps < -DAY_MS // 24 - 1) | (steps > 2 * DAY_MS)).sum())


def _blank(count: int) -> Stamps:
    def zeros() -> Ints:
        return np.zeros(count, dtype=np.int64)

    return Stamps(
        year=zeros(),
        first=zeros(),
        second=zeros(),
        clock_ms=zeros(),
        offset_ms=np.full(count, NAT),
        open=np.zeros(count, dtype=bool),
        readable=np.zeros(count, dtype=bool),
        shape=np.full(count, -1, dtype=np.int64),
        shapes=[],
    )


def _fill(stamps: Stamps, rows: slice | Ints, shape: Shape, found: Digits) -> None:
    """Writes the parts of all rows of one shape."""
    numbers, lengths = found.numbers[rows], found.lengths[rows]

    def number(name: str) -> Ints:
        at = shape.at.get(name)
        return numbers[:, at] if at is not None else np.zeros(len(numbers), dtype=np.int64)

    stamps.readable[rows] = True
    if "count" in shape.at:
        _since_epoch(stamps, rows, number("count"), _fraction(shape, numbers, lengths))
        return
    year, first, second = _date(shape, number)
    six = "HMS" in shape.at and bool((lengths[:, shape.at["HMS"]] == 6).all())
    clock, good = _clock(shape, number, _fraction(shape, numbers, lengths), six)
    stamps.year[rows], stamps.first[rows], stamps.second[rows] = year, first, second
    stamps.clock_ms[rows] = clock
    stamps.open[rows] = shape.open_order and not shape.dotted
    stamps.readable[rows] = good
    if shape.utc:
        stamps.offset_ms[rows] = 0
    elif shape.zone_min is not None:
        stamps.offset_ms[rows] = shape.zone_min * 60_000
    elif shape.sign:
        hours, minutes = number("off"), number("offm")
        packed = lengths[:, shape.at["off"]] == 4
        minutes = np.where(packed, hours % 100, minutes)
        stamps.offset_ms[rows] = shape.sign * (np.where(packed, hours // 100, hours) * 60 + minutes) * 60_000


def _fraction(shape: Shape, numbers: Ints, lengths: Ints) -> Floats:
    at = shape.at.get("f")
    if at is None:
        return np.zeros(len(numbers))
    return numbers[:, at] / 10.0 ** np.minimum(lengths[:, at], 15)


def _since_epoch(stamps: Stamps, rows: slice | Ints, count: Ints, fraction: Floats) -> None:
    """Seconds or milliseconds since 1970 (UTC), or a spreadsheet's day number (the clock as shown there)."""
    serial, milli = count < 100_000, count >= 10**12
    days_ms = (count - _SERIAL_EPOCH_DAYS) * DAY_MS + np.round(fraction * 86_400).astype(np.int64) * 1000
    seconds_ms = count * 1000 + np.round(fraction * 1000).astype(np.int64)
    at = np.where(serial, days_ms, np.where(milli, count, seconds_ms))
    date = (at // DAY_MS).astype("datetime64[D]")
    month = date.astype("datetime64[M]")
    stamps.year[rows] = date.astype("datetime64[Y]").astype(np.int64) + 1970
    stamps.second[rows] = month.astype(np.int64) % 12 + 1
    stamps.first[rows] = (date - month.astype("datetime64[D]")).astype(np.int64) + 1
    stamps.clock_ms[rows] = at % DAY_MS
    stamps.offset_ms[rows] = np.where(serial, NAT, 0)


def _date(shape: Shape, number: _Number) -> tuple[Ints, Ints, Ints]:
    if "stamp" in shape.at:
        packed = number("stamp")
        packed = np.where(packed >= 10**13, packed // 10**6, packed // 10**4)
    else:
        packed = number("YMD")
    if "stamp" in shape.at or "YMD" in shape.at:
        return packed // 10_000, packed % 100, packed // 100 % 100
    year = number("Y")
    year = np.where(year < 100, year + 2000, year)
    if shape.open_order:
        return year, number("a"), number("b")
    month = number("m") if shape.month is None else np.full(len(year), shape.month)
    return year, number("d"), month


def _clock(shape: Shape, number: _Number, fraction: Floats, six: bool) -> tuple[Ints, NDArray[np.bool_]]:
    """Milliseconds since midnight, and whether there is such a time; 24:00 is the next midnight."""
    hour, minute, second = number("H"), number("M"), number("S")
    if "HMS" in shape.at or "stamp" in shape.at:
        packed = number("HMS") * (1 if six else 100) if "HMS" in shape.at else _packed_clock(number("stamp"))
        hour, minute, second = packed // 10_000, packed // 100 % 100, packed % 100
    good = (minute < 60) & (second < 60) & ((hour < 24) | ((hour == 24) & (minute == 0) & (second == 0)))
    if shape.half:
        good &= (hour >= 1) & (hour <= 12)
        hour = hour % 12 + (12 if shape.half == "p" else 0)
    return (hour * 3600 + minute * 60 + second) * 1000 + np.round(fraction * 1000).astype(np.int64), good


def _packed_clock(stamp: Ints) -> Ints:
    return np.where(stamp >= 10**13, stamp % 10**6, stamp % 10**4 * 100)
