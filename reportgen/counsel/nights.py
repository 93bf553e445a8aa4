"""What nights of one kind had in common once the weather is taken out: the changes' estimator with a column of nights.

It tells that such nights were different, not what made them so; the findings that use it say so.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
import pandas as pd

from reportgen.counsel.results import Results
from reportgen.effects.design import design
from reportgen.effects.gls import Estimate, fit, grid, step
from reportgen.effects.outcomes import DayTable, day_table
from reportgen.effects.weather import SETS
from reportgen.problems import NotEnoughData

FEWEST = 10  # nights of either kind


@dataclass(frozen=True, kw_only=True, slots=True)
class Nights:
    """Nights of one kind against the others."""

    estimate: Estimate
    kind: int
    others: int
    table: pd.DataFrame  # date, value, kind (1 or 0)


def compared(days: DayTable, outcome: str, kind: pd.Series) -> Nights | None:
    """Nights with kind = 1 against those with 0, NaN out; None where there are too few or they cannot be told apart.

    Args:
        days: The season by garden day.
        outcome: A name of `effects.outcomes.OUTCOMES`.
        kind: Index = dates, values 1, 0 or NaN.
    """
    if outcome not in days.outcomes:
        return None
    names = next((s for s in SETS[outcome] if set(s) <= set(days.weather.columns)), None)
    chosen = list(names or (c for c in SETS[outcome][-1] if c in days.weather))
    rows = pd.concat([days.outcomes[outcome].rename("y"), kind.rename("kind"), days.weather[chosen]], axis=1).dropna()
    marked = rows["kind"].to_numpy(dtype=np.float64)
    if min((marked == 1).sum(), (marked == 0).sum()) < FEWEST:
        return None
    weather = {name: rows[name].to_numpy(dtype=np.float64) for name in chosen}
    try:
        columns = design(marked, {}, None, weather)
    except NotEnoughData:
        return None
    numbers = np.asarray([d.toordinal() for d in rows.index], dtype=np.float64)
    estimate = step(fit(rows["y"].to_numpy(dtype=np.float64), columns.x, grid(numbers)), 1)
    table = pd.DataFrame({"date": list(rows.index), "value": rows["y"].to_numpy(), "kind": marked.astype(int)})
    return Nights(estimate=estimate, kind=int((marked == 1).sum()), others=int((marked == 0).sum()), table=table)


def watered(r: Results) -> pd.Series:
    """1 on dates with watering, 0 on others between the first and the last, NaN outside; index = dates."""
    return _marked(r, {w.date for w in r.readings.watering})


def _marked(r: Results, on: set[date]) -> pd.Series:
    inside = sorted(d for d in on if r.season.first_day <= d <= r.season.last_day)
    index = pd.date_range(r.season.first_day, r.season.last_day).date
    if not inside:
        return pd.Series(np.nan, index=index)
    return pd.Series([float(d in on) if inside[0] <= d <= inside[-1] else np.nan for d in index], index=index)


def table_of(r: Results) -> DayTable:
    """The season by garden day."""
    return day_table(r.readings)


def unheated(days: DayTable) -> pd.Series:
    """1 on nights with less than an hour of heat, 0 on others, NaN where unknown; empty if no heat is known hourly."""
    heat = days.heat.table
    if "night_heated_h" not in heat:
        return pd.Series(dtype="float64")
    return (heat["night_heated_h"] < 1).astype(float).where(heat["night_heated_h"].notna())
