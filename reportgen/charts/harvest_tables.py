"""The whole tables behind the harvest page, in shown units; findings name their columns."""

from __future__ import annotations

from datetime import timedelta

import numpy as np
import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.measures.beds import Strip
from reportgen.measures.beds_bare import Bare
from reportgen.measures.harvest_costs import Part
from reportgen.units import FOOT_M, POUND_KG
from reportgen.wording import NBSP, Wording, number, shares

AREA = {False: "kg/m²", True: "lb/ft²"}
GROUND = {False: "m²", True: "ft²"}
PER_AREA = {False: 1.0, True: FOOT_M**2 / POUND_KG}  # kg/m² → lb/ft²


def _per_mass(values: pd.Series, w: Wording) -> pd.Series:
    return values * POUND_KG if w.us else values


def running(r: Results) -> pd.DataFrame:
    """Running totals by date: weight, heat, money, shop value, and cost and heat per weight so far."""
    h, w = r.harvest, Wording.of(r.season)
    totals = h.cumulative
    table = pd.DataFrame(
        {"date": list(totals.index), f"{w.mass_unit} picked": totals["kg"].map(w.mass_value).to_numpy()}
    )
    kg = totals["kg"].where(totals["kg"] > 0)
    if h.heat.kwh is not None:
        table["kWh of heat"] = totals["kwh"].to_numpy()
        table[f"kWh per {w.mass_unit} so far"] = _per_mass(totals["kwh"] / kg, w).to_numpy()
    if h.heat.cost is not None:
        table[f"{w.currency} of heat"] = totals["cost"].to_numpy()
        table[f"{w.currency} per {w.mass_unit} so far"] = _per_mass(totals["cost"] / kg, w).to_numpy()
    if h.shop_value is not None:
        table[f"{w.currency} in the shop"] = totals["value"].to_numpy()
    return table


def weeks(r: Results) -> pd.DataFrame:
    """One row an ISO week: weight picked and eaten, heat, money, and how many weeks had gone without a picking."""
    h, w = r.harvest, Wording.of(r.season)
    need = r.season.household.vegetables_kg_per_week
    table = pd.DataFrame(
        {
            "week": [week.week for week in h.weeks],
            "first day": [week.monday for week in h.weeks],
            "days": [week.days for week in h.weeks],
            f"{w.mass_unit} picked": [w.mass_value(week.kg) for week in h.weeks],
            f"{w.mass_unit} eaten or stored": [w.mass_value(week.eaten_kg) for week in h.weeks],
            "kWh of heat": [np.nan if week.kwh is None else week.kwh for week in h.weeks],
            f"{w.currency or 'money'} of heat": [np.nan if week.cost is None else week.cost for week in h.weeks],
            "weeks without a picking": _without([week.kg for week in h.weeks]),
        }
    )
    if need is not None:
        table[f"{w.mass_unit} you would eat"] = [w.mass_value(need * week.days / 7) for week in h.weeks]
        half = [week.eaten_kg >= 0.5 * need * week.days / 7 for week in h.weeks]
        table["half or more"] = ["yes" if one else "no" for one in half]
    return table


def _without(kg: list[float]) -> list[int]:
    """For every week how long the run without a picking is so far; only runs between two pickings count."""
    picked = [i for i, weight in enumerate(kg) if weight > 0]
    out = [0] * len(kg)
    for i in range(picked[0] + 1, picked[-1]) if picked else ():
        out[i] = 0 if kg[i] > 0 else out[i - 1] + 1
    return out


def crops(r: Results) -> pd.DataFrame:
    """One row a crop."""
    h, w = r.harvest, Wording.of(r.season)
    return pd.DataFrame(
        {
            "crop": [c.crop for c in h.crops],
            f"{w.mass_unit} picked": [w.mass_value(c.kg) for c in h.crops],
            AREA[w.us]: [np.nan if c.kg_per_m2 is None else c.kg_per_m2 * PER_AREA[w.us] for c in h.crops],
            "pickings": [c.pickings for c in h.crops],
            "first picking": [c.first for c in h.crops],
            "last picking": [c.last for c in h.crops],
            f"{w.mass_unit} lost": [w.mass_value(c.lost_kg) for c in h.crops],
            f"{w.currency or 'money'} in the shop": [np.nan if c.shop_value is None else c.shop_value for c in h.crops],
        }
    )


def strips(r: Results) -> pd.DataFrame:
    """One row a planting."""
    w = Wording.of(r.season)
    said = {True: "yes", False: "no", None: ""}
    found = r.harvest.beds.strips
    bare = [_bare_after(r, strip) for strip in found]
    return pd.DataFrame(
        {
            "bed": [s.bed for s in found],
            "crop": [s.crop for s in found],
            "cultivar": [s.cultivar or "" for s in found],
            "sown": [s.sown for s in found],
            "in the bed from": [s.start for s in found],
            "to": [s.end for s in found],
            "first picking": [s.first_picked for s in found],
            "last picking": [s.last_picked for s in found],
            "days from sowing to first picking": [
                np.nan if s.days_to_first is None else s.days_to_first for s in found
            ],
            f"{w.mass_unit} picked": [np.nan if s.kg is None else w.mass_value(s.kg) for s in found],
            f"{AREA[w.us]} and week": [
                np.nan if s.kg_per_m2_week is None else s.kg_per_m2_week * PER_AREA[w.us] for s in found
            ],
            "picked before the dark weeks": [said[s.before_dark] for s in found],
            "lost": [np.nan if s.lost is None else s.lost for s in found],
            "of plants": [np.nan if s.plants is None else s.plants for s in found],
            "lost on": [s.lost_on for s in found],
            "cause": [s.cause for s in found],
            f"{GROUND[w.us]} of ground": [_ground(s.area_m2, w) for s in found],
            "weeks bare afterwards": [np.nan if b is None else b.weeks for b in bare],
            f"{GROUND[w.us]} bare then": [np.nan if b is None else _ground(b.m2, w) for b in bare],
            f"{GROUND[w.us]} of its bed": [np.nan if b is None else _ground(b.of_m2, w) for b in bare],
        }
    )


def _ground(m2: float | None, w: Wording) -> float:
    return np.nan if m2 is None else m2 / FOOT_M**2 if w.us else m2


def _bare_after(r: Results, strip: Strip) -> Bare | None:
    """How that ground lay bare from the day after a planting was cleared; None where it did not."""
    spans = [one for one in r.harvest.beds.bare if one.bed == strip.bed and one.after == strip.crop]
    return next((one for one in spans if one.start == strip.end + timedelta(days=1)), None)


def costs(r: Results) -> pd.DataFrame:
    """Three rows: heat alone, what was used up, everything by its years."""
    bars, w = r.harvest.bars, Wording.of(r.season)
    names = ("heat alone", "with everything used up", "with a year's share of what lasts")
    amounts = (bars.heat, bars.running, bars.everything)
    per_kg = (bars.heat_per_kg, bars.running_per_kg, bars.everything_per_kg)
    return pd.DataFrame(
        {
            "counted": list(names),
            f"{w.currency} this winter": [np.nan if a is None else a for a in amounts],
            f"{w.currency} per {w.mass_unit}": [
                np.nan if p is None else p * (POUND_KG if w.us else 1.0) for p in per_kg
            ],
        }
    )


def cost_parts(facts: Facts) -> list[Table]:
    """Every line of what the winter cost; the printed lines add up to the printed sum."""
    bars, w = facts.r.harvest.bars, facts.w
    if not w.currency or len(bars.parts) < 2 or (bars.running is None and bars.everything is None):
        return []
    amounts = [part.amount for part in bars.parts]
    rows = [
        (part.what, _counted(part, w), w.money(printed))
        for part, printed in zip(bars.parts, shares(amounts, 2), strict=True)
    ]
    table = pd.DataFrame(
        {
            "what": [part.what for part in bars.parts],
            "counted": [part.group for part in bars.parts],
            f"{w.currency} paid": [part.amount if part.paid is None else part.paid for part in bars.parts],
            "years": [np.nan if part.years is None else part.years for part in bars.parts],
            f"{w.currency} this winter": amounts,
        }
    )
    return [
        Table(
            uid="harvest_parts",
            title=f"This winter cost {w.money(sum(amounts))} in all",
            subtitle="What lasts counts with its price divided by its years",
            columns=("what", "how it is counted", "this winter"),
            rows=(*rows, ("in all", "", w.money(sum(amounts)))),
            data=table,
        )
    ]


def _counted(part: Part, w: Wording) -> str:
    if part.paid is None or part.years is None:
        return {"heat": "heat", "appliance": "what it drew", "used up": "used up"}.get(part.group, part.group)
    return f"{w.money(part.paid)} over {number(part.years, 0 if part.years == round(part.years) else 1)}{NBSP}years"
