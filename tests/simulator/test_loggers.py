"""What a simulated logger writes: summer time, units, counters, gaps, overlapping files."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pandas as pd
import pytest

from simulator import LoggerSpec, Sensor
from simulator.logger import files, sample, text

ZONE = "Europe/Prague"
AIR = Sensor(truth="temp_in_c", measure="air_temperature", column="T", unit="degC", resolution=0.1)


def truth(start: str, hours: int) -> pd.DataFrame:
    """A frame of truth every 10 minutes from a UTC time: air rises by 0.1 K a step, a counter by 0.01 kWh."""
    index = pd.date_range(start, periods=6 * hours, freq="10min", tz="UTC")
    steps = np.arange(len(index))
    return pd.DataFrame({"temp_in_c": 0.1 * steps, "heater_kwh": 0.01 * steps, "solar": 0.0}, index=index)


def lines(spec: LoggerSpec, frame: pd.DataFrame) -> list[str]:
    """The rows of its one file, without the header."""
    return text(sample(frame, spec, ZONE, seed=1), spec, ZONE).splitlines()[1:]


def test_the_hour_that_comes_twice_is_written_twice_on_a_local_clock() -> None:
    """26 October 2025: 02:00 to 02:50 stand twice in local time, and once in UTC (EU Directive 2000/84/EC)."""
    spec = LoggerSpec(name="a", where="crop", sensors=(AIR,))
    stamps = [row.split(",")[0] for row in lines(spec, truth("2025-10-25T23:00", 4))]
    assert stamps.count("2025-10-26T02:20:00") == 2
    utc = [row.split(",")[0] for row in lines(replace(spec, clock="utc"), truth("2025-10-25T23:00", 4))]
    assert len(set(utc)) == len(utc)


def test_the_hour_that_is_skipped_is_not_written() -> None:
    """29 March 2026: no local time from 02:00 to 02:59; a clock fixed at +01:00 writes it."""
    spec = LoggerSpec(name="a", where="crop", sensors=(AIR,))
    frame = truth("2026-03-28T23:00", 4)
    assert not any("T02:" in row for row in lines(spec, frame))
    assert any("T02:" in row for row in lines(replace(spec, clock="+01:00"), frame))


@pytest.mark.parametrize(("unit", "shown"), [("degC", "10.0"), ("degF", "50.0"), ("K", "283.2")])
def test_units_are_written_as_a_thermometer_would(unit: str, shown: str) -> None:
    """10 °C is 50 °F and 283.15 K, by the definitions of the scales; K shows one digit."""
    frame = truth("2026-01-01", 1).assign(temp_in_c=10.0)
    spec = LoggerSpec(name="a", where="crop", sensors=(replace(AIR, unit=unit),))
    assert {row.split(",")[1] for row in lines(spec, frame)} <= {shown, "283.1"}


def test_a_counter_begins_at_nought_and_again_when_reset() -> None:
    """First reading 0; after the reset it counts from 0 again, and never runs back otherwise."""
    reset = pd.Timestamp("2026-01-01 06:00", tz="UTC")
    sensor = Sensor(
        truth="heater_kwh", measure="heater_energy", column="kWh", unit="kWh", resolution=0.01, resets=(str(reset),)
    )
    spec = LoggerSpec(name="p", where="elsewhere", sensors=(sensor,))
    counted = sample(truth("2026-01-01", 12), spec, ZONE, seed=1)["kWh"]
    assert counted.iloc[0] == 0.0
    assert counted[reset] == 0.0
    assert (counted.diff().dropna() < 0).sum() == 1


def test_gaps_are_left_out_and_files_overlap() -> None:
    """No row in a gap; the second file repeats the last two hours of the first."""
    spec = LoggerSpec(
        name="a", where="crop", sensors=(AIR,), gaps=(("2026-01-01 03:00", "2026-01-01 05:00"),),
        splits=("2026-01-01 08:00",), overlap_h=2.0,
    )  # fmt: skip
    table = sample(truth("2025-12-31T23:00", 12), spec, ZONE, seed=1)
    gap = pd.Timestamp("2026-01-01 04:00", tz=ZONE)
    assert gap not in table.index
    first, second = files(table, spec, ZONE)
    shared = first.index.intersection(second.index)
    assert len(shared) == 12
