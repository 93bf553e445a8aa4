"""The balance's likelihood, one loss for each state, on a public metered series whose saving is declared."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd

from reportgen.measures.house.balance import _Column, _most_likely

FILE = Path(__file__).parent / "data" / "gas_meter.csv"


def test_two_states_tell_the_declared_saving_as_a_range() -> None:
    """Declared 10 % less (data/gas_meter.md): the loss after is 75 to 97 % of the loss before.

    Heating days, at least 5 K under 15 °C in the mean of the day; every day is heated, so nothing is free. The range is
    what the series' own estimator leaves (test_metered_saving.py): a sum of days cannot tell it closer.
    """
    table = pd.read_csv(FILE, parse_dates=["date"])
    table = table[(table["date"] < "2016-12-26") | (table["date"] > "2017-01-04")]
    table = table[table["hd15"] >= 5.0]
    after = (table["date"] > "2017-01-04").to_numpy().astype(np.int64)
    pull = table["hd15"].to_numpy(float)
    columns = [_Column(name=f"U{n}", values=np.where(after == n, pull, 0.0), grip=1.0, state=n) for n in (0, 1)]
    design = np.column_stack([column.values for column in columns])
    free = np.zeros(len(table), dtype=bool)
    loss, _ = _most_likely(design, 1000.0 * table["therm"].to_numpy(float), free, after, columns)
    assert 0.75 < loss[1] / loss[0] < 0.97
