"""The holding limit's line and bound against statsmodels' prediction intervals."""

from __future__ import annotations

import numpy as np
import pytest
import statsmodels.api as sm

from reportgen.measures.frost_fit import limit_of, regress


def nights(seed: int = 7, n: int = 40) -> tuple[np.ndarray, np.ndarray]:
    """Outdoor and inside minima that scatter by 0.8 K about 4 + 0.35 x."""
    rng = np.random.default_rng(seed)
    x = rng.uniform(-12, 8, n)
    return x, 4.0 + 0.35 * x + rng.normal(0, 0.8, n)


def test_the_bound_is_statsmodels_lower_end() -> None:
    """One-sided 95 % is the lower end of the two-sided 90 % interval of one more observation; rel 1e-9."""
    x, y = nights()
    fit = regress(x, y)
    assert fit is not None
    grid = np.array([-15.0, -5.0, 0.0, 7.0])
    expected = sm.OLS(y, sm.add_constant(x)).fit().get_prediction(sm.add_constant(grid)).summary_frame(alpha=0.10)
    assert fit.middle(grid) == pytest.approx(expected["mean"].to_numpy(), rel=1e-9)
    assert fit.bound(grid) == pytest.approx(expected["obs_ci_lower"].to_numpy(), rel=1e-9)


def test_the_line_is_statsmodels_line() -> None:
    """Slope, intercept, residual deviation and the moments of x that its bound needs; rel 1e-9 is rounding."""
    x, y = nights()
    fit, theirs = regress(x, y), sm.OLS(y, sm.add_constant(x)).fit()
    assert fit is not None
    assert (fit.intercept, fit.slope) == pytest.approx(tuple(theirs.params), rel=1e-9)
    assert fit.s**2 == pytest.approx(theirs.mse_resid, rel=1e-9)
    # x̄ and Σ(x − x̄)² give the standard error of the slope and, at x̄, that of the mean: s²/Sxx and s²/n
    assert fit.s**2 / fit.x_squares == pytest.approx(theirs.bse[1] ** 2, rel=1e-9)
    at_mean = theirs.get_prediction(np.array([[1.0, fit.x_mean]])).se_mean[0]
    assert at_mean == pytest.approx(fit.s / np.sqrt(fit.n), rel=1e-9)
    # one-sided 95 % is the lower end of the two-sided 90 % interval of the slope
    assert fit.slope_at_least() == pytest.approx(theirs.conf_int(alpha=0.10)[1, 0], rel=1e-9)


def test_the_limit_is_where_the_bound_meets_the_line() -> None:
    """At the limit statsmodels' bound clears the line, 0.1 K colder it does not."""
    x, y = nights()
    fit = regress(x, y)
    assert fit is not None
    limit = limit_of(fit, x, np.maximum(y, 0.1), 0.0)
    assert limit is not None
    at = sm.add_constant(np.array([limit, limit - 0.1]))
    bound = sm.OLS(y, sm.add_constant(x)).fit().get_prediction(at).summary_frame(alpha=0.10)["obs_ci_lower"]
    assert bound.iloc[0] > 0 > bound.iloc[1]


def test_never_below_a_night_that_crossed_the_line() -> None:
    """One mild night that fell below the line holds the limit up."""
    x, y = nights()
    x, y = np.append(x, 3.0), np.append(y, -0.2)
    fit = regress(x, y)
    assert fit is not None
    limit = limit_of(fit, x, y, 0.0)
    assert limit is not None
    assert limit >= 3.0


def test_no_limit_where_even_mild_nights_are_unsure() -> None:
    """Scatter of 5 K about 1 °C: the bound never clears the line."""
    rng = np.random.default_rng(3)
    x = rng.uniform(-5, 5, 40)
    y = 1.0 + rng.normal(0, 5.0, 40)
    fit = regress(x, y)
    assert fit is not None
    assert limit_of(fit, x, y, 0.0) is None
