"""Books in a workbook: written by two spreadsheet libraries of general use (openpyxl, odfpy), read by the reader."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import openpyxl
import pytest
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableCell, TableRow
from odf.text import P
from readings.folder import logger, season

from reportgen.problems import Problem, SeasonError
from reportgen.readings.books import Books, read_books
from reportgen.season import Season

Cell = str | float | dt.date | dt.time | None
Sheets = Mapping[str, Sequence[Sequence[Cell]]]
Writer = Callable[[Path, Sheets], None]


def by_openpyxl(path: Path, sheets: Sheets) -> None:
    """An XLSX; dates and times are real ones."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    book.save(path)


def by_odfpy(path: Path, sheets: Sheets) -> None:
    """An ODS; dates and times are real ones."""
    book = OpenDocumentSpreadsheet()
    for name, rows in sheets.items():
        table = Table(name=name)
        for row in rows:
            line = TableRow()
            for value in row:
                line.addElement(_odf_cell(value))
            table.addElement(line)
        book.spreadsheet.addElement(table)
    book.save(str(path))


def _odf_cell(value: Cell) -> TableCell:
    if value is None:
        return TableCell()
    if isinstance(value, dt.date):
        cell = TableCell(valuetype="date", datevalue=value.isoformat())
    elif isinstance(value, dt.time):
        cell = TableCell(valuetype="time", timevalue=f"PT{value.hour:02d}H{value.minute:02d}M00S")
    elif isinstance(value, str):
        cell = TableCell(valuetype="string")
    else:
        cell = TableCell(valuetype="float", value=repr(value))
    cell.addElement(P(text=str(value)))
    return cell


WRITERS = pytest.mark.parametrize(("file", "write"), [("books.xlsx", by_openpyxl), ("books.ods", by_odfpy)])
DAY = dt.date(2026, 1, 22)
DIARY = [
    ["date", "time", "kind", "what", "touches", "reversible", "hoped_for", "cost", "years"],
    [DAY, dt.time(9, 30), "change", "film up", "envelope", "no", "warmer nights;less heating", 64, 4],
    [None] * 9,
    ["2026-02-01", None, "event", "door left open, all night", None, None, None, None, None],
]
HARVEST = [["date", "crop", "weight", "unit"], [DAY, "spinach", 0.84, "kg"], [DAY, "leek", 300, "g"]]


def read(folder: Path, **more: object) -> tuple[Books, list[Problem]]:
    """The books of a folder without loggers."""
    return read_books(season(folder, logger(), currency="EUR", **more))


@WRITERS
def test_a_workbook_is_read_as_the_same_books_in_csv(tmp_path: Path, file: str, write: Writer) -> None:
    """Real dates, real times of day, whole and broken numbers; the blank row counts as a line and is none."""
    write(tmp_path / file, {"Diary ": DIARY, "harvest": HARVEST, "costs": [["date", "what", "kind", "amount"]]})
    books, problems = read(tmp_path)
    assert problems == []
    film, door = books.diary
    assert (film.date, film.time, film.what, film.cost, film.years) == (DAY, dt.time(9, 30), "film up", 64.0, 4.0)
    assert film.hoped_for == ("warmer nights", "less heating") and film.reversible is False
    assert (door.line, door.date, door.what) == (4, dt.date(2026, 2, 1), "door left open, all night")
    assert [(p.crop, p.weight_kg) for p in books.harvest] == [("spinach", 0.84), ("leek", 0.3)]
    assert {name: there for name, there in books.books.items() if there} == {"diary": True, "harvest": True}


@WRITERS
def test_a_fault_names_sheet_row_and_column(tmp_path: Path, file: str, write: Writer) -> None:
    """As the workbook shows them: row 3 of the sheet."""
    write(tmp_path / file, {"harvest": [HARVEST[0], HARVEST[1], [DAY, "leek", "two", "kg"], [46044, "leek", 1, "kg"]]})
    _, problems = read(tmp_path)
    assert [p.address for p in problems] == [f"{file}:3, sheet 'harvest', weight", f"{file}:4, sheet 'harvest', date"]
    assert [p.slug for p in problems] == ["not-a-weight", "not-a-date"]
    assert problems[1].todo == "give the cells of this column the form of a date"


@WRITERS
def test_faults_that_several_rows_make_name_the_sheet_too(tmp_path: Path, file: str, write: Writer) -> None:
    """A line that takes nothing back, and two spellings of one crop."""
    rows = [["date", "kind", "what", "undoes"], [DAY, "change", "tape off", "tape on"]]
    crops = [HARVEST[0], HARVEST[1], [DAY, "spinnach", 1, "kg"]]
    write(tmp_path / file, {"diary": rows, "harvest": crops})
    _, problems = read(tmp_path)
    assert {(p.slug, p.address) for p in problems} == {
        ("undoes-unclear", f"{file}:2, sheet 'diary', undoes"),
        ("crop-spelling", f"{file}:3, sheet 'harvest', crop"),
    }


def test_a_book_in_two_places_is_a_problem_that_names_both(tmp_path: Path) -> None:
    """A CSV and a sheet; two workbooks. A sheet of a header alone is no book and no fault."""
    (tmp_path / "diary.csv").write_text("date,kind,what\n", encoding="utf-8")
    by_openpyxl(tmp_path / "books.xlsx", {"diary": DIARY, "harvest": HARVEST})
    by_odfpy(tmp_path / "books.ods", {"harvest": HARVEST, "diary": DIARY[:1]})
    _, problems = read(tmp_path)
    assert [(p.slug, p.file, p.found) for p in problems] == [
        ("book-twice", "books.xlsx", "the diary book in diary.csv and in books.xlsx, sheet 'diary'"),
        (
            "book-twice",
            "books.ods",
            "the harvest book in books.xlsx, sheet 'harvest' and in books.ods, sheet 'harvest'",
        ),
    ]


def test_a_sheet_of_another_name_is_told(tmp_path: Path) -> None:
    """With rows: a warning with the nearest book. Without: nothing."""
    by_openpyxl(tmp_path / "books.xlsx", {"harvets": HARVEST, "Sheet2": [["notes"]]})
    books, (problem,) = read(tmp_path)
    assert (problem.slug, problem.level, problem.address) == ("unread-sheet", "warning", "books.xlsx, sheet 'harvets'")
    assert problem.todo == "did you mean 'harvest'?" and not books.books["harvest"]


def test_season_toml_may_name_any_workbook_and_sheet(tmp_path: Path) -> None:
    """`file` and `sheet` of a book; a sheet that is not there is told with those that are."""
    by_openpyxl(tmp_path / "garden.xlsx", {"notes": [["x"]], "picked": HARVEST})
    books, problems = read(tmp_path, harvest={"file": "garden.xlsx", "sheet": "picked"})
    assert len(books.harvest) == 2 and problems == []
    _, (missing,) = read(tmp_path, harvest={"file": "garden.xlsx", "sheet": "pickd"})
    assert missing.slug == "missing-sheet" and missing.todo.endswith("notes, picked")
    _, (gone,) = read(tmp_path, harvest={"file": "gone.xlsx"})
    assert gone.slug == "missing-file"


def test_a_workbook_that_is_none(tmp_path: Path) -> None:
    """Told as one problem; the CSV books beside it are read."""
    (tmp_path / "books.xlsx").write_bytes(b"PK\x03\x04 and no more")
    (tmp_path / "diary.csv").write_text("date,kind,what\n2026-01-22,change,film up\n", encoding="utf-8")
    books, problems = read(tmp_path)
    assert [(p.slug, p.file) for p in problems] == [("not-a-table", "books.xlsx")]
    assert len(books.diary) == 1


def test_a_meter_may_lie_in_a_workbook(tmp_path: Path) -> None:
    """As any book of season.toml that names its file."""
    from reportgen.readings import read_season

    rows = [["date", "reading"], [dt.date(2025, 10, 18), 100], [dt.date(2026, 4, 12), 160.5]]
    by_odfpy(tmp_path / "meter.ods", {"heater": rows})
    hours = (dt.datetime(2025, 12, 1) + dt.timedelta(hours=n) for n in range(48))
    (tmp_path / "a.csv").write_text("Time,Temp\n" + "".join(f"{at},5.{at.hour}\n" for at in hours), encoding="utf-8")
    heater = {"name": "mat", "fuel": "electricity", "meter": "meter.ods"}
    (supply,) = read_season(season(tmp_path, logger(), heating=(heater,))).heating
    assert supply.intervals["bought"].sum() == pytest.approx(60.5)


def of(folder: Path) -> Season:
    """A season with the currency that prices need."""
    return season(folder, logger(), currency="USD")


def test_us_columns_stand_for_the_metric_ones(tmp_path: Path) -> None:
    """ft², in, gallons and a price a pound, by the exact factors of NIST SP 811 (1 ft = 0.3048 m, 1 in = 2.54 cm,
    1 US gal = 3.785411784 L, 1 lb = 0.45359237 kg)."""
    (tmp_path / "plantings.csv").write_text(
        "crop,bed,area_ft2,sown,planted,cleared,spacing_in\nkale,a,100,2025-09-01,,,10\n", encoding="utf-8"
    )
    (tmp_path / "watering.csv").write_text("date,bed,gallons\n2025-12-01,a,2\n", encoding="utf-8")
    (tmp_path / "harvest.csv").write_text(
        "date,crop,weight,unit,price_per_lb\n2025-12-01,kale,1,lb,4.5359237\n", encoding="utf-8"
    )
    books, problems = read_books(of(tmp_path))
    assert problems == []
    assert books.plantings[0].area_m2 == pytest.approx(9.290304) and books.plantings[0].spacing_cm == pytest.approx(
        25.4
    )
    assert books.watering[0].litres == pytest.approx(7.570823568)
    assert books.harvest[0].price_per_kg == pytest.approx(10.0)


def test_one_of_the_two_units(tmp_path: Path) -> None:
    """Both columns in one book are a problem; a fault in a US column names that column."""
    (tmp_path / "watering.csv").write_text("date,bed,litres,gallons\n2025-12-01,a,2,\n", encoding="utf-8")
    (tmp_path / "harvest.csv").write_text("date,crop,weight,price_per_lb\n2025-12-01,kale,1,x\n", encoding="utf-8")
    _, problems = read_books(of(tmp_path))
    assert {(p.slug, p.column) for p in problems} == {("both-units", "gallons"), ("not-a-number", "price_per_lb")}


def test_no_book_at_all(tmp_path: Path) -> None:
    """An empty folder has none and no problem."""
    books, problems = read(tmp_path)
    assert problems == [] and not any(books.books.values())
    with pytest.raises(SeasonError):
        raise SeasonError(read(tmp_path, diary={"file": "my.csv"})[1])
