"""What a change truly did: the winter with it less its twin without it, by garden day.

The outcomes are worked out here a second time, straight from the simulated steps and not with the project's own
code, so that a test that holds an estimate against them does not hold the project against itself.
"""

from __future__ import annotations

import numpy as np
import pandas as pd

from simulator.house import Change, Simulated

OUTCOMES = ("lift", "night_minimum", "heat", "watts_per_kelvin", "night_humidity", "damp_hours", "soil_mean",
            "daily_light")  # fmt: skip


def true_effect(simulated: Simulated, change: Change, outcome: str, *, days: int = 21, zone_h: float = 1.0) -> float:
    """Mean of (with − without) over the `days` garden days after the change, or over a spell's own nights.

    Args:
        simulated: The winter in which the change was made; its twin is simulated on the spot (about 1 s).
        outcome: One of OUTCOMES, units as in the season's review: K, kWh, W/K, % points, h, mol/m².
        zone_h: Standard time less UTC [h].
    """
    both = outcomes(simulated, zone_h)[outcome], outcomes(simulated.without(change), zone_h)[outcome]
    difference = both[0] - both[1]
    day = (change.at.tz_convert("UTC").tz_localize(None) + pd.Timedelta(hours=zone_h)).normalize()
    until = day + pd.Timedelta(days=days)
    if change.until is not None:
        last = (change.until.tz_convert("UTC").tz_localize(None) + pd.Timedelta(hours=zone_h)).normalize()
        until = min(until, last - pd.Timedelta(days=1))
        day -= pd.Timedelta(days=1)  # a spell that begins at noon counts from its first night
    index = pd.DatetimeIndex(difference.index)
    return float(difference[(index > day) & (index <= until)].mean())


def outcomes(simulated: Simulated, zone_h: float = 1.0) -> pd.DataFrame:
    """Every outcome by garden day (noon to noon, standard time); index: the date on which it begins."""
    frame = simulated.frame
    stamps = pd.DatetimeIndex(frame.index).tz_localize(None) + pd.Timedelta(hours=zone_h)
    step_h = (stamps[1] - stamps[0]) / pd.Timedelta(hours=1)
    hour = stamps.hour.to_numpy() + stamps.minute.to_numpy() / 60
    day = (stamps - pd.Timedelta(hours=12)).normalize()
    night, long_night = (hour >= 20) | (hour < 6), (hour >= 18) | (hour < 9)
    lift = frame["temp_in_c"] - frame["temp_out_c"]
    heat = frame["heater_w"] + frame["backup_w"] + frame["appliances_w"]
    out = pd.DataFrame({"lift": _mean(lift, day, night)})
    lowest = [frame[c].where(long_night).groupby(day).min() for c in ("temp_in_c", "temp_out_c")]
    out["night_minimum"] = lowest[0] - lowest[1]
    out["heat"] = heat.groupby(day).sum() * step_h / 1000
    heated = (heat > 0.02 * max(float(heat.max()), 1.0)).where(night).groupby(day).sum() * step_h
    watts = _mean(heat, day, night)
    out["watts_per_kelvin"] = (watts / out["lift"]).where((out["lift"] > 3.0) & (heated >= 5.0))
    out["night_humidity"] = _mean(frame["rh_in_pct"], day, night)
    out["damp_hours"] = (frame["rh_in_pct"] > 80.0).where(night).groupby(day).sum().astype(float) * step_h
    out["soil_mean"] = frame["temp_soil_c"].groupby(day).mean()
    out["daily_light"] = frame["ppfd_in"].groupby(stamps.normalize()).mean() * 0.0864
    return out


def _mean(values: pd.Series, day: pd.DatetimeIndex, inside: np.ndarray) -> pd.Series:
    return values.where(inside).groupby(day).mean()
