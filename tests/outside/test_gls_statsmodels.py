"""Generalised least squares against the reference library: statsmodels' GLS with the same covariance matrix."""

from __future__ import annotations

import numpy as np
import pytest
import statsmodels.api as sm

from reportgen.effects.gls import CELLS, covariances, fit, grid, lagged_step, step


def _season() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Forty days with a hole, a step, a weather column and noise that remembers."""
    random = np.random.default_rng(20251018)
    days = np.concatenate([np.arange(0, 21), np.arange(23, 30), np.arange(32, 44)]).astype(float)
    after = (days > 21).astype(float)
    weather = random.normal(size=len(days))
    noise = np.zeros(len(days))
    for i in range(1, len(days)):
        noise[i] = 0.6 * noise[i - 1] + random.normal(scale=0.4)
    y = 5.0 + 1.2 * after - 0.3 * weather + noise
    return days, y, np.column_stack([np.ones(len(days)), after, weather - weather.mean()])


@pytest.mark.parametrize("cell", [0, 7, 13, 22, 29])
def test_every_cell_is_the_reference_gls(cell: int) -> None:
    """Coefficients, standard errors and residual sum of squares equal statsmodels.GLS; rel 1e-8 is rounding only."""
    days, y, x = _season()
    ours = fit(y, x, grid(days))
    theirs = sm.GLS(y, x, sigma=covariances(days)[cell]).fit()
    assert ours.coefficients[cell] == pytest.approx(theirs.params, rel=1e-8)
    assert np.sqrt(np.diagonal(ours.covariance()[cell])) == pytest.approx(theirs.bse, rel=1e-8)
    assert ours.rss[cell] == pytest.approx(theirs.ssr, rel=1e-8)


@pytest.mark.parametrize("cell", [0, 7, 13, 22, 29])
def test_every_cell_whitens_its_own_noise(cell: int) -> None:
    """W C Wᵀ is the unit matrix and log|C| is numpy's; 1e-9 is rounding."""
    days = _season()[0]
    ready, noise = grid(days), covariances(days)[cell]
    assert ready.whiten[cell] @ noise @ ready.whiten[cell].T == pytest.approx(np.eye(len(days)), abs=1e-9)
    assert ready.log_det[cell] == pytest.approx(np.linalg.slogdet(noise)[1], rel=1e-9)


def test_white_noise_interval_is_the_textbook_one() -> None:
    """The interval of one cell is statsmodels' 95 % Student interval (ρ = 0, q = 0: ordinary least squares)."""
    days, y, x = _season()
    ours = fit(y, x, grid(days))
    low, high = sm.OLS(y, x).fit().conf_int()[1]
    half = (high - low) / 2
    assert CELLS[0] == (0.0, 0.0)
    averaged = step(ours, 1)
    assert averaged.high - averaged.low > 2 * half * 0.99  # noise that remembers may only widen it
    assert ours.coefficients[0, 1] == pytest.approx((low + high) / 2)


@pytest.mark.parametrize("length", [44, 160])
def test_delta_method_against_simulated_draws(length: int) -> None:
    """The interval of the lagged step has the spread of b·m(a) over draws of (b, a) from their joint normal.

    44 days is the window of a real change, 160 a long one. Outside arithmetic: m(a) by its double sum, a kept within
    0 … 0.98 as the methods page says. Tolerance 5 %: 40 000 draws, and the first-order expansion leaves out the
    curvature of m(a).
    """
    random = np.random.default_rng(20260113)
    days = np.arange(float(length))
    change = length // 2
    bed = np.zeros(length + 1)
    for i in range(length):
        bed[i + 1] = 0.6 * bed[i] + 0.5 * (i >= change) + random.normal(scale=0.1)
    x = np.column_stack([np.ones(length), days >= change, bed[:-1] - bed[:-1].mean()])
    ours = fit(bed[1:], x, grid(days))
    averaged = lagged_step(ours, 1, 2, change)
    random = np.random.default_rng(7)
    draws = []
    for weight, centre, covariance in zip(ours.weights, ours.coefficients, ours.covariance(), strict=True):
        count = round(40_000 * weight)
        b, a = random.multivariate_normal(centre[1:], covariance[1:, 1:], size=count).T
        a = np.clip(a, 0.0, 0.98)
        draws.append(b * np.mean([(1 - a**k) / (1 - a) for k in range(1, change + 1)], axis=0))
    spread = np.concatenate(draws)
    assert averaged.se == pytest.approx(spread.std(), rel=0.05)
    assert averaged.effect == pytest.approx(spread.mean(), abs=0.1 * averaged.se)
