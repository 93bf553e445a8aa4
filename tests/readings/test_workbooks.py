"""Workbooks as logger files: real dates and times of ODS and XLSX, the sheet that is named, and faults by sheet, row
and column; columns by place and times in parts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest
from begin.workbooks import Sheets, ods, xlsx
from readings.folder import air, fail, logger, read, season, times

from reportgen.problems import Problem, SeasonError
from reportgen.readings import read_season

Writer = Callable[[Path, Sheets], None]
WRITERS = pytest.mark.parametrize(("ending", "write"), [("ods", ods), ("xlsx", xlsx)])
NOON = dt.datetime(2025, 12, 1, 12, 0)
HALF_PAST = dt.datetime(2025, 12, 1, 12, 30)


def told(folder: Path, file: str, **more: object) -> Problem:
    """The one problem of a season with that logger file."""
    with pytest.raises(SeasonError) as caught:
        read_season(season(folder, logger(files=(file,), **more)))
    (problem,) = caught.value.problems
    return problem


@WRITERS
def test_dates_and_times_of_a_named_sheet(tmp_path: Path, ending: str, write: Writer) -> None:
    """A column of moments, and a date beside a time of day, midnight among them, give the same instants."""
    midnight = dt.datetime(2025, 12, 2)
    moments = [NOON, HALF_PAST, midnight]
    rows = [["Time", "Day", "Clock", "Temp"], *([t, t.date(), t.time(), 4.5] for t in moments)]
    write(tmp_path / f"a.{ending}", {"About": [["notes"]], "Data": rows})
    for time in ("Time", ("Day", "Clock")):
        channel = air(read_season(season(tmp_path, logger(files=(f"a.{ending}",), time=time, sheet="Data"))))
        assert times(channel) == ["2025-12-01 11:00:00", "2025-12-01 11:30:00", "2025-12-01 23:00:00"]


@WRITERS
def test_a_fault_names_the_sheet_the_row_and_the_column(tmp_path: Path, ending: str, write: Writer) -> None:
    """Words in the column of numbers: the first such row as the workbook counts it, below a title."""
    rows = [
        ["My house", None],
        ["Time", "Temp"],
        [NOON, "warm"],
        [HALF_PAST, "cold"],
        [dt.datetime(2025, 12, 1, 13), 4.5],
    ]
    write(tmp_path / f"a.{ending}", {"Data": rows})
    problem = told(tmp_path, f"a.{ending}")
    assert (problem.slug, problem.file, problem.line) == ("not-a-number", f"a.{ending}", 3)
    assert problem.address == f"a.{ending}:3, sheet 'Data', Temp"


@WRITERS
def test_a_missing_column_and_a_missing_sheet(tmp_path: Path, ending: str, write: Writer) -> None:
    """Both are told with what is there."""
    write(tmp_path / f"a.{ending}", {"Data": [["Time", "Temperature"], [NOON, 4.5]], "More": [["x"]]})
    problem = told(tmp_path, f"a.{ending}")
    assert (problem.slug, problem.line, problem.column) == ("missing-column", 1, "sheet 'Data', Temp")
    assert told(tmp_path, f"a.{ending}", sheet="Dat").todo.endswith("the workbook has: Data, More")


def test_columns_by_place(tmp_path: Path) -> None:
    """Names that are empty or stand twice are no hindrance; a place beyond the last column is told."""
    text = ",Temp,Temp\n2025-12-01 12:00,4.5,60\n2025-12-01 12:30,5.5,61\n"
    by_place = {"air_temperature": {"column": 2, "unit": "degC"}, "relative_humidity": {"column": 3}}
    readings = read(tmp_path, text, time=1, measures=by_place)
    assert air(readings).values.tolist() == [4.5, 5.5]
    damp = readings.channel("bench", "relative_humidity")
    assert damp is not None and damp.values.tolist() == [60.0, 61.0]
    beyond = {"air_temperature": {"column": 2, "unit": "degC"}, "relative_humidity": {"column": 4}}
    (problem,) = fail(tmp_path, text, time=1, measures=beyond).problems
    assert (problem.slug, problem.column, problem.expected) == ("missing-column", "column 4", "a column 4; there are 3")


@pytest.mark.parametrize(
    ("header", "row", "time", "column"),
    [
        ("Time,Temp,Hum", "7,2025-12-01 12:00,4.5,80", "Time", "Temp"),  # row numbers without a name
        ("Temp,Hum", "2025-12-01 12:00,4.5,80", 1, "Temp"),  # the time without a name
        ("Time,Temp,Hum", "2025-12-01 12:00,4.5,80,3.1", "Time", "Temp"),  # a last column without a name
        ("Time,Temp,Hum", "2025-12-01 12:00,4.5,80,", "Time", "Temp"),  # a comma too many
    ],
)
def test_a_header_shorter_than_its_rows(tmp_path: Path, header: str, row: str, time: str | int, column: str) -> None:
    """The names are set over the cells they fit: 4.5 is the temperature whichever end of the header is short."""
    measures = {"air_temperature": {"column": column}}
    assert air(read(tmp_path, f"{header}\n{row}\n", time=time, measures=measures)).values.tolist() == [4.5]


def test_a_time_in_parts_and_hour_24(tmp_path: Path) -> None:
    """Year, month, day and hour apart are joined by `time_format`; hour 24 is the midnight that ends the day."""
    text = "Y,M,D,H,Temp\n2025,12,1,23,4.5\n2025,12,1,24,5.5\n2025,12,2,1,6.5\n"
    channel = air(read(tmp_path, text, time=("Y", "M", "D", "H"), time_format="%Y %m %d %H"))
    assert times(channel) == ["2025-12-01 22:00:00", "2025-12-01 23:00:00", "2025-12-02 00:00:00"]


def test_a_percentage_kept_as_a_fraction_is_told(tmp_path: Path) -> None:
    """Spreadsheets keep 80 % as 0.8: read as % the house would be a desert, so it is a problem; as a fraction it is
    80."""
    rows = [f"2025-12-01 {n:02d}:00,{0.7 + n / 100:.2f}" for n in range(24)]
    text = "\n".join(["Time,RH", *rows]) + "\n"
    (problem,) = fail(tmp_path, text, measures={"relative_humidity": {"column": "RH"}}).problems
    assert (problem.slug, problem.line, problem.column) == ("fraction-as-percent", 1, "RH")
    readings = read(tmp_path, text, measures={"relative_humidity": {"column": "RH", "unit": "fraction"}})
    damp = readings.channel("bench", "relative_humidity")
    assert damp is not None and damp.values.iloc[10] == pytest.approx(80.0)


def test_numbers_that_are_texts_with_commas(tmp_path: Path) -> None:
    """A sheet into which numbers were pasted as text: 8,312 is eight and a bit where no cell shows a point."""
    rows = [["Time", "Temp"], *[[f"2025-12-01 {n:02d}:00", f"{8 + n / 7:.3f}".replace(".", ",")] for n in range(24)]]
    xlsx(tmp_path / "a.xlsx", {"S": rows})
    readings = read_season(season(tmp_path, logger(files=("a.xlsx",))))
    assert air(readings).values.tolist() == [round(8 + n / 7, 3) for n in range(24)]
