"""Two heating books made by hand, in a weather whose sums can be done in the head.

Season 1 November to 28 February, 120 days. The aim is 5 °C all winter. Outdoors it is 2 °C all November, 0 °C in
December, −5 °C in January and 0 °C in February, so below the aim lie

    November   30 × 3 =  90 degree-days      January   31 × 10 = 310
    December   31 × 5 = 155                  February  28 ×  5 = 140      in all 695.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from made_season import ZONE, channel
from made_season import season as made

from reportgen.problems import Problem
from reportgen.readings.heating import read_heating
from reportgen.readings.types import HeatSupply

YARD = {
    "name": "yard",
    "where": "outdoor",
    "files": ("y.csv",),
    "time": "t",
    "measures": {"air_temperature": {"column": "a"}},
}
BY_MONTH_C = {11: 2.0, 12: 0.0, 1: -5.0, 2: 0.0}


def outdoors(first: str = "2025-11-01", last: str = "2026-03-01") -> pd.Series:
    """The weather by the hour; in October as in November, in any other month 20 °C."""
    hours = pd.date_range(first, last, freq="1h", tz=ZONE, inclusive="left")
    return pd.Series(
        [(BY_MONTH_C | {10: 2.0}).get(month, 20.0) for month in hours.month], index=hours, dtype=np.float64
    )


def read(
    folder: Path, source: dict[str, Any], *, weather: bool = True, beyond: pd.Series | None = None
) -> tuple[HeatSupply, list[Problem]]:
    """The one heater of that winter."""
    season = made(
        "2025-11-01",
        "2026-02-28",
        aims={"hold_c": 5.0},
        logger=(YARD,),
        heating=({"name": "heater"} | source,),
    ).model_copy(update={"folder": folder})
    yard = channel(outdoors(), where="outdoor", logger="yard", beyond=beyond)
    heaters, _, problems = read_heating(season, (yard,) if weather else ())
    return heaters[0], problems


def by_month(supply: HeatSupply, column: str = "bought") -> list[float]:
    """A sum by month, November to February, in proportion to the degree-days of each stretch."""
    cold = outdoors().map(lambda air: 5.0 - air)
    sums = dict.fromkeys((11, 12, 1, 2), 0.0)
    for row in supply.intervals.itertuples():
        inside = cold[(cold.index >= row.start) & (cold.index < row.end)]
        for month, part in inside.groupby(inside.index.month).sum().items():
            sums[month] += getattr(row, column) * part / inside.sum()
    return list(sums.values())
