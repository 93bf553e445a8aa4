"""How much days that resemble each other weigh: published rows and the variance of a mean they stand for."""

from __future__ import annotations

import numpy as np
import pytest

from reportgen.effects.gls import CELLS, covariances, effective_days, fit, grid, step


@pytest.mark.parametrize(("days", "rho", "weight"), [(120, 0.7, 21.176), (60, 0.3, 32.308), (90, 0.9, 4.737)])
def test_effective_days(days: int, rho: float, weight: float) -> None:
    """ASHRAE Guideline 14 Annex B (n′ = n(1 − ρ)/(1 + ρ)); abs 0.001, the rounding of the published row."""
    assert effective_days(days, rho) == pytest.approx(weight, abs=0.001)


def test_the_grid_gives_a_long_mean_that_weight() -> None:
    """The variance of a plain mean under the grid's fading noise is 1/n′ for a long record.

    Law, not our formula: var(mean) = 1′C1/n². n′ is its limit for large n; at n = 600 and ρ = 0.8 within 1 %.
    """
    c = covariances(np.arange(600.0))[CELLS.index((0.8, 0.0))]
    assert 600**2 / c.sum() == pytest.approx(effective_days(600, 0.8), rel=0.01)


def test_days_that_resemble_each_other_weigh_less_in_an_estimate() -> None:
    """A step in 200 days of white noise rests on most of them; in noise that keeps 0.8 of yesterday on far fewer.

    Annex B: 200 and 22 days. The estimate does not know ρ and averages over the grid, so only wide lines are asked:
    more than half of 200, less than a quarter.
    """
    random = np.random.default_rng(4)
    days = np.arange(200.0)
    x = np.column_stack([np.ones(200), days >= 100])
    white = random.normal(size=200)
    kept = white.copy()
    for i in range(1, 200):
        kept[i] = 0.8 * kept[i - 1] + 0.6 * white[i]
    assert step(fit(white, x, grid(days)), 1).effective_days > 100
    assert step(fit(kept, x, grid(days)), 1).effective_days < 50
