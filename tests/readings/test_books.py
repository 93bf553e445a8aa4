"""The books: read whole, or told row by row what is wrong; never merged, never guessed."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest

from reportgen.problems import Problem
from reportgen.readings.books import Books, read_books
from reportgen.season.models import Season


def season(folder: Path, **more: Any) -> Season:
    """A season of half a year in that folder."""
    values = {
        "folder": folder,
        "format": 1,
        "title": "A winter",
        "first_day": dt.date(2025, 10, 18),
        "last_day": dt.date(2026, 4, 12),
        "time_zone": "Europe/Prague",
        "currency": "EUR",
    }
    return Season.model_validate(values | more)


def read(folder: Path, book: str, text: str, **more: Any) -> tuple[Books, list[Problem]]:
    """The books of a folder in which one book stands."""
    (folder / f"{book}.csv").write_bytes(text.encode("utf-8"))
    return read_books(season(folder, **more))


def test_a_diary_row_is_read_whole(tmp_path: Path) -> None:
    """Every column of the diary reaches its field; several words are split; case does not matter."""
    text = (
        "date,time,kind,what,touches,reversible,hoped_for,until,cost,years,written,note\n"
        "2025-12-01,18:30,Spell,Bubble film,envelope;air,yes,warmer nights;less heating,2026-01-10,42.5,3,2025-11-30,"
        '"north side, first"\n'
    )
    books, problems = read(tmp_path, "diary", text)
    entry = books.diary[0]
    assert not problems
    assert (entry.line, entry.date, entry.time) == (2, dt.date(2025, 12, 1), dt.time(18, 30))
    assert (entry.kind, entry.touches, entry.reversible) == ("spell", ("envelope", "air"), True)
    assert entry.hoped_for == ("warmer nights", "less heating")
    assert (entry.until, entry.cost, entry.years) == (dt.date(2026, 1, 10), 42.5, 3.0)
    assert (entry.written, entry.note) == (dt.date(2025, 11, 30), "north side, first")
    assert books.books["diary"] and not books.books["harvest"]


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("date,crop,weight\n2026-01-05,spinach,1.25\n", 1.25),
        ("date;crop;weight\n2026-01-05;spinach;1,25\n", 1.25),
        ("date\tcrop\tweight\tunit\n2026-01-05\tspinach\t1250\tg\n", 1.25),
        ("\ufeffdate,crop,weight,unit\r\n5.1.2026,spinach,1,lb\r\n", 0.45359237),  # NIST SP 811: exact
        ("date,crop,weight,unit\n2026-01-05,spinach,1,oz\n", 0.028349523125),  # NIST SP 811: exact
    ],
)
def test_a_weight_comes_in_kilograms(tmp_path: Path, text: str, kg: float) -> None:
    """Delimiter, decimal mark, byte order mark and unit are worked out; kg come out (binary floats: 1e-12)."""
    books, problems = read(tmp_path, "harvest", text)
    assert not problems
    assert books.harvest[0].weight_kg == pytest.approx(kg, rel=1e-12)
    assert (books.harvest[0].date, books.harvest[0].use) == (dt.date(2026, 1, 5), "eaten")


def test_old_spreadsheet_letters_are_read(tmp_path: Path) -> None:
    """A file that is not UTF-8 is read as the Western European code page."""
    (tmp_path / "harvest.csv").write_bytes("date,crop,weight\n2026-01-05,mâche,1\n".encode("cp1252"))
    books, problems = read_books(season(tmp_path))
    assert not problems and books.harvest[0].crop == "mâche"


def test_every_fault_of_a_book_comes_at_once(tmp_path: Path) -> None:
    """A bad date, an empty crop, a bad number and a bad word are told together; the good row is kept."""
    text = (
        "date,crop,weight,use\n2026-13-05,spinach,1,\n2026-01-05,,1,\n2026-01-06,kale,x1,\n"
        "2026-01-07,kale,1,gifted\n2026-01-08,kale,2,given\n"
    )
    books, problems = read(tmp_path, "harvest", text)
    told = [(p.slug, p.line, p.column) for p in problems]
    assert told == [
        ("not-a-date", 2, "date"),
        ("empty-cell", 3, "crop"),
        ("not-a-weight", 4, "weight"),
        ("unknown-word", 5, "use"),
    ]
    assert [p.weight_kg for p in books.harvest] == [2.0]


def test_bunches_are_refused_with_advice(tmp_path: Path) -> None:
    """A count of bunches is no weight; the exact words say what to do."""
    _, problems = read(tmp_path, "harvest", "date,crop,weight,unit\n2026-01-05,radish,3,bunch\n")
    assert problems[0].text() == (
        "harvest.csv:2, unit  [not-a-weight]\n"
        "  found     'bunch'\n"
        "  expected  one of: kg, g, lb, oz\n"
        "  to do     weigh it; or weigh three bunches once, and write number × that weight, with a note that says so"
    )


def test_slashed_dates_need_the_file_to_settle_them(tmp_path: Path) -> None:
    """13/01 settles day first for the whole file; without such a row both readings are shown and nothing is taken."""
    settled, problems = read(tmp_path, "harvest", "date,crop,weight\n05/01/2026,kale,1\n13/01/2026,kale,1\n")
    assert not problems and settled.harvest[0].date == dt.date(2026, 1, 5)
    open_, problems = read(tmp_path, "harvest", "date,crop,weight\n05/01/2026,kale,1\n")
    assert not open_.harvest
    assert (problems[0].slug, problems[0].found) == ("day-or-month", "'05/01/2026': 2026-01-05 or 2026-05-01")


def test_a_thousands_comma_is_asked_about(tmp_path: Path) -> None:
    """1,250 may be one and a quarter or twelve hundred and fifty."""
    _, problems = read(tmp_path, "harvest", 'date,crop,weight,unit\n2026-01-05,kale,"1,250",g\n')
    assert (problems[0].slug, problems[0].todo) == ("point-or-comma", "write 1250 or 1.250")


def test_an_unknown_column_is_a_warning_and_a_missing_one_a_problem(tmp_path: Path) -> None:
    """Both name the nearest; with a needed column missing no row is read."""
    books, problems = read(tmp_path, "harvest", "date,crop,wieght,colour\n2026-01-05,kale,1,green\n")
    assert [(p.slug, p.column, p.level) for p in problems] == [
        ("missing-column", "weight", "problem"),
        ("unknown-column", "wieght", "warning"),
        ("unknown-column", "colour", "warning"),
    ]
    assert problems[0].todo == "rename the column 'wieght' to 'weight'"
    assert not books.harvest


def test_crops_spelled_two_ways_are_asked_about_never_merged(tmp_path: Path) -> None:
    """A likely slip of the pen is told with the nearest name, and both stay; unlike names are left alone."""
    text = "date,crop,weight\n2026-01-05,spinach,1\n2026-01-06,Spinch,1\n2026-01-07,kale,1\n"
    books, problems = read(tmp_path, "harvest", text)
    assert [p.crop for p in books.harvest] == ["spinach", "Spinch", "kale"]
    assert [(p.slug, p.line, p.level) for p in problems] == [("crop-spelling", 3, "warning")]
    assert problems[0].todo == "write 'spinach' if it is the same crop"


def test_a_crop_of_season_toml_is_the_spelling_that_holds(tmp_path: Path) -> None:
    """The name declared is the one proposed."""
    crops = ({"name": "winter lettuce"},)
    _, problems = read(
        tmp_path,
        "harvest",
        "date,crop,weight\n2026-01-05,winter letuce,1\n",
        crop=crops,
        first_day=dt.date(2025, 10, 1),
    )
    assert problems[0].todo == "write 'winter lettuce' if it is the same crop"


def test_a_picking_outside_the_season_is_set_aside_with_a_warning(tmp_path: Path) -> None:
    """It is told, not counted and not fatal."""
    books, problems = read(tmp_path, "harvest", "date,crop,weight\n2026-06-05,kale,1\n")
    assert not books.harvest
    assert [(p.slug, p.level) for p in problems] == [("outside-season", "warning")]


def test_money_needs_a_currency(tmp_path: Path) -> None:
    """A cost in the diary without the season's currency is a problem."""
    _, problems = read(tmp_path, "diary", "date,kind,what,cost\n2026-01-05,change,fleece,12\n", currency=None)
    assert [p.slug for p in problems] == ["missing-currency"]


def test_a_spell_has_an_end_after_its_start(tmp_path: Path) -> None:
    """Without `until`, or with one before the date, it is refused."""
    text = "date,kind,what,until\n2026-01-05,spell,fleece,\n2026-01-05,spell,fleece,2026-01-01\n"
    books, problems = read(tmp_path, "diary", text)
    assert [p.slug for p in problems] == ["spell-without-end", "dates-out-of-order"]
    assert not books.diary


def test_the_other_books_are_read(tmp_path: Path) -> None:
    """Plantings, watering, inspections and costs come out row by row."""
    (tmp_path / "plantings.csv").write_text(
        "crop,cultivar,bed,area_m2,sown,planted,cleared,plants,lost,cause\nkale,,east,2.5,2025-09-01,2025-10-20,,40,3,slugs\n"
    )
    (tmp_path / "watering.csv").write_text("date,time,bed,litres\n2026-01-05,08:00,east,12\n")
    (tmp_path / "inspections.csv").write_text("date,bed,crop,found,level\n2026-01-05,east,kale,grey mould,2\n")
    (tmp_path / "costs.csv").write_text("date,what,kind,amount,years\n2025-09-01,seed,seed,14.50,\n")
    books, problems = read_books(season(tmp_path))
    assert not problems
    assert (books.plantings[0].area_m2, books.plantings[0].cleared, books.plantings[0].lost) == (2.5, None, 3)
    assert (books.watering[0].litres, books.watering[0].time) == (12.0, dt.time(8))
    assert (books.inspections[0].level, books.inspections[0].found) == (2, "grey mould")
    assert (books.costs[0].amount, books.costs[0].years) == (14.5, None)


def test_a_book_named_in_season_toml_must_be_there(tmp_path: Path) -> None:
    """A default name may be missing, a given one may not."""
    assert not read_books(season(tmp_path))[1]
    _, problems = read_books(season(tmp_path, harvest={"file": "picked.csv"}))
    assert [(p.slug, p.file) for p in problems] == [("missing-file", "picked.csv")]


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    """A book that is a link to a file elsewhere is refused."""
    outside, folder = tmp_path / "elsewhere.csv", tmp_path / "winter"
    folder.mkdir()
    outside.write_text("date,crop,weight\n2026-01-05,kale,1\n")
    (folder / "harvest.csv").symlink_to(outside)
    books, problems = read_books(season(folder))
    assert [p.slug for p in problems] == ["path-leads-out"] and not books.harvest


@pytest.mark.parametrize("raw", [b"PK\x03\x04rest", b"", b"\n\n", b'date,crop,weight\n2026-01-05,"kale,1\n'])
def test_what_is_no_table_is_told(tmp_path: Path, raw: bytes) -> None:
    """A spreadsheet under the name of a CSV, an empty file, an open quote: a problem, never a crash."""
    (tmp_path / "harvest.csv").write_bytes(raw)
    _, problems = read_books(season(tmp_path))
    assert problems and all(p.file == "harvest.csv" for p in problems)


@pytest.mark.parametrize(
    ("weight", "unit"), [("1000000", "kg"), ("1000000000", "g"), ("2500000", "lb"), ("9" * 400, "kg")]
)
def test_no_garden_gives_a_thousand_tonnes(tmp_path: Path, weight: str, unit: str) -> None:
    """A picking of 10⁶ kg or more is a slip of the pen, whatever its unit; the rest of the book is read."""
    text = f"date,crop,weight,unit\n2026-01-05,kale,{weight},{unit}\n2026-01-06,kale,999999,kg\n"
    books, problems = read(tmp_path, "harvest", text)
    told = [(p.slug, p.line, p.column, p.level) for p in problems]
    assert told == [("number-too-large", 2, "weight", "problem"), ("heavy-picking", 3, "weight", "warning")]
    assert [p.weight_kg for p in books.harvest] == [999999.0]


def test_a_number_beyond_all_gardens_is_told_in_every_book(tmp_path: Path) -> None:
    """Hundreds of digits would be no number at all further on."""
    huge = "9" * 400
    text = f"date,what,kind,amount,years\n2026-01-05,film,envelope,{huge},3\n2026-01-06,lamp,light,50,2000\n"
    _, problems = read(tmp_path, "costs", text)
    assert [(p.slug, p.line, p.column) for p in problems] == [
        ("number-too-large", 2, "amount"),
        ("number-too-large", 3, "years"),
    ]


@pytest.mark.parametrize("day", ["0205-09-05", "20.09.2205"])
def test_a_year_of_another_age_is_told(tmp_path: Path, day: str) -> None:
    """In the books as in season.toml."""
    _, problems = read(tmp_path, "plantings", f"crop,bed,area_m2,sown,planted,cleared\nkale,east,1,{day},,\n")
    assert [(p.slug, p.column, p.expected) for p in problems] == [
        ("not-a-date", "sown", "a day of the years 1900 to 2100")
    ]


def test_a_loss_has_its_day_while_the_crop_stood(tmp_path: Path) -> None:
    """`lost_on` is read; before the planting or after the clearing it cannot be."""
    head = "crop,bed,area_m2,sown,planted,cleared,plants,lost,lost_on,cause\n"
    row = "kale,east,1,,2025-10-20,2026-02-01,9,4,{},frost\n"
    books, problems = read(tmp_path, "plantings", head + row.format("2026-01-16"))
    assert not problems and books.plantings[0].lost_on == dt.date(2026, 1, 16)
    _, problems = read(tmp_path, "plantings", head + row.format("2025-10-01") + row.format("2026-02-02"))
    assert [(p.slug, p.line, p.column) for p in problems] == [
        ("dates-out-of-order", 2, "lost_on"),
        ("dates-out-of-order", 3, "cleared"),
    ]


@pytest.mark.parametrize(
    ("weight", "unit", "kg"),
    [
        ("250", "grams", 0.25),
        ("250", "Gr.", 0.25),
        ("2", "lbs", 0.90718474),  # NIST SP 811: 0.453 592 37 kg a pound, exact
        ("8", "Ounces", 0.226796185),
        ("1.5", "kilo", 1.5),
        ("250 g", "", 0.25),
        ("0,3kg", "", 0.3),
        ("250 g", "g", 0.25),
        ("1 lb 4 oz", "", 0.56699046250),  # 20 oz; 16 ounces a pound: NIST Handbook 44, Appendix C
        (".4", "", 0.4),
    ],
)
def test_weights_as_people_write_them(tmp_path: Path, weight: str, unit: str, kg: float) -> None:
    """Units by their full names, in the cell, pounds with ounces; a comma as the decimal mark."""
    books, problems = read(tmp_path, "harvest", f"date;crop;weight;unit\n2026-01-05;kale;{weight};{unit}\n")
    assert not problems and books.harvest[0].weight_kg == pytest.approx(kg, rel=1e-12)


def test_two_units_for_one_weight_are_refused(tmp_path: Path) -> None:
    """250 g beside kg: one of the two is wrong."""
    _, problems = read(tmp_path, "harvest", "date,crop,weight,unit\n2026-01-05,kale,250 g,kg\n")
    assert [(p.slug, p.line, p.column) for p in problems] == [("not-a-weight", 2, "weight")]


@pytest.mark.parametrize("head", ["Weight (g)", "weight_g", "weight [g]", "Weight in grams"])
def test_the_unit_may_stand_in_the_heading(tmp_path: Path, head: str) -> None:
    """Weight (g): 250 are 0.25 kg; a unit in the row goes before it."""
    text = f"Date,Crop,{head},unit\n2026-01-05,kale,250,\n2026-01-06,kale,1,kg\n"
    books, problems = read(tmp_path, "harvest", text)
    assert not problems and [p.weight_kg for p in books.harvest] == [0.25, 1.0]


def test_grams_read_as_kilograms_are_asked_about(tmp_path: Path) -> None:
    """250 kg of spinach on one day are grams; one line says so for all of them."""
    text = "date,crop,weight\n2026-01-05,spinach,250\n2026-01-06,kale,410\n2026-01-07,kale,9\n"
    _, problems = read(tmp_path, "harvest", text)
    assert [(p.slug, p.line, p.level) for p in problems] == [("heavy-picking", 2, "warning")]
    assert problems[0].found == "250 kg of spinach on one day (and 1\u00a0picking more like it)"


@pytest.mark.parametrize(
    ("cells", "told", "kept"),
    [
        (("1,250", "0,85"), [], [1.25, 0.85]),  # the other cell shows that commas are decimals
        (("1.250", "0.85"), [], [1.25, 0.85]),
        (("1.250", "0,85"), ["point-or-comma"], [0.85]),
        (("1,250", "0.85"), ["point-or-comma"], [0.85]),
        (("1.250,5", "1.300"), [], [1250.5, 1300.0]),  # points part thousands in this file
        (("1,250.5", "1,300"), [], [1250.5, 1300.0]),
        (("1 250", "1\u00a0300,5"), [], [1250.0, 1300.5]),
    ],
)
def test_the_file_settles_its_marks(tmp_path: Path, cells: tuple[str, str], told: list[str], kept: list[float]) -> None:
    """What no other number of the file settles is asked about."""
    rows = "\n".join(f"2026-01-0{n};east;{cell}" for n, cell in enumerate(cells, 1))
    books, problems = read(tmp_path, "watering", f"date;bed;litres\n{rows}\n")
    assert [p.slug for p in problems] == told and [w.litres for w in books.watering] == kept


@pytest.mark.parametrize(
    ("book", "text", "column"),
    [
        ("harvest", "date;crop;weight;unit\n2026-01-05;kale;1.250;g\n", "weight"),
        ("costs", "date;what;kind;amount\n2026-01-05;film;envelope;1.250\n", "amount"),
    ],
)
def test_three_digits_behind_a_point_of_grams_or_money(tmp_path: Path, book: str, text: str, column: str) -> None:
    """No scale shows a thousandth of a gram and no till a thousandth of a euro: thousands, most likely."""
    _, problems = read(tmp_path, book, text)
    assert [(p.slug, p.column, p.todo) for p in problems] == [("point-or-comma", column, "write 1250 or 1.2500")]


def test_an_amount_with_its_unit_says_what_to_write(tmp_path: Path) -> None:
    """12.50 alone: signs of money and units stand in season.toml."""
    text = "date,what,kind,amount\n2026-01-05,film,envelope,€12.50\n2026-01-06,film,envelope,12.50 EUR\n"
    _, problems = read(tmp_path, "costs", text)
    assert {p.slug for p in problems} == {"not-a-number"}
    assert all(p.todo.startswith("write 12.50 alone") for p in problems) and len(problems) == 2


@pytest.mark.parametrize(
    "written",
    [
        "14 Jan 2026",
        "14-Jan-26",
        "Jan 14, 2026",
        "Wed 14 Jan 2026",
        "14. ledna 2026",
        "2026/01/14",
        "2026.01.14",
        "20260114",
        "14.01.26",
        "14/1/26",
        "14-01-2026",
        "2026-01-14 18:30",
        "14.1.2026 8:05",
        "2026-01-14T00:00:00",
    ],
)
def test_days_as_people_write_them(tmp_path: Path, written: str) -> None:
    """Months by name, years of two digits, a time of day behind: the same day."""
    books, problems = read(tmp_path, "harvest", f"date;crop;weight\n{written};kale;1\n")
    assert not problems and books.harvest[0].date == dt.date(2026, 1, 14)


@pytest.mark.parametrize(
    ("written", "todo"),
    [
        ("2026-02", "write the day too, such as the last of the month: 2026-02-28"),
        ("Jan 14", "write the year too: 2026-01-14"),
        ("2026-01-14 – 2026-01-16", "write the first day here; a stretch of days is a row of kind spell"),
        ("Total", "write a day, or empty the cell; a row of totals is taken out"),
        ("2026-02-30", "write it as 2026-01-14"),
    ],
)
def test_what_is_no_day_says_what_to_write(tmp_path: Path, written: str, todo: str) -> None:
    """By what stands there."""
    _, problems = read(tmp_path, "harvest", f"date,crop,weight\n{written},kale,1\n")
    assert [p.slug for p in problems] == ["not-a-date"] and problems[0].todo.startswith(todo)


@pytest.mark.parametrize(
    ("written", "time"),
    [("6:30 PM", (18, 30)), ("6pm", (18, 0)), ("12:05 a.m.", (0, 5)), ("18.30", (18, 30)), ("18h30", (18, 30))],
)
def test_times_of_day_as_people_write_them(tmp_path: Path, written: str, time: tuple[int, int]) -> None:
    """A 12-hour clock with am or pm; a point or an h between."""
    books, problems = read(tmp_path, "diary", f"date,time,kind,what\n2026-01-14,{written},event,door open\n")
    assert not problems and books.diary[0].time == dt.time(*time)


def test_a_time_behind_the_date_is_that_of_the_row(tmp_path: Path) -> None:
    """Where the column time is empty or missing; midnight, which exports add, is none."""
    books, problems = read(
        tmp_path, "diary", "date,kind,what\n2026-01-14 18:30,event,door\n2026-01-15 00:00,event,fan\n"
    )
    assert not problems and [e.time for e in books.diary] == [dt.time(18, 30), None]


def test_a_title_above_the_header_and_unicode_text(tmp_path: Path) -> None:
    """A spreadsheet's title and an empty line stand above; UTF-16 with tabs, as spreadsheets write Unicode text."""
    text = "Picked in winter\n\nDate\tCrop\tWeight\n2026-01-05\tmâche\t0,25\n"
    (tmp_path / "harvest.csv").write_bytes(text.encode("utf-16"))
    books, problems = read_books(season(tmp_path))
    assert not problems and [(p.line, p.crop, p.weight_kg) for p in books.harvest] == [(4, "mâche", 0.25)]


@pytest.mark.parametrize(("area", "asked"), [("21000", True), ("2.1", False), ("40", False)])
def test_a_planting_wider_than_any_house_is_asked_about(tmp_path: Path, area: str, asked: bool) -> None:
    """21 000 m² are square centimetres."""
    _, problems = read(tmp_path, "plantings", f"crop,bed,area_m2,sown,planted,cleared\nkale,east,{area},,2025-10-20,\n")
    assert [(p.slug, p.line, p.level) for p in problems] == ([("wide-planting", 2, "warning")] if asked else [])
