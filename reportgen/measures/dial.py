"""The dial: how far from the thermostat's setting the coldest crop air of a heated night lies.

offset = coldest crop air 18–09 h − what the thermostat was set to (what it held, where nobody wrote that down), on
nights with a heated hour, in the house as it is now, without an event, and with the heater flat out in under 5 % of the
hours. Counted in, nights flat out would tell of the heater, not of its thermostat. Methods page, *The dial*.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import DATE, ENOUGH, bounds
from reportgen.measures.exposure import Floats, to_seconds
from reportgen.measures.heat_types import Stretch
from reportgen.measures.heating_hours import HEATED_SHARE, HEATERS, full_power_from
from reportgen.measures.house.hours import EVENING_H, MORNING_H, NIGHT_H
from reportgen.measures.house.season import PRESENT_NIGHTS
from reportgen.measures.house.states import states_of
from reportgen.readings.types import Readings

LIMIT_SHARE = 0.05  # of a night's hours flat out, from which on the heater decided and not its dial
FEWEST_NIGHTS = 30
TAIL = 0.05  # "19 nights of 20" were warmer


@dataclass(frozen=True, kw_only=True, slots=True)
class Offsets:
    """Offsets of the counted nights [K]. `tail_k`: 19 nights of 20 lay above it. `loggers`: those that were coldest.

    `flat_out_nights`: heated nights without event left out because the heater had no more to give.
    """

    nights: int
    median_k: float
    tail_k: float
    coldest_k: float
    flat_out_nights: int
    loggers: tuple[str, ...]
    coldest_on: date | None = field(default=None)


def dial_nights(
    readings: Readings,
    by_hour: pd.DataFrame,
    table: pd.DataFrame,
    found: Sequence[Stretch],
    failed: Collection[date] = (),
) -> pd.DataFrame:
    """Every long night of the season, whether it counts, and its offset.

    Args:
        by_hour: From `heating_hours.heat_by_hour`.
        table: From `frost_nights.night_table`: index = evenings, inside_min, share, logger.
        found: The stretches of the thermostat with the hold found in each.
        failed: Evenings of nights on which the heat failed or something stood open.

    Returns: index = evenings; coldest_c, logger, heated (any hour), flat_share (0…1), kwh, present (the house as it is
    now), dial_c and held_c (NaN where not known), eventful, counted, offset_k (NaN unless counted).
    """
    evenings = [day for day in table.index if isinstance(day, date)]
    watts, sure = _main_watts(readings, by_hour, evenings)
    out = pd.DataFrame(index=table.index)
    out["coldest_c"] = table["inside_min"].where(table["share"] >= ENOUGH)
    out["logger"] = table["logger"]
    least = max(HEATED_SHARE * float(np.nanmax(watts, initial=0.0)), 1e-9)
    out["heated"] = (np.nan_to_num(watts) > least).any(axis=1) & sure
    out["flat_share"] = (np.nan_to_num(watts) >= full_power_from(_rated_w(readings, by_hour))).mean(axis=1)
    out["kwh"] = np.nansum(watts, axis=1) / 1000.0
    out["present"] = _present(readings, out["heated"].to_numpy(dtype=bool), len(evenings))
    out["dial_c"] = [_or_nan(readings.season.dial_on(day)) for day in evenings]
    out["held_c"] = out["dial_c"].fillna(pd.Series([_found_on(found, day) for day in evenings], index=out.index))
    out["eventful"] = out.index.isin(list(event_evenings(readings) | set(failed)))
    usable = out["heated"] & out["present"] & ~out["eventful"] & (out["coldest_c"] - out["held_c"]).notna()
    out["at_limit"] = usable & (out["flat_share"] >= LIMIT_SHARE)
    out["counted"] = usable & ~out["at_limit"]
    out["offset_k"] = (out["coldest_c"] - out["held_c"]).where(out["counted"])
    return out


def offsets(nights: pd.DataFrame) -> Offsets | None:
    """What the counted nights of `dial_nights` tell; None where there is none."""
    kept = nights[nights["counted"]]
    if not len(kept):
        return None
    values = kept["offset_k"].to_numpy(dtype=np.float64)
    day = list(kept.index)[int(np.argmin(values))]
    return Offsets(
        nights=len(kept),
        median_k=float(np.median(values)),
        tail_k=float(np.quantile(values, TAIL)),
        coldest_k=float(values.min()),
        flat_out_nights=int(nights["at_limit"].sum()),
        loggers=tuple(sorted({str(name) for name in kept["logger"] if name})),
        coldest_on=day,
    )


def event_evenings(readings: Readings) -> set[date]:
    """Evenings of the nights that an event of the diary may have touched: the one before its day, and its own."""
    out: set[date] = set()
    for entry in readings.diary:
        if entry.kind == "event":
            days = ((entry.until or entry.date) - entry.date).days + 1
            out |= {entry.date + timedelta(days=n) for n in range(-1, days)}
    return out


def main_names(readings: Readings, by_hour: pd.DataFrame) -> list[str]:
    """The main heaters whose heat is known by the hour; all such heaters where no main one is."""
    fine = [s for s in readings.heating if s.name in by_hour and by_hour[s.name].notna().any()]
    return [s.name for s in fine if s.role == "main"] or [s.name for s in fine]


def _main_watts(readings: Readings, by_hour: pd.DataFrame, evenings: Sequence[date]) -> tuple[Floats, np.ndarray]:
    """Heat of the main heaters in the hours of every long night [W], shape (nights, 15), and on which nights enough of
    it is known, that of every other heater too."""
    names = main_names(readings, by_hour)
    hours = MORNING_H - EVENING_H
    if not names or not len(by_hour):
        return np.full((len(evenings), hours), np.nan), np.zeros(len(evenings), dtype=bool)
    starts, _ = bounds(readings.season, DATE)
    wanted = starts[:, None] + 3600.0 * np.arange(EVENING_H, MORNING_H)[None, :]
    main = by_hour[names].sum(axis=1, skipna=False).to_numpy(dtype=np.float64)
    at, inside = _hour_of(to_seconds(pd.DatetimeIndex(by_hour.index)), wanted)
    known = inside & ~np.isnan(by_hour[HEATERS].to_numpy(dtype=np.float64))[at]
    return np.where(inside, main[at], np.nan), np.asarray(known.mean(axis=1) >= ENOUGH)


def _hour_of(begun: Floats, wanted: Floats) -> tuple[np.ndarray, np.ndarray]:
    at = (np.searchsorted(begun, wanted, side="right") - 1).clip(0)
    return at, (wanted >= begun[at]) & (wanted < begun[at] + 3600.0)


def _rated_w(readings: Readings, by_hour: pd.DataFrame) -> float:
    """Heat of the main heaters at their rated power [W]; infinite where that is not known."""
    names = main_names(readings, by_hour)
    per_drawn = {source.name: source.efficiency for source in readings.season.heating}
    told = [(s.rated_power_w, per_drawn.get(s.name, 1.0)) for s in readings.heating if s.name in names]
    if not told or any(power is None for power, _ in told):
        return float("inf")
    return float(sum((power or 0.0) * share for power, share in told))


def _present(readings: Readings, heated: np.ndarray, count: int) -> np.ndarray:
    """Nights that began in the last state of the house with at least eight heated nights; shape (nights,)."""
    starts, _ = bounds(readings.season, DATE)
    seconds = np.asarray((starts[:, None] + 3600.0 * np.arange(24)[None, :]).ravel())
    state = states_of(readings, seconds)[0].reshape(-1, 24)[:count, NIGHT_H]
    for number in dict.fromkeys(state[::-1].tolist()):
        if int((heated & (state == number)).sum()) >= PRESENT_NIGHTS:
            return np.asarray(state == number)
    return np.asarray(state == state[-1]) if count else np.zeros(0, dtype=bool)


def _found_on(found: Sequence[Stretch], day: date) -> float:
    return next((_or_nan(one.hold_c) for one in found if one.first <= day <= one.last), float("nan"))


def _or_nan(value: float | None) -> float:
    return float("nan") if value is None else value
