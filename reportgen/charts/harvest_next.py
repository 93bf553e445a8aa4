"""Below the charts of the harvest: next winter's bill, how long a delivery lasts, CO₂."""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.charts.types import Note, Table
from reportgen.counsel.bills import bills_of
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_next import lasts
from reportgen.measures.harvest_co2 import published
from reportgen.measures.harvest_next import COLDER_K, Bill, Lasting
from reportgen.wording import NBSP, between, number


def ahead(facts: Facts) -> list[Table | Note]:
    """All of it that the season's data can answer."""
    found: list[Table | Note | None] = [_bills(facts), _deliveries(facts), _co2(facts)]
    return [block for block in found if block is not None]


def _bills(facts: Facts) -> Table | None:
    found, w, kg = bills_of(facts), facts.w, facts.r.harvest.kg
    if len(found) < 2:
        return None
    two = w.diff(COLDER_K, 1 if w.us else 0)
    names = {
        "as it was": "this winter, as it was paid",
        "next prices": "the same heat at next winter's price",
        "colder": f"a winter {two} colder, the same hold",
        "lower hold": f"this winter's weather, {two} less hold",
        "lower hold as paid": f"this winter, {two} less hold, as it was paid",
    }
    then = found.get("next prices", found["as it was"])
    same = {what: found["as it was"] if what in ("as it was", "lower hold as paid") else then for what in found}
    rows = [_bill_row(facts, names[bill.what], bill, kg) for bill in found.values()]
    data = pd.DataFrame(
        {
            "winter": [bill.what for bill in found.values()],
            f"hold {w.temp_unit}": [np.nan if b.hold_c is None else w.temp_value(b.hold_c) for b in found.values()],
            "kWh of heat": [bill.kwh for bill in found.values()],
            f"{w.currency} for heat": [bill.cost for bill in found.values()],
            f"{w.currency} less than at the same hold": [same[bill.what].cost - bill.cost for bill in found.values()],
        }
    )
    price = "next winter's price" if "next prices" in found else "this winter's prices; give next_price for next winter"
    return Table(
        uid="harvest_next",
        title="What next winter's heat may cost",
        subtitle=f"Money at {price} where nothing else is said; heat by the price of a degree",
        columns=("winter", "hold", "heat", "money", f"a {w.mass_unit} of this harvest"),
        rows=tuple(rows),
        data=data,
        notes=(
            f"A winter {two} colder at the same hold needs what this one would have needed at a hold {two} higher. "
            "The harvest of another winter or hold is not known.",
        ),
    )


def _bill_row(facts: Facts, name: str, bill: Bill, kg: float | None) -> tuple[str, ...]:
    w = facts.w
    hold = "—" if bill.hold_c is None else w.temp(bill.hold_c)
    band = ""
    if bill.low is not None and bill.high is not None:
        band = f" ({number(bill.low)} to {number(bill.high)})"
    each = w.money(facts.per_mass(bill.cost / kg)) if kg else "—"
    return name, hold, w.kwh(bill.kwh), w.money(bill.cost, 0) + band, each


def _deliveries(facts: Facts) -> Table | None:
    w, rows, data = facts.w, [], []
    for one, lasting in lasts(facts):
        unit = one.unit.replace("gal_us", "US gal")
        amount = f"{number(one.amount, 0 if one.amount >= 10 else 1)}{NBSP}{unit}"
        for row in lasting:
            flat = ", flat out" if row.holds is False else ""
            words = (
                f"{number(row.hours)}{NBSP}h{flat}",
                between(f"{number(row.low)}{NBSP}h", f"{number(row.high)}{NBSP}h"),
            )
            rows.append((one.name, amount, w.temp(row.outdoor_c, 0), *words))
            data.append(
                (one.name, one.amount, unit, w.temp_value(row.outdoor_c), row.hours, row.low, row.high, _holds(row))
            )
    if not rows:
        return None
    names = ["heater", "amount", "unit", f"outdoors {w.temp_unit}", "hours", "low", "high", "keeps the hold"]
    return Table(
        uid="harvest_delivery",
        title="How long a usual delivery carries the house",
        subtitle="Hours until it is empty, by the temperature outdoors, with the doubt in the heat loss",
        columns=("heater", "a delivery", "outdoors", "lasts", "by the doubt"),
        rows=tuple(rows),
        data=pd.DataFrame(data, columns=names),
        notes=(
            "Nothing but this heater is counted; sun, the bed's warmth and other heaters make it last longer. Flat "
            "out: it gives less than the house loses then, so the air falls below the hold.",
        ),
    )


def _holds(row: Lasting) -> str:
    """Whether the heater alone keeps the hold; empty where its rated power is not known."""
    return "" if row.holds is None else "yes" if row.holds else "no"


def _co2(facts: Facts) -> Note | None:
    """CO₂ by published factors for heaters without one of their own; the section's figure needs the grower's."""
    w, kg = facts.w, facts.r.harvest.kg
    said = []
    for burnt in published(facts.r.readings):
        each = f", {number(burnt.kg / kg, 1)}{NBSP}{w.mass_unit} for each {w.mass_unit} picked" if kg else ""
        grown = " The trees took as much up before." if burnt.factor.biogenic else ""
        said.append(f"{burnt.name}: {w.mass(burnt.kg, 0)} of CO₂{each} ({burnt.factor.source}).{grown}")
    own = facts.r.harvest.heat.co2_kg
    if own is not None and not said:
        each = f", {number(own / kg, 1)}{NBSP}{w.mass_unit} for each {w.mass_unit} picked" if kg else ""
        said.append(f"By the factors in season.toml: {w.mass(own, 0)} of CO₂{each}.")
    if not said:
        return None
    return Note(title="CO₂ of the heat", text=" ".join(said))
