"""The step in a short, restless series: generalised least squares, averaged over how long its noise remembers.

Nights in a row are alike, so that a before/after difference proves little. Here the noise of the days is
C_ij = ρ^|t_i − t_j| + q·min(s_i, s_j): yesterday's disturbance that fades (ρ), and a level that wanders (q). Neither
can be known from six weeks; so every pair of a grid is fitted and weighted by its restricted likelihood.

Method: methods page, *What a change did*, steps 4 to 6. One cell is the textbook GLS estimator (Aitken 1935), the
weights follow Harville 1977 (restricted likelihood); numpy and scipy only.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import lapack
from scipy.special import stdtrit

Floats = NDArray[np.float64]

RHOS = (0.0, 0.2, 0.4, 0.6, 0.8, 0.9)  # how much of a day's disturbance is left on the next
QS = (0.0, 0.003, 0.01, 0.03, 0.1)  # variance that the wandering level gains a day, per variance of a day
CELLS = tuple((rho, q) for rho in RHOS for q in QS)
LAG_LIMIT = 0.98  # a bed that kept more than this of yesterday would never answer within a season


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """Every noise model of the grid, ready to use.

    `whiten`: shape (cells, n, n), the inverse of the lower Cholesky factor of C. `log_det`: shape (cells,), log|C|.
    """

    whiten: Floats
    log_det: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Fit:
    """GLS in every cell.

    `coefficients`: (cells, p). `inverse`: (cells, p, p), (X′C⁻¹X)⁻¹. `rss`: (cells,). `weights`: (cells,), sum 1.
    """

    coefficients: Floats
    inverse: Floats
    rss: Floats
    weights: Floats
    dof: int

    def covariance(self) -> Floats:
        """Covariance of the coefficients in every cell, in the unit of the outcome by those of the columns, shape
        (cells, p, p).
        """
        return np.asarray((self.rss / self.dof)[:, None, None] * self.inverse)


@dataclass(frozen=True, kw_only=True, slots=True)
class Estimate:
    """A step with its 95 % interval, in the unit of the outcome."""

    effect: float
    se: float
    low: float
    high: float
    smallest_visible: float  # the smallest true effect found four times in five
    dof: int
    coefficients: tuple[float, ...]  # averaged over the grid, in the order of the columns: for drawing the model
    effective_days: float  # as many independent days would carry the same weight


def grid_from(covariances: Floats) -> Grid:
    """A grid from given `covariances` [no unit], shape (cells, n, n), each positive definite."""
    lower = np.linalg.cholesky(covariances)
    log_det = 2.0 * np.log(np.diagonal(lower, axis1=1, axis2=2)).sum(axis=1)
    # The inverse of a triangle takes an eighth of the work of a general solution.
    whiten = np.stack([np.tril(lapack.dtrtri(cell, lower=1)[0]) for cell in lower])
    return Grid(whiten=whiten, log_det=log_det)


def covariances(days: Floats) -> Floats:
    """C of every cell for days counted in any origin; shape (n,) → (cells, n, n)."""
    s = days - days[0] + 1.0
    apart = np.abs(s[:, None] - s[None, :])
    walk = np.minimum(s[:, None], s[None, :])
    fading = {rho: np.where(apart == 0, 1.0, rho**apart) for rho in RHOS}
    return np.stack([fading[rho] + q * walk for rho, q in CELLS])


def grid(days: Floats) -> Grid:
    """The grid for garden days given as whole numbers, rising; shape (n,)."""
    return _grid_of(tuple((np.asarray(days, dtype=np.int64) - int(days[0])).tolist()))


@lru_cache(maxsize=128)
def _grid_of(days: tuple[int, ...]) -> Grid:
    """Only the spacing of the days matters, so that neighbouring dates without a gap share one grid."""
    return grid_from(covariances(np.asarray(days, dtype=np.float64)))


def winters_grid(days: Floats, winter: NDArray[np.int64]) -> Grid:
    """The grid for two or more winters: blocks that know nothing of each other, the wandering level centred in each.

    Centred, so that the coefficient of the winter column is the difference of the season means and not of the two
    first days (methods page, *Two winters*).

    Args:
        days: Garden days as numbers, rising within each winter; shape (n,).
        winter: Which winter each day belongs to; shape (n,).
    """
    whiten = np.zeros((len(CELLS), len(days), len(days)))
    log_det = np.zeros(len(CELLS))
    for name in np.unique(winter):
        rows = np.flatnonzero(winter == name)
        block = _centred_grid(tuple((days[rows] - days[rows[0]]).astype(np.int64).tolist()))
        whiten[np.ix_(np.arange(len(CELLS)), rows, rows)] = block.whiten
        log_det += block.log_det
    return Grid(whiten=whiten, log_det=log_det)


@lru_cache(maxsize=8)
def _centred_grid(days: tuple[int, ...]) -> Grid:
    """The block of one winter; outcomes logged on the same days share it."""
    return grid_from(_centred(np.asarray(days, dtype=np.float64)))


def _centred(days: Floats) -> Floats:
    s = days - days[0] + 1.0
    apart = np.abs(s[:, None] - s[None, :])
    middle = np.eye(len(s)) - 1.0 / len(s)
    walk = middle @ np.minimum(s[:, None], s[None, :]) @ middle
    return np.stack([np.where(apart == 0, 1.0, rho**apart) + q * walk for rho, q in CELLS])


def fit(y: Floats, x: Floats, cells: Grid) -> Fit:
    """GLS of y on the columns of x in every cell, by QR of the whitened columns.

    Args:
        y: Shape (n,), no NaN.
        x: Shape (n, p), of full rank, n > p.
        cells: The grid for the n days.
    """
    n, p = x.shape
    q, r = np.linalg.qr(cells.whiten @ x)
    white_y = cells.whiten @ y
    projected = np.swapaxes(q, 1, 2) @ white_y[:, :, None]
    coefficients = np.linalg.solve(r, projected)[:, :, 0]
    rss = ((white_y - (q @ projected)[:, :, 0]) ** 2).sum(axis=1)
    r_inverse = np.linalg.solve(r, np.broadcast_to(np.eye(p), r.shape))
    log_det_x = 2.0 * np.log(np.abs(np.diagonal(r, axis1=1, axis2=2))).sum(axis=1)
    likelihood = -0.5 * (cells.log_det + log_det_x + (n - p) * np.log(np.maximum(rss, 1e-300)))
    weights = np.exp(likelihood - likelihood.max())
    return Fit(
        coefficients=coefficients,
        inverse=r_inverse @ np.swapaxes(r_inverse, 1, 2),
        rss=rss,
        weights=weights / weights.sum(),
        dof=n - p,
    )


def step(found: Fit, column: int) -> Estimate:
    """The coefficient of one column, averaged over the grid, with its interval."""
    return _averaged(found, found.coefficients[:, column], found.covariance()[:, column, column])


def lagged_step(found: Fit, column: int, lag: int, days_after: int) -> Estimate:
    """The same where yesterday's value stands among the columns (soil): the mean rise over the days after.

    A step b works into a bed that keeps the share a of yesterday as b·(1 − a^k)/(1 − a) after k days. Interval by the
    delta method on (b, a).
    """
    covariance = found.covariance()
    b = found.coefficients[:, column]
    gain, slope = _gain(np.clip(found.coefficients[:, lag], 0.0, LAG_LIMIT), days_after)
    variance = (
        gain**2 * covariance[:, column, column]
        + 2 * gain * b * slope * covariance[:, column, lag]
        + (b * slope) ** 2 * covariance[:, lag, lag]
    )
    return _averaged(found, b * gain, variance)


def _gain(a: Floats, days_after: int) -> tuple[Floats, Floats]:
    """m(a) = mean over k = 1 … n of (1 − a^k)/(1 − a) = Σ_{j<n} (1 − j/n)·a^j, and its derivative."""
    j = np.arange(days_after, dtype=np.float64)
    share = 1.0 - j / days_after
    gain = (share * a[:, None] ** j).sum(axis=1)
    slope = (share[1:] * j[1:] * a[:, None] ** (j[1:] - 1)).sum(axis=1)
    return gain, slope


def _averaged(found: Fit, effects: Floats, variances: Floats) -> Estimate:
    effect = float(found.weights @ effects)
    se = float(np.sqrt(found.weights @ (variances + (effects - effect) ** 2)))
    wide, power = student(found.dof)
    return Estimate(
        effect=effect,
        se=se,
        low=effect - wide * se,
        high=effect + wide * se,
        smallest_visible=(wide + power) * se,
        dof=found.dof,
        coefficients=tuple(float(c) for c in found.weights @ found.coefficients),
        effective_days=_carried(found),
    )


def _carried(found: Fit) -> float:
    """Effective days by the fading part of the noise, averaged over the grid (whose cells stand in CELLS order)."""
    days = found.dof + found.coefficients.shape[1]
    return float(found.weights @ np.asarray([effective_days(days, rho) for rho, _ in CELLS]))


def effective_days(days: float, rho: float) -> float:
    """How many independent days carry the weight of `days` days of which each resembles the last by `rho`, −1…1.

    Source: n′ = n(1 − ρ)/(1 + ρ), ASHRAE Guideline 14, Annex B; Reddy and Claridge 2000.
    """
    return days * (1.0 - rho) / (1.0 + rho)


@lru_cache(maxsize=512)
def student(dof: int) -> tuple[float, float]:
    """t(0.975) and t(0.80) of Student's distribution [no unit]."""
    return float(stdtrit(dof, 0.975)), float(stdtrit(dof, 0.80))
