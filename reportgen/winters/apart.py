"""How far the difference of two winters at equal weather can be trusted: less, the further apart their nights lay.

half = t(.975, dof) · √((1.6·se)² + (k·ΔT)² + a²), ΔT the difference of the two winters' mean nights outdoors. The plain
interval is too narrow between winters (it missed zero with nothing altered 7 to 17 times in 100, hence 1.6), and a
straight line through the weather bends where the winters hardly overlap (hence k). Method: methods page, *Two winters*;
what it holds on pairs of its own: reportgen.winters.measured.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from reportgen.effects.gls import Estimate, student
from reportgen.problems import NotEnoughData

WIDER_WITHIN = 1.6  # on the standard error within the winters


@dataclass(frozen=True, kw_only=True, slots=True)
class Apart:
    """What two winters add to the error of one outcome, in its unit; `of_mean`: as shares of last winter's mean."""

    per_k: float  # k, for each kelvin between the winters' nights outdoors
    least: float  # a, between winters equally cold
    of_mean: bool = False


# From 144 unaltered pairs of simulated winters, rounded; for humidity `least` is another winter's crop and watering, a
# true difference of 1.4 points that the house has no part in. Watts per kelvin, the bed's mean and its swing had 0.005,
# 0.045 and 0.055 there; on pairs of another simulator that held the truth 43 of 52, 88 of 101 and 38 of 48 times and
# left out zero with nothing altered 3, 10 and 9 times: hence the wider ones.
APART: Mapping[str, Apart] = MappingProxyType(
    {
        "lift": Apart(per_k=0.06, least=0.03),
        "night_minimum": Apart(per_k=0.03, least=0.0),
        "heat": Apart(per_k=0.009, least=0.015, of_mean=True),
        "watts_per_kelvin": Apart(per_k=0.0125, least=0.015, of_mean=True),
        "night_humidity": Apart(per_k=0.25, least=1.3),
        "damp_hours": Apart(per_k=0.17, least=0.0),
        "soil_mean": Apart(per_k=0.09, least=0.05),
        "soil_swing": Apart(per_k=0.11, least=0.03),
    }
)
NO_APART = Apart(per_k=0.0, least=0.0)  # never tried between winters: shown, no verdict


def widened(estimate: Estimate, outcome: str, apart_k: float, last_mean: float) -> Estimate:
    """The estimate with the interval that two winters so far apart call for.

    Args:
        apart_k: Difference of the mean nights outdoors [K], either sign; NaN where not known.
        last_mean: Mean of last winter's days, in the outcome's unit.

    Raises:
        NotEnoughData: How far apart the winters were is not known.
    """
    added = APART.get(outcome, NO_APART)
    if math.isnan(apart_k) and added.per_k:
        raise NotEnoughData("how far apart the nights of the two winters were outdoors is not known")
    unit = abs(last_mean) if added.of_mean else 1.0
    grown = added.per_k * unit * apart_k if added.per_k else 0.0
    se = math.hypot(WIDER_WITHIN * estimate.se, grown, added.least * unit)
    wide, power = student(estimate.dof)
    return replace(
        estimate,
        se=se,
        low=estimate.effect - wide * se,
        high=estimate.effect + wide * se,
        smallest_visible=(wide + power) * se,
    )
