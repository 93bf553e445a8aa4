"""An empty books.xlsx: one sheet a book, its header, the words a column takes to choose from, a remark on each column.

Nothing else stands on a sheet, and nothing that is written begins with a sign by which a spreadsheet takes a text for
a formula (= + - @).
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from reportgen import limits
from reportgen.begin.refuse import AlreadyBegun, is_folder, nothing
from reportgen.disk import is_there
from reportgen.problems import Problem, SeasonError
from reportgen.readings.book_rows import COLUMNS
from reportgen.readings.book_words import CLOCKS, DAYS, REMARKS, SEVERAL, WORDS
from reportgen.readings.shelf import WORKBOOKS

FILE = WORKBOOKS[0]
AUTHOR = "reportgen"
DAY_FORM, CLOCK_FORM = "yyyy-mm-dd", "hh:mm"
WIDE = ("what", "note", "found", "action", "hoped_for", "kind")
REMARK_WIDTH, REMARK_HEIGHT = 260, 110  # points, so that the longest remark is seen whole


@dataclass(frozen=True, kw_only=True, slots=True)
class Kept:
    """A book that is kept in a file of its own."""

    name: str
    file: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Written:
    """`books`: the sheets of the workbook; `kept`: books that have a file of their own and got no sheet."""

    file: str
    books: tuple[str, ...]
    kept: tuple[Kept, ...]


def write_books(folder: Path, force: bool) -> Written:
    """Writes an empty books.xlsx into a folder, which is made where only it is missing.

    Raises:
        SeasonError: The folder cannot be made, or nothing can be written in it.
        AlreadyBegun: A workbook of books is there and `force` is not set, or every book has a file of its own.
    """
    if not is_folder(folder):
        _make(folder)
    for file in WORKBOOKS:
        if is_there(folder, file) and not (force and file == FILE):
            more = "; --force replaces it, with all that is written in it" if file == FILE else ", and one is enough"
            raise AlreadyBegun(f"{file} is there already{more}")
    kept = tuple(Kept(name=book, file=f"{book}.csv") for book in COLUMNS if is_there(folder, f"{book}.csv"))
    books = tuple(book for book in COLUMNS if book not in {one.name for one in kept})
    if not books:
        raise AlreadyBegun("every book is there already, as a CSV file")
    _save(template(books), folder / FILE)
    return Written(file=FILE, books=books, kept=kept)


def _make(folder: Path) -> None:
    try:
        folder.mkdir()
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no name for a folder"
        found = f"no such folder, and it cannot be made ({why.lower()})"
        raise SeasonError([nothing("season-missing", found, "the folder of one winter")]) from None


def template(books: Sequence[str]) -> Workbook:
    """The workbook with a sheet for each of these books."""
    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.creator = AUTHOR
    for name in books:
        _fill(book.create_sheet(name), name)
    return book


def _fill(sheet: Worksheet, name: str) -> None:
    sheet.freeze_panes = "A2"
    for number, column in enumerate(COLUMNS[name].own, start=1):
        letter = get_column_letter(number)
        head = sheet.cell(row=1, column=number, value=column)
        head.font = Font(bold=True)
        head.comment = Comment(REMARKS[name][column], AUTHOR, height=REMARK_HEIGHT, width=REMARK_WIDTH)
        sheet.column_dimensions[letter].width = 26 if column in WIDE else 13
        if column in DAYS | CLOCKS:
            sheet.column_dimensions[letter].number_format = DAY_FORM if column in DAYS else CLOCK_FORM
        if (name, column) in WORDS:
            _choices(sheet, letter, WORDS[name, column], several=(name, column) in SEVERAL)


def _choices(sheet: Worksheet, letter: str, words: Sequence[str], *, several: bool) -> None:
    """A list to choose from in every row that the reader takes; one that takes several words refuses none."""
    rule = DataValidation(type="list", formula1=f'"{",".join(words)}"', allow_blank=True, showErrorMessage=not several)
    rule.errorTitle, rule.error = "One of these words", ", ".join(words)[:255]
    sheet.add_data_validation(rule)
    rule.add(f"{letter}2:{letter}{limits.BOOK_ROWS.most + 1}")


def _save(book: Workbook, path: Path) -> None:
    """Beside the target first, so that it is whole or not there."""
    room = ""
    try:
        handle, room = tempfile.mkstemp(prefix=".books-", suffix=".xlsx", dir=path.parent)
        os.close(handle)
        book.save(room)
        Path(room).chmod(0o644)
        Path(room).replace(path)
    except OSError as error:
        with suppress(OSError):
            Path(room).unlink(missing_ok=True) if room else None
        why = (error.strerror or "the system gives no reason").lower()
        todo = "close the program that has it open, and see that you may write in the folder"
        fault = Problem(slug="cannot-open", file=FILE, found=f"it cannot be written ({why})", expected=FILE, todo=todo)
        raise SeasonError([fault]) from None
