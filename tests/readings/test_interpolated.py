"""Stretches that somebody computed are set aside whole; long decimals that are a file's habit are not."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from readings.folder import air, logger, read, season
from readings.test_accounting import check
from readings.test_checks import TWO, seen, table, wave
from readings.test_tables import workbook

from reportgen.readings import read_season


def filled(values: np.ndarray, first: int, last: int) -> np.ndarray:
    """The values with a straight line in place of what stood between two rows, in all the decimals there are."""
    out = values.copy()
    out[first : last + 1] = np.linspace(values[first], values[last], last - first + 1)
    return out


def test_a_filled_gap_is_set_aside_whole(tmp_path: Path) -> None:
    """A gap of 299 rows filled along a line in a file of tenths: all of the 299 and none of the others."""
    values = filled(wave(2000), 600, 900)
    found = read(tmp_path, table({"Temp": values}))
    check(found)
    assert dict(air(found).set_aside) == dict(found.files[0].set_aside) == {"interpolated": 299}
    assert found.files[0].rows_used == 2000 - 299
    left = np.delete(values, np.arange(601, 900))
    assert air(found).values.tolist() == pytest.approx(left.tolist())
    assert seen(found, "interpolated").count == 299


def test_more_than_half_of_a_file_may_be_filled(tmp_path: Path) -> None:
    """1 999 of 3 000 rows computed in all the decimals there are: none of them is a reading."""
    values = wave(3000)
    values[500:2500] = filled(wave(3000), 500, 2500)[500:2500] + np.linspace(0, 1, 2000) ** 2 / 3
    found = air(read(tmp_path, table({"Temp": values})))
    assert dict(found.set_aside) == {"interpolated": 1999}


def test_what_most_of_a_file_does_is_its_habit(tmp_path: Path) -> None:
    """Whole degrees for a month, then a finer logger that writes thousandths for two."""
    values = wave(9000)
    fine = np.round(values + 0.037 * np.sin(np.arange(9000)), 3)
    whole = np.where(np.arange(9000) < 3000, np.round(values), fine)
    assert not air(read(tmp_path, table({"Temp": whole}))).set_aside


def test_a_curve_is_computed_too(tmp_path: Path) -> None:
    """Filled along a bend instead of a line, under the coldest reading: the season's minimum is one that was read."""
    values = wave(2000, middle=4.0, swing=3.0)
    values[700:760] = values[700] - 5.0 * np.sin(np.pi * np.arange(60) / 59.0) - 1 / 3
    found = air(read(tmp_path, table({"Temp": values})))
    assert dict(found.set_aside) == {"interpolated": 60}
    assert float(found.values.min()) == pytest.approx(min(np.delete(values, np.arange(700, 760))))


def test_one_or_two_long_numbers_are_no_stretch(tmp_path: Path) -> None:
    """Two rows running may be anything; the third makes a stretch."""
    values = wave(400)
    values[50:52] = 7.123456
    values[90:93] = (7.123456, 7.234567, 7.345678)
    found = air(read(tmp_path, table({"Temp": values})))
    assert dict(found.set_aside) == {"interpolated": 3}


def test_two_more_decimals_are_no_sign(tmp_path: Path) -> None:
    """A file of tenths in which a week is written in thousandths."""
    values = wave(3000)
    values[500:1500] = np.round(values[500:1500] + 0.037 * np.sin(np.arange(1000)), 3)
    assert not air(read(tmp_path, table({"Temp": values}))).set_aside


def test_a_straight_line_in_the_files_own_steps_is_honest(tmp_path: Path) -> None:
    """A house that cools a tenth every ten minutes for three hours."""
    values = wave(400)
    values[100:118] = np.round(values[100] - 0.1 * np.arange(18), 1)
    assert not air(read(tmp_path, table({"Temp": values}))).set_aside


def test_a_file_made_of_fahrenheit_is_honest(tmp_path: Path) -> None:
    """Tenths of °F written as °C in sixteen digits; the whole file, or only its second half after an update."""
    fahrenheit = np.round(wave(1600) * 1.8 + 32, 1)
    long = (fahrenheit - 32) / 1.8
    assert not air(read(tmp_path, table({"Temp": long}))).set_aside
    half = np.where(np.arange(1600) < 900, np.round(long, 1), long)
    assert not air(read(tmp_path, table({"Temp": half}))).set_aside


def test_six_digits_whatever_the_size_are_honest(tmp_path: Path) -> None:
    """A program that writes six significant digits gives 12.3457 and 0.0123457: more decimals only near 0."""
    values = wave(3000, middle=6.0, swing=6.0) + 0.01 * np.sin(np.arange(3000) * 1.7)
    values[1000:1010] = 0.004 + 0.0001234567 * np.arange(10)
    cells = [f"{value:.6g}" for value in values]
    assert not air(read(tmp_path, table({"Temp": cells}))).set_aside


def test_a_saturated_humidity_does_not_make_its_tenths_long(tmp_path: Path) -> None:
    """100 most of the time and 97.385 between: three decimals are its habit."""
    humidity = np.full(900, 100.0)
    humidity[::10] = np.round(95 + 4 * np.sin(np.arange(90)), 3)
    humidity[300:330] = np.round(93 + np.sin(np.arange(30)), 3)
    found = read(tmp_path, table({"Temp": wave(900), "Hum": humidity}), measures=TWO)
    damp = found.channel("bench", "relative_humidity")
    assert damp is not None and not damp.set_aside


def test_each_column_by_itself(tmp_path: Path) -> None:
    """A filled humidity beside measured air: the rows are used, the humidities are not."""
    found = read(tmp_path, table({"Temp": wave(600), "Hum": filled(wave(600, 80, 9), 200, 301)}), measures=TWO)
    check(found)
    damp = found.channel("bench", "relative_humidity")
    assert damp is not None and dict(damp.set_aside) == {"interpolated": 100}
    assert not air(found).set_aside and found.files[0].rows_used == 600


def test_light_and_power_have_any_decimals(tmp_path: Path) -> None:
    """0 by night and 1834.23715 when on is how such loggers write."""
    power = np.where(np.arange(600) % 40 < 15, 1834.23715 + 0.00113 * np.arange(600), 0.0)
    found = read(tmp_path, table({"P": power}), measures={"heater_power": {"column": "P"}}, where="elsewhere")
    assert not found.channels[0].set_aside


def test_a_workbook_stores_tenths_in_seventeen_digits(tmp_path: Path) -> None:
    """21.3 kept as 21.300000000000001, and sums that are a last place off, are tenths; a filled stretch is not."""
    values = wave(400)
    stored = values + np.where(np.arange(400) % 3 == 0, 1.8e-15, 0.0)
    start = 46_000.0
    rows: list[list[str | float]] = [["Time", "Temp"]]
    rows += [[start + n / 144, float(value)] for n, value in enumerate(filled(stored, 100, 148))]
    workbook(tmp_path / "a.xlsx", rows, (1,))
    found = read_season(season(tmp_path, logger(files=("a.xlsx",))))
    check(found)
    assert dict(air(found).set_aside) == {"interpolated": 47}


def test_the_usual_is_each_files_own(tmp_path: Path) -> None:
    """One export in tenths, the next in sixteen digits throughout: both are used whole."""
    (tmp_path / "a-1.csv").write_text(table({"Temp": wave(300)}))
    (tmp_path / "a-2.csv").write_text(table({"Temp": wave(300) / 3.0}, start="2025-12-20"))
    found = read_season(season(tmp_path, logger(files=("a-*.csv",))))
    check(found)
    assert not air(found).set_aside
