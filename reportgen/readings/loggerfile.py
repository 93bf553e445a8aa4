"""One logger file → instants and numbers, row by row, with what could not be read marked."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from reportgen.disk import Unreadable
from reportgen.readings.clock import to_utc
from reportgen.readings.columns import read_columns
from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.files import Found
from reportgen.readings.ledger import nearest
from reportgen.readings.marks import BAD_TIME, BLANK, NOT_A_READING
from reportgen.readings.order import day_order
from reportgen.readings.rows import FileRows, Opened
from reportgen.readings.stamps import NAT, read_stamps
from reportgen.readings.swapped import Righted, put_right
from reportgen.readings.table import Hints, Table, read_table
from reportgen.readings.time_faults import tell_half_day_clock, tell_missing_hour, tell_open_order, tell_unread_times
from reportgen.readings.written import read_by_format
from reportgen.season import Logger, Season

HALF = 0.5  # more than half of a column unreadable: the column is not what season.toml says; common practice


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
    except Unreadable as error:
        faults.tell(error.slug, error.found, "a table of readings (CSV or XLSX)", error.todo)
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
    return list(joined.tolist())  # no cell holds a line end: the table was read line by line


def rows_of(opened: Opened, logger: Logger, season: Season, day_first: bool, faults: Faults) -> FileRows:
    """Instants and numbers of an opened file, once the order of day and month is known."""
    righted = put_right(opened.stamps, day_first, opened.order.mixed)
    if logger.time_format is not None:  # what season.toml says is not put right
        righted = Righted(naive=opened.stamps.naive(day_first), rows=0, settled=True)
    if not righted.settled:
        tell_open_order(opened, faults)
    naive = righted.naive
    direction = _direction(naive)
    naive, offsets = naive[::direction], opened.stamps.offset_ms[::direction]
    instants = to_utc(naive, logger.clock, season.zone, offsets)
    columns = read_columns(opened.table, logger, faults)
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
        repeated_hour_once=instants.once,
        missing_hour=int(instants.missing.sum()),
        swapped=righted.rows,
        stray_units=sum(column.stray for column in columns.values()),
    )
    _mark_times(rows, not_time[::direction])
    tell_unread_times(rows, opened, faults)
    tell_half_day_clock(rows, opened, faults)
    if rows.missing_hour:
        tell_missing_hour(rows, naive, instants.missing, opened, faults)
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
