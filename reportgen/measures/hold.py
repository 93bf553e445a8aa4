"""The hold: what the thermostat kept, found from the nights, and how much of the time the aim was kept.

Method: methods page, *Heat*. H = median crop air of heated night hours, per stretch between entries that touch the
thermostat.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pandas as pd

from reportgen.measures.days import NIGHT, dates, enough, window_stats
from reportgen.measures.exposure import (
    Band,
    Line,
    channel_line,
    clip,
    degree_hours_below,
    hours_below,
    lowest,
    lowest_shifted,
)
from reportgen.measures.heat_nights import in_window
from reportgen.measures.heat_types import Stretch
from reportgen.measures.heating_hours import heated_hours, hourly_mean
from reportgen.measures.places import crop_channels, main_crop, outdoor, seldom_crop, why_no
from reportgen.readings.types import Readings

FEWEST_HOURS = 24  # heated night hours of a stretch, below which its hold is not told; our own line
FEWEST_NIGHTS = 5  # our own line
UNHEATED_SHARE = 0.01  # of the season's heat


def stretches(readings: Readings, by_hour: pd.DataFrame) -> tuple[Stretch, ...]:
    """The season cut at every entry that touches the thermostat and every new aim, each with the hold found in it.

    Where heat is not known by the hour the hold is the median night air of the colder half of the nights.
    """
    if not readings.heating:
        return ()
    crop = main_crop(readings, "air_temperature")
    hourly = pd.Series(np.nan, index=by_hour.index)
    if crop is not None:
        hourly = pd.Series(hourly_mean(crop.values, pd.DatetimeIndex(by_hour.index)), index=by_hour.index)
    heated = heated_hours(by_hour)
    found = in_window(readings, hourly.where(heated == 1), NIGHT)
    nights = _night_air(readings)
    days = dates(readings.season)
    cuts = [*_cuts(readings), readings.season.last_day + timedelta(days=1)]
    out = []
    for first, after in pairwise(cuts):
        inside = np.array([first <= day < after for day in days])
        hours = found[inside][~np.isnan(found[inside])]
        if len(hours) >= FEWEST_HOURS:
            held, count, how = float(np.median(hours)), len(hours), "heated night hours"
        elif heated.notna().any():
            held, count, how = None, len(hours), "heated night hours"
        else:
            held, count = _colder_half(nights[inside])
            how = "the colder half of the nights"
        out.append(Stretch(first=first, last=after - timedelta(days=1), hold_c=held, hours=count, how=how))
    return tuple(out)


def _cuts(readings: Readings) -> list[date]:
    """First days of the stretches."""
    season = readings.season
    days = {season.first_day} | {hold.start for hold in season.aims.hold}
    for entry in readings.diary:
        if entry.kind in ("change", "spell") and "thermostat" in entry.touches:
            days.add(entry.date)
            if entry.until is not None:
                days.add(entry.until + timedelta(days=1))
    return sorted(day for day in days if season.first_day <= day <= season.last_day)


def _night_air(readings: Readings) -> pd.DataFrame:
    """Mean crop and outdoor air of every night; index = dates."""
    table = pd.DataFrame(np.nan, index=pd.Index(dates(readings.season)), columns=["in", "out"])
    for name, channel in (
        ("in", main_crop(readings, "air_temperature")),
        ("out", outdoor(readings, "air_temperature")),
    ):
        if channel is not None and len(channel.values) > 1:
            table[name] = enough(window_stats(channel_line(channel), readings.season, NIGHT))
    return table


def _colder_half(nights: pd.DataFrame) -> tuple[float | None, int]:
    """Median night air of the colder half of the nights outdoors (of all nights without an outdoor logger)."""
    known = nights.dropna(subset=["in"])
    outside = known["out"].dropna()
    if len(outside):
        known = known.loc[outside.index[(outside <= outside.median()).to_numpy()]]
    if len(known) < FEWEST_NIGHTS:
        return None, 0
    return float(known["in"].median()), len(known) * round(NIGHT.hours)


def with_heat(found: tuple[Stretch, ...], by_day: pd.DataFrame) -> tuple[Stretch, ...]:
    """The stretches with their heat and money, from `heating_hours.heat_by_day`; one that took under 1 % of the heat
    held nothing."""
    least = UNHEATED_SHARE * float(by_day["kwh"].sum())
    days = list(by_day.index)
    out = []
    for one in found:
        inside = by_day[[one.first <= day <= one.last for day in days]]
        kwh = float(inside["kwh"].sum())
        hold = one.hold_c if kwh > least else None
        out.append(replace(one, hold_c=hold, kwh=kwh, cost=float(inside["cost"].sum())))
    return tuple(out)


def hold_found(found: tuple[Stretch, ...]) -> float | None:
    """The hold of the winter [°C]: the stretches' holds, weighted by the heat that each took; None where none was
    found.
    """
    known = [(one.hold_c, one.kwh) for one in found if one.hold_c is not None]
    weight = sum(kwh for _, kwh in known)
    if not known or weight <= 0:
        return None
    return float(sum(hold * kwh for hold, kwh in known) / weight)


@dataclass(frozen=True, kw_only=True, slots=True)
class Kept:
    """How much of the time the aim was kept; `months`: index = first of the month, columns hours, below_h,
    degree_hours. `reason`: why not, empty where it could be told; `band_reason`: why there is no band."""

    share: Band
    degree_hours: Band
    hours: float
    months: pd.DataFrame = field(repr=False)
    reason: str = ""
    band_reason: str = ""


def kept(readings: Readings) -> Kept:
    """Share of the recorded hours in which the coldest crop air was at or above the hold of the day."""
    nothing = Band(estimate=float("nan"))
    empty = pd.DataFrame(columns=["hours", "below_h", "degree_hours"])
    channels = [c for c in crop_channels(readings, "air_temperature") if len(c.values) > 1]
    holds = readings.season.aims.hold or readings.season.aims.hold_c
    if not channels or holds is None or holds == ():
        no_air = why_no(seldom_crop(readings, "air_temperature"), "no air temperature was logged beside the crop")
        why = "no hold is named in season.toml" if channels else no_air
        return Kept(share=nothing, degree_hours=nothing, hours=0.0, months=empty, reason=why)
    unknown = [c.logger for c in channels if c.accuracy is None]
    shifts = (0.0,) if unknown else (-1.0, 0.0, 1.0)
    lines = [channel_line(c) for c in channels]
    coldest = lowest(lines)
    tables = [
        _months(readings, lowest_shifted(lines, [sign * (c.accuracy or 0.0) for c in channels], coldest))
        for sign in shifts
    ]
    middle = tables[len(tables) // 2]
    hours = float(middle["hours"].sum())
    if hours <= 0:
        return Kept(share=nothing, degree_hours=nothing, hours=0.0, months=empty, reason="no hour under a hold")
    return Kept(
        share=_band(tables, lambda table: 1.0 - float(table["below_h"].sum()) / hours),
        degree_hours=_band(tables, lambda table: float(table["degree_hours"].sum())),
        hours=hours,
        months=middle,
        band_reason=f"no accuracy given for {', '.join(unknown)}" if unknown else "",
    )


def _band(tables: list[pd.DataFrame], count: Callable[[pd.DataFrame], float]) -> Band:
    values = [count(table) for table in tables]
    if len(values) == 1:
        return Band(estimate=values[0])
    return Band(estimate=values[1], low=min(values), high=max(values))


def _months(readings: Readings, curve: Line) -> pd.DataFrame:
    """Hours recorded, hours and degree-hours below the hold of the day, by month."""
    rows: dict[date, list[float]] = {}
    for first, last, hold in hold_pieces(readings):
        start, end = readings.season.midnight(first), readings.season.midnight(last + timedelta(days=1))
        part = clip(curve, start, end)
        row = rows.setdefault(first.replace(day=1), [0.0, 0.0, 0.0])
        if len(part.values) > 1:
            values = (part.hours_recorded, hours_below(part, hold), degree_hours_below(part, hold))
            rows[first.replace(day=1)] = [a + b for a, b in zip(row, values, strict=True)]
    return pd.DataFrame.from_dict(rows, orient="index", columns=["hours", "below_h", "degree_hours"])


def hold_pieces(readings: Readings) -> list[tuple[date, date, float]]:
    """The season cut by month and by hold: first day, last day, hold; days without a hold are left out."""
    out: list[tuple[date, date, float]] = []
    for day in dates(readings.season):
        hold = readings.season.hold_on(day)
        if hold is None:
            continue
        if out and out[-1][2] == hold and out[-1][1] == day - timedelta(days=1) and out[-1][0].month == day.month:
            out[-1] = (out[-1][0], day, hold)
        else:
            out.append((day, day, hold))
    return out
