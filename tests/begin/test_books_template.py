"""The empty books.xlsx: what stands in it, how it is read back, and what it never does."""

from __future__ import annotations

import datetime as dt
import re
import zipfile
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from readings.folder import logger, season

from reportgen import limits
from reportgen.begin import AlreadyBegun
from reportgen.begin.workbook import FILE, write_books
from reportgen.cli import main
from reportgen.problems import SeasonError
from reportgen.readings.book_words import ANSWERS, DAYS, EXAMPLES, REMARKS, SEVERAL, WORDS
from reportgen.readings.books import COLUMNS, read_books

README = Path(__file__).parents[2] / "README.md"
FORMULA = (
    "=",
    "+",
    "-",
    "@",
    "\t",
    "\r",
)  # signs by which spreadsheets take a text for a formula; OWASP, CSV Injection


def written(folder: Path) -> openpyxl.Workbook:
    """The template as openpyxl reads it back."""
    write_books(folder, False)
    return openpyxl.load_workbook(folder / FILE)


def test_a_sheet_a_book_with_its_header_and_nothing_else(tmp_path: Path) -> None:
    """Row 1 holds the columns of the reader, in its order; no other cell is filled."""
    book = written(tmp_path)
    assert book.sheetnames == list(COLUMNS)
    for sheet in book:
        rows = [[cell for cell in row if cell is not None] for row in sheet.iter_rows(values_only=True)]
        assert rows == [list(COLUMNS[sheet.title].own)]


def test_a_remark_a_column_and_words_to_choose_from(tmp_path: Path) -> None:
    """Every header cell has its remark; a column of known words offers them in every row that is read."""
    for sheet in written(tmp_path):
        notes = {cell.value: cell.comment.text for cell in sheet[1]}
        assert notes == REMARKS[sheet.title]
        offered = {}
        for rule in sheet.data_validations.dataValidation:
            (span,) = rule.sqref.ranges
            column = sheet.cell(row=1, column=span.min_col).value
            offered[column] = rule.formula1.strip('"').split(",")
            assert (span.min_row, span.max_row) == (2, limits.BOOK_ROWS.most + 1)
            assert bool(rule.showErrorMessage) == ((sheet.title, column) not in SEVERAL)
            assert len(rule.formula1) <= 257  # ECMA-376 Part 1, 18.3.1.33: at most 255 characters, and two quotes
        assert offered == {column: list(words) for (name, column), words in WORDS.items() if name == sheet.title}


def test_nothing_in_it_can_be_taken_for_a_formula(tmp_path: Path) -> None:
    """No cell, remark or offered word begins with a sign of a formula, and the file holds no formula element."""
    book = written(tmp_path)
    texts = [cell.value for sheet in book for cell in sheet[1]]
    texts += [cell.comment.text for sheet in book for cell in sheet[1]]
    texts += [word for words in WORDS.values() for word in words]
    assert [text for text in texts if text.startswith(FORMULA)] == []
    with zipfile.ZipFile(tmp_path / FILE) as packed:
        sheets = [packed.read(name) for name in packed.namelist() if re.fullmatch(r"xl/worksheets/.*\.xml", name)]
    assert len(sheets) == len(COLUMNS) and not any(b"<f>" in xml or b"<f " in xml for xml in sheets)


def test_the_example_rows_filled_in_are_read(tmp_path: Path) -> None:
    """Each book's example typed into the template, days as real dates, comes back from the reader without a problem."""
    book = written(tmp_path)
    for name, row in EXAMPLES.items():
        for number, column in enumerate(COLUMNS[name].own, start=1):
            text = row.get(column)
            value = dt.date.fromisoformat(text) if text and column in DAYS else text
            book[name].cell(row=2, column=number, value=value)
    book.save(tmp_path / FILE)
    books, problems = read_books(season(tmp_path, logger(), currency="EUR"))
    assert problems == [] and all(books.books.values())
    assert (books.diary[0].what, books.diary[0].cost) == (EXAMPLES["diary"]["what"], 64.0)
    assert (books.plantings[0].sown, books.inspections[0].level) == (dt.date(2025, 9, 4), 1)


def test_an_empty_template_is_no_book_and_no_fault(tmp_path: Path) -> None:
    """As it is written it is read as nothing kept; beside CSV books too."""
    write_books(tmp_path, False)
    (tmp_path / "diary.csv").write_text("date,kind,what\n2026-01-22,change,film up\n", encoding="utf-8")
    books, problems = read_books(season(tmp_path, logger()))
    assert problems == [] and [name for name, there in books.books.items() if there] == ["diary"]


def test_books_that_are_there_get_no_sheet(tmp_path: Path) -> None:
    """A CSV is kept where it is, and said."""
    (tmp_path / "harvest.csv").write_text("date,crop,weight\n", encoding="utf-8")
    result = write_books(tmp_path, False)
    assert "harvest" not in result.books and [one.file for one in result.kept] == ["harvest.csv"]


def test_nothing_is_replaced_unless_told_so(tmp_path: Path) -> None:
    """Neither a books.xlsx nor, with force, a books.ods; no half file is left."""
    (tmp_path / FILE).write_bytes(b"mine")
    with pytest.raises(AlreadyBegun, match="--force replaces it"):
        write_books(tmp_path, False)
    assert (tmp_path / FILE).read_bytes() == b"mine"
    write_books(tmp_path, True)
    assert openpyxl.load_workbook(tmp_path / FILE).sheetnames
    (tmp_path / "books.ods").write_bytes(b"mine")
    with pytest.raises(AlreadyBegun, match=r"books\.ods"):
        write_books(tmp_path, True)
    with pytest.raises(SeasonError):
        write_books(tmp_path / "nowhere" / "winter", False)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["books.ods", FILE]


def test_the_command(tmp_path: Path) -> None:
    """Makes the folder, says what it wrote and needs no logger file; a second time it is a wrong call."""
    folder = tmp_path / "my winter"
    done = CliRunner().invoke(main, ["begin", str(folder), "--books"])
    assert done.exit_code == 0 and "diary, harvest, plantings, watering, inspections, costs" in done.stdout
    assert CliRunner().invoke(main, ["begin", str(folder), "--books"]).exit_code == 2


def test_every_word_on_columns_is_whole() -> None:
    """Every column has its remark, every book its example with what must be filled, and its question."""
    assert {name: tuple(words) for name, words in REMARKS.items()} == {n: c.own for n, c in COLUMNS.items()}
    assert set(ANSWERS) == set(EXAMPLES) == set(COLUMNS)
    assert all(set(row) <= set(COLUMNS[name].own) for name, row in EXAMPLES.items())


def test_readme_shows_the_same_books() -> None:
    """The section on the books says each column as the template does, the example row, and the question."""
    section = README.read_text(encoding="utf-8").partition("## The books")[2].partition("\n## ")[0]
    for name in COLUMNS:
        part = section.partition(f"**{name}**")[2].partition("\n**")[0]
        assert ANSWERS[name] in part
        for column, remark in REMARKS[name].items():
            assert f"| `{column}` | {remark} | {EXAMPLES[name].get(column, '')} |" in part, (name, column)
