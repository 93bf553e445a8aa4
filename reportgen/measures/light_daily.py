"""Daily light inside, from whatever light was logged: quanta, or the sun's energy turned into quanta.

Method: methods page, *Light*. The best source that was logged is taken: quanta inside, the sun's energy inside,
energy or quanta outdoors times the cover's transmission.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

import numpy as np
import pandas as pd

from reportgen.measures.days import DATE, dates, enough, window_stats
from reportgen.measures.exposure import Floats, channel_line
from reportgen.measures.places import anywhere, outdoor, seldom_inside, seldom_outdoors, why_no
from reportgen.readings.types import Channel, Readings
from reportgen.sun import clear_sky_sum, day_length_h

# [µmol J⁻¹] quanta of 400–700 nm per joule of global radiation. Britton and Dodd 1976, Agric. Meteorol. 17:1–7:
# 2.11 on average, 1.8–2.3 by sky.
QUANTA_PER_JOULE, QUANTA_LOW, QUANTA_HIGH = 2.11, 1.8, 2.3
SECONDS_A_DAY = 86_400.0
TEN_HOURS = 10.0  # [h] day length under which winter crops all but stop growing; common practice, no source
GLOOMY_SHARE = 1 / 3  # of what a clear sky would give on that date; our own line, no source
FAINT_MOL = (
    0.5  # [mol m⁻² d⁻¹] a clear sky that brings less is dusk and no day to compare with; our own line, no source
)
BRIGHT_QUANTILE = 0.95  # a day brighter than this share of the others counts as clear

Kind = Literal["quanta inside", "radiation inside", "radiation outdoors", "quanta outdoors", "none"]


@dataclass(frozen=True, kw_only=True, slots=True)
class DailyLight:
    """Light of every date of the season; index of `table` = dates.

    Columns: day_length_h; clear_mol (a clear sky outdoors, mol m⁻²); outdoor_mol (measured); inside_mol (measured or
    worked out); share (of a clear day's light, 0…1 and a little over; NaN unknown); gloomy (1, 0, NaN). What could
    not be had is NaN. `kind`: what the inside figure rests on; `reason`: why there is none.
    """

    table: pd.DataFrame = field(repr=False)
    kind: Kind
    logger: str
    reason: str
    transmission: float | None  # what the inside figure was multiplied with, given by the grower
    transmission_seen: float | None  # inside ÷ outdoors where both were logged


def daily_integral_mol(ppfd: Floats, hours: float) -> Floats:
    """Light sums [mol m⁻²] of so many hours, from their mean `ppfd` [µmol m⁻² s⁻¹]: PPFD × time [h] × 3600 / 10⁶.

    Any shape, kept.
    """
    return np.asarray(ppfd, dtype=np.float64) * hours * 3600.0 / 1e6


def quanta_of_radiation_mol(energy_mj: Floats, per_joule: float = QUANTA_PER_JOULE) -> Floats:
    """Quanta [mol m⁻²] of a sum of global radiation [MJ m⁻²]: 1 µmol/J is 1 mol/MJ; any shape, kept.

    `per_joule` [µmol J⁻¹]; source of the usual one: Britton and Dodd 1976.
    """
    return np.asarray(energy_mj, dtype=np.float64) * per_joule


def daily_light(readings: Readings) -> DailyLight:
    """Day length, clear-sky light and measured light of every date."""
    season = readings.season
    days = dates(season)
    table = pd.DataFrame(np.nan, index=pd.Index(days, name="date"), columns=["day_length_h", "clear_mol"])
    if season.place.latitude is not None:
        table["day_length_h"] = day_length_h(days, season.place.latitude)
        table["clear_mol"] = quanta_of_radiation_mol(clear_sky_sum(days, season.place.latitude) * 3600.0 / 1e6)
    table["outdoor_mol"] = _sums(_outdoor_channel(readings), readings)
    kind, channel, reason = _source(readings)
    share = season.house.light_transmission
    inside = _sums(channel, readings)
    by_cover = kind in ("radiation outdoors", "quanta outdoors")
    table["inside_mol"] = inside * share if by_cover and share is not None else inside
    table["share"] = _share_of_clear(table)
    table["gloomy"] = (table["share"] < GLOOMY_SHARE).astype(float).where(table["share"].notna())
    return DailyLight(
        table=table,
        kind=kind,
        logger=channel.logger if channel is not None else "",
        reason=reason,
        transmission=share if by_cover else None,
        transmission_seen=None if by_cover else _seen(table),
    )


def _outdoor_channel(readings: Readings) -> Channel | None:
    return outdoor(readings, "solar_radiation") or outdoor(readings, "ppfd")


def _source(readings: Readings) -> tuple[Kind, Channel | None, str]:
    """What the light inside is taken from, or the reason why it cannot be had."""
    if (found := anywhere(readings, "ppfd")) is not None:
        return "quanta inside", found, ""
    if (found := anywhere(readings, "solar_radiation")) is not None:
        return "radiation inside", found, ""
    outside = _outdoor_channel(readings)
    if outside is None:
        return "none", None, _why_no_light(readings)
    if readings.season.house.light_transmission is None:
        return "none", None, "light was logged outdoors only, and light_transmission of the cover is not given"
    return ("quanta outdoors" if outside.measure == "ppfd" else "radiation outdoors"), outside, ""


def _why_no_light(readings: Readings) -> str:
    seldom = (
        seldom_inside(readings, "ppfd")
        or seldom_inside(readings, "solar_radiation")
        or seldom_outdoors(readings, "solar_radiation")
        or seldom_outdoors(readings, "ppfd")
    )
    return why_no(seldom, "no light was logged")


def _sums(channel: Channel | None, readings: Readings) -> Floats:
    """Quanta of each date [mol m⁻²]: mean over the recorded part × the day; NaN where under 80 % is recorded."""
    if channel is None or len(channel.values) < 2:
        return np.full(len(dates(readings.season)), np.nan)
    mean = enough(window_stats(channel_line(channel), readings.season, DATE)).to_numpy(dtype=np.float64)
    mean = np.maximum(mean, 0.0)
    if channel.measure == "ppfd":
        return daily_integral_mol(mean, 24.0)
    return quanta_of_radiation_mol(mean * SECONDS_A_DAY / 1e6)


def _share_of_clear(table: pd.DataFrame) -> pd.Series:
    """Measured light against a clear day's at the same sensor.

    Outdoors the clear day is the equation's; inside it is the equation's times the share that the brightest days let
    through (their 95 % quantile), so that the cover does not count as cloud. Not known where the sun hardly rises.
    """
    clear = table["clear_mol"].where(table["clear_mol"] >= FAINT_MOL)
    if table["outdoor_mol"].notna().any():
        return table["outdoor_mol"] / clear
    share = table["inside_mol"] / clear
    bright = share.quantile(BRIGHT_QUANTILE) if share.notna().sum() >= 20 else np.nan
    return share / bright


def _seen(table: pd.DataFrame) -> float | None:
    both = table[["inside_mol", "outdoor_mol"]].dropna()
    total = float(both["outdoor_mol"].sum())
    return float(both["inside_mol"].sum()) / total if len(both) >= 10 and total > 0 else None


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Dates on end of one kind."""

    start: date
    end: date
    days: int


def runs(flags: pd.Series, least: int) -> tuple[Run, ...]:
    """Stretches of at least `least` dates on end with flag 1, the longest first; NaN ends a stretch."""
    found: list[list[date]] = [[]]
    for day, flag in flags.items():
        if flag == 1:
            found[-1].append(day)  # type: ignore[arg-type]
        elif found[-1]:
            found.append([])
    kept = [Run(start=run[0], end=run[-1], days=len(run)) for run in found if len(run) >= max(least, 1)]
    return tuple(sorted(kept, key=lambda run: (-run.days, run.start)))


def lamp_hours(deficit_mol: Sequence[float] | Floats, ppfd: float) -> Floats:
    """Time [h] of a lamp that makes up each deficit [mol m⁻²]: deficit × 10⁶ / (PPFD × 3600); shape (n,).

    0 where nothing is missing. `ppfd` [µmol m⁻² s⁻¹]: under the lamp, above 0.
    """
    return np.maximum(np.asarray(deficit_mol, dtype=np.float64), 0.0) * 1e6 / (ppfd * 3600.0)
