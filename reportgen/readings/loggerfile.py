"""One logger file → instants and numbers, row by row, with what could not be read marked."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.disk import Unreadable
from reportgen.readings.clock import to_utc
from reportgen.readings.columns import Column, read_columns
from reportgen.readings.dates import settled_dates
from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import FileRows, Opened
from reportgen.readings.files import Found
from reportgen.readings.ledger import nearest
from reportgen.readings.marks import BAD_TIME, BLANK, NOT_A_READING
from reportgen.readings.mixed import tell_other_header, tell_turns
from reportgen.readings.order import day_order
from reportgen.readings.sheet import SHEETS
from reportgen.readings.stamps import NAT, read_stamps
from reportgen.readings.stray_words import check_run
from reportgen.readings.swap_blocks import direction
from reportgen.readings.table import Table, joined_times, read_table
from reportgen.readings.table_hints import hints_of
from reportgen.readings.time_faults import tell_half_day_clock, tell_missing_hour, tell_unread_times
from reportgen.readings.written import read_by_format
from reportgen.season import Logger, Season
from reportgen.season.sources import shown

FEW, SHARE = 10, 0.01  # cells of a column that are no numbers, and their share, from which it is said; common practice


def open_file(found: Found, logger: Logger, faults: Faults) -> Opened | None:
    """The table of a file and its written times; None when its header or its times cannot be read at all."""
    columns = [column.column for column in logger.measures.values()]
    faults.sheet = (logger.sheet or "") if found.path.suffix.lower() in SHEETS else ""
    try:
        table = read_table(found.path, logger.time_columns, columns, hints_of(logger))
    except Unreadable as error:
        faults.tell(error.slug, error.found, "a table of readings (CSV, XLSX or ODS)", error.todo)
        return None
    faults.sheet = table.sheet if table is not None else faults.sheet
    if not _columns_there(table, logger, faults) or table is None:
        return None
    texts = list(joined_times(table, logger.time_columns).tolist())  # no cell holds a line end
    stamps = read_stamps(texts) if logger.time_format is None else read_by_format(texts, logger.time_format)
    return Opened(found=found, table=table, stamps=stamps, order=day_order(stamps), texts=texts)


def _columns_there(table: Table | None, logger: Logger, faults: Faults) -> bool:
    """Whether the time and at least one value column are there; a missing one is told."""
    wanted = (*logger.time_columns, *(column.column for column in logger.measures.values()))
    if table is None:
        names = ", ".join(dict.fromkeys(map(shown, wanted)))
        todo = "correct the columns of this logger in season.toml; write them as they stand in the file"
        faults.tell("missing-column", "no line that holds any of these names", f"a header with {names}", todo)
        return False
    missing = [column for column in dict.fromkeys(wanted) if column not in table.columns]
    for column in missing:
        _tell_missing(column, table, faults)
    for name in dict.fromkeys(wanted):
        if isinstance(name, str) and table.header.count(name) > 1:
            place = table.header.index(name) + 1
            todo = f"write its place from the left instead of its name (the first of them is {place}), or rename one"
            faults.tell("same-column-twice", f"two columns {name!r}", "one", todo, line=table.header_line, column=name)
    return not missing


def _tell_missing(column: str | int, table: Table, faults: Faults) -> None:
    names = [cell for cell in table.header if cell]
    near = nearest(column, names, 0.0) if isinstance(column, str) else None
    faults.tell(
        "missing-column",
        f"columns {', '.join(names)}",
        f"a column {column!r}" if isinstance(column, str) else f"a column {column}; there are {len(table.header)}",
        f"did you mean {near!r}?" if near else "correct it in season.toml",
        line=table.header_line,
        column=shown(column),
    )


def rows_of(opened: Opened, logger: Logger, season: Season, day_first: bool, faults: Faults) -> FileRows:
    """Instants and numbers of an opened file, once the order of day and month is known."""
    dates = settled_dates(opened, logger, season, day_first, faults)
    way = direction(dates.naive)
    naive, offsets = dates.naive[::way], opened.stamps.offset_ms[::way]
    instants = to_utc(naive, logger.clock, season.zone, offsets)
    columns = read_columns(opened.table, logger, faults)
    timeless = np.asarray([not any(map(str.isdigit, text)) for text in _unread(opened)], dtype=bool)
    not_time = np.zeros(len(naive), dtype=bool)
    not_time[~opened.stamps.readable] = timeless
    rows = FileRows(
        file=opened.found.file,
        lines=opened.table.lines[::way],
        utc=instants.utc,
        values={name: column.values[::way] for name, column in columns.items()},
        codes={name: column.code[::way].copy() for name, column in columns.items()},
        sentinel={name: column.sentinel[::way] for name, column in columns.items()},
        zero={name: column.zero[::way] for name, column in columns.items()},
        interpolated={name: column.interpolated[::way] for name, column in columns.items()},
        clock=_clock_words(logger, season, opened, instants.repeated),
        out_of_order=_backward(instants.utc),
        repeated_hour_once=instants.once,
        missing_hour=int(instants.missing.sum()),
        swaps=dates.swaps,
        stray_units=sum(column.stray for column in columns.values()),
    )
    _mark_times(rows, not_time[::way])
    _tell_some_unread(rows, opened, logger, columns, way, faults)
    tell_unread_times(rows, opened, faults)
    tell_half_day_clock(rows, opened, faults)
    tell_other_header(opened, logger, faults)
    tell_turns(rows, logger, faults)
    if rows.missing_hour:
        tell_missing_hour(rows, naive, instants.missing, opened, faults)
    if not any(fault.level == "problem" for fault in faults.problems):
        check_run(rows, naive, season, faults)
    return rows


def _unread(opened: Opened) -> list[str]:
    return [opened.texts[row] for row in np.flatnonzero(~opened.stamps.readable).tolist()]


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


def _tell_some_unread(
    rows: FileRows, opened: Opened, logger: Logger, columns: Mapping[str, Column], way: int, faults: Faults
) -> None:
    """Cells of rows with a time that are neither numbers nor a word for no reading, where they are more than a few."""
    told = {fault.column for fault in faults.problems if fault.slug == "not-a-number"}
    for measure, column in columns.items():
        odd = np.flatnonzero((rows.codes[measure] == NOT_A_READING) & ~column.absent[::way] & (rows.utc != NAT))
        name = logger.measures[measure].column
        if len(odd) < FEW or len(odd) <= SHARE * len(rows.utc) or shown(name) in told:
            continue
        cells = opened.table.columns[name].iloc[::way].iloc[odd]
        kinds = ", ".join(map(repr, _first(cells)))
        faults.tell(
            "some-not-a-number",
            f"{len(odd)} of {len(rows.utc)} cells such as {kinds}",
            "numbers",
            "if they hold readings, take the signs and words out in a copy of the file; as they are they are set aside",
            line=int(rows.lines[odd].min()),
            column=shown(name),
            level="warning",
        )


def _first(cells: pd.Series) -> list[str]:
    """Three different cells."""
    return list(dict.fromkeys(str(cell).strip()[:30] for cell in cells))[:3]


def _clock_words(logger: Logger, season: Season, opened: Opened, repeated: int) -> str:
    own = opened.stamps.offset_ms[opened.stamps.readable] != NAT
    if len(own) and bool(own.all()):
        words = "each time carries its own offset"
    elif logger.clock == "local" and season.time_zone.removeprefix("Etc/") != "UTC":
        words = f"local time of {season.time_zone}, summer time included"
    else:
        words = "UTC" if logger.clock in ("local", "utc") else f"fixed at UTC{logger.clock}"
    if opened.order.why:
        words += f"; {opened.order.why}"
    if repeated:
        words += "; the hour that comes twice told apart by order"
    return words
