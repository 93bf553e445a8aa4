"""Where the table in a text begins: which mark parts its cells, which line is its header."""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from reportgen import limits
from reportgen.disk import too_much
from reportgen.readings.header_words import fits_cell, measure_of, names_time

DELIMITERS = ",;\t|"
SEARCHED = 200  # lines in which the header is looked for
SAMPLE = 40  # rows at the top that are looked at to find what a column holds
MOSTLY = 0.8  # of the sample


@dataclass(frozen=True, kw_only=True, slots=True)
class Layout:
    """The header: its line (from 0), its cells, and the mark between them."""

    line: int
    header: tuple[str, ...]
    delimiter: str

    def place(self, column: str | int) -> int | None:
        """Where a column stands: by its exact name, else whatever its case and spaces, or as counted from 1; None if
        it is not there."""
        return place_of(column, self.header)


def bare(name: str) -> str:
    """A name as it is compared: no case, no doubled or outer spaces."""
    return " ".join(name.casefold().replace("\ufeff", "").split())


def place_of(column: str | int, header: Sequence[str]) -> int | None:
    """Index of the column of that name, the first of several, or of that place counted from 1; None if none."""
    if isinstance(column, int):
        return column - 1 if column <= len(header) else None
    if column in header:
        return list(header).index(column)
    plain = [bare(cell) for cell in header]
    return plain.index(bare(column)) if bare(column) in plain else None


def head_lines(text: bytes, count: int = SEARCHED) -> list[str]:
    """The first lines of a text, the last one perhaps cut."""
    lines, start = [], 0
    for _ in range(count):
        end = text.find(b"\n", start)
        stop = end if end >= 0 else len(text)
        if start >= len(text):
            break
        lines.append(text[start : min(stop, start + limits.HEADER.most)].decode("utf-8", errors="replace"))
        start = stop + 1
    return lines


def split(line: str, delimiter: str) -> list[str]:
    """The cells of one line; quotes that never close hold only to the line's end."""
    try:
        row = next(csv.reader([line], delimiter=delimiter), [])
    except csv.Error:
        row = line.split(delimiter)
    return [cell.strip() for cell in row]


def find_layout(
    lines: Sequence[str], wanted: Sequence[str | int], delimiter: str | None = None, skip_rows: int | None = None
) -> Layout | None:
    """The line and mark with which most of the wanted columns are found; None when none is.

    Columns that are all given by place name no header: the likeliest one is taken.

    Raises:
        Unreadable: None is, and some line has more cells than limits.COLUMNS; or the line is longer than limits.HEADER.
    """
    names = {column for column in wanted if isinstance(column, str)}
    widest = 0
    numbered = list(enumerate(lines))
    rows = numbered if skip_rows is None else numbered[skip_rows : skip_rows + 1]
    marks = delimiter or DELIMITERS
    if not names:
        return _without_names(lines, marks, skip_rows)
    best: tuple[int, Layout] | None = None
    for n, line in rows:
        for mark in marks:
            header = tuple(split(line, mark))
            if len(header) > limits.COLUMNS.most:
                widest = max(widest, len(header))
                continue
            hits = sum(place_of(name, header) is not None for name in names)
            if hits and (best is None or hits > best[0]):
                best = (hits, Layout(line=n, header=header, delimiter=mark))
        if best is not None and best[0] == len(names):
            break
    if best is None and widest:
        raise too_much(limits.COLUMNS, f"a line of {widest:,} cells")
    if best is not None and len(lines[best[1].line]) >= limits.HEADER.most:
        raise too_much(limits.HEADER, "a header longer than that")
    return aligned(best[1], lines) if best else None


def _without_names(lines: Sequence[str], marks: str, skip_rows: int | None) -> Layout | None:
    if skip_rows is None:
        return likely_layout({mark: [split(line, mark)[: limits.COLUMNS.most] for line in lines] for mark in marks})[0]
    if skip_rows >= len(lines):
        return None
    mark = max(marks, key=lambda mark: len(split(lines[skip_rows], mark)))
    return aligned(Layout(line=skip_rows, header=tuple(split(lines[skip_rows], mark)), delimiter=mark), lines)


def likely_layout(tables: Mapping[str, Sequence[Sequence[str]]]) -> tuple[Layout | None, list[list[str]]]:
    """The mark and line below which most rows have as many cells as the header, and readings in them; with the first
    rows below it. `tables`: for each mark the rows parted by it."""
    best: tuple[float, Layout, list[list[str]]] | None = None
    for mark, rows in tables.items():
        for n, row in enumerate(rows[:60]):
            if not _can_be_header(row):
                continue
            below = [list(cells) for cells in rows[n + 1 : n + 1 + SAMPLE] if any(cells)]
            good = [cells for cells in below if len(cells) >= 2 and any(_is_reading(cell) for cell in cells)]
            fits = sum(abs(len(cells) - len(row)) <= 1 for cells in good)
            score = (fits * min(len(row), 30)) / (len(below) + 1.0)
            if fits and (best is None or score > best[0] * 1.001):
                best = (score, Layout(line=n, header=tuple(row), delimiter=mark), below)
    return (_aligned(best[1], best[2]), best[2]) if best else (None, [])


def _can_be_header(row: Sequence[str]) -> bool:
    """Two names or more and no reading among them; beside a time and a measure a number names a channel."""
    if sum(bool(cell) for cell in row) < 2:
        return False
    names = any(map(names_time, row)) and any(measure_of(cell) is not None for cell in row)
    return names or not any(map(_is_reading, row))


def _is_reading(cell: str) -> bool:
    return re.fullmatch(r"[+-]?\d[\d.,:/\-TZ +]*(?:\s?[APap][Mm])?", cell) is not None


def aligned(layout: Layout, lines: Sequence[str]) -> Layout:
    """The header with an empty name in front where the rows have one cell more and fit the names only so: the first
    column (a row's number, or the time) was written without a name."""
    rows = [split(line, layout.delimiter) for line in lines[layout.line + 1 :][:SAMPLE]]
    return _aligned(layout, [row for row in rows if any(row)])


def _aligned(layout: Layout, rows: Sequence[Sequence[str]]) -> Layout:
    long = [row for row in rows if len(row) == len(layout.header) + 1 and row[-1]]
    if not rows or len(long) < MOSTLY * len(rows):
        return layout
    as_it_stands, one_on = (_misfits(layout.header, long, shift) for shift in (0, 1))
    if one_on >= as_it_stands:
        return layout
    return Layout(line=layout.line, header=("", *layout.header), delimiter=layout.delimiter)


def _misfits(header: Sequence[str], rows: Sequence[Sequence[str]], shift: int) -> int:
    """Cells that cannot be of the column whose name stands that many places before them."""
    return sum(not fits_cell(name, row[place + shift]) for row in rows for place, name in enumerate(header))
