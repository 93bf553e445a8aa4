"""One small house through a winter: air, glazing, bed, heaters and the water in the air.

A lumped model that steps through time in plain numbers. It is meant to be believable and to have a truth that is
known exactly, not to predict any real house. Coefficients without a source are *common practice* or fitted by eye.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace

import numpy as np
import pandas as pd

from simulator import physics
from simulator.physics import State

OUT = (
    "temp_in_c", "rh_in_pct", "temp_bed_c", "temp_soil_c", "temp_soil_deep_c", "temp_glass_c",
    "heater_w", "backup_w", "dehumidifier_w", "appliances_w", "film_kg", "air_changes_h", "ppfd_in",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class HouseParams:
    """What the house is. Every field may be altered by a Change at a moment."""

    floor_m2: float = 20.0
    glazing_m2: float = 46.0
    volume_m3: float = 44.0
    u_w_m2k: float = 3.3  # at a wind of 2 m/s
    sky_k: float = 2.5  # how much colder than the air a clear night makes the outside [K]
    air_changes_h: float = 1.0  # at a wind of 2 m/s
    vent_at_c: float = 20.0
    vent_most_h: float = 12.0
    transmission: float = 0.68
    sun_factor: float = 1.15  # low winter sun also comes through the sides
    capacity_kj_k: float = 900.0  # air, staging, plants
    mass_kj_k: float = 0.0  # barrels and the like
    mass_w_k: float = 0.0
    curtain_m2kw: float = 0.0  # added resistance at night
    soil_w_m2k: float = 6.5
    soil_k_w_mk: float = 1.1
    soil_mj_m3k: float = 2.5
    edge_w_k: float = 6.0  # bed to the ground outside
    probe_depth_m: float = 0.10
    deep_c: float = 9.5  # ground at 1 m: mean and half swing over the year
    deep_swing_k: float = 4.0
    heater_w: float = 0.0  # rated
    heater_factor: float = 1.0  # share of the rated power that it still gives
    hold_c: float = 4.0
    hysteresis_k: float = 0.8
    backup_w: float = 0.0  # an unvented propane heater: brings water too
    backup_c: float = 1.5
    other_w: float = 0.0  # a lamp or mat that runs all day
    dehumidifier_w: float = 0.0
    dehumidifier_pct: float = 85.0
    dehumidifier_kg_kwh: float = 1.1
    plants_m2: float = 9.0
    wet: float = 1.0  # wetness of the soil's skin, 0…1.5
    soil_start_c: float = 13.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Change:
    """Something altered at `at` (a zone-aware time), until `until` if it ends, and how the diary tells it.

    `alters` maps fields of HouseParams to their new value. Without `what` the diary keeps silent (a hidden cause).
    """

    at: pd.Timestamp
    alters: Mapping[str, float] = field(default_factory=dict)
    until: pd.Timestamp | None = None
    what: str = ""
    kind: str = "change"
    touches: tuple[str, ...] = ()
    hoped_for: tuple[str, ...] = ()
    reversible: bool | None = None
    timed: bool = False  # the diary gives the time of day too
    cost: float | None = None
    years: float | None = None
    written: str = ""
    note: str = ""
    undoes: str = ""  # date or words of the earlier line that this one takes back
    thing: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Simulated:
    """The truth. `frame`: index UTC, one row a step, each value at the END of its step or (powers) its mean.

    Columns: temp_in_c, rh_in_pct, temp_bed_c (near the bed), temp_soil_c (at probe depth), temp_soil_deep_c,
    temp_glass_c (inside), heater_w, backup_w, dehumidifier_w, appliances_w, film_kg (water on the glazing),
    air_changes_h, ppfd_in [µmol/m²/s], temp_out_c, rh_out_pct, wind_ms, solar [W/m², outside], cloud,
    and the running sums heater_kwh, backup_kwh, dehumidifier_kwh.
    """

    frame: pd.DataFrame
    house: HouseParams
    changes: tuple[Change, ...]
    weather: pd.DataFrame
    seed: int

    def without(self, change: Change) -> Simulated:
        """The same winter in the same house with that one change never made: its twin."""
        return simulate(self.weather, self.house, [c for c in self.changes if c is not change], self.seed)

    def kwh(self, column: str = "heater_w") -> float:
        """Energy of a power column over the winter [kWh]."""
        step_h = (self.frame.index[1] - self.frame.index[0]) / pd.Timedelta(hours=1)
        return float(self.frame[column].sum()) * step_h / 1000


def simulate(weather: pd.DataFrame, house: HouseParams, changes: Sequence[Change] = (), seed: int = 0) -> Simulated:
    """The winter of that house in that weather.

    Args:
        weather: As `weather.synthetic` or `weather.from_hourly` gives it.
        changes: Applied in order of time where they hold; later ones win.
        seed: Only for small draughts and the watering; two runs with one seed share them, so twins differ
            by their change alone.
    """
    index = pd.DatetimeIndex(weather.index)
    step_s = (index[1] - index[0]) / pd.Timedelta(seconds=1)
    draught = np.exp(0.12 * np.random.default_rng([seed, 29]).standard_normal(len(index)))
    inputs = [weather[c].to_numpy(float).tolist() for c in ("temp_c", "rh_pct", "wind_ms", "ghi_wm2", "cloud")]
    rows: list[tuple[float, ...]] = []
    state = State.begin(house, inputs[0][0])
    for params, first, last in _stretches(index, house, changes):
        for i in range(first, last):
            if i % 144 == 0 or i == first:
                deep = _deep(params, index[i].day_of_year)
            outside = physics.Outside(*(column[i] for column in inputs), draught[i], deep)
            rows.append(physics.step(state, params, outside, step_s))
    frame = pd.DataFrame(np.array(rows), columns=list(OUT), index=index)
    outside_columns = weather.rename(columns={"temp_c": "temp_out_c", "rh_pct": "rh_out_pct", "ghi_wm2": "solar"})
    frame = frame.join(outside_columns)
    for power in ("heater", "backup", "dehumidifier"):
        frame[f"{power}_kwh"] = frame[f"{power}_w"].cumsum() * step_s / 3.6e6
    return Simulated(frame=frame, house=house, changes=tuple(changes), weather=weather, seed=seed)


def _deep(params: HouseParams, day: int) -> float:
    """Ground at a metre [°C]: coldest at the beginning of March."""
    return params.deep_c - params.deep_swing_k * math.cos(2 * math.pi * (day - 62) / 365.25)


def _stretches(
    index: pd.DatetimeIndex, house: HouseParams, changes: Sequence[Change]
) -> list[tuple[HouseParams, int, int]]:
    """Stretches of steps within which nothing is altered."""
    _check(changes)
    edges = {0, len(index)}
    for change in changes:
        for when in (change.at, change.until):
            if when is not None:
                edges.add(int(index.searchsorted(when)))
    marks = sorted(edges)
    found = []
    for first, last in itertools.pairwise(marks):
        params = house
        for change in sorted(changes, key=lambda c: c.at):
            if change.at <= index[first] and (change.until is None or index[first] < change.until):
                params = replace(params, **change.alters)
        found.append((params, first, last))
    return found


def _check(changes: Sequence[Change]) -> None:
    known = {f.name for f in fields(HouseParams)}
    for change in changes:
        if change.at.tzinfo is None:
            raise ValueError(f"a change needs a time with its zone: {change.at}")
        if unknown := set(change.alters) - known:
            raise ValueError(f"a house has no {', '.join(sorted(unknown))}")
