"""Where the table in a text begins: which mark parts its cells, which line is its header."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass

from reportgen import limits
from reportgen.disk import too_much

DELIMITERS = ",;\t|"
SEARCHED = 200  # lines in which the header is looked for


@dataclass(frozen=True, kw_only=True, slots=True)
class Layout:
    """The header: its line (from 0), its cells, and the mark between them."""

    line: int
    header: tuple[str, ...]
    delimiter: str

    def place(self, name: str) -> int | None:
        """Where a column stands: by its exact name, else whatever its case and spaces; None if it is not there."""
        return place_of(name, self.header)


def bare(name: str) -> str:
    """A name as it is compared: no case, no doubled or outer spaces."""
    return " ".join(name.casefold().replace("\ufeff", "").split())


def place_of(name: str, header: Sequence[str]) -> int | None:
    """Index of the column of that name, the first of several; None if none."""
    if name in header:
        return list(header).index(name)
    plain = [bare(cell) for cell in header]
    return plain.index(bare(name)) if bare(name) in plain else None


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
    lines: Sequence[str], wanted: Sequence[str], delimiter: str | None = None, skip_rows: int | None = None
) -> Layout | None:
    """The line and mark with which most of the wanted columns are found; None when none is.

    Raises:
        Unreadable: None is, and some line has more cells than limits.COLUMNS; or the line is longer than limits.HEADER.
    """
    best: tuple[int, Layout] | None = None
    widest = 0
    numbered = list(enumerate(lines))
    for n, line in numbered if skip_rows is None else numbered[skip_rows : skip_rows + 1]:
        for mark in delimiter or DELIMITERS:
            header = tuple(split(line, mark))
            if len(header) > limits.COLUMNS.most:
                widest = max(widest, len(header))
                continue
            hits = sum(place_of(name, header) is not None for name in wanted)
            if hits and (best is None or hits > best[0]):
                best = (hits, Layout(line=n, header=header, delimiter=mark))
        if best is not None and best[0] == len(set(wanted)):
            break
    if best is None and widest:
        raise too_much(limits.COLUMNS, f"a line of {widest:,} cells")
    if best is not None and len(lines[best[1].line]) >= limits.HEADER.most:
        raise too_much(limits.HEADER, "a header longer than that")
    return best[1] if best else None
