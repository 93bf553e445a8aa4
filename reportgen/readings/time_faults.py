"""What can be wrong with the times of a logger file, told with its first line."""

from __future__ import annotations

import datetime as dt
import re

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import FileRows, Opened
from reportgen.readings.stamps import NAT

_CLOCK = re.compile(r"\d{1,2}[:.h]\d{2}(?:[:.]\d{2})?(?:\s?[AaPp]\.?\s?[Mm]\.?)?")
HALF = 0.5  # more than half of the times unreadable: the column is not what season.toml says; common practice
HALF_DAY_ROWS, HALF_DAY_DOUBLES = 48, 0.2  # two days of hours; a fifth of the instants told twice; common practice


def tell_unread_times(rows: FileRows, opened: Opened, faults: Faults) -> None:
    """A file in which most times cannot be read has the wrong time column or format."""
    unread = ~opened.stamps.readable
    if len(unread) and float(unread.mean()) > HALF:
        row = int(np.flatnonzero(unread)[0])
        bare = all(_CLOCK.fullmatch(opened.texts[n].strip()) for n in np.flatnonzero(unread).tolist())
        faults.tell(
            "unreadable-time",
            f"{opened.texts[row].strip()!r} ({int(unread.sum())} of {len(unread)} rows)",
            "a date and time such as 2026-01-14 18:30",
            "the date stands in some rows only: fill it down to the rows below in a copy of the file"
            if bare and not unread.all()
            else "name the right `time` column, or write `time_format` for this logger in season.toml",
            line=int(opened.table.lines[row]),
        )


def tell_half_day_clock(rows: FileRows, opened: Opened, faults: Faults) -> None:
    """A 12-hour clock without am or pm tells every time twice: hours 1 to 12 only, most instants double."""
    known = rows.utc[rows.utc != NAT]
    halves = any(shape.half for _, shape in opened.stamps.shapes)
    if halves or len(known) < HALF_DAY_ROWS:
        return
    hours = opened.stamps.clock_ms[opened.stamps.readable] // 3_600_000
    if int(hours.min()) < 1 or int(hours.max()) != 12:
        return
    if 1.0 - len(np.unique(known)) / len(known) > HALF_DAY_DOUBLES:
        faults.tell(
            "half-day-clock",
            f"{opened.texts[0].strip()!r} and the like: no hour above 12, and most times twice",
            "a 24-hour clock, or am and pm beside each time",
            "export the file with a 24-hour clock; where am and pm stand in a column of their own, add it to `time`: "
            'time = ["Date", "Time", "AM/PM"]',
            line=int(opened.table.lines[0]),
        )


def tell_missing_hour(rows: FileRows, naive: Ints, missing: NDArray[np.bool_], opened: Opened, faults: Faults) -> None:
    row = int(np.flatnonzero(missing)[0])
    moment = dt.datetime.fromtimestamp(int(naive[row]) / 1000, dt.UTC)
    faults.tell(
        "hour-that-never-was",
        f"{moment:%Y-%m-%d %H:%M} and {rows.missing_hour - 1} more in the hour that summer time leaves out",
        "times of a clock that is set to summer time",
        'if this logger is never set to summer time, write its winter offset, such as clock = "+01:00"',
        line=int(rows.lines[row]),
        level="warning",
    )


def tell_open_order(opened: Opened, faults: Faults) -> None:
    """Asks for the order of day and month, with both readings of the first time that has two."""
    row = next((n for n, is_open in enumerate(opened.stamps.open) if is_open), 0)
    readings = []
    for first in (True, False):
        naive = int(opened.stamps.naive(first)[row])
        readings.append(f"{dt.datetime.fromtimestamp(naive / 1000, dt.UTC):%-d %B %Y}" if naive != NAT else "no date")
    faults.tell(
        "day-or-month",
        f"{opened.texts[row].strip()!r}: {readings[0]} or {readings[1]}; nothing in the file settles it",
        "times with one meaning",
        'write time_format = "%d/%m/%Y %H:%M" (day first) or "%m/%d/%Y %H:%M" (month first) for this logger',
        line=int(opened.table.lines[row]),
    )
