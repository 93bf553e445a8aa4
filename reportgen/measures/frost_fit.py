"""A straight line through nights: minimum inside on minimum outdoors, with its lower prediction bound.

Textbook formulas, e.g. Draper and Smith, Applied Regression Analysis, ch. 1.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtrit

from reportgen.measures.exposure import Floats

SURE = 0.95  # share of such nights that a bound is to hold
SEARCH_STEP_K = 0.05  # of the search for the limit


@dataclass(frozen=True, kw_only=True, slots=True)
class Regression:
    """y = intercept + slope · x of n nights, residual standard deviation s."""

    n: int
    intercept: float
    slope: float
    s: float
    x_mean: float
    x_squares: float

    def middle(self, x: Floats) -> Floats:
        """The fitted line at `x`, in the unit of y; any shape, kept."""
        return np.asarray(self.intercept + self.slope * x)

    def bound(self, x: Floats) -> Floats:
        """Lower one-sided 95 % prediction bound of one more night at `x`, in the unit of y; any shape, kept.

        Source: Draper and Smith, Applied Regression Analysis, ch. 1 (textbook formula).
        """
        spread = np.sqrt(1 + 1 / self.n + (x - self.x_mean) ** 2 / self.x_squares)
        return np.asarray(self.middle(x) - stdtrit(self.n - 2, SURE) * self.s * spread)

    def slope_at_least(self) -> float:
        """Lower one-sided 95 % bound of the slope, in the unit of y for one of x.

        Source: Draper and Smith, Applied Regression Analysis, ch. 1 (textbook formula).
        """
        return float(self.slope - stdtrit(self.n - 2, SURE) * self.s / np.sqrt(self.x_squares))


def regress(x: Floats, y: Floats) -> Regression | None:
    """Least squares of y on x, shapes (n,); the slope in the unit of y for one of x.

    None for fewer than three points or a constant x. Source: textbook formula, e.g. Draper and Smith, Applied
    Regression Analysis, ch. 1.
    """
    n = len(x)
    squares = float(((x - x.mean()) ** 2).sum()) if n else 0.0
    if n < 3 or squares < 1e-9:
        return None
    slope = float(((x - x.mean()) * (y - y.mean())).sum() / squares)
    intercept = float(y.mean() - slope * x.mean())
    rss = float(((y - intercept - slope * x) ** 2).sum())
    return Regression(
        n=n,
        intercept=intercept,
        slope=slope,
        s=float(np.sqrt(rss / (n - 2))),
        x_mean=float(x.mean()),
        x_squares=squares,
    )


def limit_of(fit: Regression, x: Floats, y: Floats, line_c: float) -> float | None:
    """The lowest x [°C] from which the bound stays above the line up to the mildest night, at 0.05 K.

    `x`, `y`: the nights' minima outdoors and inside [°C], shapes (n,). Never below an x at which the line was crossed.
    None where even the mildest night's bound does not clear the line; −60 where the bound clears it as far down as is
    looked.
    """
    grid = np.arange(float(x.max()), -60.0, -SEARCH_STEP_K)
    clear = fit.bound(grid) > line_c
    if not clear[0]:
        return None
    lowest = float(grid[-1]) if clear.all() else float(grid[int(np.argmin(clear)) - 1])
    crossed = x[y < line_c]
    return max(lowest, float(crossed.max())) if len(crossed) else lowest
