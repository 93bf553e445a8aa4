"""Findings that look ahead: what the last two degrees cost, next winter's bill, how long a delivery lasts."""

from __future__ import annotations

import math

from reportgen.counsel import cautions
from reportgen.counsel.bills import bills_of
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_words import harvest_finding
from reportgen.counsel.types import Finding, Source
from reportgen.measures.harvest_next import COLDER_K, Delivery, Lasting, lasting, usual_deliveries
from reportgen.wording import NBSP, between, count, number

OUTDOOR_C = (-15.0, -10.0, -5.0, 0.0, 5.0)  # rows of the table


def last_two_degrees(facts: Facts) -> Finding | None:
    """The money of the last two degrees of hold, as it was paid; silent where no price of a degree can be told."""
    found, w = bills_of(facts), facts.w
    before, lower = found.get("as it was"), found.get("lower hold as paid", found.get("lower hold"))
    kg = facts.r.harvest.kg
    if before is None or lower is None or before.hold_c is None or lower.hold_c is None or not kg:
        return None
    saved = before.cost - lower.cost
    band = ""
    if lower.low is not None and lower.high is not None:
        least, most = sorted((before.cost - lower.high, before.cost - lower.low))
        band = (
            f" Between {w.money(least, 0)} and {w.money(most, 0)}: there the truth lay in nine of ten simulated houses."
        )
    return harvest_finding(
        "last-two-degrees",
        claim=f"Of what each {w.mass_unit} cost in heat, about {w.money(facts.per_mass(saved / kg))} went on the "
        f"last {w.diff(COLDER_K, 1 if w.us else 0)} of hold.",
        evidence=f"A hold of {w.temp(lower.hold_c)} in place of {w.temp(before.hold_c)} in this "
        f"{facts.there.season}'s weather: "
        f"{w.kwh(lower.kwh)} in place of {w.kwh(before.kwh)}, about {w.money(saved, 0)} less for {w.mass(kg)}.{band}",
        how_sure="Fairly sure of the heat; how the crops would have grown at the lower hold is not known.",
        next_step=f"Hold {w.temp(lower.hold_c)} for the hardy crops, and keep a row of the tender ones under fleece.",
        caution=cautions.heating(facts.fuels) or None,
        figure=w.money(facts.per_mass(saved / kg)),
        figure_note=f"a {w.mass_unit}, for the last {w.diff(COLDER_K, 1 if w.us else 0)}",
        token="money",
        anchor="harvest_next",
        stake="money",
        sure="fairly sure",
        weight=saved,
        sources=(
            Source(
                csv="harvest_next.csv",
                how="cell",
                column=f"{w.currency} less than at the same hold",
                rows=f"winter == '{lower.what}'",
                value=saved,
            ),
        ),
    )


def next_bill(facts: Facts) -> Finding | None:
    """This winter's heat at next winter's price; silent where no next price is given."""
    found, w = bills_of(facts), facts.w
    then, colder = found.get("next prices"), found.get("colder")
    was = found.get("as it was")
    if then is None or was is None or was.cost <= 0:
        return None
    change = then.cost - was.cost
    word = "more" if change >= 0 else "less"
    cold = ""
    if colder is not None:
        cold = f" In a winter {w.diff(COLDER_K, 1 if w.us else 0)} colder it would be about {w.money(colder.cost, 0)}."
    return harvest_finding(
        "next-winters-bill",
        claim=f"At next winter's price the same heat would cost {w.money(then.cost, 0)}, {w.money(abs(change), 0)} "
        f"{word} than this {facts.there.season}.",
        evidence=f"{w.kwh(then.kwh)} of heat, bought as this {facts.there.season}, "
        f"at the next_price of season.toml.{cold}",
        how_sure="Sure as arithmetic; the weather and the price will be what they will be.",
        next_step="Put the larger sum by before the season, or lower the hold in the dark weeks.",
        caution=cautions.heating(facts.fuels) or None,
        figure=w.money(then.cost, 0),
        figure_note="at next winter's price",
        token="money",
        anchor="harvest_next",
        stake="money",
        weight=abs(change),
        sources=(
            Source(
                csv="harvest_next.csv",
                how="cell",
                column=f"{w.currency} for heat",
                rows="winter == 'next prices'",
                value=then.cost,
            ),
        ),
    )


def lasts(facts: Facts) -> list[tuple[Delivery, list[Lasting]]]:
    """For each heater fed by bottle, can or sack: how long a usual delivery carries the house; empty if not known."""
    loss = [facts.number(f"heat.loss_w_per_k.{key}") for key in ("estimate", "low", "high")]
    hold = facts.number("heat.hold_found_c")
    known = [value for value in loss if value is not None and value > 0]
    if len(known) < 3 or hold is None:
        return []
    three = (known[0], known[1], known[2])
    return [(one, lasting(one.kwh, three, hold, OUTDOOR_C)) for one in usual_deliveries(facts.r.readings)]


def delivery_lasts(facts: Facts) -> Finding | None:
    """How long a usual delivery lasts in hard frost; silent without deliveries or without a heat loss."""
    told = [(one, rows[0]) for one, rows in lasts(facts) if rows]
    if not told:
        return None
    one, row = min(told, key=lambda pair: (pair[1].hours, pair[0].name))
    w = facts.w
    out = w.temp(row.outdoor_c, 0)
    amount = f"{number(one.amount, 0 if one.amount >= 10 else 1)}{NBSP}{one.unit.replace('gal_us', 'US gal')}"
    return harvest_finding(
        "delivery-lasts",
        claim=f"With {out} outside, a usual delivery for the {one.name} ({amount}) carries the house for about "
        f"{_long(row.hours)}.",
        evidence=f"{w.kwh(one.kwh)} of heat against what the house loses; {_from_to(row.low, row.high)} by "
        "the doubt in that loss. Sun and the bed's own warmth make it longer.",
        how_sure="A hint: it takes the heat loss found over the winter's nights as steady.",
        next_step="Have the next delivery in the house before that long a frost is forecast.",
        caution=cautions.heating({one.fuel}) or None,
        figure=_long(row.hours),
        figure_note=f"a delivery at {out}",
        token="warm",
        anchor="harvest_delivery",
        stake="crop at risk" if row.hours < 24 else "record",
        sure="a hint",
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


def _from_to(low: float, high: float) -> str:
    """38 to 52 h, 2 to 3 days: both ends in the unit of the longer."""
    if high < 48 or not math.isfinite(high):
        return between(f"{number(low)}{NBSP}h", f"{number(high)}{NBSP}h")
    return between(f"{number(low / 24, 1)}{NBSP}days", f"{number(high / 24, 1)}{NBSP}days")


def _long(hours: float) -> str:
    """18 h, or 3 days from 48 hours on."""
    return f"{number(hours)}{NBSP}h" if hours < 48 or not math.isfinite(hours) else count(hours / 24, "day")
