"""Which nights' heat kept a plant from harm, and which nights' heat no standing crop needed.

A night's heat is that of its garden day (12–12 h, standard time), of heaters alone. It was *needed* where the warmer
end of a standing crop's damage band lies above the coldest hour of that night in a winter without heat, at the bed's
own logger. The forecast has two ends, so a night is needed by the low end, by the high end too, or by neither: *not
needed* is only what even the low end left above every band. A night is not judged where it has no forecast, where no
crop is named at all, or where a crop without a known band stood: were such a night judged by the others, only those
that needed the heat could be told, and the share would be of a choice of nights. Survival alone is judged: what warmth
did for growth, or for seedlings in trays, is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

import numpy as np
import pandas as pd

from reportgen.measures.days import GARDEN_DAY, LONG_NIGHT, bounds, window_stats
from reportgen.measures.exposure import to_seconds
from reportgen.measures.frost_crops import Standing, band_of, place_of, standing
from reportgen.measures.frost_nights import air_lines, coldest_line
from reportgen.measures.heat_sums import total_cost
from reportgen.measures.heating_hours import HEATED_SHARE, heat_between
from reportgen.measures.house.without_heat import BELOW_OUTDOORS_K
from reportgen.readings.types import Readings
from reportgen.wording import listed

Need = Literal["needed", "perhaps", "not needed", "not judged"]
NO_FORECAST = "no winter without heat can be told for that night"
NO_CROP = "no crop is named in plantings.csv, harvest.csv or season.toml"
LOW, MIDDLE, HIGH = "without_heat_low_c", "without_heat_c", "without_heat_high_c"


@dataclass(frozen=True, kw_only=True, slots=True)
class NightHeat:
    """One night with heat, named after its evening.

    `kwh`, `money`: of its garden day; money None without prices. `need`: by both ends of the forecast, `perhaps` where
    only the low end harms a crop. `crops`: those that needed it by the low end, `surely` by the high end too.
    `without_band`: what stood without a known band. `why`: of a night not judged.
    """

    night: date
    kwh: float
    money: float | None
    need: Need
    crops: tuple[str, ...] = ()
    surely: tuple[str, ...] = ()
    stood: tuple[str, ...] = ()
    without_band: tuple[str, ...] = ()
    why: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Spent:
    """Heat of some nights: how many, kWh, and money (None without prices)."""

    nights: int
    kwh: float
    money: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatNeeded:
    """The heat of a season by what it was needed for.

    `heated` = `judged` + `no_band` + `no_forecast` (which holds nights without any known crop too). `spared_low` and
    `spared_high`: what no standing crop needed by the low and by the high end of the forecast; both of `judged`.
    `no_band`: `unknown_crops` stood; of these, `known_low` and `known_high`: what none of the others needed. `tender`:
    crops that would have met harm on some night without heat, by the low end. `hardy_from`: the Monday of the first
    heated week whose crops needed no heat from then on, `hardy_until` the last day before a crop that was planted later
    did, a week on at least; None where there is none. `assumed`: the crops are taken to have stood all winter. `trays`:
    crops sown and not yet set out on nights judged not needed: plantings.csv does not say where their trays stood.
    `reason`: why nothing is judged.
    """

    nights: tuple[NightHeat, ...]
    heated: Spent
    judged: Spent
    spared_low: Spent
    spared_high: Spent
    no_band: Spent
    known_low: Spent
    known_high: Spent
    no_forecast: Spent
    unknown_crops: tuple[str, ...]
    tender: tuple[str, ...]
    hardy_from: date | None
    hardy_until: date | None
    assumed: bool
    trays: tuple[str, ...]
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Crop:
    """One standing crop by night, shapes (nights,): whether it stood, whether it needed the heat by either end, and
    whether harm can be ruled out neither by a forecast nor by the air outdoors."""

    name: str
    known: bool
    here: np.ndarray
    low: np.ndarray
    high: np.ndarray
    cold: np.ndarray


def heat_needed(readings: Readings, table: pd.DataFrame) -> HeatNeeded:
    """Every night with heat, judged.

    Args:
        table: By evening the coldest hour without heat at the main logger, `without_heat_low_c` and
            `without_heat_high_c` [°C]; nights without `without_heat_c` are not told; `outdoor_min` [°C]
            (`frost.table`).
    """
    rows = standing(readings)
    crops = _crops(readings, rows, table)
    nights = _nights(readings, crops, table)
    open_, judged = ([n for n in nights if (n.need == "not judged") is one] for one in (True, False))
    spared = [n for n in judged if not n.crops]
    unbanded = [n for n in open_ if n.without_band]
    tender = tuple(dict.fromkeys(c.name for c in crops if c.low.any()))
    first, until = _hardy(crops, list(table.index), [night.night for night in nights])
    return HeatNeeded(
        nights=tuple(nights),
        heated=_spent(nights),
        judged=_spent(judged),
        spared_low=_spent(spared),
        spared_high=_spent([n for n in judged if not n.surely]),
        no_band=_spent(unbanded),
        known_low=_spent([n for n in unbanded if not n.crops]),
        known_high=_spent([n for n in unbanded if not n.surely]),
        no_forecast=_spent([n for n in open_ if not n.without_band]),
        unknown_crops=tuple(sorted({name for n in unbanded for name in n.without_band})),
        tender=tender,
        hardy_from=first,
        hardy_until=until,
        assumed=any(row.assumed for row in rows),
        trays=_trays(readings, spared),
        reason="" if judged else _why_none(readings, open_),
    )


def needed_by_week(found: HeatNeeded) -> dict[date, float | None]:
    """Monday → share of the judged money (without prices: of the heat) of that week's nights that was not spent on
    nights that no standing crop needed by the low end, 0 … 1; None where no night of the week is judged."""
    weeks: dict[date, list[NightHeat]] = {}
    for night in found.nights:
        weeks.setdefault(night.night - timedelta(days=night.night.weekday()), []).append(night)
    return {monday: _needed_share(nights) for monday, nights in weeks.items()}


def _needed_share(nights: Sequence[NightHeat]) -> float | None:
    judged = [night for night in nights if night.need != "not judged"]
    amounts = [night.kwh if night.money is None else night.money for night in judged]
    if not sum(amounts):
        return None
    spared = sum(amount for amount, night in zip(amounts, judged, strict=True) if night.need == "not needed")
    return 1.0 - spared / sum(amounts)


def _crops(readings: Readings, rows: Sequence[Standing], table: pd.DataFrame) -> list[_Crop]:
    """Every planting with the nights on which the cold without heat would have reached its band."""
    season, airs = readings.season, air_lines(readings)
    coldest = coldest_line(readings)
    main = window_stats(airs[0][1], season, LONG_NIGHT)["min"] if airs else None
    days = list(table.index)
    found = []
    for row in rows:
        curve = place_of(readings, airs, row.bed)[1] or coldest
        own = window_stats(curve, season, LONG_NIGHT)["min"] if curve is not None else None
        colder = 0.0 if own is None or main is None else _usual(own - main)
        here = np.array([row.first <= day <= row.last for day in days], dtype=bool)
        band = band_of(readings, row.crop)
        line = np.nan if band is None else band[1]
        told = here & table[MIDDLE].notna().to_numpy()
        low, high = ((table[end].to_numpy(dtype=np.float64) + colder < line) & told for end in (LOW, HIGH))
        cold = here & ~(_bound(table) + colder >= line)  # a line or a night that is not known rules nothing out
        found.append(_Crop(name=row.crop, known=band is not None, here=here, low=low, high=high, cold=cold))
    return found


def _bound(table: pd.DataFrame) -> np.ndarray:
    """How cold each night can have been without heat [°C]: the low end, else just under the air outdoors."""
    outdoors = table["outdoor_min"].to_numpy(dtype=np.float64) - BELOW_OUTDOORS_K
    low = table[LOW].where(table[MIDDLE].notna()).to_numpy(dtype=np.float64)
    return np.where(np.isnan(low), outdoors, low)


def _usual(difference: pd.Series) -> float:
    """The median difference of a place's night minima to the main logger's [K], as frost tells crops; 0 unknown."""
    kept = difference.dropna()
    return float(kept.median()) if len(kept) else 0.0


def _nights(readings: Readings, crops: Sequence[_Crop], table: pd.DataFrame) -> list[NightHeat]:
    kwh, money = _by_night(readings)
    told = table[MIDDLE].notna().to_numpy()
    least = HEATED_SHARE * float(kwh.max(initial=0.0))
    return [
        _night(day, float(kwh[n]), None if money is None else float(money[n]), crops, n, bool(told[n]))
        for n, day in enumerate(table.index)
        if kwh[n] > max(least, 1e-9)
    ]


def _night(day: date, kwh: float, money: float | None, crops: Sequence[_Crop], n: int, told: bool) -> NightHeat:
    stood = [c for c in crops if c.here[n]]
    without = tuple(sorted({c.name for c in stood if not c.known}))
    low, high = (tuple(dict.fromkeys(c.name for c in stood if getattr(c, end)[n])) for end in ("low", "high"))
    names = tuple(dict.fromkeys(c.name for c in stood))
    need: Need = "needed" if high else "perhaps" if low else "not needed"
    why = ""
    if not told or not crops:
        need, without, why = "not judged", (), NO_FORECAST if crops else NO_CROP
    elif without:
        need, why = "not judged", f"no limit of cold is known for {listed(without)}"
    return NightHeat(
        night=day, kwh=kwh, money=money, need=need, crops=low, surely=high, stood=names, without_band=without, why=why
    )


def _by_night(readings: Readings) -> tuple[np.ndarray, np.ndarray | None]:
    """kWh and money of the heaters by garden day, the first from the season's beginning; they add up to the whole."""
    season = readings.season
    starts, ends = bounds(season, GARDEN_DAY)
    edges = to_seconds(pd.DatetimeIndex([season.start, season.end]))
    starts[0], ends = edges[0], np.minimum(ends, edges[1])
    if not readings.heating:
        return np.zeros(len(starts)), None
    found = heat_between(readings, starts, ends, appliances=False)
    return found.kwh, None if total_cost(readings.heating).value is None else found.cost


def _spent(nights: Sequence[NightHeat]) -> Spent:
    money = [n.money for n in nights if n.money is not None]
    return Spent(
        nights=len(nights),
        kwh=float(sum(n.kwh for n in nights)),
        money=float(sum(money)) if len(money) == len(nights) else None,
    )


def _hardy(crops: Sequence[_Crop], days: Sequence[date], heated: Sequence[date]) -> tuple[date | None, date | None]:
    """The first Monday of the heated weeks whose crops needed no heat from then on, and the last day before one that
    was planted later did."""
    for n, monday in enumerate(days):
        now = [crop for crop in crops if crop.here[n]]
        late = monday + timedelta(days=6) < min(heated, default=date.max)
        if monday.weekday() or late or not now or any(crop.cold[n:].any() for crop in now):
            continue
        later = [int(np.argmax(crop.cold[n:])) for crop in crops if crop.cold[n:].any()]
        until = days[n + min(later) - 1] if later else days[-1]
        if (until - monday).days >= 6 and any(monday <= night <= until for night in heated):
            return monday, until
    return None, None


def _trays(readings: Readings, spared: Sequence[NightHeat]) -> tuple[str, ...]:
    """Crops that were sown and not yet set out on those nights."""
    nights = [n.night for n in spared]
    waiting = [
        p.crop
        for p in readings.plantings
        if p.sown is not None and p.planted is not None and any(p.sown <= night < p.planted for night in nights)
    ]
    return tuple(dict.fromkeys(waiting))


def _why_none(readings: Readings, nights: Sequence[NightHeat]) -> str:
    """Why no night is judged."""
    if not readings.heating:
        return "no heater is listed in season.toml"
    if not nights:
        return "no night had heat"
    return next((night.why for night in nights if night.without_band), nights[0].why)
