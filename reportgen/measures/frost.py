"""Frost: how close the crop air came to the line, what gaps may have hidden, what would happen without heat.

Method: methods page, *Frost margin*. Each part lives in its own module; here they are put together.
"""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH, NIGHT, stats_between, window_stats
from reportgen.measures.exposure import Band, Line, clip, line
from reportgen.measures.frost_alarms import alarms, hot
from reportgen.measures.frost_crops import crop_margins
from reportgen.measures.frost_failure import (
    after_failure,
    failure_evenings,
    failures,
    flat_out_c,
    hold_by_hour,
    model_of,
    without_heat,
)
from reportgen.measures.frost_gaps import blind, gap_table
from reportgen.measures.frost_hours import hour_table, soil_line
from reportgen.measures.frost_limit import holding_limit
from reportgen.measures.frost_nights import (
    air_lines,
    coldest_line,
    counted,
    minimum,
    night_table,
    outdoor_line,
    partly,
    unknown_accuracy,
    whole,
)
from reportgen.measures.frost_types import Alarm as Alarm
from reportgen.measures.frost_types import Away as Away
from reportgen.measures.frost_types import CoolingModel as CoolingModel
from reportgen.measures.frost_types import CropMargin as CropMargin
from reportgen.measures.frost_types import Failure as Failure
from reportgen.measures.frost_types import Frost as Frost
from reportgen.measures.frost_types import HoldingLimit as HoldingLimit
from reportgen.measures.frost_types import Minimum as Minimum
from reportgen.measures.places import outdoor, seldom_crop, seldom_outdoors, why_no, why_no_soil
from reportgen.readings.types import Channel, Readings
from reportgen.sun import clear_sky_sum

NO_AIR = "no crop air temperature"
NO_OUTDOOR = "no outdoor temperature"
FAINT_WH_M2 = 65.0  # [Wh m⁻² d⁻¹] a clear sky that brings less is dusk, and no day is clear or dull; our own line


def frost(readings: Readings) -> Frost:
    """The frost section of one season."""
    airs, outside = air_lines(readings), outdoor_line(readings)
    curve = coldest_line(airs)
    hours = hour_table(readings, curve)
    heated = any(len(supply.intervals) for supply in readings.heating)
    model = model_of(hours, heated, why_no_soil(readings))
    hold = hold_by_hour(readings, hours)
    failed = failures(hours, hold) if heated else ()
    table = night_table(readings, airs, outside)
    circumstances = _circumstances(readings, hours, table.index)
    table["without_heat_c"] = _bare_nights(model, hours, table, circumstances["heated_h"]) if heated else np.nan
    margins, nightly = crop_margins(readings, airs, curve, table)
    table = pd.concat([table, nightly, circumstances], axis=1)
    gaps = gap_table(curve, outside, soil_line(readings), model, readings.season)
    nights, hours_b, degree = counted(readings, airs)
    hot_hours, hot_weeks, open_week, no_hot = hot(readings)
    last_hold = _last(hold)
    power = flat_out_c(readings, hours, last_hold)
    after = after_failure(model, last_hold, readings.season.aims.frost_c, readings.season.place.rare_low_c)
    result = Frost(
        line_c=readings.season.aims.frost_c,
        minimum=minimum(airs, outside, readings.season.aims.frost_c),
        nights=int(whole(table).sum()),
        nights_partly_logged=int(partly(table).sum()),
        nights_below=nights,
        hours_below=hours_b,
        degree_hours_below=degree,
        unrecorded_cold_hours=float(gaps["cold_hours"].sum()) if outside is not None else None,
        unrecorded_unknown_hours=float(gaps["unknown_hours"].sum()),
        could_have_been_c=_least(gaps["could_have_been_c"]),
        holding_limit=holding_limit(readings, table, failure_evenings(failed, table), heated, power),
        without_heat_minimum_c=_bare(table["without_heat_c"], model),
        after_failure=after if heated else (),
        failures=failed,
        alarms=alarms(readings, curve),
        hot_hours=hot_hours,
        crops=margins,
        reasons={},
        hours_recorded=curve.hours_recorded if curve is not None else 0.0,
        hours_unrecorded=sum(b - a for a, b in blind(curve, readings.season)) / 3600.0,
        table=table,
        gaps=gaps,
        hot_weeks=hot_weeks,
        open_week=open_week,
        away=_away(readings, curve),
        model=model,
    )
    return _with_reasons(result, readings, airs, heated, no_hot)


def _bare_nights(model: CoolingModel, hours: pd.DataFrame, table: pd.DataFrame, heated_h: pd.Series) -> pd.Series:
    """Coldest air of each night without heat; where there was none it is what was measured, and never warmer."""
    bare = without_heat(model, hours, table.index)
    if not model.kind:
        return bare
    measured = table["inside_min"].where((heated_h == 0) & (table["share"] >= ENOUGH))
    told = bare.where(measured.isna(), measured).to_numpy()
    return pd.Series(np.fmin(told, table["inside_min"].where(bare.notna()).to_numpy()), index=table.index)


def _last(hold: pd.Series) -> float | None:
    known = hold.dropna()
    return float(known.iloc[-1]) if len(known) else None


def _least(values: pd.Series) -> float | None:
    return float(values.min()) if values.notna().any() else None


def _bare(nightly: pd.Series, model: CoolingModel) -> Band:
    if not nightly.notna().any():
        return Band(estimate=float("nan"))
    middle = float(nightly.min())
    return Band(estimate=middle, low=middle - model.band_k, high=middle + model.band_k)


def _circumstances(readings: Readings, hours: pd.DataFrame, index: pd.Index) -> pd.DataFrame:
    """By evening: heated_h (of the 15 h of the long night), clear (share of a clear sky's light on that date), wind
    [m/s] in night N, entries (words of the diary)."""
    out = pd.DataFrame(index=index)
    dark = hours[(hours["clock_h"] >= 18) | (hours["clock_h"] < 9)]
    out["heated_h"] = dark["heated"].groupby(dark["night"]).sum(min_count=1).reindex(index)
    if not readings.heating:
        out["heated_h"] = np.nan
    out["clear"] = _clear(readings, list(index))
    wind = outdoor(readings, "wind_speed")
    stats = window_stats(line(wind.values), readings.season, NIGHT) if wind is not None else None
    out["wind"] = np.nan if stats is None else stats["mean"]
    out["entries"] = [_entries(readings, day) for day in index]
    return out


def _clear(readings: Readings, days: list[date]) -> list[float]:
    """Light of each date over a clear sky's; NaN without an outdoor light sensor and a latitude."""
    channel, latitude = outdoor(readings, "solar_radiation"), readings.season.place.latitude
    if channel is None or latitude is None:
        return [float("nan")] * len(days)
    edges = [pd.Timestamp(day).tz_localize(readings.season.zone) for day in (*days, days[-1] + timedelta(days=1))]
    at = np.array([edge.timestamp() for edge in edges])
    stats = stats_between(line(channel.values), at[:-1], at[1:])
    sums = stats["mean"].where(stats["share"] >= ENOUGH).to_numpy() * np.diff(at) / 3600.0
    clear = clear_sky_sum(days, latitude)
    risen = clear >= FAINT_WH_M2
    return [float(v) for v in np.where(risen, sums, np.nan) / np.where(risen, clear, 1.0)]


def _entries(readings: Readings, day: date) -> str:
    """What the diary says of that evening and the morning after."""
    morning = day + timedelta(days=1)
    told = [
        entry.what
        for entry in readings.diary
        if entry.kind != "idea" and entry.date <= morning and (entry.until or entry.date) >= day
    ]
    return "; ".join(dict.fromkeys(told))


def _away(readings: Readings, curve: Line | None) -> tuple[Away, ...]:
    """Every absence of the diary that touches the season."""
    season, found = readings.season, []
    for entry in readings.diary:
        first, last = max(entry.date, season.first_day), min(entry.until or entry.date, season.last_day)
        if entry.kind != "away" or first > last:
            continue
        start = pd.Timestamp(first).tz_localize(season.zone)
        end = (pd.Timestamp(last) + pd.Timedelta(days=1)).tz_localize(season.zone)
        part = clip(curve, start, end) if curve is not None else None
        lost = sum(
            min(b, end.timestamp()) - max(a, start.timestamp())
            for a, b in blind(curve, season)
            if b > start.timestamp() and a < end.timestamp()
        )
        coldest = float(part.values.min()) if part is not None and len(part.values) else None
        nights = (last - first).days + 1
        found.append(Away(start=first, end=last, nights=nights, blind_hours=lost / 3600.0, coldest_c=coldest))
    return tuple(found)


def _with_reasons(
    found: Frost, readings: Readings, airs: list[tuple[Channel, Line]], heated: bool, no_hot: str
) -> Frost:
    """The same with words beside every null."""
    why: dict[str, str] = {}
    no_band = unknown_accuracy(airs)
    no_outdoor = why_no(seldom_outdoors(readings, "air_temperature"), NO_OUTDOOR)
    if not airs:
        no_air = why_no(seldom_crop(readings, "air_temperature"), NO_AIR)
        why |= {f"minimum.{key}": no_air for key in ("temperature_c", "margin_k", "at", "logger", "outdoor_c")}
        why |= {"alarms": no_air}
        no_band = no_air
    elif found.minimum.outdoor_c is None:
        why["minimum.outdoor_c"] = no_outdoor if outdoor(readings, "air_temperature") is None else "nothing logged then"
    bands = {f"nights_below.{k}": b for k, b in found.nights_below.items()}
    bands |= {f"hours_below.{k}": b for k, b in found.hours_below.items()}
    bands |= {"degree_hours_below": found.degree_hours_below}
    for path, band in bands.items():
        why |= _band_reasons(path, band, no_band)
    why |= _band_reasons("hot_hours", found.hot_hours, no_hot)
    if found.unrecorded_cold_hours is None:
        why["unrecorded_cold_hours"] = no_outdoor
    if found.could_have_been_c is None:
        why["could_have_been_c"] = _why_no_guess(found, no_outdoor)
    why |= _limit_reasons(found, readings, heated)
    no_model = (
        found.model.why if heated else "no heater in season.toml: if none was lit, it was this winter as it stands"
    )
    why |= _band_reasons("without_heat_minimum_c", found.without_heat_minimum_c, no_model)
    if not found.after_failure:
        why["after_failure"] = (
            (found.model.why or "no night hour known to be heated") if heated else "no heater in season.toml"
        )
    if not found.failures:
        why["failures"] = _no_failure(readings, heated)
    why |= _crop_reasons(found)
    why |= {
        f"alarms.{i}.warning_h": "not needed in the hours on record"
        for i, a in enumerate(found.alarms)
        if a.warning_h is None
    }
    fields = {name: getattr(found, name) for name in Frost.__dataclass_fields__} | {"reasons": why}
    return Frost(**fields)


def _why_no_guess(found: Frost, no_outdoor: str) -> str:
    """Why nothing can be said of the hours without a reading, or that there were no cold ones."""
    if found.unrecorded_cold_hours:
        return found.model.why
    if found.unrecorded_unknown_hours < 1.0:
        return "no cold hour without a reading"
    return "it was not logged outdoors in those hours either" if found.unrecorded_cold_hours is not None else no_outdoor


def _band_reasons(path: str, band: Band, reason: str) -> dict[str, str]:
    return {f"{path}.{key}": reason for key in ("estimate", "low", "high") if pd.isna(getattr(band, key))}


def _limit_reasons(found: Frost, readings: Readings, heated: bool) -> dict[str, str]:
    limit, why = found.holding_limit, {}
    if limit.outdoor_c is None:
        why["holding_limit.outdoor_c"] = limit.reason
    if limit.coldest_seen_c is None:
        why["holding_limit.coldest_seen_c"] = limit.reason
    if limit.heater_flat_out_c is None:
        rated = heated and all(h.rated_power_w is not None for h in readings.heating if h.role == "main")
        no_power = "needs rated_power_w of every main heater"
        told = "too few heated nights by the hour" if rated else no_power
        why["holding_limit.heater_flat_out_c"] = told if heated else "no heater in season.toml"
    return why


def _no_failure(readings: Readings, heated: bool) -> str:
    if not heated:
        return "no heater in season.toml"
    by_hour = any(not supply.intervals["sparse"].all() for supply in readings.heating if len(supply.intervals))
    return "none in the record" if by_hour else "heat is not known by the hour"


def _crop_reasons(found: Frost) -> dict[str, str]:
    why = {} if found.crops else {"crops": "no crop in season.toml, plantings.csv or harvest.csv"}
    for i, crop in enumerate(found.crops):
        if crop.damage_high_c is None:
            why |= {f"crops.{i}.{key}": crop.source for key in ("damage_low_c", "damage_high_c", "margin_k")}
        if crop.coldest_c is None:
            why |= {f"crops.{i}.{key}": "no crop air logged while it stood" for key in ("coldest_c", "margin_k")}
        if crop.bed is None:
            why[f"crops.{i}.bed"] = "no bed given"
    return why
