"""The heat page: what a degree costs, whether the aim was kept, the weeks, the heater's line, its hours, sources."""

from __future__ import annotations

from reportgen.charts import heat_tables as tables
from reportgen.charts.build import Look, Row, ranked
from reportgen.charts.heat_house import loss_block, needed_drawing
from reportgen.charts.heat_use import hours_drawing, months_drawing, weeks_drawing
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_bounds import season_heat, season_money, unknown
from reportgen.counsel.heat_words import hold_words, known
from reportgen.counsel.whole import of_the_time
from reportgen.measures.degree import Degree, degree
from reportgen.review import Review

MISSING = (
    "With the heater's use this page would show what each degree of warmth cost, whether the aim was kept, what the "
    "house loses and how big a heater it needs. Next winter put a plug-in meter with a log on the heater, or write its "
    "meter down once a week, and name it in season.toml."
)
UNHEATED = (
    "No heater is listed in season.toml. Next winter, if you heat, name the heater under [[heating]] with its meter, "
    "its logger or its bills; a house without heat has nothing to tell here."
)


def page(review: Review) -> Page:
    """The page, or the note on what to log where neither heat nor an aim is known."""
    facts = Facts.of(review)
    h = review.heat
    blocks: list[Drawing | Table | Note] = [
        *_price(review, facts),
        *months_drawing(review, facts),
        *weeks_drawing(review, facts),
    ]
    blocks += [
        *loss_block(review, facts),
        *needed_drawing(review, facts),
        *hours_drawing(review),
        *_sources(review, facts),
    ]
    if not blocks or (h.kwh is None and not h.price_of_hold and not known(h.share_at_or_above_hold)):
        missing, word = (MISSING, "not logged") if facts.there.heater else (UNHEATED, "no heater listed")
        note = Note(title="Heat", text=missing, kind="missing")
        return Page(slug="heat", headline=f"Heat: {word}", lead=missing, blocks=(note,), answers=False)
    if h.kwh is None:
        blocks.append(
            Note(title="What is missing", text=MISSING, kind="missing")
            if facts.there.heater
            else Note(title="No heater", text=UNHEATED)
        )
    if review.season.heating:
        blocks.append(Note(title="Before you alter a heater", text=cautions.heating(facts.fuels), kind="caution"))
    return Page(slug="heat", headline=_headline(facts), lead=_lead(facts), blocks=tuple(blocks))


def _headline(facts: Facts) -> str:
    h, w = facts.r.heat, facts.w
    if h.kwh is None:
        return "What the heat was is not known" if facts.there.heater else _unheated(facts)
    money = f" for {season_money(facts, h.cost)}" if h.cost is not None else ""
    share = h.share_at_or_above_hold
    time = of_the_time(facts.r.frost.hours_recorded, facts.r.season.hours)
    kept = f", and the aim was kept {w.percent(100 * share.estimate)} {time}" if known(share) else ""
    return f"{season_heat(facts)} of heat{money}{kept}"


def _unheated(facts: Facts) -> str:
    share = facts.r.heat.share_at_or_above_hold
    if not known(share):
        return "No heater is listed"
    return f"No heater is listed; the aim was kept {facts.w.percent(100 * share.estimate)} of the time"


def _lead(facts: Facts) -> str:
    h, w = facts.r.heat, facts.w
    parts = []
    if not_known := unknown(facts):
        parts.append(not_known)
    if h.holds:
        parts.append(f"Aimed for: {hold_words(facts)}")
    if h.hold_found_c is not None:
        parts.append(f"In heated nights the thermostat kept about {w.temp(h.hold_found_c)}")
    if h.dark_weeks.cost is not None and h.cost and h.dark_weeks.cost < 0.995 * h.cost:
        share = w.percent(100 * h.dark_weeks.cost / h.cost)
        picked = facts.r.harvest.kg
        beside = h.dark_weeks.kg
        yielded = (
            f" and gave {w.percent(100 * beside / picked)} of the harvest" if picked and beside is not None else ""
        )
        parts.append(f"The days under ten hours of daylight took {share} of the money{yielded}")
    if h.co2_kg is not None:
        parts.append(f"By the factors you gave the heat set {w.mass(h.co2_kg, 0)} of carbon dioxide free")
    return ". ".join(parts) + "." if parts else "What the season's readings tell of its heat."


def _price(review: Review, facts: Facts) -> list[Drawing | Table | Note]:
    h, w = review.heat, facts.w
    if not h.price_of_hold or h.basis is None:
        why = h.reasons.get("price_of_hold", "")
        words = f"What another hold would have cost cannot be told: {why}."
        return [Note(title="The price of a degree", text=words)] if review.season.heating and why else []
    money = all(row.cost is not None for row in h.price_of_hold)
    rows = tuple(_price_row(row, facts, money) for row in h.price_of_hold if _near(facts, row.hold_c))
    unit = w.currency if money else "kWh"
    wide, narrow = ranked(rows, Look(unit=unit, zero=True))
    one = degree(h, w.us)
    table = tables.price(review)
    return [
        Drawing(
            uid="heat_price",
            title=_price_title(facts, one, money),
            subtitle=f"{unit} of heat this {facts.there.season} at other holds, same outdoor air; pale: beyond what "
            "was tested",
            label="Bar chart of what the season's heat would have cost at other holds",
            description="; ".join(f"{row.label} {row.words}" for row in rows) + ".",
            wide=wide,
            narrow=narrow,
            table=table,
            notes=tuple(_price_notes(facts)),
        )
    ]


def _near(facts: Facts, hold_c: float) -> bool:
    """Five rows below and above are drawn; the table has all."""
    middle = facts.r.heat.hold_found_c
    return middle is None or abs(hold_c - middle) <= (6.2 if facts.w.us else 5.5)


def _price_row(row: tables.HoldPrice, facts: Facts, money: bool) -> Row:
    w = facts.w
    factor = (row.cost or 0.0) / row.kwh if money and row.kwh > 0 else 1.0
    value = row.cost if money and row.cost is not None else row.kwh
    return Row(
        label=f"hold {w.temp(row.hold_c, 0)}",
        value=value,
        words=w.money(value, 0) if money else w.kwh(value),
        low=row.low * factor if row.low is not None else float("nan"),
        high=row.high * factor if row.high is not None else float("nan"),
        token="money" if money else "warm",
        pale=not row.tested,
    )


def _price_title(facts: Facts, one: Degree | None, money: bool) -> str:
    w = facts.w
    if one is None:
        return "What cover and air let expect of other holds; no heat was logged to test it"
    more = w.money(one.cost_more or 0.0, 0) if money else w.kwh(one.kwh_more)
    less = w.money(one.cost_less or 0.0, 0) if money else w.kwh(one.kwh_less)
    step = w.diff(one.step_k, 0)
    return f"{step} more hold: about {more} more. {step} less: about {less} less"


def _price_notes(facts: Facts) -> list[str]:
    h, w = facts.r.heat, facts.w
    basis = h.basis
    if basis is None:
        return []
    if basis.kind == "expectation":
        return ["Worked out from the cover's heat loss and the hours of cold alone; sun and soil would make it less."]
    notes = []
    if basis.balance_c is not None:
        notes.append(
            f"Above {w.temp(basis.balance_c)} outdoors sun and soil alone kept the hold of "
            f"{w.temp(h.hold_found_c or 0.0)}."
        )
    if basis.explained is not None:
        notes.append(
            f"The cold outdoors explains {w.percent(100 * max(basis.explained, 0.0))} of how the heat went up and down."
        )
    if h.kwh_high is not None and h.kwh:
        notes.append(
            f"Part of the {facts.there.season}'s heat is not known; the fine lines reach "
            f"{w.percent(100 * (h.kwh_high / h.kwh - 1))} "
            "higher for it."
        )
    if h.change_span is not None:
        notes.append("The winter run again by the hour with the thermostat moved, at most at the heater's own power.")
    elif any((s.hours_flat_out or 0.0) >= 1 for s in h.sources):
        notes.append("The heater ran flat out at times, so a much lower hold is priced too high, by up to a quarter.")
    notes.append(
        "Fine lines: where 9 in 10 of the estimates lay on simulated houses with known truth. As a check from outside, "
        "a two-tunnel trial held at 0.6 and 4.4 °C (33 and 40 °F) burned about twice the propane in the warmer one "
        "(Cornell Cooperative Extension, ONE17-298)."
    )
    return notes


def _sources(review: Review, facts: Facts) -> list[Drawing | Table | Note]:
    return [tables.sources(review, facts)] if review.heat.sources else []
