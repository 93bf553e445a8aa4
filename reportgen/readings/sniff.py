"""Looks at one file of which nothing is known: its columns, what they may hold, its times. Guesses, told as such."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from reportgen import limits
from reportgen.readings.header_words import measure_of, unit_in
from reportgen.readings.layout import DELIMITERS, Layout, head_lines, split
from reportgen.readings.numbers import to_numbers
from reportgen.readings.sheet import SHEETS, sheet_names, sheet_rows
from reportgen.readings.stamps import NAT, Stamps, read_stamps
from reportgen.readings.table import Hints, Table, read_table
from reportgen.readings.text import NotATable, load_text
from reportgen.readings.time_hints import TimeHints, time_hints

_CLOCK_ONLY = re.compile(r"\d{1,2}[:h]\d{2}(?::\d{2})?(?:\s?[AaPp]\.?[Mm]\.?)?")
_SAMPLE = 40  # rows at the top that are looked at to find what a column holds
MOSTLY = 0.8  # of the sample


@dataclass(frozen=True, kw_only=True, slots=True)
class SniffedColumn:
    """One column. `looks`: time (date and time), date, clock, number, switch, text or empty.

    `measure` and `unit` are guesses from its name (None: no use, or nothing to go by); `doubt` says in words what
    speaks against them, empty if nothing does. low, middle, high are of its numbers as written.
    """

    name: str
    looks: str
    filled: int
    low: float | None = None
    middle: float | None = None
    high: float | None = None
    measure: str | None = None
    unit: str | None = None
    doubt: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sniffed:
    """One file. `kind`: logger (times and numbers), book (dates by hand) or unknown.

    `day_first` None where day and month could be swapped and nothing settles it. first and last are on the clock as
    written. `clock`: "utc", a fixed "+01:00", "local", or None where the file does not show it; `clock_why` in words.
    """

    file: str
    kind: str
    header: tuple[str, ...]
    header_line: int
    delimiter: str
    decimal: str
    sheets: tuple[str, ...]
    rows: int
    columns: tuple[SniffedColumn, ...]
    time: tuple[str, ...]
    time_example: str
    day_first: bool | None
    first: dt.datetime | None
    last: dt.datetime | None
    step_s: float | None
    clock: str | None
    clock_why: str

    @property
    def measures(self) -> tuple[SniffedColumn, ...]:
        """The columns that seem to hold a measure."""
        return tuple(column for column in self.columns if column.measure is not None)


def sniff(path: Path, zone: ZoneInfo | None = None) -> Sniffed | None:
    """What a file seems to hold; None when no table is found in it.

    Args:
        path: A CSV, text or XLSX file.
        zone: The zone the loggers hung in, if known: its clock changes tell a local clock from a fixed one.

    Raises:
        NotATable: The file is empty or no text.
    """
    sheets = tuple(sheet_names(path)) if path.suffix.lower() in SHEETS else ()
    layout, body = _layout(path, bool(sheets))
    if layout is None:
        return None
    names = [name for name in dict.fromkeys(layout.header) if name]
    times, looks = _time_columns(layout, body)
    delimiter = None if sheets else layout.delimiter
    table = read_table(path, times, names, Hints(delimiter=delimiter, skip_rows=layout.line))
    if table is None:
        return None
    stamps = _stamps(table, times)
    hints = time_hints(stamps, zone)
    columns = tuple(_column(name, looks.get(name, ""), table) for name in names)
    return _sniffed(path, table, sheets, columns, times, stamps, hints)


def _sniffed(
    path: Path,
    table: Table,
    sheets: tuple[str, ...],
    columns: tuple[SniffedColumn, ...],
    times: tuple[str, ...],
    stamps: Stamps,
    hints: TimeHints,
) -> Sniffed:
    clocked = any(column.looks in ("time", "clock") for column in columns if column.name in times)
    useful = any(column.measure is not None for column in columns)
    example = next((text for text, _ in stamps.shapes), "")
    return Sniffed(
        file=path.name,
        kind=("logger" if clocked and useful else "book") if times else "unknown",
        header=table.header,
        header_line=table.header_line,
        delimiter=table.delimiter,
        decimal=table.decimal,
        sheets=sheets,
        rows=len(table.lines),
        columns=columns,
        time=times,
        time_example=example,
        day_first=hints.day_first,
        first=hints.first,
        last=hints.last,
        step_s=hints.step_s,
        clock=hints.clock,
        clock_why=hints.clock_why,
    )


def _layout(path: Path, sheet: bool) -> tuple[Layout | None, list[list[str]]]:
    """The most likely header, and the rows below it."""
    if sheet:
        rows = sheet_rows(path, None)[:200]
        return _best({"\t": [row[: limits.COLUMNS.most] for row in rows]})
    lines = head_lines(load_text(path))
    return _best({mark: [split(line, mark)[: limits.COLUMNS.most] for line in lines] for mark in DELIMITERS})


def _best(tables: dict[str, list[list[str]]]) -> tuple[Layout | None, list[list[str]]]:
    """The mark and line below which most rows have as many cells as the header, and readings in them."""
    best: tuple[float, Layout, list[list[str]]] | None = None
    for mark, rows in tables.items():
        for n, row in enumerate(rows[:60]):
            if sum(bool(cell) for cell in row) < 2 or any(_is_reading(cell) for cell in row):
                continue
            below = [cells for cells in rows[n + 1 : n + 1 + _SAMPLE] if any(cells)]
            good = [cells for cells in below if len(cells) >= 2 and any(_is_reading(cell) for cell in cells)]
            fits = sum(abs(len(cells) - len(row)) <= 1 for cells in good)
            score = (fits * min(len(row), 30)) / (len(below) + 1.0)
            if fits and (best is None or score > best[0] * 1.001):
                best = (score, Layout(line=n, header=tuple(row), delimiter=mark), below)
    return (best[1], best[2]) if best else (None, [])


def _is_reading(cell: str) -> bool:
    return re.fullmatch(r"[+-]?\d[\d.,:/\-TZ +]*(?:\s?[APap][Mm])?", cell) is not None


def _time_columns(layout: Layout, body: Sequence[Sequence[str]]) -> tuple[tuple[str, ...], dict[str, str]]:
    """The column or two that hold the time, and what those columns look like."""
    looks = {}
    for place, name in enumerate(layout.header):
        cells = [row[place] for row in body if place < len(row) and row[place]]
        if name and name not in looks and (kind := _time_kind(cells)):
            looks[name] = kind
    whole = [name for name, kind in looks.items() if kind == "time"]
    dates = [name for name, kind in looks.items() if kind == "date"]
    clocks = [name for name, kind in looks.items() if kind == "clock"]
    if whole:
        return (whole[0],), looks
    if dates and clocks:
        return (dates[0], clocks[0]), looks
    return tuple(dates[:1]), looks


def _time_kind(cells: list[str]) -> str:
    if not cells:
        return ""
    if sum(_CLOCK_ONLY.fullmatch(cell) is not None for cell in cells) >= MOSTLY * len(cells):
        return "clock"
    stamps = read_stamps(cells)
    plain_numbers = bool(pd.Series(pd.to_numeric(pd.Series(cells), errors="coerce")).notna().mean() > MOSTLY)
    if float(stamps.readable.mean()) < MOSTLY or (plain_numbers and not _rising_epoch(stamps)):
        return ""
    return "date" if bool((stamps.clock_ms == 0).all()) and not any(":" in cell for cell in cells) else "time"


def _rising_epoch(stamps: Stamps) -> bool:
    """Numbers are times only when they rise and lie in this century."""
    naive = stamps.naive(True)
    known = naive[naive != NAT]
    recent = (stamps.year[stamps.readable] >= 2000) & (stamps.year[stamps.readable] < 2100)
    return len(known) > 1 and bool((np.diff(known) > 0).all()) and bool(recent.all())


def _stamps(table: Table, times: tuple[str, ...]) -> Stamps:
    if not times:
        return read_stamps([])
    parts = [table.columns[name].fillna("").astype(str).str.strip() for name in times if name in table.columns]
    joined = parts[0] if len(parts) == 1 else parts[0] + " " + parts[1]
    return read_stamps(joined.tolist())


def _column(name: str, looks: str, table: Table) -> SniffedColumn:
    if name not in table.columns or looks in ("time", "date", "clock"):
        return SniffedColumn(name=name, looks=looks or "empty", filled=len(table.lines) if looks else 0)
    numbers = to_numbers(table.columns[name], table.decimal, switch=True)
    filled = int((~numbers.blank).sum())
    known = numbers.values[~np.isnan(numbers.values)]
    if not filled:
        return SniffedColumn(name=name, looks="empty", filled=0)
    if len(known) < MOSTLY * filled:
        return SniffedColumn(name=name, looks="text", filled=filled)
    switch = bool(np.isin(known, (0.0, 1.0)).all()) and len(np.unique(known)) == 2
    low, middle, high = float(known.min()), float(np.median(known)), float(known.max())
    measure = measure_of(name)
    if measure in ("heater_on", "fan_on") and not switch:
        measure = None
    unit = unit_in(name, measure)
    return SniffedColumn(
        name=name,
        looks="switch" if switch else "number",
        filled=filled,
        low=low,
        middle=middle,
        high=high,
        measure=measure,
        unit=unit,
        doubt=doubt_of(measure, unit, low, middle, high),
    )


def doubt_of(measure: str | None, unit: str | None, low: float, middle: float, high: float) -> str:
    """What in a column's numbers speaks against its measure or unit, in words; empty if nothing."""
    if measure is None:
        return ""
    if "temperature" in measure and unit in (None, "degC") and (middle > 40 or high > 70):
        return f"half of its values lie above {middle:.0f}: that would be hot in °C and is usual in °F"
    if "humidity" in measure and high <= 1.0:
        return "no value is above 1: it may be a fraction and no percentage"
    if "humidity" in measure and (low < 0 or high > 105):
        return f"values from {low:g} to {high:g} cannot all be a percentage"
    return ""


__all__ = ["NotATable", "Sniffed", "SniffedColumn", "doubt_of", "sniff"]
