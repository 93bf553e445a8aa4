"""One logger file as a table of its declared columns: numbers where a column is all numbers, else the cells as text."""

from __future__ import annotations

import csv
import io
import warnings
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.layout import SEARCHED, Layout, find_layout, head_lines, split
from reportgen.readings.number_marks import marks_of, without_marks
from reportgen.readings.sheet import SHEETS, sheet_rows
from reportgen.readings.text import NotATable, load_text

LOOKED_AT = 200_000  # bytes in which the marks of the numbers are looked for
Address = str | int  # a column's name, or its place from the left, counted from 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Hints:
    """What season.toml says of the file; None is worked out."""

    delimiter: str | None = None
    decimal: str | None = None
    encoding: str | None = None
    skip_rows: int | None = None
    sheet: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Table:
    """The non-blank lines below the header.

    `columns`: by wanted name or place, float64 with NaN for a blank cell, or text with NaN for one; a column the file
    lacks is not there. `lines`: the line of each row, from 1. `sheet`: of a workbook, the sheet that was read.
    """

    header: tuple[str, ...]
    header_line: int
    delimiter: str
    decimal: str
    lines: NDArray[np.int64]
    columns: Mapping[str | int, pd.Series]
    sheet: str = ""


def read_table(path: Path, times: Sequence[Address], values: Sequence[Address], hints: Hints) -> Table | None:
    """The wanted columns of a file, by name or place from 1; None when no line holds any of their names.

    Raises:
        NotATable: The file is empty or no table.
    """
    wanted = [*dict.fromkeys([*times, *values])]
    if path.suffix.lower() in SHEETS:
        return _of_sheet(path, wanted, values, hints)
    text = load_text(path, hints.encoding)
    if text.startswith(b"PK\x03\x04"):
        raise NotATable("a packed file", "unpack it and put the CSV into the folder")
    layout = find_layout(head_lines(text), wanted, hints.delimiter, hints.skip_rows)
    if layout is None:
        return None
    start = _offset(text, layout.line + 1)
    _refuse_unquoted_commas(text[start : start + 20_000], layout)
    marks = marks_of(_cells(text, start, layout, values), hints.decimal)
    frame = _fast(text, start, layout, wanted, [*times, *marks.grouped], marks.decimal)
    if frame is None:
        frame = _by_line(text[start:], layout, wanted)
    for column in marks.grouped:
        frame[column] = without_marks(frame[column], marks.grouped[column])
    lines = np.arange(len(frame), dtype=np.int64) + layout.line + 2
    keep = _not_blank(frame, text, start)
    if not keep.all():
        frame, lines = frame.loc[keep].reset_index(drop=True), lines[keep]
    return Table(
        header=layout.header,
        header_line=layout.line + 1,
        delimiter=layout.delimiter,
        decimal=marks.decimal,
        lines=lines,
        columns={column: frame[column] for column in wanted if column in frame},
    )


def _offset(text: bytes, lines: int) -> int:
    """Where the line after that many lines begins."""
    at = 0
    for _ in range(lines):
        end = text.find(b"\n", at)
        if end < 0:
            return len(text)
        at = end + 1
    return at


def _cells(text: bytes, start: int, layout: Layout, values: Sequence[Address]) -> dict[Address, list[str]]:
    """The cells of each value column in the first and the last rows: a heater runs at the one end or the other."""
    places = {name: place for name in values if (place := layout.place(name)) is not None}
    lines = head_lines(text[start : start + LOOKED_AT], 500)
    if len(text) - start > LOOKED_AT:
        lines += head_lines(text[max(start, len(text) - LOOKED_AT // 10) :], 500)[1:]
    rows = [split(line, layout.delimiter) for line in lines]
    return {name: [row[place] for row in rows if place < len(row)] for name, place in places.items()}


def _refuse_unquoted_commas(head: bytes, layout: Layout) -> None:
    """Decimal commas between commas, without quotes: nobody can tell which comma parts two cells."""
    if layout.delimiter != ",":
        return
    rows = [row for line in head_lines(head, 50) if any(row := split(line, ","))]
    long = [row for row in rows if any(row[len(layout.header) :]) and not any("." in cell for cell in row[1:])]
    if rows and len(long) > len(rows) / 2:
        found = f"rows of {len(long[0])} cells under a header of {len(layout.header)}, as decimal commas make"
        raise NotATable(found, "export it with semicolons between the cells, or with decimal points", "too-many-cells")


def _fast(
    text: bytes, start: int, layout: Layout, wanted: Sequence[Address], times: Sequence[Address], decimal: str
) -> pd.DataFrame | None:
    """The C reader on the whole text; None when quoted cells run over line ends, or it gives up."""
    places = {name: place for name in wanted if (place := layout.place(name)) is not None}
    by_place = sorted(set(places.values()))
    quoted = text.find(b'"', start) >= 0
    body = io.BytesIO(text)
    body.seek(start)
    count = text.count(b"\n", start) + (not text.endswith(b"\n"))
    if count == 0 or start >= len(text):
        return pd.DataFrame({name: pd.Series(dtype=np.float64) for name in places})
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", pd.errors.ParserWarning)  # trailing cells beyond the header are left
            frame = pd.read_csv(
                body,
                sep=layout.delimiter,
                header=None,
                names=list(range(by_place[-1] + 1)),
                usecols=by_place,
                index_col=False,
                dtype={places[name]: str for name in times if name in places},
                decimal=decimal,
                na_values=[""],
                keep_default_na=False,
                skip_blank_lines=False,
                skipinitialspace=True,
                quoting=csv.QUOTE_MINIMAL if quoted else csv.QUOTE_NONE,
                low_memory=False,
                encoding_errors="replace",
            )
    except (pd.errors.ParserError, ValueError, OverflowError):
        return None
    if len(frame) != count:
        return None
    return pd.DataFrame({name: frame[place] for name, place in places.items()}, copy=False)


def _by_line(body: bytes, layout: Layout, wanted: Sequence[Address]) -> pd.DataFrame:
    """Line by line, each by itself: a quote that never closes spoils its own line only."""
    places = {name: place for name in wanted if (place := layout.place(name)) is not None}
    lines = body.decode("utf-8", errors="replace").split("\n")
    if lines and lines[-1] == "":
        lines.pop()
    rows = [split(line, layout.delimiter) for line in lines]
    return pd.DataFrame(
        {
            name: pd.Series([row[place] if place < len(row) and row[place] else None for row in rows], dtype=str)
            for name, place in places.items()
        }
    )


def _not_blank(frame: pd.DataFrame, text: bytes, start: int) -> NDArray[np.bool_]:
    """Rows with something on their line: a blank line, or one of separators alone, is no row."""
    keep = ~frame.isna().all(axis=1).to_numpy()
    doubtful = np.flatnonzero(~keep)
    if len(doubtful):
        ends = np.flatnonzero(np.frombuffer(text, dtype=np.uint8)[start:] == 10) + start
        edges = np.concatenate([[start], ends + 1, [len(text) + 1]])
        for row in doubtful:
            keep[row] = bool(text[edges[row] : edges[row + 1]].strip(b' \t\n,;|"'))
    return keep


def sheet_lines(rows: Sequence[Sequence[str]]) -> list[str]:
    """The first rows of a sheet as lines of text, parted by tabs."""
    return ["\t".join(cell.replace("\t", " ") for cell in row) for row in rows[:SEARCHED]]


def _decimal_of_texts(columns: Sequence[pd.Series]) -> str:
    """The mark of decimals in a sheet: a point, as its numbers come out, but where they are all texts with commas."""
    cells = [str(cell) for column in columns for cell in column.dropna()]
    return "," if any("," in cell for cell in cells) and not any("." in cell for cell in cells) else "."


def _of_sheet(path: Path, wanted: Sequence[Address], values: Sequence[Address], hints: Hints) -> Table | None:
    name, rows = sheet_rows(path, hints.sheet)
    layout = find_layout(sheet_lines(rows), wanted, "\t", hints.skip_rows)
    if layout is None:
        return None
    body = rows[layout.line + 1 :]
    keep = np.asarray([any(row) for row in body], dtype=bool)
    lines = (np.arange(len(body), dtype=np.int64) + layout.line + 2)[keep]
    kept = [row for row, good in zip(body, keep, strict=True) if good]
    columns = {
        name: pd.Series([row[place] if place < len(row) and row[place] else None for row in kept], dtype=str)
        for name in wanted
        if (place := layout.place(name)) is not None
    }
    return Table(
        header=layout.header,
        header_line=layout.line + 1,
        delimiter="",
        decimal=hints.decimal or _decimal_of_texts([columns[one] for one in values if one in columns]),
        lines=lines,
        columns=columns,
        sheet=name,
    )


def joined_times(table: Table, times: Sequence[Address]) -> pd.Series:
    """The text of each row's time: one column as it stands, several joined by a space. A workbook's date brings a
    midnight along, which is left out before a time of day."""
    parts = [table.columns[column].fillna("").astype(str) for column in times]
    if len(parts) == 1:
        return parts[0]
    parts = [part.str.strip() for part in parts]
    joined = parts[0].str.removesuffix(" 00:00:00")
    for part in parts[1:]:
        joined = joined + " " + part
    return joined
