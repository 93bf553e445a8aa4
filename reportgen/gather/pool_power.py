"""How many houses it takes: groups of houses are drawn and the recipe itself is asked how often it tells them.

A group counts as told when the verdict would be given: five houses or more, an interval that leaves out 0 on the side
of the truth, and so every interval with one house left out. Each house's effect is the true mean, plus an own part
(how houses differ, and each one's own error; normal), plus a part shared by all houses under one weather. Draws are
seeded: the same figures give the same answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache

import numpy as np

from reportgen.gather.pool_recipe import FEWEST_FOR_VERDICT, NORMAL, Floats, t_quantile

DRAWS = 2000  # the share told is known to ± 1 in 100 at 80
POWER = 0.8  # the usual aim (Cohen 1988)
MOST = 40  # houses more than these are no plan for a garden group
SEED = 20251128


def share_told(
    effect: float, sd: float, least: float, shared: float, counts: Sequence[int], *, without_one: bool = True
) -> float:
    """Share of groups that the recipe tells, with the sign of the truth.

    Args:
        effect: True mean, any unit.
        sd: Of one house's own part, same unit, > 0.
        least: Median standard error of a house: the recipe takes no smaller spread.
        shared: b, same unit.
        counts: Houses under each weather.
        without_one: Also asked: every interval with one house left out.

    Returns:
        0 … 1; 0 for fewer than five houses.
    """
    n = np.asarray(counts, dtype=np.intp)
    k = int(n.sum())
    if k < FEWEST_FOR_VERDICT:
        return 0.0
    own, common = _draws(k, len(n))
    y = abs(effect) + sd * own + shared * np.repeat(common, n, axis=1)
    told = _lower(y.sum(1), (y**2).sum(1), k, least, shared * float(np.sqrt((n**2).sum())) / k) > 0
    if without_one:
        lacking = (n**2).sum() - 2 * np.repeat(n, n) + 1  # Σ n_c² once a house of weather c is left out
        sums, squares = y.sum(1, keepdims=True) - y, (y**2).sum(1, keepdims=True) - y**2
        told &= (_lower(sums, squares, k - 1, least, shared * np.sqrt(lacking) / (k - 1)) > 0).all(axis=1)
    return float(told.mean())


def _lower(sums: Floats, squares: Floats, k: int, least: float, shared: float | Floats) -> Floats:
    """Lower ends of the mean's interval from sums and sums of squares of k houses."""
    mean = sums / k
    variance = np.maximum(squares - k * mean**2, 0.0) / (k - 1)
    sd = np.maximum(np.sqrt(variance), least)
    return np.asarray(mean - np.hypot(t_quantile(k - 1) * sd / np.sqrt(k), NORMAL * shared), dtype=np.float64)


@lru_cache(maxsize=8)
def _draws(k: int, weathers: int) -> tuple[Floats, Floats]:
    """Standard normal draws: own (DRAWS, k) and shared (DRAWS, weathers); more houses only add columns."""
    own = np.random.default_rng([SEED, 0]).standard_normal((k, DRAWS)).T
    common = np.random.default_rng([SEED, 1]).standard_normal((weathers, DRAWS)).T
    return own, common


def more_spread(effect: float, sd: float, least: float, shared: float, counts: Sequence[int]) -> int | None:
    """How many houses more are told in 80 of 100 groups if each changes in a fortnight of its own; None: over 40.

    Args:
        effect, sd, least, shared: As in `share_told`, all in the one unit of the effect.
        counts: Houses under each weather that are there.
    """
    return _fewest(lambda n: share_told(effect, sd, least, shared, [*counts, *[1] * n]))


def more_together(effect: float, sd: float, least: float, shared: float, counts: Sequence[int]) -> int | None:
    """The same if all that are added change in one fortnight; None: over 40, or never.

    Args:
        effect, sd, least, shared: As in `share_told`, all in the one unit of the effect.
        counts: Houses under each weather that are there.
    """
    return _fewest(lambda n: share_told(effect, sd, least, shared, [*counts, n]))


def _fewest(told: Callable[[int], float]) -> int | None:
    """Smallest n in 1 … MOST that reaches the aim, by halving."""
    if told(MOST) < POWER:
        return None
    low, high = 0, MOST
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if told(middle) >= POWER else (middle, high)
    return high
