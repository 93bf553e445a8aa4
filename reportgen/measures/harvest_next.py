"""What next winter's heat may cost, and how long a usual delivery of fuel lasts."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median_low

from reportgen.measures.heat_sums import cost_of
from reportgen.readings.types import HeatSupply, Readings

CARRIED = ("propane", "kerosene", "wood", "pellets", "other")  # fuels that come by the bottle, can or sack
COLDER_K = 2.0  # the colder winter, and the lower hold, that the page asks about


@dataclass(frozen=True, kw_only=True, slots=True)
class Delivery:
    """A usual delivery of a fuel that is carried: its amount in `unit`, the heat it gives the house [kWh] and the most
    that its heater gives [W], None where its rated power is not known."""

    name: str
    fuel: str
    amount: float
    unit: str
    kwh: float
    most_w: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Lasting:
    """How long a delivery lasts at a steady outdoor temperature [h]; `low` to `high` by the loss.

    `needed_w`: what the house loses then at the hold. `holds`: its heater gives that much by itself; where it gives
    less it burns flat out and the air falls below the hold. None where its rated power is not known.
    """

    outdoor_c: float
    hours: float
    low: float
    high: float
    needed_w: float
    holds: bool | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Bill:
    """One winter that was or may be: heat [kWh] and its money. `low` to `high` is the money's band, None if unknown."""

    what: str  # as it was | lower hold as paid | next prices | colder | lower hold
    kwh: float
    cost: float
    hold_c: float | None
    low: float | None = None
    high: float | None = None


def usual_deliveries(readings: Readings) -> tuple[Delivery, ...]:
    """The usual delivery, the median of all that came, of each heater fed by bottle, can or sack. Heaters without a
    heat value are left out, and those of which nothing was burnt."""
    found = []
    for supply in readings.heating:
        bought = () if supply.stock is None else supply.stock.purchases
        if supply.fuel not in CARRIED or not bought or not len(supply.intervals):
            continue
        amount = median_low(purchase.amount for purchase in bought)  # one that came, and not too good
        total, heat = (float(supply.intervals[name].sum()) for name in ("bought", "heat_kwh"))
        if total > 0 and math.isfinite(heat) and heat > 0:
            found.append(
                Delivery(
                    name=supply.name,
                    fuel=supply.fuel,
                    amount=amount,
                    unit=supply.unit,
                    kwh=amount * heat / total,
                    most_w=_most_w(readings, supply),
                )
            )
    return tuple(found)


def _most_w(readings: Readings, supply: HeatSupply) -> float | None:
    """Heat at the rated power, which is what it draws."""
    if supply.rated_power_w is None:
        return None
    given = next((s.efficiency for s in readings.season.heating if s.name == supply.name), 1.0)
    return supply.rated_power_w * given


def lasting(
    kwh: float,
    loss: tuple[float, float, float],
    hold_c: float,
    outdoor: Sequence[float],
    most_w: float | None = None,
) -> list[Lasting]:
    """How long `kwh` of heat last in a house kept at `hold_c`, with nothing but the heater to warm it.

    Args:
        kwh: Heat given to the house.
        loss: Heat loss of the house, (estimate, low, high) [W/K].
        hold_c: Air temperature kept [°C].
        outdoor: Steady outdoor temperatures [°C]; those at or above the hold are left out.
        most_w: The most the heater gives [W]: no delivery is burnt faster. None: not known, and no limit is put.
    """

    def hours(w_per_k: float, apart: float) -> float:
        return 1000.0 * kwh / min(w_per_k * apart, math.inf if most_w is None else most_w)

    estimate, low, high = loss
    return [
        Lasting(
            outdoor_c=t,
            hours=hours(estimate, hold_c - t),
            low=hours(high, hold_c - t),
            high=hours(low, hold_c - t),
            needed_w=estimate * (hold_c - t),
            holds=None if most_w is None else estimate * (hold_c - t) <= most_w,
        )
        for t in outdoor
        if t < hold_c
    ]


def next_money(readings: Readings) -> tuple[float | None, str, bool]:
    """What this winter's heat would cost at next winter's prices.

    Returns: (money or None, why not, whether any `next_price` was given). A heater without a `next_price` keeps the
    mean price that was paid.
    """
    total, given = 0.0, False
    prices = {source.name: source.next_price for source in readings.season.heating}
    for supply in readings.heating:
        price = prices.get(supply.name)
        amount, paid = float(supply.intervals["bought"].sum()), cost_of(supply)
        if price is not None:
            given = True
            total += amount * price
        elif paid.value is None and amount > 0:
            return None, paid.reason, given
        else:
            total += paid.value or 0.0
    return total, "", given


def bills(
    readings: Readings, heaters: tuple[float, float], hold_c: float | None, moved: Sequence[Mapping[str, float]]
) -> tuple[Bill, ...]:
    """This winter and the winters that may follow.

    Args:
        readings: Prices, now and next, of season.toml.
        heaters: (heat [kWh], money) of this winter's heaters.
        hold_c: What was held, None where unknown.
        moved: Price of a degree: away_k [K], by which every date's hold moves; kwh and, for the band, low and high.

    A winter 2 K colder at the same hold needs what this winter would have needed with every hold 2 K higher. Where a
    next price is given, `lower hold as paid` is what a lower hold would have cost this winter; the others are at that
    price.
    """
    kwh, cost = heaters
    found = [Bill(what="as it was", kwh=kwh, cost=cost, hold_c=hold_c)]
    money, _, given = next_money(readings)
    if money is None or kwh <= 0:
        return tuple(found)
    if given:
        found.append(Bill(what="next prices", kwh=kwh, cost=money, hold_c=hold_c))
    wanted = [("colder", COLDER_K, money), ("lower hold", -COLDER_K, money)]
    if given:
        wanted.insert(0, ("lower hold as paid", -COLDER_K, cost))
    for what, change, priced in wanted:
        row = next((row for row in moved if row["away_k"] == change), None)
        if row is None or hold_c is None:
            continue
        share = row["kwh"] / kwh
        held = hold_c if what == "colder" else hold_c + change
        low, high = (priced * row[end] / kwh for end in ("low", "high"))
        bill = Bill(what=what, kwh=row["kwh"], cost=priced * share, hold_c=held, low=low, high=high)
        found.insert(1 if what == "lower hold as paid" else len(found), bill)
    return tuple(found)
