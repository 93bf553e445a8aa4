"""What is done to heat grows with the cold: on made days whose truth is known by hand."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from reportgen.effects.causes import Cause
from reportgen.effects.design import GROWS, design, mostly_heated
from reportgen.effects.estimate import DayArrays, outcome_of
from reportgen.effects.types import Outcome

FIRST = dt.date(2025, 10, 20).toordinal()
KWH_PER_K = 2.0  # a day and kelvin under 15 °C
SPARED = 0.25


def told(before_k: float, after_k: float, *, noise_kwh: float = 0.05) -> tuple[Outcome, np.ndarray]:
    """Three weeks about so many kelvin under 15 °C and three weeks after; a quarter of the heat is spared from day 22.

    The cold wanders by ± 3 K within each, so that the weeks overlap.
    """
    days = np.arange(42, dtype=float)
    rng = np.random.default_rng(5)
    cold = np.where(days < 21, before_k, after_k) + rng.uniform(-3.0, 3.0, 42)
    heat = KWH_PER_K * cold * np.where(days < 21, 1.0, 1.0 - SPARED) + noise_kwh * rng.standard_normal(42)
    arrays = DayArrays(
        days=FIRST + days,
        outcomes={"heat": heat},
        weather={"ton": 15.0 - cold, "hd15": cold},
        heated=np.ones(42),
        units={"heat": "kWh"},
        missing={},
        causes=(),
        lost=frozenset(),
    )
    cause = Cause(entries=(), first=FIRST + 20, last=FIRST + 20)
    return outcome_of(cause, "heat", arrays, declared=True), cold


@pytest.mark.parametrize(("before_k", "after_k"), [(7.0, 9.0), (9.0, 7.0), (8.0, 8.0)])
def test_the_effect_is_that_of_the_days_after(before_k: float, after_k: float) -> None:
    """Autumn, spring and between. By hand: a quarter of 2 kWh a kelvin times the mean cold of the days after; the
    share is a quarter of what they would have taken. Tolerance: four standard errors of the made noise, 0.05 kWh ·
    √(2/20)."""
    found, cold = told(before_k, after_k)
    without = KWH_PER_K * cold[21:].mean()
    assert found.refused is None
    assert found.effect == pytest.approx(-SPARED * without, abs=0.065)
    assert found.before_mean == pytest.approx(without, abs=0.065)
    assert found.effect / found.before_mean == pytest.approx(-SPARED, abs=0.005)


def test_what_the_days_after_would_have_taken_is_drawn_without_it() -> None:
    """The line of the chart: 2 kWh a kelvin on every day, before and after; tolerance as above, at the rim of the cold
    twice as much."""
    found, cold = told(7.0, 9.0)
    assert found.nights is not None
    used = cold[(found.nights["day"].map(lambda day: day.toordinal()) - FIRST).to_numpy()]
    assert found.nights["without_change"].to_numpy() == pytest.approx(KWH_PER_K * used, abs=0.13)


def test_other_outcomes_have_no_such_column() -> None:
    """Only where the cold is given; and the column sums to nothing over the days after, so that the step is their
    mean."""
    step, cold = np.repeat([0.0, 1.0], 15), np.linspace(2.0, 9.0, 30)
    plain = design(step, {}, None, {"ton": -cold})
    grown = design(step, {}, None, {"ton": -cold}, cold)
    assert GROWS not in plain.names
    assert grown.names[:3] == ("level", "step", GROWS)
    assert grown.x[step == 1, 2].sum() == pytest.approx(0.0, abs=1e-9)
    assert grown.weather == ("ton",)


def test_a_house_is_heated_where_half_the_days_of_each_side_are() -> None:
    """Half is enough, less is not; days of which nothing is known do not count, and a side of none is not heated."""
    step = np.array([0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0])
    assert mostly_heated(step, np.array([1.0, 1.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0]))
    assert not mostly_heated(step, np.array([1.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0]))
    assert mostly_heated(step, np.array([1.0, np.nan, np.nan, np.nan, 1.0, 0.0, np.nan, np.nan]))
    assert not mostly_heated(step, np.array([np.nan] * 4 + [1.0] * 4))
