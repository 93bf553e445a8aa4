"""Rows that say nothing but 0 and error codes are set aside; a true 0 stays, whatever stands beside it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from readings.folder import read
from readings.test_accounting import check
from readings.test_checks import table

from reportgen.readings.types import Channel, Readings

COLUMNS = {
    "O": "outdoor_temperature", "T": "air_temperature", "H": "relative_humidity", "S": "soil_temperature",
    "L": "solar_radiation", "P": "heater_power", "E": "heater_energy",
}  # fmt: skip


def read_columns(folder: Path, columns: Mapping[str, list[Any]], step: str = "10min") -> Readings:
    """A logger of those columns, every row accounted for."""
    measures = {COLUMNS[name]: {"column": name} for name in columns}
    found = read(folder, table(dict(columns), step=step), measures=measures)
    check(found)
    return found


def of(found: Readings, name: str) -> Channel:
    """The channel of a column."""
    channel = found.channel("bench", COLUMNS[name])
    assert channel is not None
    return channel


def test_zeros_beside_blanks_are_dead(tmp_path: Path) -> None:
    """`0, 0, blank, blank` amid 6 °C and 80 %: the logger was starting up."""
    columns = {
        "T": [6.1, 0, 6.0, 6.2], "H": [80, 0, 81, 82], "S": [9.0, None, 9.0, 9.1], "L": [12, None, 14, 20]
    }  # fmt: skip
    found = read_columns(tmp_path, columns)
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    assert of(found, "T").values.tolist() == [6.1, 6.0, 6.2]
    assert dict(of(found, "H").set_aside) == {"dead row": 1}
    assert not of(found, "S").set_aside  # an empty cell is no value
    words = "1 value stands in rows that say nothing but 0 and error codes; set aside"
    assert [one.words for one in found.findings if one.slug == "dead-row"] == [words] * 2


def test_zeros_beside_a_sentinel_are_dead(tmp_path: Path) -> None:
    """`0, 0, −214748000` among living rows is one dead row, in all its columns; zero light and power go with it."""
    columns = {"T": [0.4, 0, 0.3], "L": [3, 0, 5], "S": [4.0, -214748000, 4.1]}
    found = read_columns(tmp_path, columns)
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    assert all(dict(channel.set_aside) == {"dead row": 1} for channel in found.channels)


def test_only_sentinels_are_sentinels(tmp_path: Path) -> None:
    """A row without a 0 has its own name for what is wrong."""
    found = read_columns(tmp_path, {"T": [5.0, -999, 5.1], "H": [80, -999, 81]})
    assert dict(found.files[0].set_aside) == {"sentinel": 1}


def test_a_night_of_light_and_power_at_zero_is_honest(tmp_path: Path) -> None:
    """No light, no heating: nothing is wrong, and nothing is lost."""
    found = read_columns(tmp_path, {"L": [40, 0, 0, 0, 30], "P": [900, 0, 0, 0, 880]})
    assert found.files[0].rows_used == 5


def test_a_light_sensor_alone_keeps_its_nights(tmp_path: Path) -> None:
    """Hourly light of 120 at dusk, 0 for fifteen hours, 140 at dawn; the record begins and ends in the dark."""
    values = [0, 0, 90, 300, 120, *[0] * 15, 140, 0]
    found = read_columns(tmp_path, {"L": values}, step="1h")
    assert of(found, "L").values.tolist() == values


def test_a_darkness_of_minutes_at_noon_is_dead(tmp_path: Path) -> None:
    """0 light and 0 power between 380 and 390 W/m², ten minutes apart, is a logger that lost its power."""
    found = read_columns(tmp_path, {"L": [380, 0, 390], "P": [20, 0, 0]})
    assert dict(found.files[0].set_aside) == {"dead row": 1}


def test_frost_at_zero_beside_a_blank_humidity_is_honest(tmp_path: Path) -> None:
    """0.0 °C amid 0.2 °C is the freezing point, whether or not the humidity cell is filled."""
    found = read_columns(tmp_path, {"T": [0.2, 0.0, 0.0, 0.2], "H": [90, None, None, 91]})
    assert of(found, "T").values.tolist() == [0.2, 0.0, 0.0, 0.2]


def test_a_zero_far_from_its_neighbours_beside_a_blank_is_dead(tmp_path: Path) -> None:
    """8 °C, `0, blank`, 8 °C within twenty minutes: no house does that."""
    found = read_columns(tmp_path, {"T": [8.0, 0, 8.1, 8.0], "H": [90, None, 91, 90]})
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    assert float(of(found, "T").values.min()) == 8.0


def test_dead_rows_of_an_hourly_logger(tmp_path: Path) -> None:
    """6 °C, `0, blank`, 6 °C from hour to hour is dead; a morning that rises from 0.0 to 6 °C is not."""
    found = read_columns(tmp_path, {"T": [6.0, 0, 6.1, 6.0], "H": [90, None, 91, 90]}, step="1h")
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    morning = {"T": [-0.4, 0.0, 6.0, 9.0], "L": [0, 0, 120, 200]}
    assert read_columns(tmp_path, morning, step="1h").files[0].rows_used == 4


def test_two_temperatures_at_zero_at_once(tmp_path: Path) -> None:
    """Air of 2.2 °C and −1.5 °C outdoors do not both read 0 for one row of ten minutes; both near 0 may."""
    found = read_columns(tmp_path, {"T": [2.2, 0, 2.2], "O": [-1.5, 0, -1.6], "H": [88, None, 88]})
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    honest = {"T": [0.3, 0.0, 0.2], "O": [-0.1, 0.0, -0.2], "H": [88, None, 88]}
    assert read_columns(tmp_path, honest).files[0].rows_used == 3


def test_a_long_dead_stretch_is_seen_at_its_edges(tmp_path: Path) -> None:
    """Five hours of 0, 0 between 12 °C and 9 °C are dead, although noon and evening are hours apart."""
    found = read_columns(tmp_path, {"T": [12.0, *[0] * 30, 9.0, 9.1], "P": [50, *[0] * 30, 60, 70]})
    assert dict(found.files[0].set_aside) == {"dead row": 30}


def test_a_house_that_stood_at_the_freezing_point_is_honest(tmp_path: Path) -> None:
    """A logger of temperature alone rests at 0.0 °C for hours while water freezes."""
    values = [1.1, 0.6, 0.2, *[0.0] * 30, 0.3, 0.9]
    assert of(read_columns(tmp_path, {"T": values}), "T").values.tolist() == values


def test_a_broken_probe_takes_no_true_zero_with_it(tmp_path: Path) -> None:
    """The probe writes −999 all winter; the dark and the freezing point beside it stay."""
    columns = {"T": [0.3, 0.1, 0.0, 0.0, 0.2], "L": [7, 0, 0, 0, 3], "S": [-999] * 5}
    found = read_columns(tmp_path, columns)
    assert of(found, "T").values.tolist() == [0.3, 0.1, 0.0, 0.0, 0.2]
    assert len(of(found, "L").values) == 5
    assert dict(of(found, "S").set_aside) == {"sentinel": 5}


def test_a_humidity_that_failed_for_good_takes_no_true_zero_with_it(tmp_path: Path) -> None:
    """0 % in every row is that sensor's fault; 0.0 °C among 0.2 °C is not."""
    found = read_columns(tmp_path, {"T": [0.2, 0.0, 0.2], "H": [0, 0, 0]})
    assert of(found, "T").values.tolist() == [0.2, 0.0, 0.2]


def test_a_zero_in_a_living_row_with_a_sentinel_is_doubted(tmp_path: Path) -> None:
    """−999 in the soil, 0 °C in air of 7 °C, 85 % humidity: the humidity is used, the 0 °C is not."""
    columns = {"T": [7.0, 0, 7.1], "H": [84, 85, 86], "S": [9.0, -999, 9.0]}
    found = read_columns(tmp_path, columns)
    assert of(found, "T").values.tolist() == [7.0, 7.1]
    assert dict(of(found, "T").set_aside) == {"sentinel": 1}
    assert len(of(found, "H").values) == 3


def test_a_counter_that_falls_to_zero_and_comes_back_is_dead(tmp_path: Path) -> None:
    """1 234 kWh, 0, 1 235 kWh is no new counter, and its total is not counted twice."""
    found = read_columns(tmp_path, {"P": [300, 0, 320], "E": [1234.0, 0, 1235.0]})
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    again = read_columns(tmp_path, {"P": [300, 0, 320], "E": [1234.0, 0, 0.2]})
    assert not again.files[0].set_aside


def test_zeros_when_the_logger_starts(tmp_path: Path) -> None:
    """Three rows of 0, 0 before the first reading are dead; without a humidity too, if the first reading is 9 °C."""
    for other, values in (("H", [0, 0, 0, 70, 71]), ("P", [0, 0, 0, 80, 90])):
        found = read_columns(tmp_path, {"T": [0, 0, 0, 9.0, 9.1], other: values})
        assert dict(found.files[0].set_aside) == {"dead row": 3}


def test_zero_fahrenheit_is_no_frost_of_eighteen_degrees(tmp_path: Path) -> None:
    """0 as written in a column of °F would be −17.8 °C amid 46 °F."""
    text = table({"T": [46.0, 0, 46.1], "P": [0, 0, 5]})
    measures = {"air_temperature": {"column": "T", "unit": "degF"}, "heater_power": {"column": "P"}}
    found = read(tmp_path, text, measures=measures)
    check(found)
    assert dict(found.files[0].set_aside) == {"dead row": 1}


@pytest.mark.parametrize("count", [1, 40, 200])
def test_a_file_of_nothing_else_is_dead(tmp_path: Path, count: int) -> None:
    """Every row 0 °C and 0 %: not one of them is a reading."""
    found = read_columns(tmp_path, {"T": [0] * count, "H": [0] * count})
    assert dict(found.files[0].set_aside) == {"dead row": count}


def test_a_winter_of_honest_zeros_loses_none(tmp_path: Path) -> None:
    """Thirty days about the freezing point, dark by night, heater off by day: whatever is 0 is used."""
    rng = np.random.default_rng(7)
    n = np.arange(30 * 144)
    hour = n / 6 % 24
    air = np.round(2 * np.sin(2 * np.pi * (hour - 9) / 24) + np.cumsum(rng.normal(0, 0.008, len(n))), 1)
    light = np.round(np.clip(300 * np.sin(np.pi * (hour - 8) / 8), 0, None) * ((hour > 8) & (hour < 16)))
    power = np.where(air < -1, 900.0, 0.0)
    found = read_columns(tmp_path, {"T": list(air), "L": list(light), "P": list(power)})
    assert ((air == 0) & (light == 0) & (power == 0)).sum() > 20  # the trap is there
    assert found.files[0].rows_used == len(n)
    assert pd.Series(air).equals(of(found, "T").values.reset_index(drop=True))


def test_one_number_in_all_columns_that_one_cannot_have(tmp_path: Path) -> None:
    """−1 °C beside −1 %: the radio was lost. −1 °C beside 81 % is frost, and 100 beside 100 is told by each alone."""
    columns = {"T": [6.1, -1, 6.0, -1.0, 0.2], "H": [80, -1, 81, 81, 82]}
    found = read_columns(tmp_path, columns)
    assert dict(found.files[0].set_aside) == {"dead row": 1}
    assert of(found, "T").values.tolist() == [6.1, 6.0, -1.0, 0.2]
    assert dict(of(found, "H").set_aside) == {"dead row": 1}
