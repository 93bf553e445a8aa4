"""Dew point against a public weather station's own column (data/station_2013.md, ASOS records, CC0)."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd

from reportgen import air

DATA = Path(__file__).parent / "data" / "station_2013.csv"


def test_dew_point_of_a_winter_s_station_record() -> None:
    """Median difference within 0.03 K over all rows, below 0 °C too.

    Temperature and dew point are stored to 0.02 °F, humidity to 0.01 %; the station's own formula is a Magnus form
    over water (differs by up to 0.03 K). A few rows took humidity and temperature at different minutes, so the median
    is asked for, and nine rows in ten within 0.1 K.
    """
    rows = pd.read_csv(DATA).dropna(subset=["temp", "dewp", "humid"])
    temp, dew = ((rows[c].to_numpy() - 32) / 1.8 for c in ("temp", "dewp"))
    off = np.abs(air.dew_point_c(temp, rows["humid"].to_numpy()) - dew)
    cold = dew < 0
    assert cold.sum() > 50
    assert np.median(off) < 0.03
    assert np.median(off[cold]) < 0.03
    assert np.quantile(off, 0.9) < 0.1
