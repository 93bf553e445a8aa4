"""Heat and money that an envelope or air lever spared, from its effect on the watts for each kelvin.

A lever that takes the share p off the heat for each degree leaves 1 − p of it to be given. So of what was given while
it was on, E_on, it spared p/(1 − p) · E_on; of what was given while it was off, E_off, it would have spared p · E_off.
The low end counts only what is sure: hours with the sun below the horizon (a curtain spares nothing by day) in which
the heater could have given more (one that never rests spares nothing: it warms).

Method: methods page, *What a lever spared*; measured in tests/studies/SPARED.md.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.effects.gls import Floats
from reportgen.effects.lever_types import Range, Spared
from reportgen.effects.types import Outcome

MOST = 0.9  # no lever takes more than nine tenths off the heat for each degree; our own line
MUCH_FLAT_OUT = 0.1  # share of the heated hours at full power from which it is told that warmth took a part
Bools = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatHours:
    """The heaters' heat by the hour of the season, shape (n,).

    `kwh`: 0 where nothing is known. `money`: at the price of that hour, None where any heat of the season has none.
    `dark`: the sun below the horizon. `flat_out`: at 95 % or more of a heater's rated power. `heated`: above 2 % of
    the largest hour. `room`: kWh that the heaters could have given on top, infinite where a rated power is not known.
    """

    kwh: Floats
    room: Floats
    money: Floats | None
    dark: Bools
    flat_out: Bools
    heated: Bools


def share_spared(effect: float, level: float) -> float:
    """p = −effect / level, at most 0.9; below 0 it costs heat.

    Args:
        effect: Of the lever on the heat for each degree [W/K], negative where it spares.
        level: Mean heat for each degree of the nights off [W/K], above 0.
    """
    return min(-effect / level, MOST)


def spared(hoped: Outcome, heat: HeatHours, on: Bools) -> Spared:
    """What a lever spared since it was on, and what a whole winter like this one would be spared.

    Args:
        hoped: Its effect on the heat for each degree, `before_mean` above 0.
        heat: The heaters' hours.
        on: Hours in which the lever was on, shape (n,).
    """
    worst, best = share_spared(hoped.high, hoped.before_mean), share_spared(hoped.low, hoped.before_mean)
    sure = heat.dark & ~heat.flat_out
    every = np.ones(len(on), dtype=bool)
    counted = (sure if worst > 0 else every, every if best > 0 else sure)  # a cost is told whole at its low end

    def ends(amount: Floats, winter: bool) -> Range:
        low, high = (
            spared_of(heat, amount, p, on & hours, ~on & hours if winter else None)
            for p, hours in zip((worst, best), counted, strict=True)
        )
        return Range(low=low, high=high)

    money = heat.money
    return Spared(
        since_kwh=ends(heat.kwh, False),
        winter_kwh=ends(heat.kwh, True),
        since_money=None if money is None else ends(money, False),
        winter_money=None if money is None else ends(money, True),
        relative=Range(low=worst, high=best),
        flat_out=much_flat_out(heat),
    )


def spared_of(heat: HeatHours, amount: Floats, p: float, on: Bools, off: Bools | None) -> float:
    """p/(1 − p) of what was given in the hours on, and p of what was given in the hours off, in the unit of `amount`.

    Args:
        amount: kWh of the hours or their money, shape (n,).
        p: Share spared; below 0 it costs heat.
        on, off: Hours that count, shape (n,); `off` None: only those on.
    """
    since = min(p / (1.0 - p), most_share(heat, on)) * float(amount[on].sum())
    return since if off is None else since + max(p, -most_share(heat, off)) * float(amount[off].sum())


def most_share(heat: HeatHours, hours: Bools) -> float:
    """What the heaters could have given on top in those hours, as a share of what they gave.

    While on, the house without the lever gets no more than that; while off, a lever that costs heat could not have
    drawn more. `hours`: those that count, shape (n,). Infinite where nothing was given.
    """
    given = float(heat.kwh[hours].sum())
    return float(heat.room[hours].sum()) / given if given > 0 else np.inf


def much_flat_out(heat: HeatHours) -> bool:
    """The heater gave all it could in more than a tenth of the heated hours."""
    heated = int(heat.heated.sum())
    return heated > 0 and int((heat.heated & heat.flat_out).sum()) > MUCH_FLAT_OUT * heated
