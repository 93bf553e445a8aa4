"""One logger file → instants and numbers, row by row, with what could not be read marked."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.problems import Level, Problem
from reportgen.readings.clock import to_utc
from reportgen.readings.digits import Ints
from reportgen.readings.files import Found
from reportgen.readings.ledger import nearest
from reportgen.readings.marks import BAD_TIME, BLANK, NOT_A_READING, USED, Codes
from reportgen.readings.numbers import Floats, to_numbers
from reportgen.readings.order import Order, day_order
from reportgen.readings.sentinels import sentinels
from reportgen.readings.stamps import NAT, Stamps, read_stamps
from reportgen.readings.table import Hints, Table, read_table
from reportgen.readings.text import NotATable
from reportgen.readings.written import read_by_format
from reportgen.season import Logger, MeasureColumn, Season
from reportgen.units import MEASURES, convert

SWITCHES = ("heater_on", "fan_on")
HALF = 0.5  # more than half of a column unreadable: the column is not what season.toml says; common practice


@dataclass(kw_only=True, slots=True)
class FileRows:
    """Rows of one file in the order of its times: line, instant [ms UTC, NAT if none], value and code by measure."""

    file: str
    lines: Ints
    utc: Ints
    values: Mapping[str, Floats]
    codes: dict[str, Codes]
    sentinel: Mapping[str, NDArray[np.bool_]]
    zero: Mapping[str, NDArray[np.bool_]]  # 0 as written, before units and offset
    clock: str
    out_of_order: int = 0
    repeated_hour: int = 0
    repeated_hour_once: int = 0
    missing_hour: int = 0
    swapped: int = 0
    stray_units: int = 0


@dataclass(kw_only=True, slots=True)
class Opened:
    """A file of which the table and the written times are read, but not yet the order of day and month."""

    found: Found
    table: Table
    stamps: Stamps
    order: Order
    texts: Sequence[str]


class Faults:
    """Problems and warnings of one file, gathered while it is read."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def tell(
        self,
        slug: str,
        found: str,
        expected: str,
        todo: str,
        *,
        line: int | None = None,
        column: str | None = None,
        level: Level = "problem",
    ) -> None:
        """Notes one."""
        self.problems.append(
            Problem(
                slug=slug,
                file=self.file,
                line=line,
                column=column,
                found=found,
                expected=expected,
                todo=todo,
                level=level,
            )
        )


def open_file(found: Found, logger: Logger, faults: Faults) -> Opened | None:
    """The table of a file and its written times; None when its header or its times cannot be read at all."""
    columns = [column.column for column in logger.measures.values()]
    hints = Hints(
        delimiter=logger.delimiter,
        decimal=logger.decimal,
        encoding=logger.encoding,
        skip_rows=logger.skip_rows,
        sheet=logger.sheet,
    )
    try:
        table = read_table(found.path, logger.time_columns, columns, hints)
    except NotATable as error:
        faults.tell(error.slug, error.found, "a table of readings (CSV or XLSX)", error.todo)
        return None
    except OSError as error:
        todo = "close the program that has it open, or copy the file again"
        faults.tell("missing-file", f"a file that cannot be opened ({error.strerror})", "a readable file", todo)
        return None
    if not _columns_there(table, logger, faults) or table is None:
        return None
    texts = _time_texts(table, logger.time_columns)
    stamps = read_stamps(texts) if logger.time_format is None else read_by_format(texts, logger.time_format)
    return Opened(found=found, table=table, stamps=stamps, order=day_order(stamps), texts=texts)


def _columns_there(table: Table | None, logger: Logger, faults: Faults) -> bool:
    """Whether the time and at least one value column are there; a missing one is told."""
    wanted = (*logger.time_columns, *(column.column for column in logger.measures.values()))
    if table is None:
        names = ", ".join(dict.fromkeys(wanted))
        todo = "correct the columns of this logger in season.toml; write them as they stand in the file"
        faults.tell("missing-column", "no line that holds any of these names", f"a header with {names}", todo)
        return False
    missing = [name for name in dict.fromkeys(wanted) if name not in table.columns]
    for name in missing:
        near = nearest(name, [cell for cell in table.header if cell], 0.0)
        faults.tell(
            "missing-column",
            f"columns {', '.join(cell for cell in table.header if cell)}",
            f"a column {name!r}",
            f"did you mean {near!r}?" if near else "correct the name in season.toml",
            line=table.header_line,
            column=name,
        )
    for name in dict.fromkeys(wanted):
        if table.header.count(name) > 1:
            todo = "rename one of them in the file, or name another column in season.toml"
            faults.tell("same-column-twice", f"two columns {name!r}", "one", todo, line=table.header_line, column=name)
    return not missing


def _time_texts(table: Table, names: Sequence[str]) -> list[str]:
    parts = [table.columns[name].fillna("").astype(str) for name in names]
    joined = parts[0] if len(parts) == 1 else parts[0].str.strip() + " " + parts[1].str.strip()
    return [text if "\n" not in text else text.replace("\n", " ") for text in joined.tolist()]


def rows_of(opened: Opened, logger: Logger, season: Season, day_first: bool, faults: Faults) -> FileRows:
    """Instants and numbers of an opened file, once the order of day and month is known."""
    naive = opened.stamps.naive(day_first)
    direction = _direction(naive)
    naive, offsets = naive[::direction], opened.stamps.offset_ms[::direction]
    instants = to_utc(naive, logger.clock, season.zone, offsets)
    columns = _columns(opened.table, logger, faults)
    timeless = np.asarray([not any(map(str.isdigit, text)) for text in _unread(opened)], dtype=bool)
    not_time = np.zeros(len(naive), dtype=bool)
    not_time[~opened.stamps.readable] = timeless
    rows = FileRows(
        file=opened.found.file,
        lines=opened.table.lines[::direction],
        utc=instants.utc,
        values={name: column.values[::direction] for name, column in columns.items()},
        codes={name: column.code[::direction].copy() for name, column in columns.items()},
        sentinel={name: column.sentinel[::direction] for name, column in columns.items()},
        zero={name: column.zero[::direction] for name, column in columns.items()},
        clock=_clock_words(logger, season, opened, instants.repeated),
        out_of_order=_backward(instants.utc),
        repeated_hour=instants.repeated,
        repeated_hour_once=instants.once,
        missing_hour=int(instants.missing.sum()),
        stray_units=sum(column.stray for column in columns.values()),
    )
    _mark_times(rows, not_time[::direction])
    _tell_unread_times(rows, opened, faults)
    return rows


def _unread(opened: Opened) -> list[str]:
    return [opened.texts[row] for row in np.flatnonzero(~opened.stamps.readable).tolist()]


def _direction(naive: Ints) -> int:
    """−1 for a file that is written newest first."""
    known = naive[naive != NAT]
    return -1 if len(known) > 1 and float(np.mean(np.diff(known) < 0)) > HALF else 1


def _backward(utc: Ints) -> int:
    known = utc[utc != NAT]
    return int((np.diff(known) < 0).sum())


def _mark_times(rows: FileRows, not_time: NDArray[np.bool_]) -> None:
    """Marks the values of rows that have no time; a row in which nothing is a number was no reading to begin with."""
    nothing = np.logical_and.reduce([(code == BLANK) | (code == NOT_A_READING) for code in rows.codes.values()])
    bad = rows.utc == NAT
    for code in rows.codes.values():
        filled = code != BLANK
        code[filled & bad] = BAD_TIME
        code[filled & (not_time | nothing)] = NOT_A_READING


def _tell_unread_times(rows: FileRows, opened: Opened, faults: Faults) -> None:
    """A file in which most times cannot be read has the wrong time column or format."""
    unread = ~opened.stamps.readable
    if len(unread) and float(unread.mean()) > HALF:
        row = int(np.flatnonzero(unread)[0])
        faults.tell(
            "unreadable-time",
            f"{opened.texts[row].strip()!r} ({int(unread.sum())} of {len(unread)} rows)",
            "a date and time such as 2026-01-14 18:30",
            "name the right `time` column, or write `time_format` for this logger in season.toml",
            line=int(opened.table.lines[row]),
        )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Column:
    """One declared column in its kept unit; `stray` counts cells that carry another unit of their own."""

    values: Floats
    code: Codes
    sentinel: NDArray[np.bool_]
    zero: NDArray[np.bool_]
    stray: int


def _columns(table: Table, logger: Logger, faults: Faults) -> dict[str, _Column]:
    """Every declared column by its measure, with blank and unreadable cells coded."""
    found = {}
    for measure, column in logger.measures.items():
        numbers = to_numbers(table.columns[column.column], table.decimal, measure in SWITCHES)
        code = np.where(numbers.blank, np.uint8(BLANK), np.uint8(USED))
        code[np.isnan(numbers.values) & ~numbers.blank] = NOT_A_READING
        _tell_unread_values(table, column.column, code, faults)
        unit, stray = unit_of(measure, column), 0
        values = convert(numbers.values + column.offset, unit, MEASURES[measure].kept)
        for own, rows in numbers.units.items():
            if own in MEASURES[measure].accepted and own != unit:
                values[rows] = convert(numbers.values[rows], own, MEASURES[measure].kept)
                stray += int(rows.sum())
        found[measure] = _Column(
            values=values,
            code=code,
            sentinel=sentinels(numbers.values, measure, unit),
            zero=numbers.values == 0,
            stray=stray,
        )
    return found


def _tell_unread_values(table: Table, column: str, code: Codes, faults: Faults) -> None:
    filled, bad = int((code != BLANK).sum()), int((code == NOT_A_READING).sum())
    if bad > HALF * filled:
        row = int(np.flatnonzero(code == NOT_A_READING)[0])
        faults.tell(
            "not-a-number",
            f"{table.columns[column].iloc[row]!r} ({bad} of {filled} cells)",
            "numbers",
            "name the right column in season.toml, or set `decimal` for this logger",
            line=int(table.lines[row]),
            column=column,
        )


_HEADER_UNITS = (
    (re.compile(r"(?:°|º|deg\s*)\s*f\b|℉|[(\[_/ ]f[)\]]?$|fahrenheit", re.I), "degF"),
    (re.compile(r"(?:°|º|deg\s*)\s*c\b|℃|[(\[_/ ]c[)\]]?$|celsius", re.I), "degC"),
)


def header_unit(name: str) -> str | None:
    """The temperature unit that a column's name shows, if any."""
    return next((unit for pattern, unit in _HEADER_UNITS if pattern.search(name.strip())), None)


def unit_of(measure: str, column: MeasureColumn) -> str:
    """The unit of a column: as declared, else as its header shows, else the unit in which the measure is kept."""
    if column.unit is not None:
        return column.unit
    shown = header_unit(column.column)
    return shown if shown in MEASURES[measure].accepted else MEASURES[measure].kept


def _clock_words(logger: Logger, season: Season, opened: Opened, repeated: int) -> str:
    own = opened.stamps.offset_ms[opened.stamps.readable] != NAT
    if len(own) and bool(own.all()):
        words = "each time carries its own offset"
    elif logger.clock == "local":
        words = f"local time of {season.time_zone}, summer time included"
    else:
        words = "UTC" if logger.clock == "utc" else f"fixed at UTC{logger.clock}"
    if opened.order.why:
        words += f"; {opened.order.why}"
    if repeated:
        words += "; the hour that comes twice told apart by order"
    return words
