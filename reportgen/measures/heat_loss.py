"""What the house loses, and how big a heater it needs. Method: methods page, *Heat*."""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.measures.days import NIGHT
from reportgen.measures.exposure import Band, Floats
from reportgen.measures.heat_types import HeatingLine
from reportgen.problems import NotEnoughData
from reportgen.season import House
from reportgen.units import AIR_HEAT_WH_M3K

# What the sum over nights makes of the true loss, from simulated houses with known truth: 1.10, 0.92–1.28
OVERSTATES, OVERSTATES_LOW, OVERSTATES_HIGH = 1.10, 0.92, 1.28
FEWEST_NIGHTS = 7  # for the heat-loss figure; our own line
FEWEST_LINE = 10  # for the heating line; our own line
LEAST_SPREAD_K = 1.0  # standard deviation of the lifts below which no line can be told
WIDER_OUTSIDE = 1.5  # the line's own 95 % band held 82 % of the coldest nights: widened by half beyond the fit
COLDER_K = 5.0  # what was needed is told for the coldest night, and for one this much colder


def loss_w_per_k(kwh: Floats, kelvin_hours: Floats) -> Band:
    """Heat-loss figure of the house [W/K] from the heat and the kelvin-hours of fully heated nights.

    1000 · Σ kWh / Σ K·h overstates by about 1.10 (0.92–1.28): part of the heat went into the bed and the frame. The
    band is that range; a fit's own interval covers the truth far too seldom to be printed.
    """
    ratio = 1000.0 * float(np.sum(kwh)) / float(np.sum(kelvin_hours))
    return Band(estimate=ratio / OVERSTATES, low=ratio / OVERSTATES_HIGH, high=ratio / OVERSTATES_LOW)


def loss_of_nights(nights: pd.DataFrame) -> tuple[Band, int]:
    """Heat-loss figure and how many nights it rests on; the band holds what a small heater known as sums can add.

    Raises:
        NotEnoughData: Fewer than seven nights were heated throughout with a lift above 3 K.
    """
    kept = nights[nights["counts"] == 1]
    if len(kept) < FEWEST_NIGHTS:
        raise NotEnoughData(f"only {len(kept)} nights were heated for 7 of 10 hours, 3 K (5 °F) above outdoors")
    lift = kept["lift"].to_numpy(dtype=np.float64) * NIGHT.hours
    middle, least, most = (
        loss_w_per_k(kept[name].to_numpy(dtype=np.float64) * NIGHT.hours / 1000.0, lift)
        for name in ("total_w", "least_w", "most_w")
    )
    return Band(estimate=middle.estimate, low=least.low, high=most.high), len(kept)


def expected_w_per_k(house: House) -> float | None:
    """Heat loss that cover and air changes let expect [W/K]: U·A + 0.33·n·V, without n U·A alone."""
    if house.u_value_w_m2k is None or house.glazing_area_m2 is None:
        return None
    return house.u_value_w_m2k * house.glazing_area_m2 + air_w_per_k(house)


def air_w_per_k(house: House) -> float:
    """Heat carried off by changed air [W/K]: 0.33 Wh m⁻³ K⁻¹ × n × V; 0 where either is not given."""
    return AIR_HEAT_WH_M3K * (house.air_changes_per_h or 0.0) * (house.air_volume_m3 or 0.0)


def heating_line(nights: pd.DataFrame, hold_c: float, coldest_c: float) -> HeatingLine:
    """Night heating power P = a + b · lift on fully heated nights, and its band at the coldest hour.

    Raises:
        NotEnoughData: Too few nights, or all alike.
    """
    kept = nights[nights["counts"] == 1].dropna(subset=["lift", "heaters_w"])
    lift, power = kept["lift"].to_numpy(dtype=np.float64), kept["heaters_w"].to_numpy(dtype=np.float64)
    if len(kept) < FEWEST_LINE:
        raise NotEnoughData(f"only {len(kept)} nights were heated for 7 of 10 hours, 3 K (5 °F) above outdoors")
    if float(lift.std()) < LEAST_SPREAD_K:
        raise NotEnoughData("the heated nights were too much alike to tell more cold from less")
    slope, offset = np.polyfit(lift, power, 1)
    at = hold_c - coldest_c
    half = _half_width(lift, power - offset - slope * lift, at)
    return HeatingLine(
        a_w=float(offset),
        b_w_per_k=float(slope),
        nights=len(kept),
        least_k=float(lift.min()),
        most_k=float(lift.max()),
        coldest_c=coldest_c,
        low_w=max(float(offset + slope * at) - half, 0.0),
        high_w=float(offset + slope * at) + half,
    )


def _half_width(lift: Floats, residual: Floats, at: float) -> float:
    """Half of the 95 % prediction band at a lift, widened by half outside the lifts fitted."""
    from scipy.stats import t  # late: slow to import

    n = len(lift)
    spread = float(((lift - lift.mean()) ** 2).sum())
    sigma = float(np.sqrt((residual**2).sum() / (n - 2)))
    half = float(t.ppf(0.975, n - 2)) * sigma * float(np.sqrt(1 + 1 / n + (at - lift.mean()) ** 2 / spread))
    return half * (1.0 if lift.min() <= at <= lift.max() else WIDER_OUTSIDE)


def needed_w(line: HeatingLine, hold_c: float, outdoor_c: float) -> float:
    """Heater power that keeps the hold at an outdoor temperature, by the night heating line [W]."""
    return max(line.a_w + line.b_w_per_k * (hold_c - outdoor_c), 0.0)
