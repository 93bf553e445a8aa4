"""The arithmetic of pooling: equal weights, a spread that is never taken too small, and the error that houses share.

Houses under one weather that change in one fortnight err together: the same cold spell or grey week stands in each of
their estimates, and no number of them averages it away. So the interval of the mean has two parts, joined at right
angles: t(0.975, k - 1) · sd / √k, which falls with the number of houses k, and 1.96 · b · √Σ w_c², which falls with
the number of weathers alone (w_c: the weight of weather c, n_c / k where every house counts once). sd is the sample
standard deviation of the houses' effects, and at least their median standard error. Measured, not derived: see
tests/studies/POOLING.md.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from reportgen.gather.types import Member

Floats = NDArray[np.float64]

FEWEST_POOLED = 3  # houses; fewer are shown, not pooled
FEWEST_FOR_VERDICT = 5
NORMAL = 1.96  # standard deviations either side that hold 95 % of a normal error (ISO 2854: 1.96)
# sd b of the error shared by houses under one weather that change within one fortnight, in the unit of the effect:
# K, fraction of the days before, fraction of the days before, points, K. From simulated winters; the two that were
# first taken smaller, and why they are not, stand in tests/studies/POOLING.md.
SHARED_ERROR: Mapping[str, float] = MappingProxyType(
    {"lift": 0.14, "heat": 0.065, "watts_per_kelvin": 0.055, "night_humidity": 1.75, "soil_mean": 0.4}
)

# In a house without heat the middle of one house's estimate is a better cover's gain at an equally warm bed: what the
# bed gains too, and gives back by night, is taken for weather. 35 simulated houses: 0.42 K told of a true 0.78 K. This
# is the share of what is told that may come on top.
BED_SHARE = 1.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Gardens:
    """A stratum as numbers, one a house: several changes of one house are averaged first, so that each counts once.

    `weights` shares out the weight of 1 over weathers: weather → Σ over its members of 1 / (k · members of the house).
    """

    houses: tuple[str, ...]
    effects: Floats  # shape (k,), in the unit of the stratum
    ses: Floats  # shape (k,)
    weights: Mapping[str, float]

    @property
    def k(self) -> int:
        """How many houses."""
        return len(self.houses)


@dataclass(frozen=True, kw_only=True, slots=True)
class Interval:
    """The mean of k houses with its 95 % ends, and the ends within which the next house's true effect would lie."""

    mean: float
    low: float
    high: float
    next_low: float
    next_high: float

    @property
    def leaves_out_zero(self) -> bool:
        """Whether the mean's interval does."""
        return self.low > 0 or self.high < 0


def gardens(members: Sequence[Member]) -> Gardens:
    """Members by house, in the order of their first; the errors of one house's changes are taken as independent."""
    by_house: dict[str, list[Member]] = {}
    for member in members:
        by_house.setdefault(member.house, []).append(member)
    weights: dict[str, float] = {}
    for own in by_house.values():
        for member in own:
            weights[member.weather] = weights.get(member.weather, 0.0) + 1.0 / (len(by_house) * len(own))
    return Gardens(
        houses=tuple(by_house),
        effects=np.array([sum(m.effect for m in own) / len(own) for own in by_house.values()]),
        ses=np.array([sum(m.se**2 for m in own) ** 0.5 / len(own) for own in by_house.values()]),
        weights=weights,
    )


def spread(effects: Floats, ses: Floats) -> float:
    """max(sample standard deviation, median standard error), in the unit of the effects.

    The floor keeps a few houses that happen to agree from looking surer than any of them is.

    Args:
        effects: Shape (k,), k of 2 or more.
        ses: Standard errors of the effects, same unit and shape.
    """
    return max(float(effects.std(ddof=1)), float(np.median(ses)))


@lru_cache(maxsize=1024)
def t_quantile(dof: int) -> float:
    """The 0.975 quantile of Student's t [no unit] with so many degrees of freedom."""
    return float(stdtrit(dof, 0.975))


def half_width(sd: float, k: int, shared: float) -> float:
    """Half of the 95 % interval of the mean: √((t(0.975, k - 1) · sd / √k)² + (1.96 · shared)²), in the unit of sd.

    The first part is the textbook interval of a mean of unknown spread (ISO 2854); that the two are joined at right
    angles is our own, measured (the module's head).

    Args:
        sd: As `spread` gives it.
        k: Houses, 2 or more.
        shared: b · √Σ w_c², same unit.
    """
    return float(np.hypot(t_quantile(k - 1) * sd / np.sqrt(k), NORMAL * shared))


def next_half_width(sd: float, k: int, shared: float) -> float:
    """Half of the next house's interval: √((t(0.975, k - 1) · sd · √(1 + 1/k))² + (1.96 · shared)²), unit of sd.

    It is meant to hold the true effect there; arguments as in `half_width`: `sd`, `k` houses, `shared`. The first part
    is the prediction interval of one more normal value (textbook formula); the second is our own.
    """
    return float(np.hypot(t_quantile(k - 1) * sd * np.sqrt(1.0 + 1.0 / k), NORMAL * shared))


def interval(of: Gardens, outcome: str, heated: bool | None) -> Interval:
    """Mean and next house of two or more gardens, in the unit of their effects; the recipe is our own (module's head).

    Where the estimate of one house leaves part of an effect out (`BED_SHARE`) the end away from 0 lies further out;
    the end near 0, and so every verdict, stays.

    Raises:
        KeyError: No shared error is known for the outcome.
    """
    shared = SHARED_ERROR[outcome] * float(np.sqrt(sum(w**2 for w in of.weights.values())))
    sd, mean = spread(of.effects, of.ses), float(of.effects.mean())
    half, further = half_width(sd, of.k, shared), next_half_width(sd, of.k, shared)
    beyond = BED_SHARE * mean if understated(outcome, heated) else 0.0
    up, down = max(beyond, 0.0), min(beyond, 0.0)
    return Interval(
        mean=mean,
        low=mean - half + down,
        high=mean + half + up,
        next_low=mean - further + down,
        next_high=mean + further + up,
    )


def understated(outcome: str, heated: bool | None) -> bool:
    """Whether part of an effect is left out: warmth of a house that is not, or may not be, held by a thermostat."""
    return outcome == "lift" and not heated
