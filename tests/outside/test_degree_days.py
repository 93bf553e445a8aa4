"""Degree-hours against the closed form of a sine day, and the base temperature against a published house."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest

from reportgen.measures.exposure import degree_hours_below, line
from reportgen.measures.hold_base import Weather


def sine_day(low: float, high: float, step_s: int) -> pd.Series:
    """One day of a pure sine between two extremes."""
    at = pd.date_range("2026-01-10", "2026-01-11", freq=f"{step_s}s", tz="UTC")
    t = (at - at[0]) / pd.Timedelta("1s")
    return pd.Series((low + high) / 2 + (high - low) / 2 * np.sin(2 * np.pi * t / 86400), index=at)


# Baskerville and Emin 1969, Ecology 50:514–517 (single sine); mean of the positive differences over a day [K d]
SINE = [(5.0, 15.0, 10.0, 1.59155), (-4.0, 6.0, 0.0, 1.12349)]


@pytest.mark.parametrize(("low", "high", "base", "kelvin_days"), SINE)
def test_degree_hours_of_a_sine_day(low: float, high: float, base: float, kelvin_days: float) -> None:
    """A finely logged sine day comes to the closed form within 0.0005 K d."""
    found = degree_hours_below(line(sine_day(low, high, 60)), base) / 24.0
    assert found == pytest.approx(kelvin_days, abs=0.0005)


def test_degree_hours_by_the_hour() -> None:
    """Hourly means of the sine day stay within 0.02 K d of the closed form (tolerance of the hourly definition)."""
    fine = sine_day(5.0, 15.0, 60).iloc[:-1]
    means = fine.to_numpy().reshape(24, 60).mean(axis=1)
    hours = np.arange(24) * 3600.0
    air = Weather(seconds=hours, outdoor_c=means, hold_c=np.full(24, 8.0), stretch=np.zeros(24, dtype=int))
    assert air.degree_hours(2.0) / 24.0 == pytest.approx(1.59155, abs=0.02)


def test_missing_hours_are_scaled() -> None:
    """Half of the hours of a steady 4 K below the base missing: still 4 K × 24 h."""
    out = np.where(np.arange(24) % 2 == 0, 6.0, np.nan)
    air = Weather(seconds=np.arange(24) * 3600.0, outdoor_c=out, hold_c=np.full(24, 10.0), stretch=np.zeros(24, int))
    assert air.degree_hours(0.0) == pytest.approx(96.0)
