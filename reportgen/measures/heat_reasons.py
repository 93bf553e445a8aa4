"""Words for each null in the lists of the Heat section: its heaters, and the holds that were priced."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.measures.heat_sums import ALL_KNOWN, cost_of, heat_of
from reportgen.measures.heat_types import DegreePrice, HoldPrice, Source
from reportgen.readings.types import HeatSupply, Readings

NO_BAND = "expected from cover and air changes, not measured: no interval"
NO_COST = "the price of the heat is not known"


def null_reasons(
    readings: Readings,
    by_hour: pd.DataFrame,
    listed: Sequence[Source],
    prices: Sequence[HoldPrice],
    degrees: Sequence[DegreePrice] = (),
) -> dict[str, str]:
    """Dotted path in the section to words, for the nulls of `sources`, `price_of_hold` and `price_of_degree`."""
    told: dict[str, str] = {}
    for n, (supply, source) in enumerate(zip(readings.heating, listed, strict=True)):
        for key, one in (("kwh", heat_of(supply)), ("cost", cost_of(supply))):
            if one.value is None:
                told[f"sources.{n}.{key}"] = one.reason
            if one.low is None:
                told |= {f"sources.{n}.{key}_{end}": one.reason or ALL_KNOWN for end in ("low", "high")}
        if source.hours_flat_out is None:
            told[f"sources.{n}.hours_flat_out"] = _why_no_power(supply, by_hour)
    for n, price in enumerate(prices):
        nulls = (("low", NO_BAND), ("high", NO_BAND), ("cost", NO_COST))
        told |= {f"price_of_hold.{n}.{key}": words for key, words in nulls if getattr(price, key) is None}
    for n, row in enumerate(degrees):
        told |= {
            f"price_of_degree.{n}.{key}": NO_COST
            for key in ("cost", "cost_low", "cost_high")
            if getattr(row, key) is None
        }
    return told


def _why_no_power(supply: HeatSupply, by_hour: pd.DataFrame) -> str:
    if supply.rated_power_w is None:
        return f"no rated_power_w for {supply.name}"
    if supply.name not in by_hour or np.isnan(by_hour[supply.name].to_numpy(dtype=np.float64)).all():
        return "the heat was not logged by the hour"
    return "its power in the hour is not known"
