"""The estimator of the changes once more, cell by cell: statsmodels' GLS, weighed by the restricted likelihood.

Written from the method (the methods page, *What a change did*): noise ρ^|tᵢ − tⱼ| + q · min(sᵢ, sⱼ) for six ρ and five
q; log-likelihood −½ log|C| − ½ log|X′C⁻¹X| − ½ (n − p) log RSS (D. A. Harville 1977); effect Σ w·b with the variance
Σ w·(v + (b − effect)²).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
import statsmodels.api as sm
from scipy import stats

Floats = np.ndarray[Any, np.dtype[np.float64]]
PAIRS = tuple(product((0.0, 0.2, 0.4, 0.6, 0.8, 0.9), (0.0, 0.003, 0.01, 0.03, 0.1)))  # ρ, q of the methods page


@dataclass(frozen=True, kw_only=True, slots=True)
class Reference:
    """Coefficients (cells, p), their covariances (cells, p, p), weights (cells,) and degrees of freedom."""

    b: Floats
    v: Floats
    w: Floats
    dof: int

    def averaged(self, effects: Floats, variances: Floats) -> tuple[float, float]:
        """Effect and standard error over all cells."""
        effect = float(self.w @ effects)
        return effect, float(np.sqrt(self.w @ (variances + (effects - effect) ** 2)))

    def coefficient(self, column: int) -> tuple[float, float]:
        """Those of one column."""
        return self.averaged(self.b[:, column], self.v[:, column, column])

    def lagged(self, column: int, lag: int, days: int) -> tuple[float, float]:
        """Those of a step that works into a bed which keeps the share a of yesterday: b · m(a), m(a) the mean of
        (1 − aᵏ)/(1 − a) over k = 1 … days; the delta method with a derivative by differences."""
        b, a = self.b[:, column], np.clip(self.b[:, lag], 0.0, 0.98)

        def gain(share: Floats) -> Floats:
            return np.mean([sum(share**j for j in range(k)) for k in range(1, days + 1)], axis=0)

        slope = (gain(a + 1e-6) - gain(a - 1e-6)) / 2e-6
        jacobian = np.column_stack([gain(a), b * slope])
        block = self.v[:, [[column], [lag]], [[column, lag]]]
        return self.averaged(b * gain(a), np.einsum("ci,cij,cj->c", jacobian, block, jacobian))

    @property
    def wide(self) -> float:
        """Student's t at 97.5 %."""
        return float(stats.t.ppf(0.975, self.dof))

    @property
    def power(self) -> float:
        """Student's t at 80 %."""
        return float(stats.t.ppf(0.8, self.dof))


def noise(days: Sequence[float], rho: float, q: float) -> Floats:
    """One cell's covariance, entry by entry."""
    s = [day - days[0] + 1 for day in days]
    return np.array([[(1.0 if a == b else rho ** abs(a - b)) + q * min(a, b) for b in s] for a in s])


def winters_noise(days: Sequence[float], winter: Sequence[int], rho: float, q: float) -> Floats:
    """The same for two winters that know nothing of each other, the wandering level centred in each: M·min·M, M the
    matrix that takes the mean away."""
    whole = np.zeros((len(days), len(days)))
    for which in set(winter):
        rows = [n for n, name in enumerate(winter) if name == which]
        own = [days[n] for n in rows]
        fading = noise(own, rho, 0.0)
        centre = np.eye(len(rows)) - np.ones((len(rows), len(rows))) / len(rows)
        whole[np.ix_(rows, rows)] = fading + centre @ (noise(own, rho, q) - fading) @ centre
    return whole


def reference(y: Floats, x: Floats, noises: Sequence[Floats]) -> Reference:
    """Every cell by statsmodels, and how much each weighs."""
    n, p = x.shape
    found = [sm.GLS(y, x, sigma=cell).fit() for cell in noises]
    likely = np.array(
        [
            -0.5 * np.linalg.slogdet(cell)[1]
            - 0.5 * np.linalg.slogdet(x.T @ np.linalg.solve(cell, x))[1]
            - 0.5 * (n - p) * np.log(one.ssr)
            for cell, one in zip(noises, found, strict=True)
        ]
    )
    weight = np.exp(likely - likely.max())
    return Reference(
        b=np.array([one.params for one in found]),
        v=np.array([one.cov_params() for one in found]),
        w=weight / weight.sum(),
        dof=n - p,
    )
