"""Looks at one file of which nothing is known: its columns, what they may hold, its times. Guesses, told as such."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from reportgen import limits
from reportgen.readings.by_day import readings_by_day, sums_by_day
from reportgen.readings.column_doubts import doubt_of
from reportgen.readings.digits import Ints
from reportgen.readings.header_words import loose, measure_of, unit_in
from reportgen.readings.layout import DELIMITERS, MOSTLY, Layout, head_lines, likely_layout, split
from reportgen.readings.numbers import Floats, to_numbers
from reportgen.readings.order import day_order
from reportgen.readings.sheet import SHEETS, sheet_names, sheet_rows
from reportgen.readings.stamps import NAT, Stamps, read_stamps
from reportgen.readings.table import Address, Hints, Table, joined_times, read_table, sheet_lines
from reportgen.readings.text import NotATable, load_text
from reportgen.readings.time_columns import TimeColumns, addresses, find_times
from reportgen.readings.time_hints import TimeHints, time_hints, with_heading, with_preamble
from reportgen.readings.time_text import format_of
from reportgen.readings.written import read_by_format
from reportgen.season.sources import LONGEST_NAME

_VALUE = re.compile(r"values?|readings?|wert|state|data|hodnota|valeur|valor|valore|waarde", re.I)
RISES = 0.9  # share of the changes of a running counter that go up: it may begin again each day
COUNTS_ROWS = 0.9  # a column of which this share of the steps is exactly 1 numbers the rows


@dataclass(frozen=True, kw_only=True, slots=True)
class SniffedColumn:
    """One column. `looks`: time (date and time), date, clock, part (of a time), number, switch, text or empty.

    `address` is how season.toml can name it. `measure` and `unit` are guesses from its name (None: no use, or nothing
    to go by); `doubt` says in words what speaks against them, empty if nothing does. low, middle, high are of its
    numbers as written. `runs_up`: a running counter. `loose`: a temperature of a probe that may hang anywhere. `days`:
    readings by day, on the clock of the house; `sums`: what they add up to, as written.
    """

    name: str
    address: str | int
    looks: str
    filled: int
    low: float | None = None
    middle: float | None = None
    high: float | None = None
    measure: str | None = None
    unit: str | None = None
    doubt: str = ""
    runs_up: bool = False
    loose: bool = False
    days: Mapping[dt.date, int] = field(default_factory=dict)
    sums: Mapping[dt.date, float] = field(default_factory=dict, repr=False)


@dataclass(frozen=True, kw_only=True, slots=True)
class Sniffed:
    """One file, or one sheet of a workbook. `kind`: logger (times and numbers), book (dates by hand) or unknown.

    `time`: how season.toml can name the columns of the time; `time_format` is None where it is understood without.

    `day_first` None where day and month could be swapped and nothing settles it. first and last are on the clock as
    written. `clock`: "utc", a fixed "+01:00", "local", or None where the file does not show it; `clock_why` in words.
    """

    file: str
    kind: str
    header: tuple[str, ...]
    header_line: int
    delimiter: str
    decimal: str
    sheet: str
    rows: int
    columns: tuple[SniffedColumn, ...]
    time: tuple[str | int, ...]
    time_format: str | None
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


def sheets_of(path: Path) -> tuple[str | None, ...]:
    """The sheets of a workbook; None alone for a text file.

    Raises:
        NotATable: It is a workbook and cannot be opened.
    """
    return tuple(sheet_names(path)) if path.suffix.lower() in SHEETS else (None,)


def sniff(
    path: Path, zone: ZoneInfo | None = None, sheet: str | None = None, day_first: bool | None = None
) -> Sniffed | None:
    """What a file seems to hold; None when no table is found in it.

    Args:
        path: A CSV, text, XLSX or ODS file.
        zone: The zone the loggers hung in, if known: its clock changes tell a local clock from a fixed one.
        sheet: Of a workbook, the sheet to look at; the first when None.
        day_first: Whether the day comes first, where the file leaves it open and somebody knows.

    Raises:
        NotATable: The file is empty or no text.
    """
    layout, body = _layout(path, sheet)
    if layout is None:
        return None
    places = addresses(layout.header, LONGEST_NAME)
    times = find_times(layout, body, places)
    delimiter = None if path.suffix.lower() in SHEETS else layout.delimiter
    hints = Hints(delimiter=delimiter, skip_rows=layout.line, sheet=sheet)
    table = read_table(path, times.columns, [column for column in places if column not in times.columns], hints)
    if table is None:
        return None
    stamps, time_format = _stamps(table, times, day_first)
    naive = stamps.naive(_first(stamps, day_first)) if times.columns else np.full(len(table.lines), NAT)
    local = _on_the_wall(naive, stamps, zone)
    named = zip(table.header, places, strict=True)
    columns = tuple(_column(name, column, times.looks.get(column, ""), table, local) for name, column in named)
    columns = _named_by_file(columns, path.stem)
    hints_of_times = with_heading(time_hints(stamps, zone, day_first), times.columns)
    hints_of_times = with_preamble(hints_of_times, _above(path, layout.line))
    return _sniffed(path, table, columns, times.columns, time_format, stamps, hints_of_times)


def _sniffed(
    path: Path,
    table: Table,
    columns: tuple[SniffedColumn, ...],
    times: tuple[Address, ...],
    time_format: str | None,
    stamps: Stamps,
    hints: TimeHints,
) -> Sniffed:
    clocked = any(column.looks in ("time", "clock", "part") for column in columns if column.address in times)
    useful = any(column.measure is not None or column.runs_up or column.loose for column in columns)
    return Sniffed(
        file=path.name,
        kind=("logger" if clocked and useful else "book") if times else "unknown",
        header=table.header,
        header_line=table.header_line,
        delimiter=table.delimiter,
        decimal=table.decimal,
        sheet=table.sheet,
        rows=len(table.lines),
        columns=columns,
        time=times,
        time_format=time_format,
        time_example=next((text for text, _ in stamps.shapes), ""),
        day_first=hints.day_first,
        first=hints.first,
        last=hints.last,
        step_s=hints.step_s,
        clock=hints.clock,
        clock_why=hints.clock_why,
    )


def _layout(path: Path, sheet: str | None) -> tuple[Layout | None, list[list[str]]]:
    """The most likely header, and the rows below it."""
    most = limits.COLUMNS.most
    if path.suffix.lower() in SHEETS:
        return likely_layout({"\t": [split(line, "\t")[:most] for line in sheet_lines(sheet_rows(path, sheet)[1])]})
    lines = head_lines(load_text(path))
    return likely_layout({mark: [split(line, mark)[:most] for line in lines] for mark in DELIMITERS})


def _above(path: Path, line: int) -> list[str]:
    """The lines above the header of a text."""
    return [] if path.suffix.lower() in SHEETS or not line else head_lines(load_text(path), line)


def _stamps(table: Table, times: TimeColumns, day_first: bool | None) -> tuple[Stamps, str | None]:
    """The times of the rows, and the format that season.toml has to name for them, if any."""
    if not times.columns:
        return read_stamps([]), None
    texts = joined_times(table, times.columns).tolist()
    if times.format is None:
        return read_stamps(texts), None
    if not times.dated:
        return read_by_format(texts, times.format), times.format
    dates = read_stamps(table.columns[times.columns[0]].fillna("").astype(str).str.strip().tolist())
    example = next((text for text, _ in dates.shapes), "")
    written = format_of(example, _first(dates, day_first))
    if written is None:
        return dates, None
    stamps = read_by_format(texts, f"{written} {times.format}")
    if day_order(dates).day_first is None and day_first is None:
        stamps.shapes = dates.shapes
    return stamps, f"{written} {times.format}"


def _first(stamps: Stamps, day_first: bool | None) -> bool:
    """Whether the day comes first: as the column shows, as somebody said, else as most of the world writes."""
    shown = day_order(stamps).day_first
    return shown if shown is not None else day_first is not False


def _on_the_wall(naive: Ints, stamps: Stamps, zone: ZoneInfo | None) -> Ints:
    """Times that carry their offset from UTC on the clock of the house; others as they are written."""
    known = (naive != NAT) & (stamps.offset_ms != NAT) if len(stamps.offset_ms) == len(naive) else np.zeros(0, bool)
    if zone is None or not known.any():
        return naive
    utc = pd.DatetimeIndex((naive[known] - stamps.offset_ms[known]).astype("datetime64[ms]")).tz_localize("UTC")
    local = naive.copy()
    local[known] = utc.tz_convert(zone).tz_localize(None).to_numpy().astype("datetime64[ms]").astype(np.int64)
    return local


def _column(name: str, address: Address, looks: str, table: Table, naive: Ints) -> SniffedColumn:
    if address not in table.columns or looks in ("time", "date", "clock", "part"):
        return SniffedColumn(
            name=name, address=address, looks=looks or "empty", filled=len(table.lines) if looks else 0
        )
    numbers = to_numbers(table.columns[address], table.decimal, switch=True)
    filled = int((~numbers.blank & ~numbers.absent).sum())
    there = ~np.isnan(numbers.values)
    known = numbers.values[there]
    if not filled:
        return SniffedColumn(name=name, address=address, looks="empty", filled=0)
    if len(known) < MOSTLY * filled:
        return SniffedColumn(name=name, address=address, looks="text", filled=filled)
    switch = bool(np.isin(known, (0.0, 1.0)).all()) and len(np.unique(known)) == 2
    low, middle, high = float(known.min()), float(np.median(known)), float(known.max())
    counter = runs_up(numbers.values, naive)
    measure, doubt = _measure(name, switch, counter, (low, middle, high))
    probe = loose(name) and not counter
    return SniffedColumn(
        name=name,
        address=address,
        looks="switch" if switch else "number",
        filled=filled,
        low=low,
        middle=middle,
        high=high,
        measure=measure,
        unit=unit_in(name, "air_temperature" if probe else measure),
        doubt=doubt,
        runs_up=counter,
        loose=probe,
        days=readings_by_day(naive[there]),
        sums=sums_by_day(naive[there], known),
    )


def _named_by_file(columns: tuple[SniffedColumn, ...], stem: str) -> tuple[SniffedColumn, ...]:
    """The columns; where there is one of numbers only and its name says nothing (value), the file's name says it."""
    numbers = [column for column in columns if column.looks in ("number", "switch")]
    if len(numbers) != 1 or numbers[0].measure is not None or numbers[0].doubt or not _VALUE.fullmatch(numbers[0].name):
        return columns
    one = numbers[0]
    level = (one.low or 0.0, one.middle or 0.0, one.high or 0.0)
    measure, doubt = _measure(stem, one.looks == "switch", one.runs_up, level)
    told = replace(one, measure=measure, unit=unit_in(stem, measure), doubt=doubt)
    return tuple(told if column is one else column for column in columns)


def _measure(name: str, switch: bool, counter: bool, level: tuple[float, float, float]) -> tuple[str | None, str]:
    """What a column seems to hold, and what speaks against it; None where its numbers say that it cannot."""
    measure = measure_of(name)
    if measure in ("heater_on", "fan_on") and not switch:
        return None, ""
    if measure == "heater_energy" and not counter:
        return None, "its numbers fall again and again: what was used in each step, no running counter"
    if measure is None and counter and unit_in(name, "heater_energy") is not None:
        measure = "heater_energy"
    return measure, doubt_of(measure, unit_in(name, measure), *level)


def runs_up(values: Floats, naive: Ints) -> bool:
    """Whether a column runs up like a meter: it rises when it changes, and does not simply number the rows."""
    known = ~np.isnan(values) & (naive != NAT)
    line = values[known][np.argsort(naive[known], kind="stable")]
    steps = np.diff(line)
    moves = steps[steps != 0]
    if len(moves) < 3 or line[0] < 0 or line[-1] <= line[0]:
        return False
    return float(np.mean(moves > 0)) >= RISES and float(np.mean(steps == 1)) < COUNTS_ROWS


__all__ = ["NotATable", "Sniffed", "SniffedColumn", "doubt_of", "sheets_of", "sniff"]
