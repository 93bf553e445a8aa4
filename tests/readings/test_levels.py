"""Numbers at a level at which their measure cannot be all winter: asked about, and what is only odd is not."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from readings.folder import logger, season

from reportgen.problems import Problem, SeasonError
from reportgen.readings import read_season

TIMES = pd.date_range("2025-11-01", periods=30 * 48, freq="30min")
HOURS = np.arange(len(TIMES)) / 2
AIR = np.round(6 + 4 * np.sin((HOURS - 9) * np.pi / 12) + 2 * np.sin(HOURS / 60), 1)
YARD = np.round(0 + 4 * np.sin((HOURS - 9) * np.pi / 12) + 4 * np.sin(HOURS / 60), 1)
DAMP = np.round(80 - 9 * np.sin((HOURS - 9) * np.pi / 12), 1)
WATTS = np.where(AIR < 6, 1980.0, 0.0)


def told(
    folder: Path, columns: dict[str, np.ndarray], *loggers: dict[str, Any], **more: Any
) -> list[tuple[str, str | None, str]]:
    """Slug, column and level of every problem and warning of a season with one file of these columns."""
    table = pd.DataFrame({"Time": TIMES.strftime("%Y-%m-%d %H:%M"), **columns})
    table.to_csv(folder / "a.csv", index=False)
    days = {"first_day": TIMES[0].date(), "last_day": TIMES[-1].date()}
    problems: tuple[Problem, ...]
    try:
        problems = read_season(season(folder, *loggers, **days, **more)).warnings
    except SeasonError as error:
        problems = tuple(error.problems)
    return [(p.slug, p.column, p.level) for p in problems]


def measures(**columns: str | tuple[str, str]) -> dict[str, Any]:
    """Measures by their column, or column and unit."""
    pairs = {name: column if isinstance(column, tuple) else (column, None) for name, column in columns.items()}
    return {"measures": {name: {"column": c} | ({"unit": u} if u else {}) for name, (c, u) in pairs.items()}}


def outdoor(**columns: str | tuple[str, str]) -> dict[str, Any]:
    return logger("yard", where="outdoor", **measures(**columns))


def test_an_honest_house_is_asked_nothing(tmp_path: Path) -> None:
    """Air, humidity, weather and a heater at levels as they are."""
    bench = logger(**measures(air_temperature="T", relative_humidity="H", heater_power=("P", "W")))
    columns = {"T": AIR, "H": DAMP, "O": YARD, "P": WATTS}
    assert told(tmp_path, columns, bench, outdoor(outdoor_temperature="O")) == []


def test_celsius_read_as_fahrenheit(tmp_path: Path) -> None:
    """6 °F are −14 °C: no house grows anything there all winter; 43 °F are 6 °C."""
    bench = logger(**measures(air_temperature=("T", "degF")))
    asked = ("celsius-as-fahrenheit", "[[logger]] bench · air_temperature", "warning")
    assert told(tmp_path, {"T": AIR}, bench) == [asked]
    assert told(tmp_path, {"T": AIR * 1.8 + 32}, bench) == []
    assert told(tmp_path, {"T": (AIR - 9) * 1.8 + 32}, bench) == []  # an unheated house of −3 °C


@pytest.mark.parametrize("middle", [2.0, 8.0])
def test_a_cold_house_in_fahrenheit_read_as_celsius(tmp_path: Path, middle: float) -> None:
    """36 and 46 are no °C beside a winter's crop."""
    columns = {"T": (AIR - 6 + middle) * 1.8 + 32}
    assert [slug for slug, _, _ in told(tmp_path, columns, logger(**measures(air_temperature="T")))] == [
        "fahrenheit-as-celsius"
    ]


def test_temperature_and_humidity_exchanged_are_refused(tmp_path: Path) -> None:
    """80 °C beside 6 %: each in the other's column; nothing is said of °F, which would not help."""
    found = told(tmp_path, {"T": DAMP, "H": AIR}, logger(**measures(air_temperature="T", relative_humidity="H")))
    assert ("humidity-exchanged", "[[logger]] bench · air_temperature", "problem") in found
    assert "fahrenheit-as-celsius" not in {slug for slug, _, _ in found}


@pytest.mark.parametrize("unit", [None, "degC"])
def test_nights_that_are_warmer_outdoors(tmp_path: Path, unit: str | None) -> None:
    """Places exchanged, or a yard in °F read as °C (−5 °C, 23 °F); a clear night's degree or two is nothing."""
    bench, yard = logger(**measures(air_temperature="T")), outdoor(outdoor_temperature=("O", unit or "degC"))
    asked = [("warmer-outdoors", "[[logger]] yard · outdoor_temperature", "warning")]
    assert told(tmp_path, {"T": YARD, "O": AIR}, bench, yard) == asked
    assert told(tmp_path, {"T": AIR, "O": (YARD - 5) * 1.8 + 32}, bench, yard) == asked
    assert told(tmp_path, {"T": AIR, "O": AIR + 2.0}, bench, yard) == []


def test_a_column_that_cannot_be_its_measure(tmp_path: Path) -> None:
    """Humidity in tenths, a bed's raw counts: all set aside, and said loud; a few impossible values are not."""
    columns = {"T": AIR, "H": DAMP * 10, "S": 600 + HOURS % 30}
    bench = logger(**measures(air_temperature="T", relative_humidity="H", soil_moisture=("S", "%")))
    assert {column for slug, column, _ in told(tmp_path, columns, bench) if slug == "mostly-impossible"} == {
        "[[logger]] bench · relative_humidity",
        "[[logger]] bench · soil_moisture",
    }
    few = {**columns, "H": np.where(HOURS % 24 < 6, 655.0, DAMP), "S": 31 + HOURS % 3}
    assert told(tmp_path, few, bench) == []


@pytest.mark.parametrize(
    ("unit", "factor", "asked"), [("kW", 1, True), ("W", 1e-3, True), ("W", 1, False), ("kW", 1e-3, False)]
)
def test_watts_and_kilowatts(tmp_path: Path, unit: str, factor: float, asked: bool) -> None:
    """1980 kW feed a street, 1.98 W warm nobody: the other unit is meant."""
    plug = logger("plug", where="elsewhere", **measures(heater_power=("P", unit)))
    heater = {"name": "fan", "fuel": "electricity", "logger": "plug"}
    columns = {"T": AIR, "P": WATTS * factor}
    found = told(tmp_path, columns, logger(**measures(air_temperature="T")), plug, heating=(heater,))
    assert found == ([("power-unit", "[[logger]] plug · heater_power", "warning")] if asked else [])


@pytest.mark.parametrize(("factor", "asked"), [(1000, True), (1, False)])
def test_watt_hours_counted_as_kilowatt_hours(tmp_path: Path, factor: int, asked: bool) -> None:
    """1.2 kWh an hour, and its watt-hours under the same heading."""
    plug = logger("plug", where="elsewhere", **measures(heater_energy=("E", "kWh")))
    columns = {"T": AIR, "E": 400.0 + factor * 1.2 * HOURS}
    found = told(tmp_path, columns, logger(**measures(air_temperature="T")), plug)
    assert found == ([("power-unit", "[[logger]] plug · heater_energy", "warning")] if asked else [])


def test_a_crop_logger_that_hung_outdoors_first(tmp_path: Path) -> None:
    """A fortnight beside the yard's, a tenth of a degree apart; a house that is a degree warmer is none."""
    rng = np.random.default_rng(2)
    noise = np.round(rng.normal(0, 0.1, len(AIR)), 1)
    bench, yard = logger(**measures(air_temperature="T")), outdoor(outdoor_temperature="O")
    moved = np.where(HOURS < 14 * 24, YARD + noise, AIR)
    asked = ("crop-logger-outdoors", "[[logger]] bench · where", "warning")
    assert told(tmp_path, {"T": moved, "O": YARD}, bench, yard) == [asked]
    assert told(tmp_path, {"T": YARD + 1.0 + noise, "O": YARD}, bench, yard) == []


def test_a_clock_half_a_day_off(tmp_path: Path) -> None:
    """Coldest at three in the afternoon outdoors; an hour off, or no wave at all, is not said."""
    bench, yard = logger(**measures(air_temperature="T")), outdoor(outdoor_temperature="O")
    asked = ("warmest-at-night", "[[logger]] yard · clock", "warning")
    assert told(tmp_path, {"T": AIR, "O": np.roll(YARD, 24)}, bench, yard) == [asked]
    assert told(tmp_path, {"T": AIR, "O": np.roll(YARD, 2)}, bench, yard) == []
    asked = ("warmest-at-night", "[[logger]] bench · clock", "warning")
    assert told(tmp_path, {"T": np.roll(AIR, 24), "O": YARD - 6}, bench, yard) == [asked]
    assert told(tmp_path, {"T": np.roll(AIR, 24)}, bench) == []  # nothing beside it says what time it was
    lamp = {"name": "lamp", "kind": "lamp", "rated_power_w": 400.0, "hours_per_day": 8.0}
    assert told(tmp_path, {"T": np.roll(AIR, 24), "O": YARD - 6}, bench, yard, appliance=(lamp,)) == []
    dark = np.round(-8 + 3 * np.sin(HOURS / 60), 1)
    assert told(tmp_path, {"T": AIR, "O": dark}, bench, yard) == []


def test_a_logger_of_which_all_is_set_aside_says_why(tmp_path: Path) -> None:
    """Its days are right: the dates are not what to look at."""
    columns = {"T": AIR, "W": np.full(len(AIR), 3.2)}
    table = pd.DataFrame({"Time": TIMES.strftime("%Y-%m-%d %H:%M"), **columns})
    table.to_csv(tmp_path / "a.csv", index=False)
    yard = logger("yard", where="outdoor", **measures(wind_speed="W"))
    found = read_season(season(tmp_path, logger(**measures(air_temperature="T")), yard)).warnings
    (told,) = [problem for problem in found if problem.slug == "no-reading-in-season"]
    assert told.found.endswith("1440 rows stuck") and "columns and units" in told.todo


def test_dates_of_which_one_day_lies_in_the_season_are_asked_about(tmp_path: Path) -> None:
    """A file a day that begins with a year of two digits: 25-11-14 alone reads as 25 November 2014, and only the format
    tells it."""
    names = []
    for day in range(1, 29):
        rows = [f"25-11-{day:02d} {hour:02d}:00,{5 + hour / 10}" for hour in range(24)]
        names.append(f"log_{day:02d}.csv")
        (tmp_path / names[-1]).write_text("\n".join(["Time,T", *rows]))
    days = {"first_day": dt.date(2025, 11, 1), "last_day": dt.date(2025, 11, 28)}
    bench = logger(files=tuple(names), **measures(air_temperature="T"))
    found = read_season(season(tmp_path, bench, **days)).warnings
    (told,) = [problem for problem in found if problem.slug == "few-in-season"]
    assert told.found.startswith("648 of 672 rows of bench")
    written = read_season(season(tmp_path, bench | {"time_format": "%y-%m-%d %H:%M"}, **days))
    assert not written.warnings and written.files[0].rows_used == 24


@pytest.mark.parametrize(("from_row", "asked"), [(600, True), (0, False), (1400, False)])
def test_a_main_logger_that_tells_part_of_the_season(tmp_path: Path, from_row: int, asked: bool) -> None:
    """One logger's exports as two loggers: the pages would judge by the first half. A second one beside it, or for a
    day longer, is none."""
    first = np.where(np.arange(len(AIR)) < max(from_row, 600), AIR, np.nan) if from_row == 600 else AIR
    second = np.where(np.arange(len(AIR)) >= from_row, AIR + 0.2, np.nan)
    bench, door = (logger(name, **measures(air_temperature=c)) for name, c in (("bench", "T"), ("door", "D")))
    found = told(tmp_path, {"T": first, "D": second}, bench | {"main": True}, door)
    assert found == ([("main-logger-in-part", "[[logger]] bench · main", "warning")] if asked else [])
