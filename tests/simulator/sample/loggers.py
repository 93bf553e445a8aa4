"""The loggers of this winter, each with a file form and faults of its own (all invented)."""

from __future__ import annotations

from simulator.logger import LoggerSpec, Sensor

BENCH = LoggerSpec(  # a German-style export: semicolons, decimal commas, day first; the clock follows summer time
    name="bench", where="crop", step_min=10, phase_s=120, clock="local", main=True, beds=("south", "north"),
    time=("Tag", "Uhr"), time_format="%d.%m.%Y|%H:%M", delimiter=";", decimal=",",
    lines_before=("Datalogger 0417;Owlbarrow bench",),
    splits=("2025-12-02 09:30", "2026-02-01 17:00"), overlap_h=20.0,
    gaps=(("2026-02-27 21:10", "2026-02-28 08:40"),),
    sensors=(
        Sensor(truth="temp_in_c", measure="air_temperature", column="Luft °C", unit="degC", noise=0.08, bias=0.1,
               accuracy=0.5),
        Sensor(truth="rh_in_pct", measure="relative_humidity", column="Feuchte %", noise=0.4, bias=0.8, accuracy=3.0),
        Sensor(truth="ppfd_in", measure="ppfd", column="PPFD", unit="µmol/m²/s", noise=0.0, resolution=1.0),
    ),
)  # fmt: skip
DOOR = LoggerSpec(  # an export with month first, °F and a.m./p.m.; its clock was never set to summer time
    name="door", where="crop", step_min=20, phase_s=240, clock="+01:00", beds=("door",),
    time=("Date Time",), time_format="%m/%d/%Y %I:%M:%S %p", number=True,
    splits=("2025-12-28 15:00",),
    gaps=(("2025-12-27 02:20", "2025-12-28 15:00"),),  # the battery died while nobody was there
    sensors=(
        Sensor(truth="temp_in_c", measure="air_temperature", column="Temp °F", unit="degF", noise=0.1, bias=-0.5,
               accuracy=0.7),
        Sensor(truth="temp_soil_c", measure="soil_temperature", column="Probe °F", unit="degF", noise=0.04,
               accuracy=0.7, depth_m=0.10),
    ),
)  # fmt: skip
YARD = LoggerSpec(
    name="yard", where="outdoor", step_min=20, clock="utc", time=("utc",), time_format="%Y-%m-%dT%H:%MZ",
    gaps=(("2025-11-28 05:00", "2025-11-28 16:00"),),
    sensors=(
        Sensor(truth="temp_out_c", measure="air_temperature", column="air_c", unit="degC", noise=0.08, accuracy=0.4),
        Sensor(truth="rh_out_pct", measure="relative_humidity", column="rh", noise=0.4, resolution=1.0, accuracy=3.0),
        Sensor(truth="wind_ms", measure="wind_speed", column="wind", unit="m/s", noise=0.0),
        Sensor(truth="solar", measure="solar_radiation", column="sun", unit="W/m²", noise=0.0, resolution=1.0),
    ),
)  # fmt: skip
PLUG = LoggerSpec(  # the heater's metering plug; its counter began again when it was moved to another socket
    name="plug", where="elsewhere", step_min=15, clock="local", time=("time",), time_format="%Y-%m-%d %H:%M",
    gaps=(("2025-10-01 00:00", "2025-11-24 13:00"),),
    sensors=(
        Sensor(truth="heater_kwh", measure="heater_energy", column="kWh", unit="kWh", resolution=0.01,
               resets=("2026-02-06 12:00+01:00",)),
    ),
)  # fmt: skip
PLUG_DRY = LoggerSpec(
    name="plug-dry", where="elsewhere", step_min=60, clock="local", time=("time",), time_format="%Y-%m-%d %H:%M",
    gaps=(("2025-10-01 00:00", "2026-02-06 12:00"),),
    sensors=(
        Sensor(truth="dehumidifier_kwh", measure="heater_energy", column="kWh", unit="kWh", resolution=0.01),
    ),
)  # fmt: skip
LOGGERS = (BENCH, DOOR, YARD, PLUG, PLUG_DRY)
