"""Failures in the record: what counts as one."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE

from reportgen.measures.frost_failure import failures

U, G, C = 100.0, 50.0, -60.0  # W/K, W/K, W


def hours(heated: bool, days: int = 30) -> pd.DataFrame:
    """An hour table of nights of a house that is heated, or is not."""
    index = pd.date_range("2026-01-05", periods=24 * days, freq="1h", tz=ZONE)
    day = np.arange(len(index)) // 24
    outside = -5.0 + 6.0 * np.sin(day * 1.3) + 2.0 * np.cos(np.arange(len(index)) * 2 * np.pi / 24)
    soil = 8.0 + np.cos(day * 0.7)
    inside = np.full(len(index), 6.0) if heated else outside + 0.4 * (soil - outside) + 0.5
    watts = U * (inside - outside) - G * (soil - inside) + C if heated else np.zeros(len(index))
    table = pd.DataFrame(
        {"inside": inside, "outside": outside, "soil": soil, "watts": watts, "unsure": 0.0}, index=index
    )
    table["inside_start"], table["inside_end"] = table["inside"], table["inside"]
    table["heated"] = float(heated)
    table["clock_h"] = index.hour
    table["night"] = [(t - pd.Timedelta(hours=12)).date() for t in index]
    return table


def test_a_failure_is_two_hours_without_heat_under_the_hold_and_falling() -> None:
    """Five hours without heat, 6 °C falling 1 K/h: under 4 °C and falling from 02 to 05 o'clock, down to 1 °C."""
    table = hours(heated=True, days=3)
    night = pd.date_range("2026-01-06", periods=5, freq="1h", tz=ZONE)
    table.loc[night, "heated"] = 0.0
    table.loc[night, "inside_start"] = [6.0, 5.0, 4.0, 3.0, 2.0]
    table.loc[night, "inside_end"] = [5.0, 4.0, 3.0, 2.0, 1.0]
    table.loc[night, "inside"] = [5.5, 4.5, 3.5, 2.5, 1.5]
    (found,) = failures(table, pd.Series(6.0, index=table.index))
    assert (found.start, found.end) == (night[2], night[4] + pd.Timedelta(hours=1))
    assert (found.hours, found.minimum_c) == (3.0, pytest.approx(1.0))


def test_no_failure_while_warm_or_steady_or_heated() -> None:
    """Without heat but near the hold; under it but not falling; falling but heated; unknown heat."""
    base = hours(heated=True, days=3)
    night = pd.date_range("2026-01-06", periods=5, freq="1h", tz=ZONE)
    hold = pd.Series(6.0, index=base.index)
    cold = {"inside": 1.5, "inside_start": 2.0, "inside_end": 1.0}
    for heated, values in (
        (0.0, {"inside": 4.5, "inside_start": 5.0, "inside_end": 4.2}),
        (0.0, {"inside": 2.0, "inside_start": 2.0, "inside_end": 2.0}),
        (1.0, cold),
        (np.nan, cold),
    ):
        table = base.copy()
        table.loc[night, "heated"] = heated
        for name, value in values.items():
            table.loc[night, name] = value
        assert failures(table, hold) == ()
    assert isinstance(base["night"].iloc[0], dt.date)
