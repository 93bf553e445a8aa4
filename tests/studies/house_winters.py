"""Houses for the study of the balance: large, small and no heater, each with the truth of every *what if*.

The house, its hidden habits and its changes are drawn by seed; truth is the same house run again without heat, with the
heater off from 20 h on its ten coldest heated nights, at other holds, and with the heater that was promised.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import pandas as pd
from simulator import Change, Climate, HouseParams, simulate, synthetic
from simulator.house import _stretches
from simulator.physics import AIR_J_M3K, _u_value
from studies.winters import FIRST, LAST, PLACES, STATIONS, STEP_S, ZONE, station

from reportgen.measures.exposure import Floats
from reportgen.measures.house.hours import HouseHours

HEATERS = ("large", "small", "none")
STANDARD = "Etc/GMT-1"  # standard time of the study's zone
STOP_HOURS = 8
AWAY_K = (-4.0, -2.0, -1.0, 1.0, 2.0, 4.0)
LATITUDES = {"simulated weather": 50.0} | {name: latitude for name, (_, latitude) in STATIONS.items()}


@dataclass(frozen=True, kw_only=True, slots=True)
class Winter:
    """One house in one winter. `marks`: when it was altered for good, as the diary would tell it."""

    seed: int
    heater: str
    place: str
    weather: pd.DataFrame
    params: HouseParams
    changes: tuple[Change, ...]
    marks: tuple[pd.Timestamp, ...]
    latitude: float


def winter(seed: int, heater: str) -> Winter:
    """The winter of that seed with that kind of heater."""
    rng = np.random.default_rng([20261126, seed, HEATERS.index(heater)])
    place = PLACES[seed % len(PLACES)]
    weather = _weather(place, rng, seed)
    params = _house(rng)
    hold, coldest = params.hold_c, float(weather["temp_c"].quantile(0.002))
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    need = loss * max(hold - coldest, 4.0)
    share = {"large": rng.uniform(1.5, 2.2), "small": rng.uniform(0.35, 0.6), "none": 0.0}[heater]
    params = replace(params, heater_w=need * share)
    altered = _altered(params, rng) if seed % 2 else ()
    return Winter(
        seed=seed,
        heater=heater,
        place=place,
        weather=weather,
        params=params,
        changes=(*_habits(params, rng), *altered),
        marks=tuple(change.at for change in altered),
        latitude=LATITUDES[place],
    )


def _weather(place: str, rng: np.random.Generator, seed: int) -> pd.DataFrame:
    if place in STATIONS:
        return station(place)
    climate = Climate(
        mean_c=rng.uniform(6.0, 10.0), swing_k=rng.uniform(8.0, 12.0), synoptic_sd_k=rng.uniform(2.8, 4.4)
    )
    first, last = (pd.Timestamp(day, tz=ZONE).tz_convert("UTC") for day in (FIRST, LAST))
    return synthetic(climate, first, last, seed, STEP_S)


def _house(rng: np.random.Generator) -> HouseParams:
    return HouseParams(
        floor_m2=float(rng.uniform(10, 30)),
        glazing_m2=float(rng.uniform(28, 70)),
        volume_m3=float(rng.uniform(22, 65)),
        u_w_m2k=float(rng.uniform(2.2, 5.5)),
        air_changes_h=float(rng.uniform(0.4, 1.6)),
        capacity_kj_k=float(rng.uniform(500, 1500)),
        mass_kj_k=float(rng.choice([0.0, rng.uniform(800, 4000)])),
        mass_w_k=float(rng.uniform(10, 40)),
        soil_w_m2k=float(rng.uniform(4.5, 8.0)),
        soil_k_w_mk=float(rng.uniform(0.7, 1.6)),
        edge_w_k=float(rng.uniform(2, 10)),
        hold_c=float(rng.uniform(3, 10)),
        plants_m2=float(rng.uniform(4, 12)),
    )


def _altered(params: HouseParams, rng: np.random.Generator) -> tuple[Change, ...]:
    """One lasting change of the cover, the cracks or the night, between the 45th and the 130th day."""
    at = pd.Timestamp(FIRST, tz=ZONE) + pd.Timedelta(days=int(rng.integers(45, 130)), hours=12)
    pick = int(rng.integers(0, 3))
    alters = (
        {"u_w_m2k": params.u_w_m2k * float(rng.uniform(0.6, 0.85))},
        {"air_changes_h": params.air_changes_h * float(rng.uniform(0.3, 0.7))},
        {"curtain_m2kw": float(rng.uniform(0.08, 0.25))},
    )[pick]
    return (Change(at=at, alters=alters),)


def _habits(params: HouseParams, rng: np.random.Generator) -> tuple[Change, ...]:
    """Watering and doors that nobody wrote down, every three to six days; growth every fortnight."""
    found, end = [], pd.Timestamp(LAST, tz=ZONE)
    size = params.plants_m2
    for n in range(12):
        size = min(size * float(rng.uniform(1.0, 1.15)), 14.0)
        at = pd.Timestamp(FIRST, tz=ZONE) + pd.Timedelta(days=14 * n, hours=9)
        found.append(Change(at=at, alters={"plants_m2": size}))
    when, wobble = pd.Timestamp(FIRST, tz=ZONE), 0.0
    while when < end:
        wobble = 0.6 * wobble + 0.25 * float(rng.standard_normal())
        found.append(Change(at=when, alters={"wet": float(np.exp(wobble))}))
        when += pd.Timedelta(days=int(rng.integers(3, 7)))
    return tuple(found)


def run(one: Winter, more: Sequence[Change] = (), **alters: float) -> pd.DataFrame:
    """The winter's frame, with further changes and other parameters."""
    return simulate(one.weather, replace(one.params, **alters), (*one.changes, *more), one.seed).frame


def by_hour(values: pd.Series) -> pd.Series:
    """Hourly means in standard time from the first midnight on, whole days; each row of a frame ends its step."""
    step = values.index[1] - values.index[0]
    local = values.set_axis(values.index - step).tz_convert(STANDARD)
    hourly = local.resample("1h").mean()
    first = hourly.index[0].ceil("D")
    last = hourly.index[-1].floor("D")
    return hourly[(hourly.index >= first) & (hourly.index < last)]


def hours_of(one: Winter, frame: pd.DataFrame, *, probe: bool, light: bool, wind: bool) -> HouseHours:
    """What the grower's loggers would tell, with the small errors of honest sensors."""
    rng = np.random.default_rng([7, one.seed])
    air = by_hour(frame["temp_in_c"])
    index = pd.DatetimeIndex(air.index)
    n = len(air)

    def logged(column: str, bias: float, noise: float) -> Floats:
        return by_hour(frame[column]).to_numpy() + rng.normal(0.0, bias) + rng.normal(0.0, noise, n)

    from reportgen.sun import zenith

    high = zenith(index + pd.Timedelta(minutes=30), one.latitude, 15.0)
    probe_c = by_hour(frame["temp_soil_c"]).to_numpy() + rng.normal(0.0, 0.3)
    return HouseHours(
        temp_air_c=logged("temp_in_c", 0.2, 0.05),
        temp_outdoor_c=logged("temp_out_c", 0.3, 0.1),
        temp_soil_c=probe_c if probe and light else None,
        heaters_w=by_hour(frame["heater_w"]).to_numpy(),
        spread_w=np.zeros(n),
        other_w=np.zeros(n),
        sun_w_m2=by_hour(frame["solar"]).to_numpy() if light else None,
        wind_m_s=by_hour(frame["wind_ms"]).to_numpy() if wind else None,
        dark=np.asarray(high > 93.0),
        logged=np.ones(n, dtype=bool),
        state=np.searchsorted(np.array([m.tz_convert(STANDARD) for m in one.marks]), index, side="right")
        if one.marks
        else np.zeros(n, dtype=np.int64),
        rated_w=one.params.heater_w or None,
    )


def loss_truth(one: Winter, frame: pd.DataFrame, hours: HouseHours, kept: np.ndarray) -> float:
    """Heat that glazing and changed air really carried off in those hours ÷ their kelvin-hours [W/K].

    Args:
        kept: Hour numbers of `hours`.
    """
    index = pd.DatetimeIndex(frame.index)
    watts = np.empty(len(frame))
    for params, first, last in _stretches(index, one.params, one.changes):
        part = frame.iloc[first:last]
        night = (part["solar"] < 5.0).to_numpy()
        u = np.array([_u_value(params, w, bool(d)) for w, d in zip(part["wind_ms"], night, strict=True)])
        felt = part["temp_out_c"] - params.sky_k * (1.0 - part["cloud"])
        glass = u * params.glazing_m2 * (part["temp_in_c"] - felt)
        air = part["air_changes_h"] * params.volume_m3 * AIR_J_M3K / 3600.0 * (part["temp_in_c"] - part["temp_out_c"])
        watts[first:last] = (glass + air).to_numpy()
    lost = by_hour(pd.Series(watts, index=index)).to_numpy()[kept]
    lift = (by_hour(frame["temp_in_c"]) - by_hour(frame["temp_out_c"])).to_numpy()[kept]
    return float(lost.sum() / lift.sum())


def stopped(one: Winter, frame: pd.DataFrame, evenings: Sequence[int]) -> dict[int, Floats]:
    """True hourly air of the eight hours after a stop at 20 h, by evening; nights five days apart share a run."""
    start = by_hour(frame["temp_in_c"]).index[0]
    rounds: list[list[int]] = []
    for evening in sorted(evenings):
        home = next((r for r in rounds if evening - r[-1] >= 5), None)
        if home is None:
            rounds.append([evening])
        else:
            home.append(evening)
    out: dict[int, Floats] = {}
    for group in rounds:
        at = [start + pd.Timedelta(hours=24 * evening + 20) for evening in group]
        off = [Change(at=t, until=t + pd.Timedelta(hours=STOP_HOURS), alters={"heater_w": 0.0}) for t in at]
        air = by_hour(run(one, off)["temp_in_c"]).to_numpy()
        out |= {evening: air[24 * evening + 20 : 24 * evening + 20 + STOP_HOURS] for evening in group}
    return out
