"""Writes a simulated winter as a season folder, as its grower would have it."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import pandas as pd

from simulator import logger as loggers_
from simulator import toml
from simulator.house import Change, Simulated
from simulator.logger import LoggerSpec, Sensor

DIARY = (
    "date",
    "time",
    "kind",
    "what",
    "touches",
    "reversible",
    "hoped_for",
    "until",
    "cost",
    "years",
    "written",
    "note",
    "undoes",
    "thing",
)
Row = Mapping[str, object]


def default_loggers(heated: bool = True, step_min: int = 10, exact: bool = False) -> tuple[LoggerSpec, ...]:
    """A crop logger with a soil probe, an outdoor logger with light, and (heated) a plug that counts.

    `exact`: no noise, fine resolution and accuracy 0, for tests of sums; else what such loggers usually are.
    """
    noise, fine = (0.0, 0.001) if exact else (0.08, 0.1)
    t_acc, rh_acc = (0.0, 0.0) if exact else (0.5, 3.0)

    def thermometer(truth: str, measure: str, column: str, **more: Any) -> Sensor:
        return Sensor(
            truth=truth,
            measure=measure,
            column=column,
            unit="degC",
            noise=noise,
            resolution=fine,
            accuracy=t_acc,
            **more,
        )

    def hygrometer(truth: str) -> Sensor:
        return Sensor(
            truth=truth, measure="relative_humidity", column="rh_pct", noise=4 * noise, resolution=fine, accuracy=rh_acc
        )

    bench = (
        thermometer("temp_in_c", "air_temperature", "air_c"),
        hygrometer("rh_in_pct"),
        thermometer("temp_soil_c", "soil_temperature", "soil_c", depth_m=0.1),
    )
    light = Sensor(truth="solar", measure="solar_radiation", column="sun_wm2", unit="W/m²", resolution=1.0)
    outside = (thermometer("temp_out_c", "air_temperature", "air_c"), hygrometer("rh_out_pct"), light)
    plug = (Sensor(truth="heater_kwh", measure="heater_energy", column="kwh", unit="kWh", resolution=0.001),)
    specs = (
        LoggerSpec(name="bench", where="crop", sensors=bench, step_min=step_min, main=True, clock="utc"),
        LoggerSpec(name="yard", where="outdoor", sensors=outside, step_min=step_min, clock="utc"),
        LoggerSpec(name="plug", where="elsewhere", sensors=plug, step_min=step_min, clock="utc"),
    )
    return specs if heated else specs[:2]


def write_season(
    folder: Path,
    simulated: Simulated,
    loggers: Sequence[LoggerSpec] | None = None,
    *,
    zone: str = "Europe/Prague",
    title: str = "A simulated winter",
    season: Mapping[str, Any] | None = None,
    books: Mapping[str, Iterable[Row]] | None = None,
    diary: Iterable[Row] = (),
    toml_text: str | None = None,
    seed: int | None = None,
) -> Path:
    """Writes the folder and returns it.

    Args:
        loggers: Their files and forms; `default_loggers` when left out, with a plug if a heater ever ran.
        season: Tables and keys of season.toml that add to or replace (whole tables) what is worked out here:
            title, days, zone, place, house, aims.hold_c of a heated house, loggers, the plug's heater.
        books: Rows of harvest, plantings, watering, inspections, costs, or any CSV by its path, such as
            "heating/meter.csv" or "harvest"; the first row's keys are the header.
        diary: Rows beside those that the changes themselves give.
        toml_text: The whole season.toml as written by hand, instead of a worked-out one.
        seed: Of the sensors' noise; the simulation's own when left out.
    """
    heated = bool((simulated.frame["heater_w"] > 0).any())
    specs = tuple(default_loggers(heated) if loggers is None else loggers)
    folder.mkdir(parents=True, exist_ok=True)
    names = {
        spec.name: _logger_files(folder, simulated, spec, zone, simulated.seed if seed is None else seed)
        for spec in specs
    }
    written = [diary_row(change, zone) for change in simulated.changes if change.what]
    rows = sorted([*written, *diary], key=lambda row: (str(row["date"]), str(row.get("time", ""))))
    for name, book in {**({"diary": rows} if rows else {}), **(books or {})}.items():
        path = folder / (name if name.endswith(".csv") else f"{name}.csv")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(csv_text(book, DIARY if name == "diary" else None), encoding="utf-8", newline="")
    data = {**_season(simulated, specs, names, zone, title, heated), **(season or {})}
    text = toml.dumps(data) if toml_text is None else toml_text
    (folder / "season.toml").write_text(text, encoding="utf-8", newline="")
    return folder


def diary_row(change: Change, zone: str) -> dict[str, object]:
    """A change as the diary tells it. A spell that ends at noon or later of a day has its last night the day before."""
    at = change.at.tz_convert(zone)
    row: dict[str, object] = {"date": at.date(), "time": at.strftime("%H:%M") if change.timed else ""}
    row |= {"kind": change.kind, "what": change.what, "touches": ";".join(change.touches)}
    row["reversible"] = {True: "yes", False: "no", None: ""}[change.reversible]
    row["hoped_for"] = ";".join(change.hoped_for)
    last = None if change.until is None else (change.until.tz_convert(zone) - pd.Timedelta(days=1)).date()
    row["until"] = last if change.kind == "spell" and last is not None else ""
    row |= {"cost": change.cost, "years": change.years, "written": change.written, "note": change.note}
    row |= {"undoes": change.undoes, "thing": change.thing}
    return row


def csv_text(rows: Iterable[Row], columns: Sequence[str] | None = None) -> str:
    """Rows as RFC 4180 CSV with LF; the header is `columns`, or the keys of the first row."""
    listed = list(rows)
    header = list(columns or (listed[0].keys() if listed else ()))
    out = io.StringIO()
    writer = csv.DictWriter(out, header, restval="", lineterminator="\n")
    writer.writeheader()
    for row in listed:
        writer.writerow({key: "" if item is None else item for key, item in row.items()})
    return out.getvalue()


def _logger_files(folder: Path, simulated: Simulated, spec: LoggerSpec, zone: str, seed: int) -> list[str]:
    table = loggers_.sample(simulated.frame, spec, zone, seed)
    parts = loggers_.files(table, spec, zone)
    (folder / "loggers").mkdir(exist_ok=True)
    names = []
    for number, part in enumerate(parts, start=1):
        name = f"loggers/{spec.name}-{number}.csv" if len(parts) > 1 else f"loggers/{spec.name}.csv"
        (folder / name).write_text(loggers_.text(part, spec, zone), encoding="utf-8", newline="")
        names.append(name)
    return names


def _season(
    simulated: Simulated,
    specs: Sequence[LoggerSpec],
    names: Mapping[str, list[str]],
    zone: str,
    title: str,
    heated: bool,
) -> dict[str, Any]:
    index = pd.DatetimeIndex(simulated.frame.index).tz_convert(zone)
    house = simulated.house
    first = index[0] if index[0] == index[0].normalize() else index[0].normalize() + pd.Timedelta(days=1)
    data: dict[str, Any] = {"format": 1, "title": title, "first_day": first.date()}
    data |= {"last_day": (index[-1] - pd.Timedelta(days=1)).date(), "time_zone": zone, "currency": "EUR"}
    data["place"] = {"latitude": 50.0, "longitude": 15.0, "altitude_m": 300}
    data["house"] = {
        "kind": "simulated glasshouse",
        "floor_area_m2": house.floor_m2,
        "glazing_area_m2": house.glazing_m2,
        "air_volume_m3": house.volume_m3,
        "u_value_w_m2k": house.u_w_m2k,
        "air_changes_per_h": house.air_changes_h,
        "light_transmission": house.transmission,
        "soil_bed_volume_m3": round(house.floor_m2 * 0.3, 2),
        "soil_heat_capacity_mj_m3k": house.soil_mj_m3k,
    }
    if heated:
        data["aims"] = {"hold_c": house.hold_c}
    data["logger"] = [logger_table(spec, names[spec.name]) for spec in specs]
    if any(spec.name == "plug" for spec in specs):
        rated = max([house.heater_w, *(c.alters.get("heater_w", 0.0) for c in simulated.changes)])
        heater = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug"}
        data["heating"] = [{**heater, "price": 0.30, **({"rated_power_w": rated} if rated > 0 else {})}]
    return data


def logger_table(spec: LoggerSpec, names: Sequence[str]) -> dict[str, Any]:
    """The [[logger]] table of one logger."""
    table: dict[str, Any] = {"name": spec.name, "where": spec.where}
    if spec.main:
        table["main"] = True
    if spec.beds:
        table["beds"] = list(spec.beds)
    if spec.under:
        table["under"] = spec.under
    if not spec.shielded:
        table["shielded"] = False
    table |= {"files": list(names), "time": spec.time[0] if len(spec.time) == 1 else list(spec.time)}
    if spec.time_format:
        table["time_format"] = spec.time_format.replace("|", " ")
    table |= {"clock": spec.clock, "measures": {s.measure: _column(s) for s in spec.sensors}}
    return table


def _column(sensor: Sensor) -> dict[str, Any]:
    column: dict[str, Any] = {"column": sensor.column}
    for key in ("unit", "accuracy", "depth_m"):
        if getattr(sensor, key) is not None:
            column[key] = getattr(sensor, key)
    return column
