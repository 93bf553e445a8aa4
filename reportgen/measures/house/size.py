"""How large a heater the house needs, and the outdoor temperature at which the present one runs flat out.

The winter is run again at the dial with a heater without limit; the largest mean of three hours counts. Factors and
bands come from simulated houses whose truth is known (methods page, *The house as a balance*).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.measures.exposure import Band, Floats
from reportgen.measures.house.hours import NIGHT_END_H, NIGHT_H
from reportgen.measures.house.response import Response, run, runs
from reportgen.problems import NotEnoughData
from reportgen.wording import NBSP, number

HARDEST_H = 3
COLDER_K = 5.0
WITHOUT_LIMIT_W = 1e9
SIZE = {False: (0.89, 0.97, 1.07), True: (0.83, 1.03, 1.25)}  # low, middle, high × the run's; True: heater at its limit
SIZE_COLDER = {False: (0.88, 0.98, 1.16), True: (0.83, 1.03, 1.25)}  # the same for 5 K colder
# × the fitted loss: what each of the 5 K may ask for more. Seven simulated winters asked for 1.2 to 1.54 of it (the
# masses give less after colder days); ours. Far more is a run that broke down at some hour, and no house.
MOST_A_KELVIN = 1.8
BUY = 1.4  # × the middle: single hardest hours and the thermostat's lag; within 1 K of the hold in 82–100 % of houses
FLAT_HALF_K, FLAT_WARM, FLAT_HALF_BEYOND = (
    2.5,
    0.10,
    0.15,
)  # half-width; share too warm and half-width for each K beyond
FLAT_REACH_K = 8.0  # no flat-out temperature further below the coldest night
COPIES_K = (0.0, 4.0, 8.0, 12.0, 16.0, 20.0, 24.0)  # colder copies of the winter
NEAR, NEAREST, FEWEST = 0.3, 0.12, 15  # of the rated power; nights that must lie within the nearer
LEAST_SLOPE = 0.3  # of the fitted loss
FORBIDDEN = "5 K (9 °F) colder would ask for {}: the balance does not hold in the hardest hours"
METER = "the hardest hours need the heater's power by the hour, not a meter's sums"


@dataclass(frozen=True, kw_only=True, slots=True)
class FlatOut:
    """Night-mean outdoor temperature at which the night's mean need reaches the rated power [°C], and half its band."""

    outdoor_c: float
    half_k: float


def size_w(house: Response, dial_c: Floats | float, colder_k: float = 0.0) -> Band:
    """Power that keeps the dial through the hardest three hours of this winter, or of one so much colder [W].

    Args:
        dial_c: One figure or shape (n,), of every hour [°C].
        colder_k: How much colder it is outdoors all winter [K].

    Raises:
        NotEnoughData: Heat is known only as a meter's sums.
    """
    if house.balance.kind == "meter":
        raise NotEnoughData(METER)
    _, heat = run(house, dial_c, WITHOUT_LIMIT_W, colder_k)
    hardest = float(np.convolve(heat, np.ones(HARDEST_H) / HARDEST_H, "valid").max())
    low, middle, high = (SIZE_COLDER if colder_k else SIZE)[house.balance.at_limit]
    return Band(estimate=hardest * middle, low=hardest * low, high=hardest * high)


def sizes_w(house: Response, dial_c: Floats | float) -> tuple[Band, Band]:
    """The power through the hardest three hours of this winter, and of one 5 K colder [W].

    Args:
        dial_c: One figure or shape (n,), of every hour [°C].

    Raises:
        NotEnoughData: As `size_w`, or the colder winter would ask for less, or for more than the loss can take.
    """
    now, colder = size_w(house, dial_c), size_w(house, dial_c, COLDER_K)
    most = MOST_A_KELVIN * COLDER_K * (float(house.fitted_loss_w_k.max()) + house.bed_outdoors_w_k)
    if not 0.0 < now.estimate < colder.estimate:
        raise NotEnoughData(FORBIDDEN.format("no more heat than this winter, which cannot be"))
    if colder.estimate - now.estimate > most:
        more = round(colder.estimate - now.estimate, -2)
        raise NotEnoughData(FORBIDDEN.format(f"about {number(more)}{NBSP}W more, far beyond what the house loses"))
    return now, colder


def flat_out(house: Response, dial_c: Floats | float) -> FlatOut:
    """The outdoor air [°C] at which the heater runs flat out.

    Args:
        dial_c: One figure or shape (n,), of every hour [°C].

    Raises:
        NotEnoughData: The rated power is not known, or lies beyond what this winter can tell.
    """
    hours, rated = house.hours, house.hours.rated_w
    if house.balance.kind == "meter":
        raise NotEnoughData(METER)
    if rated is None:
        raise NotEnoughData("needs rated_power_w of every heater that is logged by the hour")
    spans = hours.nights(NIGHT_H, NIGHT_END_H)
    settled = spans[len(spans) // 6 : len(spans) - len(spans) // 6]
    outdoors = hours.temp_outdoor_c[settled].mean(axis=1)
    factor = SIZE[house.balance.at_limit][1]
    x = np.concatenate([outdoors - colder for colder in COPIES_K])
    _, heat = runs(house, [dial_c], WITHOUT_LIMIT_W, COPIES_K)
    y = np.concatenate([needed[settled].mean(axis=1) * factor for needed in heat])
    near = np.abs(y - rated) < NEAR * rated
    if (np.abs(y[near] - rated) < NEAREST * rated).sum() < FEWEST:
        raise NotEnoughData("the rated power lies beyond anything this winter can tell")
    slope, offset = np.polyfit(x[near], y[near], 1)
    if slope > -LEAST_SLOPE * float(np.median(house.fitted_loss_w_k)):
        raise NotEnoughData("the need did not follow the cold outdoors closely enough to tell")
    found, coldest = float((rated - offset) / slope), float(outdoors.min())
    beyond = max(coldest - found, 0.0)
    if beyond > FLAT_REACH_K:
        raise NotEnoughData(f"colder than any night this winter by more than {FLAT_REACH_K:.0f} K (14 °F)")
    return FlatOut(outdoor_c=found - FLAT_WARM * beyond, half_k=FLAT_HALF_K + FLAT_HALF_BEYOND * beyond)
