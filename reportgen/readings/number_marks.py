"""Which mark of a file is that of decimals, and which columns part thousands: 1,234 W is one watt or a thousand."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import pandas as pd

Address = str | int
_MARKED = {mark: re.compile(rf"[+-]?\d*{re.escape(mark)}\d+") for mark in ",."}
_GROUPED = {mark: re.compile(rf"[+-]?[1-9]\d{{0,2}}(?:{re.escape(mark)}\d{{3}})+") for mark in ",."}
_BOTH = {",": re.compile(r"[+-]?\d{1,3}(?:\.\d{3})+,\d+"), ".": re.compile(r"[+-]?\d{1,3}(?:,\d{3})+\.\d+")}
_WHOLE = re.compile(r"[+-]?\d{1,3}")
# A program that leaves noughts out behind the mark writes one or two decimals in every tenth cell or so: among this
# many cells of just three it shows by chance once in twenty (0.9 ** 30), and whole numbers beside them hardly ever.
MANY, WHOLES = 30, 5


@dataclass(frozen=True, kw_only=True, slots=True)
class Marks:
    """`decimal`: the mark of the file. `grouped`: each column whose numbers part thousands, with the mark that does."""

    decimal: str
    grouped: Mapping[Address, str]


def marks_of(columns: Mapping[Address, Sequence[str]], declared: str | None) -> Marks:
    """What the first cells of the value columns show; a point where nothing shows the mark of decimals.

    A column in which every mark stands before just three digits parts thousands where the file's decimals are written
    with the other mark, or where whole numbers below 1000 stand beside many such cells.
    """
    cells = {name: [text for cell in column if (text := cell.strip())] for name, column in columns.items()}
    found = {name: mark for name, column in cells.items() if (mark := _perhaps_grouped(column)) is not None}
    sure = {mark: sum(_decimals(column, mark, found.get(name)) for name, column in cells.items()) for mark in ",."}
    shown = declared or (None if sure[","] == sure["."] else "," if sure[","] > sure["."] else ".")
    grouped = {
        name: mark for name, mark in found.items() if mark != (shown or mark) or _in_thousands(cells[name], mark)
    }
    if shown is None:
        left = [column for name, column in cells.items() if name not in grouped]
        commas, points = (sum(_MARKED[mark].fullmatch(text) is not None for c in left for text in c) for mark in ",.")
        shown = "," if commas > points else "."
    return Marks(decimal=shown, grouped={name: mark for name, mark in grouped.items() if mark != shown or not declared})


def without_marks(column: pd.Series, mark: str) -> pd.Series:
    """The cells of a column with the marks between thousands taken out; other cells as they stand."""
    texts = column.astype(object)
    grouped = texts.map(lambda cell: isinstance(cell, str) and _GROUPED[mark].fullmatch(cell.strip()) is not None)
    return texts.where(~grouped.astype(bool), texts.astype(str).str.replace(mark, "", regex=False))


def _perhaps_grouped(cells: Sequence[str]) -> str | None:
    """The mark that may part thousands in a column: one that stands before just three digits in every cell with it."""
    for mark in ",.":
        marked = [cell for cell in cells if _MARKED[mark].fullmatch(cell) or _GROUPED[mark].fullmatch(cell)]
        if marked and all(_GROUPED[mark].fullmatch(cell) for cell in marked):
            return mark
    return None


def _decimals(cells: Sequence[str], mark: str, grouped: str | None) -> int:
    """Cells in which that mark can only be the one of decimals."""
    alone = 0 if grouped == mark else sum(_MARKED[mark].fullmatch(cell) is not None for cell in cells)
    return alone + sum(_BOTH[mark].fullmatch(cell) is not None for cell in cells)


def _in_thousands(cells: Sequence[str], mark: str) -> bool:
    marked = sum(_GROUPED[mark].fullmatch(cell) is not None for cell in cells)
    several = any(cell.count(mark) > 1 for cell in cells)
    return several or (marked >= MANY and sum(_WHOLE.fullmatch(cell) is not None for cell in cells) >= WHOLES)
