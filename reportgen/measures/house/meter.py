"""Heat by the hour made from a meter that is read by the week or month, in turns with the balance.

The balance's own heat, held between 0 and the rated power, 0 where the air stands over the usual night air, less the
sun's gain, is scaled to every reading and fitted again, eight times. Own method, tried on simulated houses.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.balance import Balance, fit_balance
from reportgen.measures.house.hours import Bools, HouseHours
from reportgen.problems import NotEnoughData

ROUNDS, SCALINGS = 8, 3
FULL_STRETCH = 0.6  # a stretch over this share of the rated power: the heater may have stood at its limit
LEAST_RATED_H = 100.0  # hours of rated power in all
OVER_USUAL_K = 1.0
SUNNY_W_M2, WARM_C, FEWEST_SUNNY = 50.0, 20.0, 20
BIN_K = 0.5

Sum = tuple[int, int, float]  # first hour, hour after the last, Wh


def by_the_hour(hours: HouseHours, sums: Sequence[Sum]) -> HouseHours:
    """The season with `heaters_w` made from a meter's sums.

    Raises:
        NotEnoughData: No rated power, too little heat, or a heater near its limit.
    """
    rated = hours.rated_w
    if rated is None:
        raise NotEnoughData("a meter's sums tell their hours only with the heater's rated_power_w")
    if sum(wh for _, _, wh in sums) < LEAST_RATED_H * rated:
        raise NotEnoughData("too little heat went in to tell its hours from a meter")
    may = hours.temp_air_c < _usual_night_c(hours) + OVER_USUAL_K
    guess = np.where(may, np.maximum(_usual_night_c(hours) - hours.temp_outdoor_c, 0.0), 0.0)
    made = replace(hours, heaters_w=_scaled(guess * np.where(hours.dark, 1.0, 0.5), may, sums, rated), by_meter=True)
    full = max(wh / (end - first) for first, end, wh in sums) > FULL_STRETCH * rated
    for _ in range(ROUNDS):
        balance = fit_balance(made)
        if full or balance.at_limit:
            raise NotEnoughData("the heater stood near its limit, and a meter cannot tell at which hours")
        asked = np.clip(balance.asked_w - _sun_gain(made, balance, may), 0.0, rated)
        made = replace(made, heaters_w=_scaled(np.where(may, asked, 0.0), may, sums, rated))
    return made


def _usual_night_c(hours: HouseHours) -> float:
    """The air in which cold nights stand most often [°C]."""
    cold = hours.dark & hours.logged
    cold &= hours.temp_outdoor_c < np.quantile(hours.temp_outdoor_c[hours.dark], 0.5)
    count, edges = np.histogram(hours.temp_air_c[cold], np.arange(-10.0, 30.0, BIN_K))
    return float(edges[int(np.argmax(np.convolve(count, np.ones(3), "same")))] + BIN_K / 2)


def _scaled(watts: Floats, may: Bools, sums: Sequence[Sum], rated: float) -> Floats:
    """The same shape with every reading's sum, at most the rated power; heat outside all readings is none."""
    out = np.zeros(len(watts))
    for first, end, wh in sums:
        part = watts[first:end].copy()
        for _ in range(SCALINGS):
            total = float(part.sum())
            spread = wh / max(end - first, 1) * np.clip(may[first:end].astype(float), 0.01, None)
            part = np.minimum(part * (wh / total) if total > 0 else spread, rated)
        out[first:end] = part
    return out


def _sun_gain(hours: HouseHours, balance: Balance, may: Bools) -> Floats:
    """What the sun of the hour gave, from unheated sunny hours [W]."""
    if hours.sun_w_m2 is None:
        return np.zeros(hours.count)
    sunny = ~hours.dark & ~may & (hours.temp_air_c < WARM_C) & (hours.sun_w_m2 > SUNNY_W_M2)
    if sunny.sum() <= FEWEST_SUNNY:
        return np.zeros(hours.count)
    share = max(float(np.median(balance.asked_w[sunny] / hours.sun_w_m2[sunny])), 0.0)
    return np.where(hours.dark, 0.0, share * hours.sun_w_m2)
