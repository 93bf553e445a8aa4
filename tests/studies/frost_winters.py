"""Houses for the study of the holding limit: each one winter as the grower sees it, and four more that are the truth.

The heater is ample, just enough, too small or none; nothing is altered, so that every night is of one house. A state
that began in mid-winter or in spring is the same house of which only the nights since then are shown.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pandas as pd
from simulator import Climate, simulate, synthetic
from studies.house_winters import _habits, _house
from studies.winters import FIRST, LAST, PLACES, STATIONS, STEP_S, ZONE, station

HEATERS = {"ample": (1.5, 2.2), "just enough": (0.8, 1.2), "too small": (0.35, 0.7), "none": (0.0, 0.0)}
COLDER_K = (0.0, 3.0, 6.0, 9.0)  # of the winters that are the truth
READ_K = 0.1  # noise of the logger inside
LEAST_W = 0.02  # of the rated power, in an hour with heat: as in the measures
OWN = -1


def nights(seed: int, heater: str) -> pd.DataFrame:
    """Every long night of one house: winter (−1 the grower's own, else its number among the truths), date, outdoor_min,
    inside_min [°C], heated_h.
    """
    rng = np.random.default_rng([20261127, seed, list(HEATERS).index(heater)])
    place = PLACES[seed % len(PLACES)]
    climate = Climate(
        mean_c=rng.uniform(6.0, 10.0), swing_k=rng.uniform(8.0, 12.0), synoptic_sd_k=rng.uniform(2.8, 4.4)
    )
    own = _weather(place, climate, 10 * seed)
    params = replace(_house(rng), hold_c=float(rng.uniform(2.5, 9.0)))
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    need = loss * max(params.hold_c - float(own["temp_c"].quantile(0.002)), 4.0)
    params = replace(params, heater_w=need * float(rng.uniform(*HEATERS[heater])))
    out = []
    for number, colder in enumerate((0.0, *COLDER_K), OWN):
        weather = own if number == OWN else _weather(place, climate, 10 * seed + 1 + number)
        weather = weather.assign(temp_c=weather["temp_c"] - colder)
        frame = simulate(weather, params, _habits(params, rng), 10 * seed + 1 + number).frame
        out.append(_minima(frame, params.heater_w, rng).assign(winter=number))
    return pd.concat(out, ignore_index=True)


def _weather(place: str, climate: Climate, seed: int) -> pd.DataFrame:
    """A station's typical year is one weather; the simulator's own is another by seed."""
    if place in STATIONS:
        return station(place)
    first, last = (pd.Timestamp(day, tz=ZONE).tz_convert("UTC") for day in (FIRST, LAST))
    return synthetic(climate, first, last, seed, STEP_S)


def _minima(frame: pd.DataFrame, rated_w: float, rng: np.random.Generator) -> pd.DataFrame:
    local = frame.set_index(pd.DatetimeIndex(frame.index).tz_convert("Etc/GMT-1"))
    long = local[(local.index.hour >= 18) | (local.index.hour < 9)]
    night = pd.Index([(t - pd.Timedelta(hours=12)).date() for t in long.index], name="date")
    hourly = local["heater_w"].resample("1h").mean()
    dark = hourly[(hourly.index.hour >= 18) | (hourly.index.hour < 9)]
    evenings = [(t - pd.Timedelta(hours=12)).date() for t in dark.index]
    found = long[["temp_out_c", "temp_in_c"]].groupby(night).min().set_axis(["outdoor_min", "inside_min"], axis=1)
    found["heated_h"] = (dark > LEAST_W * rated_w if rated_w else dark < 0).groupby(evenings).sum()
    found["inside_min"] += rng.normal(0.0, READ_K, len(found))
    return found.iloc[1:-1].reset_index()
