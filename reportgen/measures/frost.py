"""Frost: how close the crop air came to the line, what gaps may have hidden, what would happen without heat.

Method: methods page, *Frost margin*. Each part lives in its own module; here they are put together.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH, NIGHT, stats_between, window_stats
from reportgen.measures.exposure import Line, channel_line, clip
from reportgen.measures.frost_ahead import Ahead, ahead
from reportgen.measures.frost_alarms import alarms, hot
from reportgen.measures.frost_crops import crop_margins
from reportgen.measures.frost_failure import failure_evenings, failures, hold_by_hour, told_evenings
from reportgen.measures.frost_gaps import blind, gap_table
from reportgen.measures.frost_hours import hour_table
from reportgen.measures.frost_limit import holding_limit
from reportgen.measures.frost_nights import (
    air_lines,
    coldest_line,
    counted,
    minimum,
    night_table,
    outdoor_line,
    partly,
    whole,
)
from reportgen.measures.frost_reasons import null_reasons
from reportgen.measures.frost_states import limit_by_state
from reportgen.measures.frost_types import Alarm as Alarm
from reportgen.measures.frost_types import Away as Away
from reportgen.measures.frost_types import CropMargin as CropMargin
from reportgen.measures.frost_types import Failure as Failure
from reportgen.measures.frost_types import Forecast as Forecast
from reportgen.measures.frost_types import Frost as Frost
from reportgen.measures.frost_types import HoldingLimit as HoldingLimit
from reportgen.measures.frost_types import Minimum as Minimum
from reportgen.measures.frost_types import WithoutHeatNight as WithoutHeatNight
from reportgen.measures.house.season import HouseModel, house_model
from reportgen.measures.house.without_heat import LEVEL
from reportgen.measures.places import outdoor
from reportgen.readings.types import Readings
from reportgen.sun import clear_sky_sum

FAINT_WH_M2 = 65.0  # [Wh m⁻² d⁻¹] a clear sky that brings less is dusk, and no day is clear or dull; our own line
NAN = float("nan")


def frost(readings: Readings, model: HouseModel | None = None) -> Frost:
    """The frost section of one season.

    Args:
        model: The house of the season, where it is at hand.
    """
    airs, outside = air_lines(readings), outdoor_line(readings)
    curve = coldest_line(readings)
    hours = hour_table(readings, curve)
    heated = any(len(supply.intervals) for supply in readings.heating)
    model = model or house_model(readings)
    hold = hold_by_hour(readings, hours)
    failed = failures(readings, curve, hold)
    table = night_table(readings, airs, outside)
    circumstances = _circumstances(readings, hours, table.index)
    table = pd.concat([table, circumstances], axis=1)
    season = readings.season
    told = ahead(model, table, _last(hold), season.aims.frost_c, season.place.rare_low_c)
    table = pd.concat([table, told.nights], axis=1)
    margins, nightly = crop_margins(readings, airs, curve, table)
    table = pd.concat([table, nightly], axis=1)
    gaps = gap_table(curve, outside, told, season)
    out = failure_evenings(failed, table) | (told_evenings(readings) if heated else set())
    nights, hours_b, degree = counted(readings, airs)
    hot_hours, hot_weeks, open_week, no_hot = hot(readings)
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
        holding_limit=holding_limit(readings, table, out, heated, told.flat),
        limit_by_state=limit_by_state(model, table, out, season.aims.frost_c, _last(hold)),
        without_heat_minimum_c=told.season or Forecast(estimate=NAN, low=NAN, high=NAN, level=LEVEL),
        without_heat_nights=_nights(table, told),
        after_failure=told.after,
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
        ahead=told,
        model=model,
    )
    return replace(result, reasons=null_reasons(result, readings, airs, heated, no_hot))


def _nights(table: pd.DataFrame, told: Ahead) -> tuple[WithoutHeatNight, ...]:
    """Every night that can be told without heat."""
    kept = table.dropna(subset=["without_heat_c"])
    rows = kept[["without_heat_c", "without_heat_low_c", "without_heat_high_c"]].itertuples()
    return tuple(
        WithoutHeatNight(night=row[0], estimate=float(row[1]), low=float(row[2]), high=float(row[3]), level=LEVEL)
        for row in rows
    )


def _last(hold: pd.Series) -> float | None:
    known = hold.dropna()
    return float(known.iloc[-1]) if len(known) else None


def _least(values: pd.Series) -> float | None:
    return float(values.min()) if values.notna().any() else None


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
    stats = window_stats(channel_line(wind), readings.season, NIGHT) if wind is not None else None
    out["wind"] = np.nan if stats is None else stats["mean"]
    out["entries"] = [_entries(readings, day) for day in index]
    return out


def _clear(readings: Readings, days: list[date]) -> list[float]:
    """Light of each date over a clear sky's; NaN without an outdoor light sensor and a latitude."""
    channel, latitude = outdoor(readings, "solar_radiation"), readings.season.place.latitude
    if channel is None or latitude is None:
        return [float("nan")] * len(days)
    edges = [readings.season.midnight(day) for day in (*days, days[-1] + timedelta(days=1))]
    at = np.array([edge.timestamp() for edge in edges])
    stats = stats_between(channel_line(channel), at[:-1], at[1:])
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
        start, end = season.midnight(first), season.midnight(last + timedelta(days=1))
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
