"""What a logger makes of the truth: when it samples, how wrong it is, how fine it shows, how it writes."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Sensor:
    """One column: which truth, for which measure, in which unit, how wrong.

    `bias` and `noise` are in the truth's own unit (K, points of RH, …) and `accuracy`, like `resolution`, in the
    unit written. A counter's truth is a running sum such as heater_kwh.
    """

    truth: str
    measure: str
    column: str
    unit: str | None = None
    bias: float = 0.0
    noise: float = 0.0
    resolution: float = 0.1
    accuracy: float | None = None
    depth_m: float | None = None
    sun_k: float = 0.0  # what a sensor without a screen reads too high at 1000 W/m² outside
    resets: tuple[str, ...] = ()  # a counter that starts again from 0

    def read(self, frame: pd.DataFrame, rng: np.random.Generator) -> Array:
        """The column as written, one value a row of `frame`."""
        values = frame[self.truth].to_numpy(float)
        if self.measure == "heater_energy":
            values = _reset(pd.DatetimeIndex(frame.index), values, self.resets)
        values = values + self.bias + self.noise * rng.standard_normal(len(values))
        if self.sun_k:
            values = values + self.sun_k * frame["solar"].to_numpy(float) / 1000
        if self.measure.endswith("humidity"):
            values = np.clip(values, 0.0, 100.0)
        return np.asarray(np.round(_unit(values, self.unit) / self.resolution) * self.resolution, dtype=np.float64)


@dataclass(frozen=True, kw_only=True, slots=True)
class LoggerSpec:
    """One logger and the form of its files. Gaps and files are local times ("2025-12-01 14:20")."""

    name: str
    where: str
    sensors: tuple[Sensor, ...]
    step_min: int = 10
    phase_s: int = 0  # seconds after the full step, as each start by hand leaves it
    gaps: tuple[tuple[str, str], ...] = ()
    splits: tuple[str, ...] = ()  # where one file ends and the next begins
    overlap_h: float = 0.0  # each file repeats the end of the one before
    time: tuple[str, ...] = ("time",)
    time_format: str = ""  # of the time, or of date and clock with a "|" between; ISO 8601 when empty
    clock: str = "local"  # local | utc | +01:00
    delimiter: str = ","
    decimal: str = "."
    lines_before: tuple[str, ...] = ()
    lines_after: tuple[str, ...] = ()
    number: bool = False  # a first column that counts
    main: bool = False
    beds: tuple[str, ...] = ()
    under: str = ""
    shielded: bool = True


def sample(frame: pd.DataFrame, spec: LoggerSpec, zone: str, seed: int) -> pd.DataFrame:
    """What the logger wrote down: index UTC, one column a sensor; gaps left out."""
    start, end = frame.index[0], frame.index[-1]
    first = start.ceil(f"{spec.step_min}min") + pd.Timedelta(seconds=spec.phase_s)
    times = pd.date_range(first, end, freq=f"{spec.step_min}min")
    for left, right in spec.gaps:
        inside = (times >= _local(left, zone)) & (times < _local(right, zone))
        times = times[~inside]
    seen = _at(frame, times)
    rng = np.random.default_rng([seed, *spec.name.encode()])
    return pd.DataFrame({sensor.column: sensor.read(seen, rng) for sensor in spec.sensors}, index=times)


def files(table: pd.DataFrame, spec: LoggerSpec, zone: str) -> list[pd.DataFrame]:
    """The table cut into the files that the grower fetched."""
    edges = [table.index[0], *(_local(at, zone) for at in spec.splits), table.index[-1] + pd.Timedelta(seconds=1)]
    back = pd.Timedelta(hours=spec.overlap_h)
    return [
        table[(table.index >= (a - back if i else a)) & (table.index < b)]
        for i, (a, b) in enumerate(itertools.pairwise(edges))
    ]


def text(part: pd.DataFrame, spec: LoggerSpec, zone: str) -> str:
    """One file's text, line ends LF."""
    clock = {"local": zone, "utc": "UTC"}.get(spec.clock, spec.clock)
    local = pd.DatetimeIndex(part.index).tz_convert(_zone(clock)).tz_localize(None)
    head = ["No."] if spec.number else []
    head += [*spec.time, *(sensor.column for sensor in spec.sensors)]
    formats = spec.time_format.split("|") if spec.time_format else ["%Y-%m-%dT%H:%M:%S"]
    columns: list[Sequence[str]] = [[str(i) for i in range(1, len(part) + 1)]] if spec.number else []
    columns += [local.strftime(form).tolist() for form in formats]
    columns += [_numbers(part[sensor.column].to_numpy(float), sensor, spec.decimal) for sensor in spec.sensors]
    rows = [spec.delimiter.join(cells) for cells in zip(*columns, strict=True)]
    return "\n".join([*spec.lines_before, spec.delimiter.join(head), *rows, *spec.lines_after]) + "\n"


def _numbers(values: Array, sensor: Sensor, decimal: str) -> list[str]:
    places = max(0, -int(np.floor(np.log10(sensor.resolution) + 1e-9)))
    shown = [f"{value + 0.0:.{places}f}" for value in values]
    return [cell.replace(".", decimal) for cell in shown]


def _unit(values: Array, unit: str | None) -> Array:
    """°C to °F or K, percent to a fraction, W to kW; else as it is."""
    if unit == "degF":
        return values * 9 / 5 + 32
    if unit == "K":
        return values + 273.15
    if unit in ("fraction", "kW"):
        return values / (100 if unit == "fraction" else 1000)
    return values * 1000 if unit == "Wh" else values


def _reset(times: pd.DatetimeIndex, total: Array, resets: tuple[str, ...]) -> Array:
    """A running counter [kWh] that starts again from 0 at each reset (zone-aware times), and at its first reading."""
    for reset in (str(times[0]), *resets):
        after = times >= pd.Timestamp(reset)
        if after.any():
            total = np.where(after, total - total[int(np.argmax(after))], total)
    return total


def _at(frame: pd.DataFrame, times: pd.DatetimeIndex) -> pd.DataFrame:
    """The truth at the logger's own moments, straight between the steps."""
    truth = pd.DatetimeIndex(frame.index).as_unit("ms").asi8.astype(np.float64)
    wanted = times.as_unit("ms").asi8.astype(np.float64)
    return pd.DataFrame({c: np.interp(wanted, truth, frame[c].to_numpy(float)) for c in frame}, index=times)


def _local(when: str, zone: str) -> pd.Timestamp:
    return pd.Timestamp(when).tz_localize(zone).tz_convert("UTC")


def _zone(clock: str) -> str:
    if clock[0] in "+-":
        return f"UTC{clock}"
    return clock
