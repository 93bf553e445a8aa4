"""XLSX, ODS and their kin → rows of text: real dates come out as ISO 8601, numbers as they are."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from reportgen.readings.text import NotATable
from reportgen.readings.unpacked import check_workbook

LENGTH_OF_A_MOMENT = len("2026-01-14 00:00:00")
SMALL = 1e-9  # below it a number stays as it is written for machines: it is none of a garden
SHEETS = (".xlsx", ".xlsm", ".xls", ".ods")


def sheet_names(path: Path) -> list[str]:
    """The sheets of a workbook, in order.

    Raises:
        NotATable: It cannot be opened.
    """
    return list(_open(path).sheet_names)


def sheet_rows(path: Path, sheet: str | None) -> tuple[str, list[list[str]]]:
    """The name of one sheet (the first when None), and its rows from the first line on, empty cells as "".

    Raises:
        NotATable: The workbook cannot be opened, or has no such sheet.
    """
    book = _open(path)
    names = list(book.sheet_names)
    if sheet is not None and sheet not in names:
        todo = f"correct `sheet` in season.toml; the workbook has: {', '.join(names)}"
        raise NotATable(f"no sheet {sheet!r}", todo, "missing-sheet")
    if not names:
        raise NotATable("a workbook without a sheet", "export it again", "empty-file")
    try:
        rows = book.get_sheet_by_name(sheet or names[0]).to_python(skip_empty_area=False)
    except Exception as error:
        raise NotATable("a workbook that cannot be read", "save it again as XLSX, ODS or CSV") from error
    return sheet or names[0], [[_text(cell) for cell in row] for row in rows]


def workbook(path: Path) -> dict[str, list[list[str]]]:
    """Every sheet of a workbook, in order, as `sheet_rows` gives one.

    Raises:
        NotATable: The workbook cannot be opened or read.
    """
    book = _open(path)
    try:
        tables = {name: book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names}
    except Exception as error:
        raise NotATable("a workbook that cannot be read", "save it again as XLSX, ODS or CSV") from error
    return {name: [[_text(cell) for cell in row] for row in rows] for name, rows in tables.items()}


def as_book(cell: str) -> str:
    """A cell as a book has it: a day without the midnight that a workbook adds."""
    return cell.removesuffix(" 00:00:00") if len(cell) == LENGTH_OF_A_MOMENT else cell


def _open(path: Path):  # type: ignore[no-untyped-def]
    from python_calamine import CalamineWorkbook

    check_workbook(path)
    try:
        return CalamineWorkbook.from_path(str(path))
    except Exception as error:  # the reader's own errors have no common parent
        raise NotATable("a workbook that cannot be opened", "save it again as XLSX, ODS or CSV") from error


def _plain(value: float) -> str:
    """A number without an exponent where that is short: 0.00001, not 1e-05."""
    text = repr(value)
    return f"{value:.12f}".rstrip("0") if "e-" in text and abs(value) >= SMALL else text


def _text(cell: object) -> str:
    if isinstance(cell, bool):
        return "1" if cell else "0"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else _plain(cell)
    if isinstance(cell, dt.datetime):
        return cell.isoformat(sep=" ", timespec="microseconds" if cell.microsecond else "seconds")
    if isinstance(cell, dt.date | dt.time):
        return cell.isoformat()
    if isinstance(cell, dt.timedelta):
        return str(dt.timedelta(seconds=round(cell.total_seconds())))
    return str(cell).replace("\n", " ").replace("\r", " ").strip()
