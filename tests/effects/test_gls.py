"""The step over all thirty noises, against statsmodels cell by cell and sums written out."""

from __future__ import annotations

import numpy as np
import pytest
from effects.by_reference import PAIRS, noise, reference, winters_noise
from scipy import stats

from reportgen.effects.gls import (
    CELLS,
    _centred,
    _gain,
    covariances,
    effective_days,
    fit,
    grid,
    grid_from,
    lagged_step,
    step,
    student,
    winters_grid,
)

DAYS = np.concatenate([np.arange(733, 745), np.arange(747, 757)]).astype(float)  # two days are missing
STEP = (DAYS >= 745).astype(float)


def series() -> tuple[np.ndarray, np.ndarray]:
    """A bed-like outcome with noise that remembers, and its columns: level, step, something like yesterday."""
    rng = np.random.default_rng(4)
    other = rng.standard_normal(len(DAYS))
    y = 3.0 + 0.8 * STEP + 0.45 * other + np.cumsum(0.3 * rng.standard_normal(len(DAYS)))
    return y, np.column_stack([np.ones(len(DAYS)), STEP, other - other.mean()])


def test_the_cells_are_those_of_the_method() -> None:
    """Six ρ by five q, in that order; every covariance entry by entry: 1 on the diagonal at first, ρ^|tᵢ − tⱼ| beside
    it, and the wander q · min(sᵢ, sⱼ) counted from 1 on the first day."""
    assert CELLS == PAIRS
    ours = covariances(DAYS)
    assert ours.shape == (30, len(DAYS), len(DAYS))
    for cell, (rho, q) in zip(ours, PAIRS, strict=True):
        assert cell == pytest.approx(noise(list(DAYS), rho, q))


def test_a_step_is_the_references_over_all_cells() -> None:
    """Effect, error, interval, what is seen four times in five, coefficients and weights, as statsmodels' cells weighed
    by the restricted likelihood give them; n′ by the weighted (1 − ρ)/(1 + ρ)."""
    y, x = series()
    ours, theirs = fit(y, x, grid(DAYS)), reference(y, x, [noise(list(DAYS), *pair) for pair in PAIRS])
    assert ours.weights == pytest.approx(theirs.w, rel=1e-7)
    assert ours.coefficients == pytest.approx(theirs.b, rel=1e-7)
    assert ours.covariance() == pytest.approx(theirs.v, rel=1e-7)
    found, (effect, se) = step(ours, 1), theirs.coefficient(1)
    assert (found.effect, found.se) == (pytest.approx(effect, rel=1e-8), pytest.approx(se, rel=1e-8))
    assert found.low == pytest.approx(effect - theirs.wide * se)
    assert found.high == pytest.approx(effect + theirs.wide * se)
    assert found.smallest_visible == pytest.approx((theirs.wide + theirs.power) * se)
    assert found.dof == theirs.dof == len(DAYS) - 3
    assert found.coefficients == pytest.approx(tuple(theirs.w @ theirs.b))
    counted = [len(DAYS) * (1 - rho) / (1 + rho) for rho, _ in PAIRS]
    assert found.effective_days == pytest.approx(float(theirs.w @ np.array(counted)))


def test_a_step_into_a_bed_is_the_references() -> None:
    """Effect and error of b · m(a), the derivative of m by differences: 1e-5 is theirs."""
    y, x = series()
    ours, theirs = fit(y, x, grid(DAYS)), reference(y, x, [noise(list(DAYS), *pair) for pair in PAIRS])
    found, (effect, se) = lagged_step(ours, 1, 2, 10), theirs.lagged(1, 2, 10)
    assert (found.effect, found.se) == (pytest.approx(effect, rel=1e-7), pytest.approx(se, rel=1e-5))


def test_the_share_of_yesterday_stays_between_nothing_and_all() -> None:
    """A bed that seems to turn about (a < 0) is taken to keep nothing: m = 1; one that seems to keep more than 0.98 is
    taken at 0.98: over two days m = 1 − ½·0 + ½·0.98 = 1.49."""
    y, x = series()
    for sign, gain in ((-1.0, 1.0), (5.0, 1.49)):
        turned = x * [1.0, 1.0, 1.0 / (0.45 * sign)] if sign < 0 else x * [1.0, 1.0, 0.1]
        found = fit(y, turned, grid(DAYS))
        assert lagged_step(found, 1, 2, 2).effect == pytest.approx(gain * step(found, 1).effect)


@pytest.mark.parametrize("days", [1, 2, 7])
def test_the_mean_rise_written_out(days: int) -> None:
    """m(a) = mean over k of 1 + a + … + a^(k−1), and its derivative term by term; at a = 0 it is 1 and (n − 1)/n."""
    shares = np.array([0.0, 0.5, 0.9])
    gain, slope = _gain(shares, days)
    for a, m, d in zip(shares, gain, slope, strict=True):
        assert m == pytest.approx(sum(sum(a**j for j in range(k)) for k in range(1, days + 1)) / days)
        terms = [sum(j * a ** (j - 1) for j in range(1, k)) for k in range(1, days + 1)]
        assert d == pytest.approx(sum(terms) / days)
    assert (gain[0], slope[0]) == (1.0, pytest.approx((days - 1) / days))


def test_only_the_spacing_of_the_days_matters() -> None:
    """A fortnight later the same grid, whitening the same noise."""
    ours, later = grid(DAYS), grid(DAYS + 14)
    assert later is ours
    assert ours.log_det == pytest.approx([np.linalg.slogdet(noise(list(DAYS), *pair))[1] for pair in PAIRS])
    for white, pair in zip(ours.whiten, PAIRS, strict=True):
        assert white @ noise(list(DAYS), *pair) @ white.T == pytest.approx(np.eye(len(DAYS)), abs=1e-9)
        assert white == pytest.approx(np.tril(white))


def test_winters_know_nothing_of_each_other() -> None:
    """Two winters' block each, the wander centred in it, in whichever order and with holes; whitened to the unit
    matrix, and the logarithms of the determinants added up."""
    winter = np.repeat([0, 1], [12, 10])
    ours = winters_grid(DAYS, winter)
    for n, pair in enumerate(PAIRS):
        theirs = winters_noise(list(DAYS), list(winter), *pair)
        assert ours.whiten[n] @ theirs @ ours.whiten[n].T == pytest.approx(np.eye(len(DAYS)), abs=1e-9)
        assert ours.log_det[n] == pytest.approx(np.linalg.slogdet(theirs)[1])


def test_the_centred_wander_has_no_mean() -> None:
    """Rows of q · M·min·M add up to nothing: what is left of a row is the fading part alone."""
    fading = _centred(DAYS)[PAIRS.index((0.6, 0.0))]
    assert _centred(DAYS)[PAIRS.index((0.6, 0.1))].sum(axis=1) == pytest.approx(fading.sum(axis=1))


def test_a_grid_of_given_noise() -> None:
    """[[4, 2], [2, 5]]: log 16, and the inverse of its Cholesky factor [[2, 0], [1, 2]] is [[½, 0], [−¼, ½]]."""
    found = grid_from(np.array([[[4.0, 2.0], [2.0, 5.0]]]))
    assert found.log_det == pytest.approx([np.log(16.0)])
    assert found.whiten[0] == pytest.approx(np.array([[0.5, 0.0], [-0.25, 0.5]]))


def test_a_perfect_fit_is_no_end_of_the_world() -> None:
    """Residuals of nothing: a finite weight for every cell, an error of nothing."""
    x = np.column_stack([np.ones(len(DAYS)), STEP])
    found = fit(np.zeros(len(DAYS)), x, grid(DAYS))
    assert found.weights.sum() == pytest.approx(1.0) and step(found, 1).se == pytest.approx(0.0, abs=1e-12)


def test_how_many_days_alike_days_are_worth() -> None:
    """Guideline 14: 30 days that resemble the last by 0.5 count for 10; unlike days for themselves."""
    assert effective_days(30.0, 0.5) == pytest.approx(10.0)
    assert effective_days(30.0, 0.0) == 30.0
    assert effective_days(30.0, -0.2) == pytest.approx(45.0)


def test_students_t_as_tabled() -> None:
    """t(0.975) and t(0.80) at 10 degrees of freedom: 2.228 and 0.879 in the usual tables."""
    assert student(10) == (pytest.approx(2.228, abs=5e-4), pytest.approx(0.879, abs=5e-4))
    assert student(40) == (pytest.approx(stats.t.ppf(0.975, 40)), pytest.approx(stats.t.ppf(0.8, 40)))
