"""Opens a hand-kept table (CSV, XLSX or ODS) as a ledger: its text, its header, its rows; every fault has its line and
column."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from pathlib import Path

from reportgen import limits
from reportgen.disk import Unreadable, inside, read_inside, too_much
from reportgen.limits import Limit
from reportgen.readings.book_days import day_first
from reportgen.readings.book_numbers import marks_of
from reportgen.readings.layout import DELIMITERS, split
from reportgen.readings.ledger import NUMBERED, TWINS, Columns, Ledger, nearest
from reportgen.readings.sheet import SHEETS, as_book, sheet_rows
from reportgen.readings.weights import unit_called

UTF_16 = (b"\xff\xfe", b"\xfe\xff")  # its marks of byte order, as spreadsheets write it ("Unicode text")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")  # no letter, and no page can hold them


def open_ledger(
    folder: Path, file: str, columns: Columns, most: Limit | None = None, sheet: str | None = None
) -> Ledger:
    """The rows of a file below its header, `most` of them (limits.BOOK_ROWS unless told); faults of the file as a
    whole are noted and then it has no rows. `sheet`: of a workbook, the one to read; the first unless told."""
    ledger = Ledger(file=file)
    in_workbook = file.lower().endswith(SHEETS)
    numbered = _of_sheet(folder, file, sheet, ledger) if in_workbook else _of_text(folder, file, ledger, columns)
    if numbered is None:
        return ledger
    if not numbered:
        ledger.tell(
            "empty-file",
            found="no header",
            expected=f"a first line such as {','.join(columns.needed)}",
            todo="write it, or take the file out of the folder",
        )
        return ledger
    if not _not_too_much(ledger, numbered, most or limits.BOOK_ROWS):
        return ledger
    top = next((n for n, (_, cells) in enumerate(numbered[:TITLE]) if _is_head(cells, columns)), 0)
    _head(ledger, numbered[top], columns)
    if not any(problem.level == "problem" for problem in ledger.problems):
        ledger.lines = [entry for entry in numbered[top + 1 :] if _fits(ledger, entry)]
        ledger.day_first = day_first(cell for _, cells in ledger.lines for cell in cells)
        places = [n for n, name in enumerate(ledger.header) if TWINS.get(name, (name, 1.0))[0] in NUMBERED]
        ledger.marks = marks_of(cells[n] for _, cells in ledger.lines for n in places if n < len(cells))
    return ledger


_WEIGHT = re.compile(r"weight[\s_]*(?:in |[(\[])?\s*([a-z]+)[)\]]?")
TITLE = 20  # lines among which the header is looked for: a title may stand above it


def name_and_unit(cell: str) -> tuple[str, str]:
    """The name of a column as it is compared, and the unit of weight that stands behind it: weight (g)."""
    name = " ".join(cell.lower().split())
    found = _WEIGHT.fullmatch(name)
    unit = unit_called(found[1]) if found is not None else None
    return ("weight", unit) if unit else (name, "")


def _is_head(cells: Sequence[str], columns: Columns) -> bool:
    """Whether a row names every column that must be there."""
    names = {name_and_unit(cell)[0] for cell in cells}
    names |= {name for twin, (name, _) in TWINS.items() if twin in names}
    return set(columns.needed) <= names


Numbered = list[tuple[int, list[str]]]


def _of_text(folder: Path, file: str, ledger: Ledger, columns: Columns) -> Numbered | None:
    text = _text(folder, file, ledger)
    if text is None:
        return None
    rows = csv.reader(text.splitlines(keepends=True), delimiter=_delimiter(text, columns))
    try:
        return [(rows.line_num, cells) for cells in rows if any(cell.strip() for cell in cells)]
    except csv.Error as error:
        ledger.tell("not-a-table", line=rows.line_num, found=str(error), expected="CSV", todo="mend the quotes here")
        return None


def _of_sheet(folder: Path, file: str, sheet: str | None, ledger: Ledger) -> Numbered | None:
    """The rows of a sheet that hold anything, numbered as the workbook shows them."""
    try:
        ledger.sheet, rows = sheet_rows(inside(folder, file), sheet)
    except Unreadable as error:
        ledger.tell(error.slug, found=error.found, expected="a workbook with that sheet", todo=error.todo)
        return None
    cells = ([_CONTROL.sub(" ", as_book(cell)) for cell in row] for row in rows)
    return [(number, row) for number, row in enumerate(cells, start=1) if any(cell.strip() for cell in row)]


def _not_too_much(ledger: Ledger, numbered: Sequence[tuple[int, list[str]]], most: Limit) -> bool:
    found = [
        (limit, f"{count:,} {words}")
        for limit, count, words in (
            (most, len(numbered) - 1, "rows"),
            (limits.COLUMNS, len(numbered[0][1]), "columns"),
        )
        if count > limit.most
    ]
    for limit, words in found:
        told = too_much(limit, words)
        ledger.tell(told.slug, found=told.found, expected=limit.words, todo=told.todo)
    return not found


def _text(folder: Path, file: str, ledger: Ledger) -> str | None:
    try:
        raw = read_inside(folder, file, limits.BOOK_BYTES)
    except Unreadable as error:
        ledger.tell(error.slug, found=error.found, expected="a file in the season folder", todo=error.todo)
        return None
    if (b"\0" in raw[:4] and raw[:2] not in UTF_16) or raw[:4] == b"PK\x03\x04":
        todo = "save it as CSV (UTF-8), XLSX or ODS in your spreadsheet program"
        ledger.tell("not-a-table", found="a file that is no plain text", expected="CSV", todo=todo)
        return None
    return _CONTROL.sub(" ", _decoded(raw).replace("\r\n", "\n").replace("\r", "\n"))


def _decoded(raw: bytes) -> str:
    """UTF-8 if it is, else the Western European code page of older spreadsheets (every byte has a letter)."""
    if raw[:2] in UTF_16:
        return raw.decode("utf-16", errors="replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace")


def _delimiter(text: str, columns: Columns) -> str:
    """The mark that splits a line near the top into the names of all columns that must be there; else the one that
    splits the first line into most cells, a comma when none does."""
    lines = [line for line in text.splitlines() if line.strip()][:TITLE]
    cells = {mark: [split(line, mark) for line in lines] for mark in DELIMITERS}
    named = [mark for mark in DELIMITERS if any(_is_head(row, columns) for row in cells[mark])]
    return named[0] if named else max(DELIMITERS, key=lambda mark: len(cells[mark][0]) if lines else 0)


def _head(ledger: Ledger, first: tuple[int, list[str]], columns: Columns) -> None:
    """Checks the header: what must be there, what nobody knows, what stands twice."""
    line, cells = first
    named = [name_and_unit(cell) for cell in cells]
    ledger.header = tuple(name for name, _ in named)
    ledger.unit = next((unit for _, unit in named if unit), "")
    _take_twins(ledger, line, columns)
    missing = [name for name in columns.needed if name not in ledger.header and name not in ledger.twins]
    unknown = [name for name in ledger.header if name and name not in columns.known]
    for name in missing:
        near = nearest(name, unknown, 0.6)
        todo = f"rename the column {near!r} to {name!r}" if near else f"add the column {name!r}"
        ledger.tell(
            "missing-column", line=line, column=name, found=f"columns {', '.join(ledger.header)}",
            expected=f"at least {', '.join(columns.needed)}", todo=todo,
        )  # fmt: skip
    for name in unknown:
        near = nearest(name, columns.known, 0.6)
        todo = f"did you mean {near!r}?" if near else "give it one of these names if it is one of them; else let it be"
        ledger.tell(
            "unknown-column", line=line, column=name, found=f"a column {name!r}, which is not read",
            expected=f"one of: {', '.join(columns.known)}", todo=todo, level="warning",
        )  # fmt: skip
    for name in sorted({name for name in ledger.header if name and ledger.header.count(name) > 1}):
        ledger.tell(
            "same-column-twice", line=line, column=name, found=f"two columns {name!r}", expected="one",
            todo="rename or remove one of them",
        )  # fmt: skip


def _take_twins(ledger: Ledger, line: int, columns: Columns) -> None:
    """Columns in US units stand for those that are asked for; one of the two, not both."""
    for twin, (name, _) in TWINS.items():
        if twin not in ledger.header or name not in columns.own:
            continue
        if name in ledger.header:
            ledger.tell(
                "both-units", line=line, column=twin, found=f"the columns {name!r} and {twin!r}",
                expected="one of the two", todo="take the emptier one out",
            )  # fmt: skip
        ledger.twins[name] = twin


def _fits(ledger: Ledger, entry: tuple[int, list[str]]) -> bool:
    line, cells = entry
    longest = max(map(len, cells))
    if longest > limits.BOOK_CELL.most:
        told = too_much(limits.BOOK_CELL, f"{longest:,} characters")
        ledger.tell(told.slug, line=line, found=told.found, expected=limits.BOOK_CELL.words, todo="shorten it")
        return False
    if len(cells) <= len(ledger.header) or not any(cell.strip() for cell in cells[len(ledger.header) :]):
        return True
    ledger.tell(
        "too-many-cells",
        line=line,
        found=f"{len(cells)} cells",
        expected=f"{len(ledger.header)}, as in the header",
        todo='put a text that holds a separator in quotes: "like, this"',
    )
    return False
