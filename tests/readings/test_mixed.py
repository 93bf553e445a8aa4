"""Columns that hold two things: another header further down, sensors by turns, °C after °F; and what only looks so."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from readings.folder import fail, logger, read, season

from reportgen.problems import Problem, SeasonError
from reportgen.readings import read_season

FIRST = dt.datetime(2025, 11, 1)
BOTH = {"measures": {"air_temperature": {"column": "Temp °C"}, "relative_humidity": {"column": "RH %"}}}


def moment(n: int, minutes: int = 30) -> str:
    return f"{FIRST + dt.timedelta(minutes=minutes * n):%Y-%m-%d %H:%M}"


def crop(n: int) -> float:
    """Air beside the crop [°C], every half hour: a daily wave and slow weather."""
    return round(8 + 4 * math.sin(n / 48 * 2 * math.pi) + 2 * math.sin(n / 150), 1)


def damp(n: int) -> float:
    return round(77 - 9 * math.sin(n / 48 * 2 * math.pi), 1)


def fahrenheit(c: float) -> float:
    """NIST SP 811, B.9: t/°F = 1.8 t/°C + 32."""
    return round(1.8 * c + 32, 1)


def found(folder: Path, text: str, **more: object) -> list[Problem]:
    """The problems with which such a file is refused; none where it is read."""
    try:
        read(folder, text, **more)
    except SeasonError as error:
        return list(error.problems)
    return []


@pytest.mark.parametrize(
    ("second", "row"),
    [
        ("Time,RH %,Temp °C", lambda n: f"{moment(n)},{damp(n)},{crop(n)}"),
        ("Time,Temp (°F),RH %", lambda n: f"{moment(n)},{fahrenheit(crop(n))},{damp(n)}"),
        ("Date/Time,Soil °C,Temp °C,RH %", lambda n: f"{moment(n)},9.1,{crop(n)},{damp(n)}"),
    ],
)
def test_another_header_further_down(tmp_path: Path, second: str, row: Callable[[int], str]) -> None:
    """Columns in another order, another unit, one more in front: told with its line, and nothing is read by the first
    header that stands under the second."""
    head = [f"{moment(n)},{crop(n)},{damp(n)}" for n in range(60)]
    text = "\n".join(["Time,Temp °C,RH %", *head, second, *map(row, range(60, 200))])
    told = found(tmp_path, text, **BOTH)
    assert ("header-changes", 62) in {(problem.slug, problem.line) for problem in told}


def test_the_same_header_again_is_none(tmp_path: Path) -> None:
    """Exports pasted together repeat their header; its case and spaces mean nothing."""
    rows = [f"{moment(n)},{crop(n)},{damp(n)}" for n in range(120)]
    text = "\n".join(["Time,Temp °C,RH %", *rows[:60], "time , temp °c,RH %", *rows[60:], "Average,7.9,80", "Time,,"])
    assert read(tmp_path, text, **BOTH).files[0].rows_used == 120


@pytest.mark.parametrize("seconds", [1, 7])
@pytest.mark.parametrize("sensors", [2, 3])
def test_sensors_by_turns(tmp_path: Path, seconds: int, sensors: int) -> None:
    """A row a reading, the sensors seconds apart: told with how many there are."""
    rows = [f"{moment(n)}:{k * seconds:02d},s{k},{crop(n) - 6 * k:.1f}" for n in range(200) for k in range(sensors)]
    error = fail(tmp_path, "\n".join(["Time,Sensor,Temp", *rows]))
    (told,) = [problem for problem in error.problems if problem.slug == "sensors-in-turn"]
    assert told.line == 2 and f"of {sensors} sensors" in told.found


def test_a_restless_sensor_takes_no_turns(tmp_path: Path) -> None:
    """Noise of several K from reading to reading (an open door, a heater that cycles) is of one sensor."""
    noise = np.random.default_rng(4).normal(0, 4, 400)
    heater = [3.0 * ((n // 3) % 2) for n in range(400)]
    rows = [f"{moment(n, 10)},{10 + noise[n] + heater[n]:.1f}" for n in range(400)]
    assert not found(tmp_path, "\n".join(["Time,Temp", *rows]))


@pytest.mark.parametrize("hours", [(7, 15), (7, 13, 20)])
def test_readings_of_morning_and_afternoon_take_no_turns(tmp_path: Path, hours: tuple[int, ...]) -> None:
    """Read by hand at the same hours each day: the day comes back, no sensor."""
    rows = [
        f"2025-{11 + n // 30}-{1 + n % 30:02d} {hour:02d}:00,{crop(2 * hour) + n / 20:.1f}"
        for n in range(60)
        for hour in hours
    ]
    assert not found(tmp_path, "\n".join(["Time,Temp", *rows]))


@pytest.mark.parametrize("unit", ["degC", "degF"])
@pytest.mark.parametrize("first_f", [True, False])
@pytest.mark.parametrize("two_files", [True, False])
def test_a_change_between_celsius_and_fahrenheit(tmp_path: Path, unit: str, first_f: bool, two_files: bool) -> None:
    """The app is switched at row 300: its line is named, whichever unit is declared, in one file or from one to the
    next."""
    rows = [f"{moment(n)},{fahrenheit(crop(n)) if (n < 300) == first_f else crop(n)}" for n in range(600)]
    parts = {"a.csv": rows[:300], "b.csv": rows[300:]} if two_files else {"a.csv": rows}
    for name, lines in parts.items():
        (tmp_path / name).write_text("\n".join(["Time,Temp", *lines]))
    measures = {"air_temperature": {"column": "Temp", "unit": unit}}
    with pytest.raises(SeasonError) as error:
        read_season(season(tmp_path, logger(files=tuple(parts), measures=measures)))
    (told,) = [problem for problem in error.value.problems if problem.slug == "unit-changes"]
    assert (told.file, told.line) == (("b.csv", 2) if two_files else ("a.csv", 302))
    assert f"it seems to be {'°C' if first_f else '°F'}" in told.found
    assert "fahrenheit-as-celsius" not in {problem.slug for problem in error.value.problems}


@pytest.mark.parametrize("room", [19.4, 21.0, 24.0])
def test_a_logger_carried_indoors_changes_no_unit(tmp_path: Path, room: float) -> None:
    """From −7 °C outdoors to a warm room for good, or for the hours of its reading off: no unit, though 1.8 × −7 + 32
    is a room's 19.4 °C."""
    outdoors = [round(-7 + 2 * math.sin(n / 48 * 2 * math.pi), 1) for n in range(600)]
    for stays in (range(300, 600), range(300, 320)):
        rows = [f"{moment(n)},{room + n % 3 / 10 if n in stays else outdoors[n]}" for n in range(600)]
        assert not found(tmp_path, "\n".join(["Time,Temp", *rows]))
