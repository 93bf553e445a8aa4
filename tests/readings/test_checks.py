"""What cannot be is set aside under its own name; what only looks odd is used, and told."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from readings.folder import air, logger, read, season

from reportgen.readings import read_season
from reportgen.readings.types import CheckFinding, Readings

TWO = {"air_temperature": {"column": "Temp"}, "relative_humidity": {"column": "Hum"}}


def table(columns: dict[str, Any], step: str = "10min", start: str = "2025-12-01") -> str:
    """A file of those columns at a steady step."""
    count = max(len(values) for values in columns.values())
    times = pd.date_range(start, periods=count, freq=step).strftime("%Y-%m-%d %H:%M")
    return pd.DataFrame({"Time": times} | columns).to_csv(index=False)


def wave(count: int, middle: float = 8.0, swing: float = 4.0, per_day: int = 144) -> np.ndarray:
    """A daily curve to a tenth."""
    return np.round(middle + swing * np.sin(2 * np.pi * np.arange(count) / per_day) + 0.1 * (np.arange(count) % 2), 1)


def seen(readings: Readings, slug: str) -> CheckFinding:
    """The one finding of that name."""
    (finding,) = [finding for finding in readings.findings if finding.slug == slug]
    return finding


@pytest.mark.parametrize("mark", [-999, -9999, -214748000, -127, 85, 999.9])
def test_marks_of_no_reading_are_set_aside(tmp_path: Path, mark: float) -> None:
    """Sentinels go under their own name and leave the others alone."""
    values = wave(20)
    values[7] = mark
    readings = read(tmp_path, table({"Temp": values}))
    assert dict(air(readings).set_aside) == {"sentinel": 1}
    assert seen(readings, "sentinel").count == 1
    assert len(air(readings).values) == 19


def test_what_is_possible_is_no_sentinel(tmp_path: Path) -> None:
    """999 W is a heater's power, and a counter may well stand at 9999 kWh."""
    measures = {"heater_power": {"column": "P"}, "heater_energy": {"column": "E"}}
    text = table({"P": [998, 999, 1000], "E": [9998, 9999, 10000]})
    readings = read(tmp_path, text, measures=measures, where="elsewhere")
    assert all(not channel.set_aside for channel in readings.channels)


def test_impossible_values_by_the_measure(tmp_path: Path) -> None:
    """Air at 76 °C and humidity at 106 % cannot be; 104 % is kept as 100 and counted."""
    text = table({"Temp": [8.0, 76.0, 8.1, 8.2], "Hum": [99.0, 106.0, 104.0, 97.0]})
    readings = read(tmp_path, text, measures=TWO)
    humidity = readings.channel("bench", "relative_humidity")
    assert humidity is not None
    assert dict(air(readings).set_aside) == dict(humidity.set_aside) == {"impossible": 1}
    assert humidity.values.tolist() == [99.0, 100.0, 97.0]
    assert seen(readings, "above-100").words == "1 value above 100 % (to 105 %) kept as 100"


LIMITS = [  # of the input contract: measure, kept unit's lowest and highest
    ("air_temperature", -40, 75), ("soil_temperature", -20, 45), ("outdoor_temperature", -60, 55),
    ("heater_power", 0, 10_000_000), ("duct_in_temperature", -40, 60), ("duct_out_temperature", -40, 60),
    ("duct_airflow", 0, 10), ("solar_radiation", 0, 1500), ("ppfd", 0, 3000), ("wind_speed", 0, 60),
]  # fmt: skip


@pytest.mark.parametrize(("measure", "low", "high"), LIMITS)
def test_the_limits_themselves_are_possible_and_no_step_beyond(
    tmp_path: Path, measure: str, low: float, high: float
) -> None:
    """Both ends are used, a hundredth beyond is set aside; power has no ceiling that a house could meet."""
    text = table({"V": [low, high, low - 0.01, high + 0.01]}, step="1h")
    found = read(tmp_path, text, measures={measure: {"column": "V"}}, where="elsewhere")
    assert found.channels[0].values.tolist() == [low, high]
    assert dict(found.channels[0].set_aside) == {"impossible": 2}


def test_air_above_fifty_is_used_and_told(tmp_path: Path) -> None:
    """62 °C under glass may be the sun on the sensor: it stays, with its count and its highest."""
    readings = read(tmp_path, table({"Temp": [44.0, 48.0, 53.0, 58.0, 62.0, 60.0, 55.0, 49.0]}))
    assert not air(readings).set_aside
    finding = seen(readings, "above-50")
    assert (finding.count, finding.words.startswith("5 values above 50 °C, up to 62 °C")) == (5, True)


def test_a_stuck_sensor_is_set_aside_a_plateau_of_frost_or_damp_is_not(tmp_path: Path) -> None:
    """Sixteen hours without a tenth of a degree are a fault at 7 °C, thaw at 0.1 °C, and fog at 98 %."""
    for level, stuck in ((7.0, True), (0.1, False)):
        values = wave(600)
        values[200:300] = level
        humidity = wave(600, 80, 10)
        humidity[200:420] = 98.0
        readings = read(tmp_path, table({"Temp": values, "Hum": humidity}), measures=TWO)
        assert dict(air(readings).set_aside) == ({"stuck": 100} if stuck else {})
        damp = readings.channel("bench", "relative_humidity")
        assert damp is not None
        assert not damp.set_aside


def test_a_coarse_sensor_may_rest_longer(tmp_path: Path) -> None:
    """In steps of half a degree, 16 still hours are no fault, 60 are."""
    for count, stuck in ((100, 0), (360, 360)):
        values = np.round(wave(900) * 2) / 2
        values[200 : 200 + count] = 30.0
        assert sum(air(read(tmp_path, table({"Temp": values}))).set_aside.values()) == stuck


def test_light_may_stand_still(tmp_path: Path) -> None:
    """A polar night of darkness is no stuck light sensor."""
    readings = read(tmp_path, table({"L": np.zeros(1000)}), measures={"solar_radiation": {"column": "L"}})
    assert not readings.channels[0].set_aside


def test_a_jump_and_back_is_set_aside_a_step_is_not(tmp_path: Path) -> None:
    """Two readings 15 K up and back go; 15 K up for good stays, and so does a steep rise."""
    values = wave(300)
    values[50:52] += 15
    values[200:] += 15
    values[250:260] += np.arange(10) * 2.0
    readings = read(tmp_path, table({"Temp": values}))
    assert dict(air(readings).set_aside) == {"jump": 2}


def test_repeats_that_differ_are_counted(tmp_path: Path) -> None:
    """Of two files that overlap the later name wins; one differing value is said."""
    (tmp_path / "a-1.csv").write_text(table({"Temp": [1.0, 2.0, 3.0]}))
    (tmp_path / "a-2.csv").write_text(table({"Temp": [2.5, 3.0]}, start="2025-12-01 00:10"))
    readings = read_season(season(tmp_path, logger(files=("a-*.csv",))))
    assert air(readings).values.tolist() == [1.0, 2.5, 3.0]
    words = "1 of 2 repeated values differ from the one used, that of the file sorting later"
    assert seen(readings, "repeated-differ").words == words


def test_a_value_only_one_file_has_is_not_lost(tmp_path: Path) -> None:
    """Where the later file has a blank cell, the earlier file's value stays."""
    (tmp_path / "a-1.csv").write_text("Time,Temp,Hum\n2025-12-01 00:00,1,80\n")
    (tmp_path / "a-2.csv").write_text("Time,Temp,Hum\n2025-12-01 00:00,2,\n")
    readings = read_season(season(tmp_path, logger(files=("a-*.csv",), measures=TWO)))
    assert [channel.values.tolist() for channel in readings.channels] == [[2.0], [80.0]]


def test_rows_outside_the_season_are_set_aside(tmp_path: Path) -> None:
    """The day before the first day is not of the season; the last midnight is its end."""
    text = "Time,Temp\n2025-10-17 23:50,1\n2025-10-18 00:00,2\n2026-04-13 00:00,3\n2026-04-13 00:10,4\n"
    readings = read(tmp_path, text)
    assert air(readings).values.tolist() == [2.0, 3.0]
    assert dict(readings.files[0].set_aside) == {"outside the season": 2}


def test_units_offsets_and_accuracy(tmp_path: Path) -> None:
    """50 °F is 10 °C exactly (NIST SP 811, B.9: t/°C = (t/°F − 32)/1.8); 1.8 °F more is 1 K more; ±0.9 °F is ±0.5 K."""
    column = {"column": "Temp", "unit": "degF", "offset": 1.8, "accuracy": 0.9}
    channel = air(read(tmp_path, table({"Temp": [50.0, 32.0]}), measures={"air_temperature": column}))
    assert channel.values.tolist() == pytest.approx([11.0, 1.0], abs=1e-9)
    assert channel.accuracy == pytest.approx(0.5)


def test_the_header_says_the_unit_where_season_toml_does_not(tmp_path: Path) -> None:
    """A column called `Temp (°F)` without a unit is read as °F."""
    text = "Time,Temp (°F)\n2025-12-01 00:00,50\n"
    channel = air(read(tmp_path, text, measures={"air_temperature": {"column": "Temp (°F)"}}))
    assert channel.values.tolist() == pytest.approx([10.0])


def test_a_cell_with_its_own_unit_is_read_in_it(tmp_path: Path) -> None:
    """`50 °F` in a column of °C is 10 °C, and said."""
    readings = read(tmp_path, "Time,Temp\n2025-12-01 00:00,50 °F\n2025-12-01 00:10,9.5\n")
    assert air(readings).values.tolist() == pytest.approx([10.0, 9.5])
    assert seen(readings, "stray-unit").count == 1


def test_switch_words(tmp_path: Path) -> None:
    """on, OFF, true, 0 and 1 are 1 and 0."""
    text = "Time,H\n2025-12-01 00:00,on\n2025-12-01 01:00,OFF\n2025-12-01 02:00,true\n2025-12-01 03:00,0\n"
    readings = read(tmp_path, text, measures={"heater_on": {"column": "H"}}, where="elsewhere")
    assert readings.channels[0].values.tolist() == [1.0, 0.0, 1.0, 0.0]


def test_a_saturated_sensor_is_told(tmp_path: Path) -> None:
    """Thirty hours at 100 % are said with their hours; they stay in use."""
    humidity = np.concatenate([wave(200, 80, 10), np.full(181, 100.0), wave(200, 80, 10)])
    readings = read(tmp_path, table({"Hum": humidity}), measures={"relative_humidity": {"column": "Hum"}})
    assert seen(readings, "saturated").words.startswith("30 h at 99.5 % or more")
    assert not readings.channels[0].set_aside


def test_a_counter_that_began_again_is_told(tmp_path: Path) -> None:
    """The drop is counted with its instant."""
    readings = read(
        tmp_path, table({"E": [5.0, 5.5, 0.1, 0.4]}), measures={"heater_energy": {"column": "E"}}, where="elsewhere"
    )
    finding = seen(readings, "counter-reset")
    assert (finding.count, f"{finding.start:%H:%M}") == (1, "00:20")


def test_an_empty_column_is_a_warning(tmp_path: Path) -> None:
    """A declared column without a value does not stop the report."""
    readings = read(tmp_path, "Time,Temp,Hum\n2025-12-01 00:00,5,\n", measures=TWO)
    assert [warning.slug for warning in readings.warnings] == ["empty-column"]
