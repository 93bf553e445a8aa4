"""What the heaters gave and cost over the season, and between which bounds where part of it is not known.

Known are sums. Where a log has a gap, or a book leaves days out, the sum is of the rest: `low` is that sum, `high` adds
the most that the gap can have taken (readings.unknown_heat). Of a store of which nobody wrote what was left all counts
as burnt: `low` leaves out what may still be there. Where a price depends on the hour and only a sum over days is known,
money lies between the cheapest and the dearest hours. A cost that nobody gave is None, never 0.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen.readings.join import Floats, to_seconds
from reportgen.readings.types import HeatSupply

NO_USE = "no usable record of its use"
ALL_KNOWN = "all of it is known"
TIGHT = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Sum:
    """A sum and its bounds; `low` and `high` are None where all of it is known. `reason`: why `value` is None."""

    value: float | None
    low: float | None = None
    high: float | None = None
    reason: str = ""


def heat_of(supply: HeatSupply) -> Sum:
    """Heat that one source gave [kWh]; 0 of a store of which nothing was burnt."""
    table = supply.intervals
    if not len(table) and supply.stock is None:
        return Sum(value=None, reason=supply.reasons.get("heat_kwh", f"{NO_USE} for {supply.name}"))
    values = _used(supply, "heat_kwh")
    if np.isnan(values).any():
        return Sum(value=None, reason=supply.reasons.get("heat_kwh", f"heat value unknown for {supply.name}"))
    known = float(values.sum())
    return _bounded(known, known - _spare(supply, "heat_kwh"), known + float(supply.gaps["heat_kwh"].sum()))


def cost_of(supply: HeatSupply) -> Sum:
    """Money for what one source used; None where nobody gave a price, or what was used is not known."""
    if not len(supply.intervals) and supply.stock is None:
        return Sum(value=None, reason=supply.reasons.get("cost", f"{NO_USE} for {supply.name}"))
    values = _used(supply, "cost")
    if np.isnan(values).any() or not _priced(supply):
        return Sum(value=None, reason=supply.reasons.get("cost", f"no price is given for {supply.name}"))
    low, high = (float(_used(supply, name).sum()) for name in ("cost_low", "cost_high"))
    return _bounded(float(values.sum()), low - _spare(supply, "cost"), high + float(supply.gaps["cost"].sum()))


def unlooked(supply: HeatSupply, column: str) -> float:
    """Heat [kWh] or money of what counts as burnt since the last look only because nobody wrote what was left; 0 where
    it is written, NaN where not known."""
    if supply.stock is None or supply.stock.unlooked_since is None or not len(supply.intervals):
        return 0.0
    sums = supply.intervals["known_sum"].to_numpy()
    since = supply.intervals["start"] >= supply.stock.unlooked_since
    return float(supply.intervals.loc[(sums == sums.max()) & since.to_numpy(), column].sum(skipna=False))


def _spare(supply: HeatSupply, column: str) -> float:
    spare = unlooked(supply, column)
    return 0.0 if math.isnan(spare) else spare


def gaps_in(heat: Sum) -> bool:
    """Whether some of the heat was not recorded at all, so that it may have been more."""
    return heat.value is not None and heat.high is not None and heat.high > heat.value * (1 + TIGHT)


def _priced(supply: HeatSupply) -> bool:
    """Whether money stands beside any stretch of use, or was paid for a stock of which none was burnt."""
    stock = supply.stock
    unburnt = stock is not None and stock.left > 0 and not math.isnan(stock.left_paid)
    return unburnt or (len(supply.intervals) > 0 and bool(supply.intervals["cost"].notna().any()))


def _bounded(value: float, low: float, high: float) -> Sum:
    if high - low <= TIGHT * max(1.0, abs(high)):
        return Sum(value=value)
    return Sum(value=value, low=low, high=high)


def _used(supply: HeatSupply, column: str) -> Floats:
    """A column of the stretches in which something was used: what was not bought has no price, and no cost."""
    table = supply.intervals
    if not len(table):
        return np.zeros(0)
    name = column if column in table else "cost"
    values: Floats = table.loc[table["bought"].to_numpy(dtype=np.float64) != 0, name].to_numpy(dtype=np.float64)
    return values


def total_heat(supplies: Sequence[HeatSupply]) -> Sum:
    """Heat of all sources; None with the reason of the first that is not known."""
    return _total([heat_of(supply) for supply in supplies])


def total_cost(supplies: Sequence[HeatSupply]) -> Sum:
    """Money for all sources. A source of which nothing was used needs no price."""
    used = [supply for supply in supplies if heat_of(supply).value != 0 or _priced(supply)]
    if not used:
        return Sum(value=None, reason="no price is given")
    return _total([cost_of(supply) for supply in used])


def _total(parts: Sequence[Sum]) -> Sum:
    values = [part.value for part in parts if part.value is not None]
    if len(values) < len(parts):
        return Sum(value=None, reason=next(part.reason for part in parts if part.value is None))
    low = sum(part.value or 0.0 if part.low is None else part.low for part in parts)
    high = sum(part.value or 0.0 if part.high is None else part.high for part in parts)
    return _bounded(float(sum(values)), float(low), float(high))


def known_share(supplies: Sequence[HeatSupply], hours: float) -> float | None:
    """The share of the season in which the use of every heater is known, be it as part of a sum; None without any."""
    if not supplies:
        return None
    lost = [gap_hours(supply.gaps) for supply in supplies]
    return max(0.0, 1.0 - max(lost) / hours)


def gap_hours(gaps: pd.DataFrame) -> float:
    """Length of a supply's gaps together [h]."""
    if not len(gaps):
        return 0.0
    starts, ends = (to_seconds(pd.DatetimeIndex(gaps[name])) for name in ("start", "end"))
    return float((ends - starts).sum()) / 3600.0
