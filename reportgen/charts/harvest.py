"""Harvest and cost: yield against heat money, supply against need, crops, bed strips, three ways to count the cost."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import pandas as pd

from reportgen.charts import harvest_tables as tables
from reportgen.charts.balance_tables import balance_table, needed_table
from reportgen.charts.build import Curve, Level, Look, Row, bars, change_marks, ranked, time_lines
from reportgen.charts.harvest_before import before_drawing
from reportgen.charts.harvest_next import ahead
from reportgen.charts.harvest_others import others
from reportgen.charts.harvest_strips import strips_drawing
from reportgen.charts.harvest_worth import worth_drawing
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_words import picked_words
from reportgen.counsel.heat_bounds import spread_by
from reportgen.counsel.said_balance import each_money
from reportgen.measures.harvest_costs import Group
from reportgen.readings.types import PRIVATE
from reportgen.review import Review
from reportgen.wording import NBSP, count, day, largest, number, of_all, span

MISSING = (
    "With a harvest book this page would show what was picked by crop, bed and week, what each kilogram of it cost "
    "in heat, and whether it fed the household. From now on write one line a picking into the harvest book: "
    "date, crop, weight."
)
ONE_SUM = (
    "Cost per weight is counted over the whole season. By the month it would mislead: what is picked late grew on the "
    "heat of the weeks before."
)
HELD_BACK = f"Harvest: {PRIVATE}"
ITS_GROWER = "What was picked stays in the house, and with it what a weight of it cost."
SCALE_KG = 0.05  # by which a crop must lead to have given the most; common practice, no source


def page(review: Review) -> Page:
    """The page, or the one note on what to log where nothing was weighed."""
    h = review.harvest
    if not h.kg:
        if "harvest" in review.readings.held_back:
            return Page(slug="harvest", headline=HELD_BACK, lead=ITS_GROWER, blocks=(), answers=False)
        why = h.reasons.get("kg") or "Nothing was picked in the season's days."
        note = Note(text=f"{why[:1].upper()}{why[1:]}. {MISSING}", kind="missing", title="Harvest and cost")
        return Page(slug="harvest", headline="Harvest: nothing weighed", lead=MISSING, blocks=(note,), answers=False)
    facts = Facts.of(review, review.counsel.grounds)
    blocks: list[Drawing | Table | Note] = [
        _running(review, facts),
        _weeks(review, facts),
        *worth_drawing(facts, review),
        *balance_table(facts),
        _crops(review, facts),
    ]
    strips = strips_drawing(review)
    before = before_drawing(review)
    blocks += [block for block in (strips, before) if block is not None]
    blocks += [*_costs(review, facts), *tables.cost_parts(facts)]
    blocks += [*needed_table(facts), *ahead(facts), others(facts), _scope(review, facts)]
    return Page(slug="harvest", headline=_headline(facts), lead=_lead(facts), blocks=tuple(blocks))


def _headline(facts: Facts) -> str:
    h = facts.r.harvest
    picked = facts.w.mass(h.kg or 0.0)
    balance, shop = facts.on.balance, _shop(facts)
    if balance.per_kg is not None and not balance.missing:
        asks = f"; the shop asks {shop}" if shop else ""
        return f"{picked} {picked_words(facts)} at {each_money(balance, facts)} per{NBSP}{facts.w.mass_unit}{asks}"
    if h.cost_per_kg is None:
        return f"{picked} picked this {facts.there.season}"
    each = facts.money_per_mass_between(h.cost_per_kg, h.cost_per_kg_low, h.cost_per_kg_high)
    return f"{picked} picked, at {each} of heat"


def _shop(facts: Facts) -> str:
    """What the shop asks for as much of the same, by weight; empty where a price is not known."""
    balance = facts.on.balance
    if balance.shop_value is None or not balance.kg or not facts.w.currency:
        return ""
    return facts.w.money(facts.per_mass(balance.shop_value / balance.kg))


def _lead(facts: Facts) -> str:
    h = facts.r.harvest
    parts = [f"{count(len(h.pickings), 'weighing')} of {count(len(h.crops), 'crop')}"]
    if h.first and h.last:
        parts[0] += f", {span(h.first, h.last)}"
    if h.share_of_household is not None:
        parts.append(f"It gave {facts.w.percent(100 * h.share_of_household)} of the vegetables the household eats")
    if h.kg_per_head is not None:
        parts.append(f"That is {facts.w.mass(h.kg_per_head)} a head")
    if h.litres_per_kg is not None:
        parts.append(f"Watering took {number(facts.per_mass(h.litres_per_kg))}{NBSP}litres a {facts.w.mass_unit}")
    return ". ".join(parts) + "."


def half_day(totals: pd.Series) -> date | None:
    """The date by which half of a running total had come; None where it stayed 0."""
    end = float(totals.iloc[-1]) if len(totals) else 0.0
    if end <= 0:
        return None
    return next(day for day, value in totals.items() if value >= end / 2)  # type: ignore[return-value]


def _running(review: Review, facts: Facts) -> Drawing:
    h = review.harvest
    totals = h.cumulative
    shares = pd.DataFrame(
        {"date": list(totals.index), "picked": (100 * totals["kg"] / totals["kg"].iloc[-1]).to_numpy()}
    )
    curves = [Curve("picked", "target", "harvest")]
    half_picked = half_day(totals["kg"])
    title = f"Half the harvest was in by {day(half_picked)}" if half_picked else "How the harvest came in"
    paid = "cost" if h.heat.cost else ("kwh" if h.heat.kwh else "")
    if paid:
        shares["heat"] = (100 * totals[paid] / totals[paid].iloc[-1]).to_numpy()
        name = "heat money" if paid == "cost" else "heat"
        curves.append(Curve("heat", "money" if paid == "cost" else "warm", name, style="dash"))
        if half_paid := half_day(totals[paid]):
            later = day(half_picked or half_paid)
            title = f"Half the {name} was spent by {day(half_paid)}, half the harvest was in by {later}"
    domain = (review.season.first_day, review.season.last_day)
    look = Look(unit="%", domain=(0, 100), x_domain=domain, marks=change_marks(review.readings))
    wide, narrow = time_lines(shares, "date", curves, look)
    table = tables.running(review)
    how = spread_by(review.readings)
    spread = (f"Part of the heat is known only as sums, which are spread over their days {how}.",)
    return Drawing(
        uid="harvest_running",
        title=title,
        subtitle="Share of the season's total so far, %: weight picked" + (" and heat paid for" if paid else ""),
        label=f"Line chart of the share of the harvest{' and of the heat' if paid else ''} so far, by date",
        description=_running_words(facts),
        wide=wide,
        narrow=narrow,
        table=table,
        shown=table.iloc[6::7],
        notes=((ONE_SUM,) if paid else ()) + (spread if h.spread else ()),
        day_slider=True,
    )


def _running_words(facts: Facts) -> str:
    h, w = facts.r.harvest, facts.w
    heat = f", {w.kwh(h.heat.kwh)} of heat" if h.heat.kwh is not None else ""
    money = f" for {w.money(h.heat.cost)}" if h.heat.cost is not None else ""
    return f"By the end {w.mass(h.kg or 0.0)} had been picked{heat}{money}."


def _weeks(review: Review, facts: Facts) -> Drawing:
    h, w = review.harvest, facts.w
    table = tables.weeks(review)
    column = f"{w.mass_unit} eaten or stored"
    need = review.season.household.vegetables_kg_per_week
    levels: tuple[Level, ...] = ()
    title = f"Something was picked in {of_all(sum(week.kg > 0 for week in h.weeks), len(h.weeks), 'week')}"
    if need is not None and h.weeks_at_half_or_more is not None:
        levels = (
            Level(value=w.mass_value(need), label="what you eat"),
            Level(value=w.mass_value(need / 2), label="half"),
        )
        title = (
            "At least half the vegetables came from the house in "
            f"{of_all(h.weeks_at_half_or_more, len(h.weeks), 'week')}"
        )
    gap = f" The longest run without a picking was {count(h.longest_gap_weeks, 'week')}." if h.longest_gap_weeks else ""
    domain = (review.season.first_day, review.season.last_day)
    wide, narrow = bars(
        table, "first day", (Curve(column, "target", "eaten"),), Look(unit=w.mass_unit, levels=levels, x_domain=domain)
    )
    return Drawing(
        uid="harvest_weeks",
        title=title,
        subtitle=f"{w.mass_unit} eaten or stored in each week, Monday to Sunday",
        label="Bar chart of what was eaten or stored from the house by week",
        description=f"{w.mass(sum(x.eaten_kg for x in h.weeks))} in {count(len(h.weeks), 'week')}.{gap}",
        wide=wide,
        narrow=narrow,
        table=table,
        day_slider=False,
    )


def _crops(review: Review, facts: Facts) -> Drawing:
    h, w = review.harvest, facts.w
    rows = tuple(Row(label=c.crop, value=w.mass_value(c.kg), words=w.picked(c.kg), token="target") for c in h.crops)
    wide, narrow = ranked(rows, Look(unit=w.mass_unit, zero=True))
    return Drawing(
        uid="harvest_crops",
        title=_most_title(facts),
        subtitle=f"{w.mass_unit} picked in the season; the table also has it per area of the crop",
        label="Bar chart of the weight picked of each crop",
        description="; ".join(f"{c.crop} {w.picked(c.kg)} in {count(c.pickings, 'picking')}" for c in h.crops) + ".",
        wide=wide,
        narrow=narrow,
        table=tables.crops(review),
        notes=tuple(_rivals(facts)),
    )


def _most_title(facts: Facts) -> str:
    """The crop that gave the most, where it leads by more than a kitchen scale's step; one crop is no most."""
    crops, w = facts.r.harvest.crops, facts.w
    names = [f"{c.crop[:1].upper()}{c.crop[1:]}" for c in crops]
    if len(crops) == 1:
        return f"{names[0]}: {w.mass(crops[0].kg)}"
    first = largest([c.kg for c in crops], SCALE_KG)
    if first is None:
        return "What each crop gave"
    return (
        f"{names[first]} gave the most: {w.percent(100 * crops[first].kg / (facts.r.harvest.kg or 1.0))} of the weight"
    )


def _rivals(facts: Facts) -> list[str]:
    """Two cultivars over the weeks in which both stood; one bed each is no trial, and the note says so."""
    return [
        f"{one.crop}: {one.cultivars[0]} gave {facts.mass_per_area(one.kg_per_m2[0])} and {one.cultivars[1]} "
        f"{facts.mass_per_area(one.kg_per_m2[1])} while both stood ({day(one.start)} to {day(one.end)}). One bed "
        "each: the beds may differ as much as the plants."
        for one in facts.r.harvest.beds.rivals
    ]


def _costs(review: Review, facts: Facts) -> list[Drawing]:
    table = tables.costs(review)
    w = facts.w
    column = f"{w.currency} per {w.mass_unit}"
    if not w.currency or table[column].isna().all():
        return []
    known, unit = table[table[column].notna()], "pound" if w.us else w.mass_unit
    rows = tuple(
        Row(label=str(name), value=float(per), words=w.money(float(per)), token="money")
        for name, per in zip(known["counted"], known[column], strict=True)
    )
    wide, narrow = ranked(rows, Look(unit=column, zero=True))
    last = known.iloc[-1]
    return [
        Drawing(
            uid="harvest_costs",
            title=f"{str(last['counted']).capitalize()}, a {unit} came to {w.money(float(last[column]))}",
            subtitle=f"{column}, {_ways(rows)}",
            label=f"Bar chart of the cost per weight, {_ways(rows)}",
            description="; ".join(f"{row.label} {row.words}" for row in rows) + f" a {w.mass_unit}.",
            wide=wide,
            narrow=narrow,
            table=table,
            notes=tuple(_cost_notes(facts)),
        )
    ]


def _ways(rows: Sequence[Row]) -> str:
    return rows[0].label if len(rows) == 1 else {2: "counted two ways"}.get(len(rows), "counted three ways")


def _cost_notes(facts: Facts) -> list[str]:
    bars_, w = facts.r.harvest.bars, facts.w
    groups: tuple[tuple[str, Group], ...] = (
        ("Appliances", "appliance"), ("Used up", "used up"), ("A year's share of", "by its years"),
    )  # fmt: skip
    notes = [" ".join(f"{name}: {'; '.join(bars_.named(group))}." for name, group in groups if bars_.named(group))]
    worked = "your hours" if bars_.hours is None else f"your {w.hours(bars_.hours)} of work"
    missing = "".join(f", what the {name} drew (no price is given)" for name in bars_.without_price)
    notes.append(f"Not in it: {worked}, the house itself{missing}, and whatever stands in no book.")
    if bars_.twice:
        notes.append(f"In two books, counted once: {'; '.join(bars_.twice)}.")
    if bars_.past:
        notes.append(f"Listed, but its years are over or not yet begun: {'; '.join(bars_.past)}.")
    return [note for note in notes if note]


def _scope(review: Review, facts: Facts) -> Note:
    h, w = review.harvest, facts.w
    lost = f" {w.mass(h.lost_kg)} marked lost is left out." if h.lost_kg else ""
    given = f" {w.mass(h.given_kg)} given away counts as picked, and not as eaten." if h.given_kg else ""
    even = ""
    if h.break_even_kg is not None:
        even = f" At your shop prices the heat alone is paid from {w.mass(h.break_even_kg)} on."
    heat = ", and all heat of that time" if facts.there.heater else ""
    words = f"Counted: everything weighed between the first and the last day of the season{heat}."
    return Note(title="What is in these figures", text=f"{words}{lost}{given}{even}")
