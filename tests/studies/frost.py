"""Study of the frost page's three forecasts on simulated houses whose truth is known: python -m studies.frost.

Failure balance: the heater is cut at 23 h for 8 h on nights of a twin winter, and the air is compared with what the
balance says from the outdoor air and bed of that moment. Unheated relation: fitted on the first half of a winter
without heat, tried on the second. Holding limit: fitted on the first 40 % of the nights, tried on later ones.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pandas as pd
from simulator import Change, Climate, HouseParams, simulate, synthetic

from reportgen.measures.frost_failure import BALANCE_BAND_K, SOIL_FALLS_K_H, UNHEATED_BAND_K, model_of
from reportgen.measures.frost_limit import regress
from reportgen.measures.frost_types import CoolingModel

FIRST, LAST, STEP_S = "2025-10-18", "2026-04-12", 900
CUTS = 9  # failures a winter


@dataclass(frozen=True, slots=True)
class Errors:
    """Told less true [K] of one house; nights below the bound and tried, inside the range seen and colder."""

    after_3h: list[float]
    after_8h: list[float]
    unheated: list[float]
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


def hours_of(frame: pd.DataFrame, heated: bool) -> pd.DataFrame:
    """The columns of measures.frost_hours.hour_table, from the truth."""
    means = frame[["temp_in_c", "temp_out_c", "temp_soil_c", "heater_w"]].resample("1h").mean()
    table = means.set_axis(["inside", "outside", "soil", "watts"], axis=1)
    table["unsure"] = 0.0
    power = table["watts"]
    table["heated"] = (power > 0.02 * power.max()).astype(float) if heated else 0.0
    index = pd.DatetimeIndex(table.index)
    table["clock_h"] = index.hour
    table["night"] = [(t - pd.Timedelta(hours=12)).date() for t in index]
    return table


def told(model: CoolingModel, outside: float, soil: float, hours: float) -> float:
    """The balance of that moment."""
    return model.share_out * outside + model.share_soil * (soil - SOIL_FALLS_K_H * hours) + model.constant_c


def cuts(frame: pd.DataFrame, hold_c: float) -> list[pd.Timestamp]:
    """23 h of cold nights at least five days apart."""
    at = pd.DatetimeIndex([t for t in frame.index if t.hour == 23 and t.minute == 0])
    cold = [t for t in at if frame["temp_out_c"].loc[t : t + pd.Timedelta(hours=8)].max() < hold_c - 3]
    kept: list[pd.Timestamp] = []
    for t in cold:
        if not kept or t - kept[-1] >= pd.Timedelta(days=5):
            kept.append(t)
    return kept[:CUTS]


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
    """All three on one house and winter."""
    rng = np.random.default_rng([20251125, seed])
    climate = Climate(mean_c=float(rng.uniform(6, 10)), swing_k=float(rng.uniform(8, 12)))
    weather = synthetic(climate, FIRST, LAST, seed, STEP_S)
    params = house(rng)
    warm = simulate(weather, params, seed=seed).frame
    model = model_of(hours_of(warm, heated=True), heated=True)
    after: dict[float, list[float]] = {3.0: [], 8.0: []}
    if model.kind == "balance":
        starts = cuts(warm, params.hold_c)
        off = [Change(at=t, until=t + pd.Timedelta(hours=8), alters={"heater_w": 0.0}) for t in starts]
        failed = simulate(weather, params, off, seed).frame
        for t in starts:
            for h, errors in after.items():
                end = t + pd.Timedelta(hours=h) - pd.Timedelta(seconds=STEP_S)  # the last step before heat returns
                said = min(told(model, failed["temp_out_c"][end], failed["temp_soil_c"][t], h), params.hold_c)
                errors.append(float(said - failed["temp_in_c"][end]))
    bare = simulate(weather, replace(params, heater_w=0.0), seed=seed).frame
    table = hours_of(bare, heated=False)
    half = table.index[len(table) // 2]
    fitted = model_of(table[table.index < half], heated=False)
    later = table[(table.index >= half) & (table["clock_h"] < 6)]
    unheated: list[float] = []
    if fitted.kind:
        said = fitted.share_out * later["outside"] + fitted.share_soil * later["soil"] + fitted.constant_c
        unheated = [float(v) for v in said - later["inside"]]
    (a, b), (c, d) = limit_counts(bare, heated=False)
    (e, f), (g, h_) = limit_counts(warm, heated=True)
    return Errors(after[3.0], after[8.0], unheated, (a + e, b + f), (c + g, d + h_))


def run(houses: int) -> list[str]:
    """Lines of the table."""
    all_ = [one(seed) for seed in range(houses)]
    lines = [f"{houses} houses and winters"]
    for name, band, values in (
        ("balance after 3 h", BALANCE_BAND_K, [v for e in all_ for v in e.after_3h]),
        ("balance after 8 h", BALANCE_BAND_K, [v for e in all_ for v in e.after_8h]),
        ("unheated relation, 00-06 h", UNHEATED_BAND_K, [v for e in all_ for v in e.unheated]),
    ):
        x = np.asarray(values)
        low, mid, high = np.quantile(x, [0.05, 0.5, 0.95])
        lines.append(
            f"{name}: n {len(x)}, mean {x.mean():+.2f} K, 5-50-95 % {low:+.2f} {mid:+.2f} {high:+.2f} K, "
            f"{100 * (np.abs(x) <= band).mean():.0f} % within {band} K"
        )
    for name, pairs in (("in the range seen", [e.inside for e in all_]), ("colder", [e.outside for e in all_])):
        k, n = (sum(p[i] for p in pairs) for i in (0, 1))
        lines.append(f"later nights below the bound, {name}: {k} of {n} ({100 * k / max(n, 1):.1f} %)")
    return lines


if __name__ == "__main__":
    import sys

    sys.stdout.write("\n".join(run(int(sys.argv[1]) if len(sys.argv) > 1 else 40)) + "\n")
