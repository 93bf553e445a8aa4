"""How long a delivery lasts in hard frost."""

from __future__ import annotations

import math

from reportgen.counsel import cautions
from reportgen.counsel.brief import heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.measures.harvest_next import Delivery, Lasting, lasting, usual_deliveries
from reportgen.wording import NBSP, between, count, number

OUTDOOR_C = (-15.0, -10.0, -5.0, 0.0, 5.0)  # rows of the table


def lasts(facts: Facts) -> list[tuple[Delivery, list[Lasting]]]:
    """For each heater fed by bottle, can or sack: how long a usual delivery carries the house; empty if not known."""
    loss = [facts.number(f"heat.loss_w_per_k.{key}") for key in ("estimate", "low", "high")]
    hold = facts.number("heat.hold_found_c")
    known = [value for value in loss if value is not None and value > 0]
    if len(known) < 3 or hold is None:
        return []
    three = (known[0], known[1], known[2])
    return [(one, lasting(one.kwh, three, hold, OUTDOOR_C, one.most_w)) for one in usual_deliveries(facts.r.readings)]


def delivery_lasts(facts: Facts) -> Said | None:
    """How long a usual delivery lasts in hard frost; silent without deliveries or without a heat loss."""
    told = [(one, rows[0]) for one, rows in lasts(facts) if rows]
    if not told:
        return None
    one, row = min(told, key=lambda pair: (pair[1].hours, pair[0].name))
    w = facts.w
    out = w.temp(row.outdoor_c, 0)
    amount = f"{number(one.amount, 0 if one.amount >= 10 else 1)}{NBSP}{one.unit.replace('gal_us', 'US gal')}"
    weak = row.holds is False
    return Said(
        claim=f"With {out} outside, the {heater(one.name)} gives less than the house loses: flat out, a usual delivery "
        f"({amount}) lasts about {_long(row.hours)}, and the house cools all the same."
        if weak
        else f"With {out} outside, a usual delivery for the {heater(one.name)} ({amount}) carries the house for about "
        f"{_long(row.hours)}.",
        evidence=_against(facts, one, row),
        how_sure="A hint: it takes the heat loss found over the winter's nights as steady.",
        next_step=_next_step(facts, one, weak=weak),
        caution=cautions.heating({one.fuel}) or None,
        figure=_long(row.hours),
        figure_note=f"a delivery at {out}",
        token="warm",
        about=one.name,
        stake="crop at risk" if row.hours < 24 or weak else "record",
        weight=1.0 / max(row.hours, 0.1),
        sources=(
            Source(
                csv="harvest_delivery.csv",
                how="min",
                column="hours",
                value=row.hours,
            ),
        ),
    )


def _next_step(facts: Facts, one: Delivery, *, weak: bool) -> str:
    """Never more of what leaves its fumes in the house."""
    nights = f"For nights that the {heater(one.name)} cannot hold"
    if any(source.name == one.name and source.vented is False for source in facts.r.season.heating):
        return f"{nights} have electric heat, or a heater with a flue, or grow hardy crops alone."
    if weak:
        return f"{nights} have a second source of heat, or hardy crops alone, and the next delivery at hand."
    return "Have the next delivery at hand before a frost is forecast that outlasts the one in use."


def _against(facts: Facts, one: Delivery, row: Lasting) -> str:
    """The heat of a delivery against what the house loses; what the heater gives where that is less."""
    loses = f"{number(round(row.needed_w, -1))}{NBSP}W"
    if row.holds is False and one.most_w is not None:
        band = "" if row.high <= row.hours * 1.005 else f" {_from_to(row.low, row.high)} by the doubt in that loss."
        return (
            f"{facts.w.kwh(one.kwh)} of heat; the house loses about {loses} then at the hold, the heater gives "
            f"{number(one.most_w)}{NBSP}W at most.{band} Sun and the bed's own warmth are not counted."
        )
    unknown = "" if row.holds else " Whether the heater can give that much is not known: rated_power_w is not given."
    return (
        f"{facts.w.kwh(one.kwh)} of heat against the {loses} the house loses then; {_from_to(row.low, row.high)} by "
        f"the doubt in that loss.{unknown} Sun and the bed's own warmth make it longer."
    )


def _from_to(low: float, high: float) -> str:
    """38 to 52 h, 2 to 3 days: both ends in the unit of the longer."""
    if high < 48 or not math.isfinite(high):
        return between(f"{number(low)}{NBSP}h", f"{number(high)}{NBSP}h")
    return between(f"{number(low / 24, 1)}{NBSP}days", f"{number(high / 24, 1)}{NBSP}days")


def _long(hours: float) -> str:
    """18 h, or 3 days from 48 hours on."""
    return f"{number(hours)}{NBSP}h" if hours < 48 or not math.isfinite(hours) else count(hours / 24, "day")
