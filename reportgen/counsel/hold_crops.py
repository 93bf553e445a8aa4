"""Which crops another hold would have put at risk, by the nights that the thermostat kept."""

from __future__ import annotations

import pandas as pd

from reportgen.counsel.facts import Facts
from reportgen.counsel.hold import not_the_dial_s
from reportgen.measures.days import ENOUGH
from reportgen.measures.dial import LIMIT_SHARE, dial_nights, event_evenings
from reportgen.measures.frost_crops import band_of, standing


def rooms(facts: Facts) -> dict[str, float]:
    """How far the coldest such night of each crop with a known band lay above the warm end of that band [K].

    Left out as the hold's own rule leaves them out: nights on which the heat failed or something stood open, nights of
    an event, nights without heat and nights on which the heater had no more to give. A crop that stood on no other
    night is not there.
    """
    lows, readings = _lows(facts), facts.r.readings
    found: dict[str, float] = {}
    for row in standing(readings):
        band = band_of(readings, row.crop)
        own = lows[[row.first <= day <= row.last for day in lows.index]]
        if band is None or not len(own):
            continue
        found[row.crop] = min(found.get(row.crop, float("inf")), float(own.min()) - band[1])
    return found


def kept_alive(found: dict[str, float], lower_k: float) -> tuple[list[str], list[str]]:
    """Crops that stay above their band where the hold is lower by so much [K], and those that do not.

    `found`: by crop, how far the coldest that it met lay above its band [K]; a night that fell short of the hold is
    taken to fall short by as much.
    """
    names = sorted(found)
    return [name for name in names if found[name] >= lower_k], [name for name in names if found[name] < lower_k]


def _lows(facts: Facts) -> pd.Series:
    """Coldest crop air of the nights that count, by evening."""
    r = facts.r
    table, failed = r.frost.table, not_the_dial_s(r, facts.on.events)
    if r.heat.by_hour is None:  # heat known as sums only: on which nights it was on is not known
        usual = ~table.index.isin(list(event_evenings(r.readings) | failed))
        return table["inside_min"].where(table["share"] >= ENOUGH)[usual].dropna()
    nights = dial_nights(r.readings, r.heat.by_hour, table, r.heat.stretches, failed)
    kept = nights["heated"] & ~nights["eventful"] & (nights["flat_share"] < LIMIT_SHARE)
    return nights["coldest_c"][kept].dropna()
