"""Winters for the honesty study: weather, a house, a grower's small habits, and three changes in the diary.

Weather comes from two typical-year station files (real hourly records of single months, read from the pvlib package:
Greensboro, North Carolina, 36° N, and Sand Point, Alaska, 55° N) and from the simulator's own seeded weather. Each
winter has hidden causes that nobody wrote down: plants that grow, soil now wetter now drier, doors now tighter now
leakier. They are what makes a plain before/after picture lie.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
from pvlib.iotools import read_tmy3
from simulator import Change, Climate, HouseParams, from_hourly, synthetic

ZONE = "Europe/Prague"
FIRST, LAST = "2025-10-18", "2026-04-12"
STATIONS = {"Greensboro": ("723170TYA.CSV", 36.1), "Sand Point": ("703165TY.csv", 55.3)}
PLACES = ("simulated weather", *STATIONS)
STEP_S = 900
SEASON_DAYS = (pd.Timestamp(LAST) - pd.Timestamp(FIRST)).days
EDGE_DAYS = 10  # from the season's ends: nearer ones are refused for want of nights
APART_DAYS = 25  # between two changes of a diary
# What may truly be done: fields altered, what it touches, what is hoped.
DEEDS = (
    ("tighter glazing", "u_w_m2k", (0.68, 0.92), ("envelope",), "less heating"),
    ("gaps sealed", "air_changes_h", (0.3, 0.8), ("envelope",), "less heating"),
    ("watered less", "wet", (0.3, 0.8), ("water",), "drier air"),
    ("insulated bed edge", "edge_w_k", (0.1, 0.6), ("bed",), "warmer soil"),
    ("lower hold", "hold_c", (0.4, 0.8), ("thermostat",), "less heating"),
    ("a mat under the bench", "other_w", (15.0, 260.0), ("heater",), "warmer nights"),
    ("darker cover", "transmission", (0.6, 0.9), ("light",), "more light"),
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """One winter of the study, before it is simulated."""

    seed: int
    place: str
    weather: pd.DataFrame
    latitude: float
    house: HouseParams
    hidden: tuple[Change, ...]
    told: tuple[Change, ...]  # in the diary
    light: bool
    moist: bool
    bed: bool

    @property
    def weather_name(self) -> str:
        """A station's typical year is one weather in every winter; the simulator's own is another in each."""
        return self.place if self.place in STATIONS else f"{self.place} {self.seed}"


@lru_cache(maxsize=4)
def station(name: str) -> pd.DataFrame:
    """One winter of a typical-year file at the study's step; its clock is taken as Central European Time."""
    file, latitude = STATIONS[name]
    table, _ = read_tmy3(Path(pvlib.__file__).parent / "data" / file, map_variables=True)
    month = np.asarray(table.index.month)
    kept = table[(month >= 10) | (month <= 4)]
    month, day, hour = (np.asarray(getattr(kept.index, part)) for part in ("month", "day", "hour"))
    years = np.where(month >= 10, 2025, 2026)
    stamps = pd.to_datetime({"year": years, "month": month, "day": day, "hour": hour}).to_numpy()
    columns = {"temp_air": "temp_c", "relative_humidity": "rh_pct", "wind_speed": "wind_ms", "ghi": "ghi_wm2"}
    hourly = kept[list(columns)].rename(columns=columns).astype(float)
    hourly.index = pd.DatetimeIndex(stamps).tz_localize("Etc/GMT-1").tz_convert("UTC")
    hourly = hourly[~hourly.index.duplicated()].sort_index()
    fine = from_hourly(hourly, STEP_S, Climate(latitude=latitude, longitude=15.0))
    return fine[(fine.index >= pd.Timestamp(FIRST, tz=ZONE)) & (fine.index < pd.Timestamp(LAST, tz=ZONE))]


def plan(seed: int, true: bool) -> Plan:
    """The winter of that seed; `true`: its changes do something, else they do nothing at all."""
    rng = np.random.default_rng([20251125, seed])
    place = PLACES[seed % len(PLACES)]
    if place in STATIONS:
        weather, latitude = station(place), STATIONS[place][1]
    else:
        climate = Climate(mean_c=rng.uniform(6.5, 10.5), synoptic_sd_k=rng.uniform(2.8, 4.2))
        start = pd.Timestamp(FIRST, tz=ZONE).tz_convert("UTC")
        weather = synthetic(climate, start, pd.Timestamp(LAST, tz=ZONE).tz_convert("UTC"), seed, STEP_S)
        latitude = climate.latitude
    heated = bool(rng.random() < 0.7)
    house = HouseParams(
        u_w_m2k=rng.uniform(2.4, 4.5),
        air_changes_h=rng.uniform(0.5, 1.8),
        heater_w=2500.0 if heated else 0.0,
        hold_c=rng.uniform(4.0, 10.0),
        plants_m2=5.0,
        capacity_kj_k=rng.uniform(600, 1500),
    )
    logged = rng.integers(0, 3)  # 0 light and humidity outdoors; 1 a bed probe only; 2 nothing but temperature
    return Plan(
        seed=seed,
        place=place,
        weather=weather,
        latitude=latitude,
        house=house,
        hidden=hidden(house, rng),
        told=_told(house, rng, true, heated),
        light=logged == 0,
        moist=logged == 0,
        bed=logged < 2,
    )


def hidden(house: HouseParams, rng: np.random.Generator) -> tuple[Change, ...]:
    """Growth every ten days; watering and doors every three to six."""
    found, at = [], pd.Timestamp(FIRST, tz=ZONE)
    end = pd.Timestamp(LAST, tz=ZONE)
    size = house.plants_m2
    for n in range(17):
        size = min(size * rng.uniform(1.0, 1.12), 14.0)
        found.append(Change(at=at + pd.Timedelta(days=10 * n, hours=9), alters={"plants_m2": size}))
    for name, spread in (("wet", 0.25), ("air_changes_h", 0.12)):
        when, level, wobble = at, getattr(house, name), 0.0
        while when < end:
            wobble = 0.6 * wobble + spread * rng.standard_normal()
            found.append(Change(at=when, alters={name: level * float(np.exp(wobble))}))
            when += pd.Timedelta(days=int(rng.integers(3, 7)))
    return tuple(found)


def drawn(of: Plan, number: int) -> tuple[Change, ...]:
    """Another diary of the same winter whose changes do nothing: three dates drawn over the whole season."""
    return _told(of.house, np.random.default_rng([20251125, of.seed, number]), False, of.house.heater_w > 0)


def _days(rng: np.random.Generator) -> list[int]:
    """Three days of the season, any as likely as another, drawn again until they are far enough apart."""
    while True:
        days = np.sort(rng.integers(EDGE_DAYS, SEASON_DAYS - EDGE_DAYS, size=3))
        if int(np.diff(days).min()) >= APART_DAYS:
            return [int(day) for day in days]


def _told(house: HouseParams, rng: np.random.Generator, true: bool, heated: bool) -> tuple[Change, ...]:
    """Three changes, their dates without a time of day."""
    picks = rng.choice(len(DEEDS), size=3, replace=False)
    told = []
    for day, pick in zip(_days(rng), picks, strict=True):
        what, name, (low, high), touches, hope = DEEDS[pick]
        if not heated and hope == "less heating":
            hope = "warmer nights"
        factor = rng.uniform(low, high)
        value = factor if name == "other_w" else getattr(house, name) * factor
        at = pd.Timestamp(FIRST, tz=ZONE) + pd.Timedelta(days=day, hours=12)
        alters = {name: value} if true else {}
        told.append(Change(at=at, alters=alters, what=what, touches=touches, hoped_for=(hope,), reversible=True))
    return tuple(told)
