"""How many cold nights a store still carries, at what such nights took of it this winter.

What was burnt between two looks at the store is shared over its days by the degree-hours of each, as everywhere. A
cold night is one whose outdoor air fell under the frost line; a day runs from noon to noon.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
import pandas as pd

from reportgen.readings.degree_hours import Pull, pull
from reportgen.readings.types import HeatSupply, Readings

FEWEST_NIGHTS = 3  # of which the rate is known; our own line


@dataclass(frozen=True, kw_only=True, slots=True)
class StockLeft:
    """A store and its cold nights: `low` at what the hardest of them took, `high` at what the mildest did."""

    name: str
    fuel: str
    left: float
    unit: str
    low: float
    high: float
    nights: int  # that the rate was found in


def stock_left(readings: Readings, cold: Sequence[date]) -> tuple[StockLeft, ...]:
    """Every store of which something is left, and of whose use at least three cold nights are known.

    Args:
        cold: Evenings of the nights under the frost line outdoors.
    """
    stores = [s for s in readings.heating if s.stock is not None and s.stock.left > 0 and len(s.intervals)]
    if not stores:
        return ()
    pulled = pull(readings.season, readings.channels).as_stock(readings.season.start.timestamp())
    found = ((one, [used for used in _by_night(one, cold, pulled).values() if used > 0]) for one in stores)
    return tuple(
        StockLeft(
            name=one.name,
            fuel=one.fuel,
            left=one.stock.left,
            unit=one.unit,
            low=one.stock.left / max(rates),
            high=one.stock.left / min(rates),
            nights=len(rates),
        )
        for one, rates in found
        if one.stock is not None and len(rates) >= FEWEST_NIGHTS
    )


def _by_night(supply: HeatSupply, cold: Sequence[date], pulled: Pull) -> Mapping[date, float]:
    """What each cold night, noon to noon, took of the store, in its unit; nights not wholly in one's use left out."""
    starts, ends = (
        np.array([t.timestamp() for t in supply.intervals[name]], dtype=np.float64) for name in ("start", "end")
    )
    bought = supply.intervals["bought"].to_numpy(dtype=np.float64)
    zone, out = supply.intervals["start"].dt.tz, {}
    for day in cold:
        noon = (pd.Timestamp(day) + pd.Timedelta(hours=12)).tz_localize(zone)
        a, b = noon.timestamp(), noon.timestamp() + 86_400.0
        parts = [
            (amount * pulled.share(s, e, max(s, a), min(e, b)), min(e, b) - max(s, a))
            for s, e, amount in zip(starts, ends, bought, strict=True)
            if min(e, b) > max(s, a) and amount > 0
        ]
        if sum(hours for _, hours in parts) > 86_399.0:
            out[day] = sum(used for used, _ in parts)
    return out
