"""What the Damp page shows besides its headlines: by month, by hour of the day, by night; airing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen import air
from reportgen.measures.damp_air import Moist, mean_of, time_in
from reportgen.measures.damp_mould import WET_PCT, WetSpell, at_or_above
from reportgen.measures.days import LONG_NIGHT, bounds, dates, standard_offset, stats_between
from reportgen.measures.exposure import Floats, Line, spells_above, to_seconds
from reportgen.measures.frost_limit import nights_of
from reportgen.measures.heating_hours import hours_of
from reportgen.readings.types import Readings
from reportgen.sun import sunrise_sunset
from reportgen.units import AIR_HEAT_WH_M3K
from reportgen.wording import largest

DAWN_H = 7.0  # of the clock, standard time, where the place is not known
STANDS_OUT = 5.0  # points of the hours by which a month or an hour of the day must lead; our own line, no source
LEAST_MONTH_H = 100.0  # on record, of a month that may be called the dampest; our own line
WORST = {"unknown": -2, "too cold": -1, "none": 0, "low": 1, "moderate": 2, "high": 3}


@dataclass(frozen=True, kw_only=True, slots=True)
class Airing:
    """What letting the air change would have done in the hours that were too damp and drier outside.

    `water_gm3`: mean difference of water inside and outside [g/m³] in those hours. `wh_per_m3`: heat that a cubic
    metre of fresh air then took [Wh]. `litres_a_day`: water that the house's own leaks carried out [L/d], where
    air_changes_per_h and air_volume_m3 are known.
    """

    water_gm3: float | None
    wh_per_m3: float | None
    litres_a_day: float | None


def by_hour(moist: Moist, readings: Readings) -> pd.DataFrame:
    """Mean humidity of every hour of the day (standard time): date, hour, value (NaN under 80 % recorded)."""
    starts, _ = bounds(readings.season, LONG_NIGHT)
    zero = starts - LONG_NIGHT.start_h * 3600.0
    seconds = (zero[:, None] + np.arange(24) * 3600.0).ravel()
    stats = stats_between(moist.rh, seconds, seconds + 3600.0)
    days = dates(readings.season)
    return pd.DataFrame(
        {
            "date": np.repeat(np.array(days, dtype=object), 24),
            "hour": np.tile(np.arange(24), len(days)),
            "value": stats["mean"].where(stats["share"] >= 0.8).to_numpy(),
        }
    )


def by_month(moist: Moist, readings: Readings, high: float, extreme: float, dry: Line | None) -> pd.DataFrame:
    """month (its first day in the season), recorded, above_high, above_extreme [h] with the sensor's band, airing [h].

    `high`, `extreme`: the lines [%]. `dry`: damp_airing.airing_curve, or None where outdoor air is not known.
    """
    season = readings.season
    firsts = [d for d in dates(season) if d == season.first_day or d.day == 1]
    ends = [*firsts[1:], season.last_day + timedelta(days=1)]
    stamps = [np.array([season.midnight(d).timestamp() for d in days]) for days in (firsts, ends)]
    table = pd.DataFrame({"month": firsts, "recorded": _recorded(moist.rh, *stamps)})
    for name, limit in (("above_high", high), ("above_extreme", extreme)):
        table[name] = time_in(spells_above(moist.rh, limit), *stamps)
        a = moist.rh_accuracy
        table[f"{name}_low"] = np.nan if a is None else time_in(spells_above(moist.rh.shifted(-a), limit), *stamps)
        table[f"{name}_top"] = np.nan if a is None else time_in(spells_above(moist.rh.shifted(a), limit), *stamps)
    table["airing"] = np.nan if dry is None else time_in(spells_above(dry, 0.0), *stamps)
    return table


def _recorded(curve: Line, starts: Floats, ends: Floats) -> Floats:
    return stats_between(curve, starts, ends)["hours"].to_numpy(dtype=np.float64)


def by_clock(moist: Moist, readings: Readings, high: float, extreme: float) -> pd.DataFrame:
    """Share of each hour of the day (standard time) above both lines [%]: hour, high, extreme."""
    offset = standard_offset(readings.season).total_seconds()
    hours = hours_of(readings)
    seconds = to_seconds(hours)
    local = (((seconds + offset) // 3600) % 24).astype(int)
    recorded = pd.Series(_recorded(moist.rh, seconds, seconds + 3600.0)).groupby(local).sum()
    table = pd.DataFrame({"hour": np.arange(24)})
    for name, limit in (("high", high), ("extreme", extreme)):
        over = pd.Series(time_in(spells_above(moist.rh, limit), seconds, seconds + 3600.0)).groupby(local).sum()
        table[name] = (100 * over / recorded.where(recorded > 0)).reindex(np.arange(24)).to_numpy()
    return table


def noon_and_night(share: pd.Series) -> tuple[float, float]:
    """Mean share of the hours 11 to 15 and 22 to 6 that were too damp, %, of the 24 hours of the day."""
    return float(share.iloc[11:15].mean()), float(share.iloc[[22, 23, 0, 1, 2, 3, 4, 5]].mean())


def dampest_month(months: pd.DataFrame) -> tuple[pd.Timestamp, float] | None:
    """The month with the largest share of its hours too damp, in %; None where none leads by what matters.

    Months with under 100 hours on record are left out.
    """
    known = months[months["recorded"] >= LEAST_MONTH_H]
    parts = (100 * known["above_high"] / known["recorded"]).to_numpy()
    n = largest([float(p) for p in parts], STANDS_OUT)
    return None if n is None else (known["month"].iloc[n], float(parts[n]))


def by_night(moist: Moist, readings: Readings, high: float, extreme: float, wet: tuple[WetSpell, ...]) -> pd.DataFrame:
    """One row a long night: recorded, above_high, above_extreme, leaf_wet [h], dawn_spread_k, klass, index, found.

    `high`, `extreme`: the lines [%]. `klass`, `index`: the worst class of the wet spells that touch it. `found`: what
    inspections of the day after noted (a 0 is kept as "nothing found").
    """
    season = readings.season
    starts, ends = bounds(season, LONG_NIGHT)
    days = dates(season)
    table = pd.DataFrame({"recorded": _recorded(moist.rh, starts, ends)}, index=pd.Index(days, name="date"))
    table["above_high"] = time_in(spells_above(moist.rh, high), starts, ends)
    table["above_extreme"] = time_in(spells_above(moist.rh, extreme), starts, ends)
    table["leaf_wet"] = time_in(at_or_above(moist.rh, WET_PCT), starts, ends)
    table["dawn_spread_k"] = _dawn(moist, readings, days)
    table["klass"], table["index"] = _classes(days, wet)
    table["found"] = [_found(readings, day + timedelta(days=1)) for day in days]
    return table


def _dawn(moist: Moist, readings: Readings, days: list[date]) -> Floats:
    """Air temperature less dew point at sunrise of the morning after [K]."""
    place = readings.season.place
    mornings = [day + timedelta(days=1) for day in days]
    if place.latitude is not None and place.longitude is not None:
        rise, _ = sunrise_sunset(mornings, place.latitude, place.longitude)
        at = np.array([t.timestamp() if not pd.isna(t) else np.nan for t in rise])
    else:
        at = bounds(readings.season, LONG_NIGHT)[0] + (24 + DAWN_H - LONG_NIGHT.start_h) * 3600.0
    spread = moist.curve(moist.temp_c - air.dew_point_c(moist.temp_c, moist.humidity()))
    return spread.at(at)


def _classes(days: list[date], wet: tuple[WetSpell, ...]) -> tuple[list[str], list[float]]:
    worst: dict[date, WetSpell] = {}
    for spell in wet:
        for night in nights_of(spell.start, spell.end):
            if night not in worst or WORST[spell.klass] > WORST[worst[night].klass]:
                worst[night] = spell
    return [worst[d].klass if d in worst else "" for d in days], [
        worst[d].index if d in worst else np.nan for d in days
    ]


def _found(readings: Readings, day: date) -> str:
    told = [
        f"{i.found} ({i.level})" if i.level else (i.found if i.level is None else "nothing found")
        for i in readings.inspections
        if i.date == day
    ]
    return "; ".join(told)


def airing(moist: Moist, readings: Readings, curve: Line | None, outdoor_c: Floats, outdoor_rh: Floats) -> Airing:
    """Means over the hours in which `curve` (damp_airing.airing_curve) lies above 0: water [g/m³], heat [Wh/m³].

    `outdoor_c` [°C], `outdoor_rh` [%]: at the stamps, shapes (n,). The rate [L a day] is air changes × air volume × the
    mean difference of water over all hours on record; None where either is not given. Heat: 0.33 Wh m⁻³ K⁻¹ (EN ISO
    13789 practice) × the difference of temperature.
    """
    if curve is None or len(curve.values) < 2:
        return Airing(water_gm3=None, wh_per_m3=None, litres_a_day=None)
    inside = air.absolute_humidity_gm3(moist.temp_c, moist.humidity())
    water = moist.curve(inside - air.absolute_humidity_gm3(outdoor_c, outdoor_rh))
    heat = moist.curve(AIR_HEAT_WH_M3K * np.maximum(moist.temp_c - outdoor_c, 0.0))
    spells = spells_above(curve, 0.0)
    house = readings.season.house
    rate, mean = None, mean_of(water)
    if house.air_changes_per_h is not None and house.air_volume_m3 is not None and mean is not None:
        rate = house.air_changes_per_h * house.air_volume_m3 * mean * 24.0 / 1000.0
    return Airing(water_gm3=_mean_in(water, spells), wh_per_m3=_mean_in(heat, spells), litres_a_day=rate)


def _mean_in(curve: Line, spells: list[tuple[float, float]]) -> float | None:
    """Mean of a curve over spells, by time."""
    if not spells:
        return None
    starts, ends = (np.array(side) for side in zip(*spells, strict=True))
    stats = stats_between(curve, starts, ends)
    hours = stats["hours"].to_numpy()
    return float((stats["mean"].fillna(0.0).to_numpy() * hours).sum() / hours.sum()) if hours.sum() else None
