"""Rows that do not run on, told as warnings of their file and as what the checks saw."""

from __future__ import annotations

import datetime as dt

import numpy as np

from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import FileRows, Oddity
from reportgen.readings.stamps import DAY_MS, NAT
from reportgen.readings.strays import Stray, leaps_back, strays, told_otherwise
from reportgen.readings.swap_words import date_words, days_words, lines_words
from reportgen.season import Season
from reportgen.wording import count, number

IN_ORDER = "rows in the order in which they were logged"
WRONG_DATES = "if their dates are wrong, export the file again with dates such as 2026-01-14; if they are right, "


def check_run(rows: FileRows, naive: Ints, season: Season, faults: Faults) -> None:
    """Tells what does not run on in a file; `naive` are the times of its rows on the clock as written."""
    start, end = int(season.start.timestamp() * 1000), int(season.end.timestamp() * 1000)
    asked = {fault.line for fault in faults.problems if fault.slug == "day-or-month"}
    for stray in strays(rows, start, end):
        if not asked & set(rows.lines[[stray.first, stray.last]].tolist()):
            _tell_stray(rows, naive, stray, faults)
    if len(back := leaps_back(rows)):
        _tell_leaps(rows, naive, back, faults)
    late, early = told_otherwise(rows)
    if len(late):
        _tell_otherwise(rows, naive, late, early, faults)


def _tell(rows: FileRows, slug: str, at: Ints, told: str, expected: str, todo: str, faults: Faults) -> None:
    faults.tell(slug, told, expected, todo, line=int(rows.lines[at[0]]), level="warning")
    times = rows.utc[at]
    span = (int(times.min()), int(times.max()))
    rows.oddities.append(Oddity(slug=slug, count=len(at), span=span, words=told))


def _tell_stray(rows: FileRows, naive: Ints, stray: Stray, faults: Faults) -> None:
    places = np.arange(stray.first, stray.last + 1)
    at = places[rows.utc[places] != NAT]
    span = (int(naive[at].min()), int(naive[at].max()))
    told = f"{_lines(rows, at)} ({count(len(at), 'row')}) are of {days_words(span)}, outside the season; "
    told += _neighbours(rows, naive, stray)
    if other := _exchanged(naive[at]):
        told += f"; with day and month exchanged they would be of {other}"
    todo = f"look at these lines: {WRONG_DATES}nothing needs doing, and they stay out of the season"
    _tell(rows, "rows-astray", at, told, IN_ORDER, todo, faults)


def _neighbours(rows: FileRows, naive: Ints, stray: Stray) -> str:
    words = []
    for place in (stray.above, stray.below):
        if place is not None:
            words.append(f"line {rows.lines[place]} beside them is of {date_words(int(naive[place]))}")
    return " and ".join(words)


def _exchanged(naive: Ints) -> str:
    """The days those times would be of with day and month exchanged; empty where one has no such date."""
    days = np.unique(naive // DAY_MS)
    dates = [dt.date(1970, 1, 1) + dt.timedelta(days=int(day)) for day in days]
    if any(date.day > 12 for date in dates):
        return ""
    epoch = dt.date(1970, 1, 1)
    other = [(dt.date(date.year, date.day, date.month) - epoch).days * DAY_MS for date in dates]
    return days_words((min(other), max(other)))


def _tell_leaps(rows: FileRows, naive: Ints, back: Ints, faults: Faults) -> None:
    first = int(back[0])
    before = int(np.flatnonzero(rows.utc[:first] != NAT)[-1])
    told = f"the rows leap back by more than a day {count(len(back), 'time')}: line {rows.lines[first]} is of "
    told += (
        f"{date_words(int(naive[first]))} and line {rows.lines[before]} beside it of {date_words(int(naive[before]))}"
    )
    if len(back) > 1:
        told += f"; the other places lie in {_lines(rows, back[1:])}"
    todo = f"look at these lines: {WRONG_DATES}nothing needs doing, for they are put in order"
    _tell(rows, "days-back-and-forth", back, told, IN_ORDER, todo, faults)


def _tell_otherwise(rows: FileRows, naive: Ints, late: Ints, early: Ints, faults: Faults) -> None:
    name, place = next(
        (name, n)
        for n in range(len(late))
        for name in rows.values
        if rows.values[name][late[n]] != rows.values[name][early[n]]
    )
    one, two = int(early[place]), int(late[place])
    moment = dt.datetime(1970, 1, 1) + dt.timedelta(milliseconds=int(naive[one]))
    span = (int(naive[late].min()), int(naive[late].max()))
    told = f"{count(len(late), 'row')} in {_lines(rows, late)}, of {days_words(span)}, bear a time that another row of "
    told += f"this file has with another value: at {moment:%Y-%m-%d %H:%M} line {rows.lines[one]} "
    told += f"reads {_value(rows, name, one)} and line {rows.lines[two]} reads {_value(rows, name, two)}"
    todo = (
        f"look at these lines: {WRONG_DATES}the file may hold two loggers, which must be parted; until then line "
        f"{rows.lines[one]} and the like are used, and the other is left out"
    )
    _tell(rows, "time-told-otherwise", late, told, "one reading for each time", todo, faults)


def _value(rows: FileRows, name: str, place: int) -> str:
    return number(float(rows.values[name][place]), 2)


def _lines(rows: FileRows, at: Ints) -> str:
    lines = rows.lines[at]
    return lines_words((int(lines.min()), int(lines.max())))
