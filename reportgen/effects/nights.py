"""What nights of one kind had in common once the weather is taken out: the changes' estimator with a column of nights.

It tells that such nights were different, not what made them so; who uses it says so.
"""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.effects.design import design
from reportgen.effects.gls import fit, grid, step
from reportgen.effects.outcomes import DayTable
from reportgen.effects.types import KindOfNight
from reportgen.effects.weather import SETS
from reportgen.problems import NotEnoughData
from reportgen.readings.types import Readings

FEWEST = 10  # nights of either kind
HUMIDITY = "night_humidity"


def kinds_of_night(readings: Readings, days: DayTable) -> tuple[KindOfNight, ...]:
    """Humidity of the nights after watering, and of those without heat, beside the others of the season."""
    kinds = (("after watering", watered(readings)), ("without heat", unheated(days)))
    found = (compared(days, HUMIDITY, marked, name) for name, marked in kinds)
    return tuple(one for one in found if one is not None)


def compared(days: DayTable, outcome: str, kind: pd.Series, name: str = "") -> KindOfNight | None:
    """Nights with kind = 1 against those with 0, NaN out; None where there are too few or they cannot be told apart.

    Args:
        days: The season by garden day.
        outcome: A name of `effects.outcomes.OUTCOMES`.
        kind: Index = dates, values 1, 0 or NaN.
        name: What such nights are called.
    """
    if outcome not in days.outcomes:
        return None
    names = next((s for s in SETS[outcome] if set(s) <= set(days.weather.columns)), None)
    chosen = list(names or (c for c in SETS[outcome][-1] if c in days.weather))
    rows = pd.concat([days.outcomes[outcome].rename("y"), kind.rename("kind"), days.weather[chosen]], axis=1).dropna()
    marked = rows["kind"].to_numpy(dtype=np.float64)
    if min((marked == 1).sum(), (marked == 0).sum()) < FEWEST:
        return None
    weather = {column: rows[column].to_numpy(dtype=np.float64) for column in chosen}
    try:
        columns = design(marked, {}, None, weather)
    except NotEnoughData:
        return None
    numbers = np.asarray([d.toordinal() for d in rows.index], dtype=np.float64)
    estimate = step(fit(rows["y"].to_numpy(dtype=np.float64), columns.x, grid(numbers)), 1)
    table = pd.DataFrame({"date": list(rows.index), "value": rows["y"].to_numpy(), "kind": marked.astype(int)})
    return KindOfNight(
        name=name,
        effect=estimate.effect,
        low=estimate.low,
        high=estimate.high,
        nights=int((marked == 1).sum()),
        others=int((marked == 0).sum()),
        table=table,
    )


def watered(readings: Readings) -> pd.Series:
    """1 on dates with watering, 0 on others between the first and the last, NaN outside; index = dates."""
    season, on = readings.season, {w.date for w in readings.watering}
    inside = sorted(d for d in on if season.first_day <= d <= season.last_day)
    index = pd.date_range(season.first_day, season.last_day).date
    if not inside:
        return pd.Series(np.nan, index=index)
    return pd.Series([float(d in on) if inside[0] <= d <= inside[-1] else np.nan for d in index], index=index)


def unheated(days: DayTable) -> pd.Series:
    """1 on nights with less than an hour of heat, 0 on others, NaN where unknown; empty if no heat is known hourly."""
    heat = days.heat.table
    if "night_heated_h" not in heat:
        return pd.Series(dtype="float64")
    return (heat["night_heated_h"] < 1).astype(float).where(heat["night_heated_h"].notna())


def of(found: tuple[KindOfNight, ...], name: str) -> KindOfNight | None:
    """The nights of that name."""
    return next((one for one in found if one.name == name), None)
