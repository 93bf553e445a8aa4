"""Exact time above and below a line."""

from __future__ import annotations

import math

import numpy as np
import pandas as pd
import pytest

from reportgen.measures.exposure import degree_hours_below, hours_above, hours_below, line, spells_above
from reportgen.units import convert


def sine_day(step_min: int) -> pd.Series:
    """Mean 5 °C, amplitude 5 K, one period in 24 h."""
    times = pd.date_range("2025-12-01", "2025-12-02", freq=f"{step_min}min", tz="UTC")
    hours = (times - times[0]) / pd.Timedelta(hours=1)
    return pd.Series(5 + 5 * np.sin(2 * np.pi * np.asarray(hours) / 24), index=times)


@pytest.mark.parametrize("step_min", [1, 10, 30])
def test_hours_of_a_sine_day(step_min: int) -> None:
    """Hours below 2.5 °C are a third of the day: sin x < −1/2 on 1/3 of its period. Tolerance 0.1 % (issue's bound)."""
    curve = line(sine_day(step_min))
    assert hours_below(curve, 2.5) == pytest.approx(8.0, rel=1e-3)
    assert hours_above(curve, 2.5) == pytest.approx(16.0, rel=1e-3)


@pytest.mark.parametrize("step_min", [1, 10])
def test_degree_hours_of_a_sine_day(step_min: int) -> None:
    """Half a sine below its mean holds amplitude × period / π; chords miss it by (step)²/12 of it, under 0.1 %."""
    curve = line(sine_day(step_min))
    assert degree_hours_below(curve, 5.0) == pytest.approx(5 * 24 / math.pi, rel=1e-3)


def test_nothing_counts_in_a_gap() -> None:
    """Readings five hours apart in a ten-minute log are not joined."""
    values = sine_day(10).drop(pd.date_range("2025-12-01 06:10", "2025-12-01 11:50", freq="10min", tz="UTC"))
    assert line(values).hours_recorded == pytest.approx(18.0)


def test_a_spell_starts_and_ends_at_the_crossings() -> None:
    """A sine day is above its mean from 0 to 12 h: one spell (start at the reading that leaves the line)."""
    curve = line(sine_day(10))
    (spell,) = [s for s in spells_above(curve, 5.0) if s[1] - s[0] > 60]
    assert (spell[1] - spell[0]) / 3600 == pytest.approx(12.0, abs=0.01)


TENTHS = [round(n / 10, 1) for n in range(300, 460)]  # a logger's display in °F


@pytest.mark.parametrize("fahrenheit", TENTHS)
def test_a_reading_on_the_line_is_neither_below_nor_above(fahrenheit: float) -> None:
    """By hand: an hour at x °F, moved by an accuracy of 0.9 °F (0.5 K exactly, NIST SP 811) towards a line that stands
    0.9 °F away, lies on it; in doubles many of these sums do not close."""
    times = pd.date_range("2025-12-01", periods=7, freq="10min", tz="UTC")
    curve = line(pd.Series(np.full(7, convert(np.asarray([fahrenheit]), "degF", "degC")[0]), index=times))
    for way in (-1, 1):
        limit = float(convert(np.asarray([fahrenheit + way * 0.9]), "degF", "degC")[0])
        moved = curve.shifted(way * 0.5)
        assert hours_below(moved, limit) == hours_above(moved, limit) == 0.0
        assert spells_above(moved, limit) == []
        assert hours_below(moved, limit + 1e-6) == pytest.approx(1.0)
        assert hours_above(moved, limit - 1e-6) == pytest.approx(1.0)
