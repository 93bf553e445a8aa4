"""The tick sheet of a trial: nights on become spells of the thing that the diary names."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from readings.folder import logger, season

from reportgen.problems import Problem
from reportgen.readings.books import Books, read_books
from reportgen.readings.diary_lines import untried

IDEA = "date,kind,what,touches,reversible,hoped_for,thing\n2025-11-02,idea,Fan at night,air,yes,drier air,fan\n"


def read(folder: Path, ticks: str, diary: str = IDEA, **more: Any) -> tuple[Books, list[Problem]]:
    """The books of a folder with a diary and a tick sheet."""
    (folder / "diary.csv").write_text(diary, encoding="utf-8")
    (folder / "ticks.csv").write_text("date,what,on\n" + ticks, encoding="utf-8")
    return read_books(season(folder, logger(), **more))


def day(number: int) -> dt.date:
    """A day of January 2026."""
    return dt.date(2026, 1, number)


def test_nights_on_become_spells(tmp_path: Path) -> None:
    """Hand-worked: on 5, 6, 7; off 8, 9; on 10; an empty cell 11; on 12 and, after a night without a row, on 14."""
    nights = [(5, "yes"), (6, "x"), (7, "on"), (8, "no"), (9, "off"), (10, "1"), (11, ""), (12, "yes"), (14, "yes")]
    books, problems = read(tmp_path, "".join(f"2026-01-{n:02d},fan  at night,{on}\n" for n, on in nights))
    assert problems == []
    spells = [entry for entry in books.diary if entry.kind == "spell"]
    assert [(s.date, s.until) for s in spells] == [
        (day(5), day(7)),
        (day(10), day(10)),
        (day(12), day(12)),
        (day(14), day(14)),
    ]
    assert {(s.what, s.touches, s.hoped_for, s.thing) for s in spells} == {
        ("Fan at night", ("air",), ("drier air",), "fan")
    }
    (lever,) = books.levers
    assert lever.hours_on == 6 * 24.0  # six nights, each from noon to noon


def test_problems_name_the_sheet_and_its_line(tmp_path: Path) -> None:
    """A word that is none, a date that is none, and a night told both ways."""
    _, problems = read(
        tmp_path, "2026-01-05,Fan at night,maybe\n2026-13-01,Fan at night,yes\n"
        "2026-01-07,Fan at night,yes\n2026-01-07,Fan at night,no\n",
    )  # fmt: skip
    assert [(p.slug, p.address) for p in problems] == [
        ("unknown-word", "ticks.csv:2, on"),
        ("not-a-date", "ticks.csv:3, date"),
        ("ticked-twice", "ticks.csv:5, on"),
    ]


def test_the_plan_s_word_for_a_thing_finds_its_line(tmp_path: Path) -> None:
    """The sheet of the plan calls an idea by its `thing`: the line with it says what it touches."""
    books, problems = read(tmp_path, "2026-01-05,Fan,yes\n")
    assert problems == []
    assert [(e.what, e.touches) for e in books.diary if e.kind == "spell"] == [("Fan at night", ("air",))]


def test_an_idea_that_was_tried_is_one_no_more_and_was_bought(tmp_path: Path) -> None:
    """Its price counts with the nights it hung, once; what nobody tried stays an idea."""
    diary = (
        "date,kind,what,touches,cost,years\n2026-01-02,idea,Night curtain,envelope,210,5\n"
        "2026-01-02,idea,Second door,envelope,90,\n"
    )
    books, _ = read(tmp_path, "2026-01-05,night  curtain,yes\n2026-01-07,night curtain,yes\n", diary, currency="EUR")
    assert [e.what for e in untried(books.diary)] == ["Second door"]
    assert {(e.cost, e.years) for e in books.diary if e.kind == "spell"} == {(210.0, 5.0)}


def test_a_thing_that_the_diary_does_not_name(tmp_path: Path) -> None:
    """It is read; a warning says what is missing."""
    books, (warning,) = read(tmp_path, "2026-01-05,fleece,yes\n")
    assert (warning.slug, warning.level, warning.address) == ("tick-without-line", "warning", "ticks.csv:2, what")
    assert [entry.what for entry in books.diary if entry.kind == "spell"] == ["fleece"]


def test_nights_that_the_diary_has_too(tmp_path: Path) -> None:
    """One spell told twice stops the review."""
    diary = "date,kind,what,touches,until\n2026-01-04,spell,fan at night,air,2026-01-06\n"
    _, problems = read(tmp_path, "2026-01-06,fan at night,yes\n2026-01-07,fan at night,yes\n", diary)
    assert [(p.slug, p.level) for p in problems] == [("ticked-twice", "problem")]
    assert "line 2 of the diary" in problems[0].found


def test_a_fault_of_the_levers_names_the_tick_sheet(tmp_path: Path) -> None:
    """A spell that takes back one thing in the diary and nothing in the sheet is told where the row stands."""
    diary = (
        "date,kind,what,touches,until,undoes\n2025-11-01,change,vents taped,envelope,,\n"
        "2025-12-01,spell,vents open,envelope,2025-12-03,vents taped\n"
    )
    books, problems = read(tmp_path, "2026-01-06,vents open,yes\n", diary)
    assert problems == []
    assert [len(lever.lines) for lever in books.levers] == [3]


def test_inspect_tells_the_nights_beside_the_diary(tmp_path: Path) -> None:
    """Entries of the diary and nights of the sheet are counted each for itself."""
    from reportgen.inspection import Found, text
    from reportgen.readings import read_season

    hours = (dt.datetime(2026, 1, 1) + dt.timedelta(hours=n) for n in range(240))
    (tmp_path / "a.csv").write_text("Time,Temp\n" + "".join(f"{at},5.{at.hour}\n" for at in hours), encoding="utf-8")
    read(tmp_path, "2026-01-05,fan at night,yes\n2026-01-06,fan at night,yes\n2026-01-09,fan at night,yes\n")
    readings = read_season(season(tmp_path, logger(), last_day=dt.date(2026, 1, 10)))  # else it would still run
    found = Found(
        folder=tmp_path, season=readings.season, readings=readings, record=None, problems=(), warnings=readings.warnings
    )
    words = text(found).replace("\u00a0", " ")
    assert "diary.csv: 1 entry, 2 November 2025\n" in words and "ticks.csv: 3 nights on" in words
