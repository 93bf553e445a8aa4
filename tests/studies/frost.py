"""Study of the holding limit on simulated houses whose truth is known: python -m studies.frost.

Fitted on the first 40 % of the nights, tried on later ones. The other forecasts of the frost page: studies/house.py.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pandas as pd
from simulator import Climate, HouseParams, simulate, synthetic

from reportgen.measures.frost_limit import regress

FIRST, LAST, STEP_S = "2025-10-18", "2026-04-12", 900


@dataclass(frozen=True, slots=True)
class Errors:
    """Nights below the bound and tried, inside the range seen and colder."""

    inside: tuple[int, int]
    outside: tuple[int, int]


def house(rng: np.random.Generator) -> HouseParams:
    """A small house of any kind with a heater that is large enough."""
    return HouseParams(
        floor_m2=float(rng.uniform(10, 30)),
        glazing_m2=float(rng.uniform(28, 70)),
        volume_m3=float(rng.uniform(22, 65)),
        u_w_m2k=float(rng.uniform(2.2, 5.5)),
        air_changes_h=float(rng.uniform(0.4, 1.6)),
        capacity_kj_k=float(rng.uniform(500, 1500)),
        soil_w_m2k=float(rng.uniform(4.5, 8.0)),
        heater_w=6000.0,
        hold_c=float(rng.uniform(3, 9)),
    )


def limit_counts(frame: pd.DataFrame, heated: bool) -> tuple[tuple[int, int], tuple[int, int]]:
    """Later nights below the bound, and tried: within the outdoor minima of the fit, and colder than all of them."""
    long = frame[(frame.index.hour >= 18) | (frame.index.hour < 9)]
    night = [(t - pd.Timedelta(hours=12)).date() for t in long.index]
    minima = long[["temp_out_c", "temp_in_c"]].groupby(night).min()
    cut = int(0.4 * len(minima))
    early, late = minima.iloc[:cut], minima.iloc[cut:]
    if heated:
        early = early.nsmallest(len(early) // 2, "temp_out_c")
    fit = regress(early["temp_out_c"].to_numpy(), early["temp_in_c"].to_numpy())
    assert fit is not None
    x, y = late["temp_out_c"].to_numpy(), late["temp_in_c"].to_numpy()
    below = y < fit.bound(x)
    seen = (x >= early["temp_out_c"].min()) & (x <= early["temp_out_c"].max())
    colder = x < early["temp_out_c"].min()
    return (int((below & seen).sum()), int(seen.sum())), (int((below & colder).sum()), int(colder.sum()))


def one(seed: int) -> Errors:
    """One house and winter, heated and not."""
    rng = np.random.default_rng([20251125, seed])
    climate = Climate(mean_c=float(rng.uniform(6, 10)), swing_k=float(rng.uniform(8, 12)))
    weather = synthetic(climate, FIRST, LAST, seed, STEP_S)
    params = house(rng)
    warm = simulate(weather, params, seed=seed).frame
    bare = simulate(weather, replace(params, heater_w=0.0), seed=seed).frame
    (a, b), (c, d) = limit_counts(bare, heated=False)
    (e, f), (g, h_) = limit_counts(warm, heated=True)
    return Errors((a + e, b + f), (c + g, d + h_))


def run(houses: int) -> list[str]:
    """Lines of the table."""
    all_ = [one(seed) for seed in range(houses)]
    lines = [f"{houses} houses and winters"]
    for name, pairs in (("in the range seen", [e.inside for e in all_]), ("colder", [e.outside for e in all_])):
        k, n = (sum(p[i] for p in pairs) for i in (0, 1))
        lines.append(f"later nights below the bound, {name}: {k} of {n} ({100 * k / max(n, 1):.1f} %)")
    return lines


if __name__ == "__main__":
    import sys

    sys.stdout.write("\n".join(run(int(sys.argv[1]) if len(sys.argv) > 1 else 40)) + "\n")
