"""Small seasons as plain files whose every night is written by hand, read and looked at for their events."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
from odd_seasons import head, logger, write

from reportgen.counsel.events import events
from reportgen.counsel.grounds import Event
from reportgen.counsel.results import Results
from reportgen.measures.frost import frost
from reportgen.readings.season_reader import read_season
from reportgen.readings.types import Readings
from reportgen.season.load import load_season

FIRST, LAST = "2026-01-05", "2026-02-02"
STEP = "10min"
FAN = '[[heating]]\nname = "fan heater"\nrole = "main"\nfuel = "electricity"\nlogger = "plug"\nrated_power_w = 1000\n'
PLUG = logger("plug", "elsewhere", "all.csv", 'heater_power = { column = "p", unit = "W" }')
DIARY = "date,time,kind,what,touches,reversible,hoped_for,until,note,undoes,thing\n"
PLANTED = "crop,bed,area_m2,sown,planted,cleared,lost,lost_on,cause\n"
Points = Mapping[str, float]


def table(**columns: float | Points) -> pd.DataFrame:
    """Readings of every ten minutes on the UTC clock; a column is one value, or straight lines between points. What
    stays level is 0.1 higher in every second row."""
    at = pd.date_range(FIRST, pd.Timestamp(LAST) + pd.Timedelta(days=1), freq=STEP, inclusive="left")
    out = pd.DataFrame({"time": at.strftime("%Y-%m-%d %H:%M")})
    for name, told in columns.items():
        points = {FIRST: told} if isinstance(told, int | float) else told
        known = pd.Series(list(points.values()), index=pd.DatetimeIndex(list(points)), dtype="float64")
        line = known.reindex(at.union(known.index)).interpolate("time").reindex(at).ffill().bfill().round(3)
        level = (line.diff() == 0) & (line.diff(-1) == 0)  # a sensor that repeats itself would be taken for stuck
        out[name] = (line + 0.1 * (level & (pd.Series(range(len(at)), index=at) % 2 == 1))).to_numpy()
    return out


def switched(off: list[tuple[str, str]], watts: float = 700.0) -> pd.Series:
    """Power of a heater that runs all the time but for some stretches, by every ten minutes."""
    at = pd.date_range(FIRST, pd.Timestamp(LAST) + pd.Timedelta(days=1), freq=STEP, inclusive="left")
    power = pd.Series(watts, index=range(len(at)))
    for start, end in off:
        power[(at >= pd.Timestamp(start)) & (at < pd.Timestamp(end))] = 0.0
    return power


def read(folder: Path, values: pd.DataFrame, more: str = "", **books: str) -> Readings:
    """The season of those readings on a UTC clock (no summer time, no offset), with what more of season.toml."""
    toml = head(FIRST, LAST, zone="UTC")
    toml += logger("bench", "crop", "all.csv", 'air_temperature = { column = "t", unit = "degC", accuracy = 0.5 }')
    toml += logger("yard", "outdoor", "all.csv", 'air_temperature = { column = "o", unit = "degC" }') + more
    return read_season(load_season(write(folder, toml, values, **books)))


def results(readings: Readings) -> Results:
    """What events are looked for in."""
    made: Any = SimpleNamespace(readings=readings, season=readings.season, frost=frost(readings))
    return cast("Results", made)


def events_of(folder: Path, values: pd.DataFrame, more: str = "", **books: str) -> tuple[Event, ...]:
    """The events of such a season."""
    return events(results(read(folder, values, more, **books)))
