"""The winter before in the same house: no film, warmer hold, a mains meter read by hand, two plain loggers."""

from __future__ import annotations

from dataclasses import replace

from simulator.house import Change, Simulated, simulate
from simulator.logger import LoggerSpec, Sensor
from simulator.sample.this_winter import HOUSE, PLACE, at
from simulator.weather import Climate, Spell, synthetic

START, END = "2024-10-11T22:00", "2025-04-13T22:00"  # UTC: local midnights of 12 October and 14 April
SEED = 20248
CLIMATE = Climate(
    **{**PLACE, "mean_c": 11.7},
    spells=(Spell(start="2025-02-08", end="2025-02-22", shift_k=-3.5, cloud=-0.2),),
)


def winter() -> Simulated:
    """The whole truth of last winter."""
    house = replace(HOUSE, hold_c=4.0)
    changes = (
        Change(
            at=at("2024-11-03 12:00"), alters={"heater_w": 1500.0}, what="Borrowed fan heater set to 4 °C",
            thing="fan heater",
            touches=("heater", "thermostat"), hoped_for=("warmer nights",), reversible=True, written="2024-11-01",
        ),
        Change(
            at=at("2025-01-18 11:00"), alters={"wet": 0.55}, what="Watering cut to once a week", thing="less water",
            touches=("water",),
            hoped_for=("drier air",), reversible=True,
        ),
    )  # fmt: skip
    return simulate(synthetic(CLIMATE, START, END, SEED), house, changes, SEED)


LOGGERS = (
    LoggerSpec(
        name="bench", where="crop", step_min=30, clock="local", main=True, time=("Time",), time_format="%Y-%m-%d %H:%M",
        gaps=(("2024-12-22 09:00", "2024-12-23 17:30"),),
        sensors=(
            Sensor(truth="temp_in_c", measure="air_temperature", column="Air C", unit="degC", noise=0.1, bias=0.2,
                   accuracy=0.8),
            Sensor(truth="rh_in_pct", measure="relative_humidity", column="RH", noise=0.5, bias=-1.0, resolution=1.0,
                   accuracy=4.0),
            Sensor(truth="temp_soil_c", measure="soil_temperature", column="Soil C", unit="degC", noise=0.05,
                   accuracy=0.5, depth_m=0.1),
        ),
    ),
    LoggerSpec(
        name="yard", where="outdoor", step_min=30, clock="utc", time=("stamp",),
        sensors=(
            Sensor(truth="temp_out_c", measure="air_temperature", column="air", unit="degC", noise=0.08, accuracy=0.5),
            Sensor(truth="rh_out_pct", measure="relative_humidity", column="rh", noise=0.4, resolution=1.0,
                   accuracy=3.0),
        ),
    ),
)  # fmt: skip
