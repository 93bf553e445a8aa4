"""A simulated winter as Readings, without a folder: what the loggers saw, and the diary as its grower wrote it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
from made_season import logger, season
from simulator import Change, LoggerSpec, Simulated, default_loggers
from simulator.logger import Sensor, sample

from reportgen.readings.types import Channel, DiaryEntry, HeatSupply, Readings
from reportgen.season.models import HeatSource, Place

ZONE = "Europe/Prague"


def readings_of(
    simulated: Simulated,
    *,
    light: bool = True,
    moist: bool = True,
    lamp: bool = False,
    bed: bool = True,
    diary: Sequence[DiaryEntry] = (),
    latitude: float = 50.0,
    **more: Any,
) -> Readings:
    """What the usual three loggers saw of a simulated winter.

    Args:
        light: The outdoor logger has a light sensor.
        moist: The outdoor logger has a humidity sensor.
        lamp: A light sensor stands among the plants.
        bed: The crop logger has a probe in the bed.
        diary: Rows beside those that the changes themselves give.
        latitude: Where the weather was.
        more: Keys of the season.
    """
    heated = bool((simulated.frame["heater_w"] > 0).any())
    specs = default_loggers(heated)
    lacks = {"solar_radiation": not light, "outdoor relative_humidity": not moist, "soil_temperature": not bed}
    dropped = {name for name, lacking in lacks.items() if lacking}
    if lamp:
        inside = Sensor(truth="ppfd_in", measure="ppfd", column="ppfd", resolution=1.0)
        specs = (replace(specs[0], sensors=(*specs[0].sensors, inside)), *specs[1:])
    channels = tuple(channel for spec in specs[:2] for channel in _channels(simulated, spec, dropped))
    index = pd.DatetimeIndex(simulated.frame.index).tz_convert(ZONE)
    first = index[0] if index[0] == index[0].normalize() else index[0].normalize() + pd.Timedelta(days=1)
    last = index[-1] - pd.Timedelta(days=1)
    usual: dict[str, Any] = {
        "place": Place(latitude=latitude, longitude=15.0, altitude_m=300),
        "logger": tuple(logger(spec.name, where=spec.where, main=spec.main) for spec in specs[:2]),
    }
    if heated:
        usual["heating"] = (HeatSource(name="fan heater", role="main", fuel="electricity", logger="plug"),)
    of = season(first.date().isoformat(), last.date().isoformat(), **(usual | more))
    rows = [_entry(change, n) for n, change in enumerate(simulated.changes, start=2) if change.what]
    names = ("diary", "harvest", "plantings", "watering", "inspections", "costs")
    return Readings(
        season=of,
        files=(),
        channels=channels,
        findings=(),
        diary=tuple(sorted([*rows, *diary], key=lambda e: (e.date, e.line))),
        harvest=(),
        plantings=(),
        watering=(),
        inspections=(),
        costs=(),
        heating=(_heater(simulated, specs[2]),) if heated else (),
        appliances=(),
        books={name: name == "diary" for name in names},
        warnings=(),
    )


def entry(day: dt.date, what: str, **more: Any) -> DiaryEntry:
    """One row of a diary."""
    usual: dict[str, Any] = {
        "line": 2,
        "time": None,
        "kind": "change",
        "touches": (),
        "reversible": None,
        "hoped_for": (),
        "until": None,
        "cost": None,
        "years": None,
        "written": None,
        "note": "",
    }
    return DiaryEntry(date=day, what=what, **(usual | more))


def _channels(simulated: Simulated, spec: LoggerSpec, dropped: set[str]) -> list[Channel]:
    table = sample(simulated.frame, spec, ZONE, simulated.seed)
    table.index = pd.DatetimeIndex(table.index).tz_convert(ZONE)
    kept = [s for s in spec.sensors if s.measure not in dropped and f"{spec.where} {s.measure}" not in dropped]
    return [
        Channel(
            logger=spec.name,
            measure=s.measure,
            where=spec.where,
            values=table[s.column].astype(float),
            accuracy=s.accuracy,
            depth_m=s.depth_m,
            step_s=60.0 * spec.step_min,
            values_read=len(table),
            values_used=len(table),
        )
        for s in kept
    ]


def _heater(simulated: Simulated, plug: LoggerSpec) -> HeatSupply:
    table = sample(simulated.frame, plug, ZONE, simulated.seed)
    times = pd.DatetimeIndex(table.index).tz_convert(ZONE)
    used = np.clip(np.diff(table["kwh"].to_numpy(float)), 0.0, None)
    intervals = pd.DataFrame(
        {
            "start": times[:-1],
            "end": times[1:],
            "bought": used,
            "heat_kwh": used,
            "cost": 0.30 * used,
            "sparse": False,
            "estimated": False,
        }
    )
    return HeatSupply(
        name="fan heater",
        fuel="electricity",
        role="main",
        form="logger",
        kind=None,
        unit="kWh",
        intervals=intervals,
        rated_power_w=simulated.house.heater_w,
        vented=None,
        heating_value="",
        co2_kg_per_unit=None,
    )


def _entry(change: Change, line: int) -> DiaryEntry:
    at = change.at.tz_convert(ZONE)
    spell = change.kind == "spell" and change.until is not None
    until = (change.until.tz_convert(ZONE) - pd.Timedelta(days=1)).date() if spell and change.until else None
    return entry(
        at.date(),
        change.what,
        line=line,
        time=at.time() if change.timed else None,
        kind=change.kind,
        touches=change.touches,
        reversible=change.reversible,
        hoped_for=change.hoped_for,
        until=until,
        cost=change.cost,
        years=change.years,
        written=dt.date.fromisoformat(change.written) if change.written else None,
        note=change.note,
    )
