"""Tables of the heat page, in shown units."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.brief import heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_bounds import source_notes
from reportgen.counsel.heat_words import loss_unit, loss_value
from reportgen.counsel.hold_crops import kept_alive, rooms
from reportgen.measures.heat_types import Heat, Source
from reportgen.measures.heat_types import HoldPrice as HoldPrice
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, month, number, shares

Risks = dict[float, tuple[list[str], list[str]]]


def price(review: Review, facts: Facts) -> pd.DataFrame:
    """Every hold: heat with its range, money, which crops it would still have kept."""
    w, risks = facts.w, at_risk(facts)
    rows = []
    for row in review.heat.price_of_hold:
        safe, lost = risks.get(row.hold_c, ([], []))
        out: dict[str, Any] = {
            f"hold {w.temp_unit}": round(w.temp_value(row.hold_c), 1),
            "kWh": round(row.kwh, 1),
            "kWh low": row.low if row.low is None else round(row.low, 1),
            "kWh high": row.high if row.high is None else round(row.high, 1),
        }
        if row.cost is not None:
            out[w.currency] = round(row.cost, 2)
        out["within what was tested"] = "yes" if row.tested else "no"
        if safe or lost:
            out["would have stood it"] = ", ".join(safe) or "none"
            out["at risk"] = ", ".join(lost) or "none"
        rows.append(out)
    return pd.DataFrame(rows)


def at_risk(facts: Facts) -> Risks:
    """For each hold that is priced: crops that would have stood it, and those at risk; empty where none can be told."""
    held = facts.r.heat.hold_found_c
    found = rooms(facts) if held is not None else {}
    if held is None or not found:
        return {}
    return {row.hold_c: kept_alive(found, held - row.hold_c) for row in facts.r.heat.price_of_hold}


def months(review: Review) -> pd.DataFrame:
    """Hours recorded, hours and degree-hours short of the aim, by month."""
    w, table = Wording.of(review.season), review.heat.months
    if table is None:
        return pd.DataFrame()
    return pd.DataFrame(
        {
            "month": [month(m) for m in table.index],
            "hours": table["hours"].to_numpy(),
            "hours below the aim": table["below_h"].round(1).to_numpy(),
            f"degree-hours short {w.diff_unit} h": table["degree_hours"].map(w.diff_value).round(1).to_numpy(),
        }
    )


def weeks(review: Review) -> pd.DataFrame:
    """kWh by week and source, money of the heaters."""
    w, table = Wording.of(review.season), review.heat.weeks
    if table is None:
        return pd.DataFrame()
    names = {name: f"{name} kWh" for name in table if name not in ("cost", "of sums")}
    out = table.rename(columns=names | {"of sums": "of it spread kWh"}).round(2)
    if review.heat.cost is None:
        out = out.drop(columns="cost")
    out = out.rename(columns={"cost": w.currency})
    return out.reset_index(names="week")


def needed(review: Review, kept: pd.DataFrame) -> pd.DataFrame:
    """The nights with their heat."""
    w = Wording.of(review.season)
    return pd.DataFrame(
        {
            "night": list(kept.index),
            f"inside {w.temp_unit}": kept["in_c"].map(w.temp_value).round(1).to_numpy(),
            f"outdoors {w.temp_unit}": kept["out_c"].map(w.temp_value).round(1).to_numpy(),
            f"warmer by {w.diff_unit}": kept["lift"].map(w.diff_value).round(1).to_numpy(),
            "heaters W": kept["heaters_w"].round().to_numpy(),
            "appliances W": kept["appliances_w"].round().to_numpy(),
        }
    )


def by_month_and_hour(hours: pd.Series) -> pd.DataFrame:
    """Mean heater power [W] of each hour of the day by month; a dash where nothing is known."""
    at = pd.DatetimeIndex(hours.index)
    table = hours.groupby([at.year, at.month, at.hour]).mean().unstack()
    out = table.round().map(lambda value: "–" if value != value else f"{value:.0f}")
    out.insert(0, "month", [month(pd.Timestamp(year=y, month=m, day=1)) for y, m in table.index])
    return out.reset_index(drop=True).rename(columns={hour: f"{hour}{NBSP}h" for hour in range(24)})


def loss(review: Review, facts: Facts) -> Table:
    """Heat loss found beside what the cover lets expect."""
    h, w = review.heat, facts.w
    found, unit = h.loss_w_per_k, loss_unit(w)
    several = len(h.loss_by_state) > 1
    rows, data = [], []
    for state in h.loss_by_state if several else ():
        name = f"{state.state or 'with none of these'}{', as it is now' if state.present else ''}"
        known_band = state.w_per_k.estimate == state.w_per_k.estimate
        told = number(loss_value(w, state.w_per_k.estimate)) if known_band else "–"
        few = f"only {count(state.nights, 'night')}" if state.nights else "no night heated so long"
        span = _span(w, state.w_per_k.low, state.w_per_k.high) if known_band else few
        rows.append((name, told, span))
        ends = {"low": state.w_per_k.low, "high": state.w_per_k.high}
        data.append({"figure": name, unit: state.w_per_k.estimate} | ends)
    if not several:
        rows = [("found from the nights", number(loss_value(w, found.estimate)), _span(w, found.low, found.high))]
        data = [{"figure": "found", unit: found.estimate, "low": found.low, "high": found.high}]
    what = "cover and air changes" if h.loss_with_air else "cover alone (no air changes given)"
    if h.loss_expected_w_per_k is not None:
        rows.append((f"expected from {what}", number(loss_value(w, h.loss_expected_w_per_k)), "–"))
        data.append({"figure": f"expected from {what}", unit: h.loss_expected_w_per_k})
    frame = pd.DataFrame(data)
    for name in (unit, "low", "high"):
        if name in frame:
            frame[name] = frame[name].map(lambda value: loss_value(w, value)).round(1)
    return Table(
        uid="heat_loss",
        title=f"Each degree warmer than outdoors takes about {number(loss_value(w, found.estimate))}{NBSP}watts"
        + (", as the house is now" if several else ""),
        subtitle="From heated nights, by how cover and vents stood" if several else "From heated nights",
        columns=("heat loss", unit, "between"),
        rows=tuple(rows),
        data=frame,
        notes=(
            f"{count(h.loss_nights, 'night')} with heat for 7 of 10 hours. Of ten such spans on simulated houses about "
            "nine held the truth; what went into the bed and the frame is taken out.",
            *(("One row for each way in which cover and vents stood, by the diary.",) if several else ()),
        ),
    )


def _span(w: Wording, low: float, high: float) -> str:
    return f"{number(loss_value(w, low))} to {number(loss_value(w, high))}"


def sources(review: Review, facts: Facts) -> Table:
    """What each heater and appliance gave, what was used of what was bought, what it cost; sums where they are."""
    h, w = review.heat, facts.w
    rows = [_source_row(w, s, *printed) for s, printed in zip(h.sources, _printed(h), strict=True)]
    data: list[dict[str, Any]] = [
        {
            "source": s.name,
            "kWh": s.kwh,
            "cost": s.cost,
            "hours flat out": s.hours_flat_out,
            f"water set free {w.mass_unit}": None if s.water_kg is None else w.mass_value(s.water_kg),
        }
        for s in h.sources
    ]
    if len(h.sources) > 1 and h.kwh is not None:
        rows.append(("all heaters", "", w.kwh(h.kwh), "", _money(w, h.cost), ""))
    for a in h.appliances:
        rows.append((a.name, f"{a.kind}, heats too", w.kwh(a.kwh), w.kwh(a.kwh, 1), _money(w, a.cost), "–"))
        data.append({"source": a.name, "kWh": a.kwh, "cost": a.cost})
    best = max(h.sources, key=lambda s: s.kwh or 0.0)
    share = f"{w.percent(100 * (best.kwh or 0.0) / h.kwh)} of the heat" if h.kwh else "what is known of the heat"
    return Table(
        uid="heat_sources",
        title=f"The {heater(best.name)} gave {share}",
        subtitle="Heat given to the house over the season, what was used for it, and hours at full power",
        columns=("source", "kind", "heat", "used", "cost", "flat out"),
        rows=tuple(rows),
        data=pd.DataFrame(data).astype({f"water set free {w.mass_unit}": float}),
        notes=tuple(_source_notes(facts)),
    )


def _printed(h: Heat) -> list[tuple[float | None, float | None]]:
    """kWh and money of each source as printed: they add up to the sums printed below them and in the headline."""
    kwh = [s.kwh for s in h.sources]
    cost = [s.cost for s in h.sources]
    return list(zip(_adding_up(kwh, 0), _adding_up(cost, 2), strict=True))


def _adding_up(values: Sequence[float | None], digits: int) -> list[float | None]:
    known = iter(shares([value for value in values if value is not None], digits))
    return [None if value is None else next(known) for value in values]


def _source_row(w: Wording, s: Source, kwh: float | None, cost: float | None) -> tuple[str, ...]:
    return (
        s.name,
        f"{s.fuel.replace('_', ' ')}{f', {s.basis} heat value' if s.basis else ''}",
        "–" if kwh is None else w.kwh(kwh),
        f"{number(s.bought, 1)}{NBSP}{s.bought_unit.replace('gal_us', 'US gal')}",
        _money(w, cost),
        "–" if s.hours_flat_out is None else w.hours(s.hours_flat_out),
    )


def _money(w: Wording, cost: float | None) -> str:
    return "–" if cost is None else w.money(cost)


def _source_notes(facts: Facts) -> list[str]:
    h = facts.r.heat
    notes = ["Heat is what reaches the house; money and carbon dioxide follow from what was used."]
    notes += source_notes(facts)
    if h.co2_kg is None and h.reasons.get("co2_kg"):
        notes.append(f"No carbon dioxide figure: {h.reasons['co2_kg']}.")
    if h.cost is None and h.reasons.get("cost"):
        notes.append(f"No cost in all: {h.reasons['cost']}.")
    return notes
