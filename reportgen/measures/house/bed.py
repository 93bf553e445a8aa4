"""How the bed's probe follows the air, so that a bed cools with a house that is not heated.

T_s = Σ b_k·L_k(T_i) [6, 24, 96, 400 h] + Σ o_k·L_k(T_o) [24, 400 h] + Σ s_k·L_k(S) [6, 24, 96 h] + constant, all ≥ 0.
Weak priors (0.76 ± 0.05 for Σb, 0.90 ± 0.05 for Σb + Σo) from simulated beds; a misfit of 0.3 K that lasts counts as
about 60 independent values. Own method, tried on simulated houses (methods page, *The house as a balance*).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.balance import SETTLING_H
from reportgen.measures.house.hours import HouseHours, lagged

AIR_LAGS_H = (6.0, 24.0, 96.0, 400.0)
OUTDOOR_LAGS_H = (24.0, 400.0)
SUN_LAGS_H = (6.0, 24.0, 96.0)
TO_AIR, TO_ALL, PRIOR_SD = 0.76, 0.90, 0.05
MISFIT_K, VALUES = 0.3, 60


@dataclass(frozen=True, kw_only=True, slots=True)
class Bed:
    """`to_air`: share of the air's change that the probe takes over, by AIR_LAGS_H. `to_outdoors`: share of a change
    outdoors within a day that reaches it through the ground (the slow share is the deep soil, which one cold spell does
    not move)."""

    to_air: tuple[float, ...]
    to_outdoors: float


def fit_bed(hours: HouseHours) -> Bed | None:
    """How the probe follows the air; None without a probe.

    Method (our own, the module's head): least squares with no negative term and two weak priors.
    """
    from scipy.optimize import nnls  # late: slow to import

    if hours.temp_soil_c is None:
        return None
    sun = np.zeros(hours.count) if hours.sun_w_m2 is None else hours.sun_w_m2
    columns = [lagged(hours.temp_air_c, lag) for lag in AIR_LAGS_H]
    columns += [lagged(hours.temp_outdoor_c, lag) for lag in OUTDOOR_LAGS_H]
    columns += [lagged(sun, lag) for lag in SUN_LAGS_H]
    x, y = np.column_stack(columns)[SETTLING_H:], hours.temp_soil_c[SETTLING_H:]
    x, y = x - x.mean(axis=0), y - y.mean()
    scale = x.std(axis=0) + 1e-9
    weight = MISFIT_K * float(np.sqrt(len(y) / VALUES)) / PRIOR_SD
    rows = np.vstack([x / scale, weight * _ones(len(AIR_LAGS_H), scale), weight * _ones(6, scale)])
    found = nnls(rows, np.concatenate([y, [weight * TO_AIR, weight * TO_ALL]]))[0] / scale
    return Bed(to_air=tuple(found[: len(AIR_LAGS_H)].tolist()), to_outdoors=float(found[len(AIR_LAGS_H)]))


def _ones(first: int, scale: Floats) -> Floats:
    """The sum of the first coefficients as a row of the scaled problem."""
    return np.asarray(np.where(np.arange(len(scale)) < first, 1.0, 0.0) / scale)
