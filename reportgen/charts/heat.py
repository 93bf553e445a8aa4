"""The heat page: what a degree costs, whether the aim was kept, the weeks, the heater's line, its hours, sources."""

from __future__ import annotations

from reportgen.charts import heat_tables as tables
from reportgen.charts.build import Look, Row, ranked
from reportgen.charts.heat_degree import degree_table
from reportgen.charts.heat_heading import headline, lead, spared_words
from reportgen.charts.heat_house import loss_block, needed_drawing, size_table
from reportgen.charts.heat_use import hours_drawing, months_drawing, weeks_drawing
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel import cautions
from reportgen.counsel.answers_topics import hold_words
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_bounds import part_unknown
from reportgen.counsel.heat_words import known
from reportgen.measures.degree import Degree, degree
from reportgen.review import Review
from reportgen.wording import listed

MISSING = (
    "With the heater's use this page would show what each degree of warmth cost, whether the aim was kept, what the "
    "house loses and how big a heater it needs. From now on put a plug-in meter with a log on the heater, or write its "
    "meter down once a week, and name it in the season file."
)
UNHEATED = (
    "No heater is listed. From now on, if you heat, name the heater in the season file with its meter, "
    "its logger or its bills; a house without heat has nothing to tell here."
)


def page(review: Review) -> Page:
    """The page, or the note on what to log where neither heat nor an aim is known."""
    facts = Facts.of(review, review.counsel.grounds)
    h = review.heat
    blocks: list[Drawing | Table | Note] = [
        *_price(review, facts),
        *months_drawing(review, facts),
        *weeks_drawing(review, facts),
    ]
    blocks += [
        *loss_block(review, facts),
        *needed_drawing(review, facts),
        *size_table(facts),
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
    return Page(slug="heat", headline=headline(facts), lead=lead(facts), blocks=tuple(blocks))


def _price(review: Review, facts: Facts) -> list[Drawing | Table | Note]:
    h, w = review.heat, facts.w
    if not h.price_of_hold or h.basis is None:
        why = h.reasons.get("price_of_hold", "")
        words = f"What another hold would have cost cannot be told: {why}."
        return [Note(title="The price of a degree", text=words)] if review.season.heating and why else []
    money = all(row.cost is not None for row in h.price_of_hold)
    risks = tables.at_risk(facts)
    rows = tuple(_price_row(row, facts, money, risks) for row in h.price_of_hold if _near(facts, row.hold_c))
    unit = w.currency if money else "kWh"
    wide, narrow = ranked(rows, Look(unit=unit, zero=True))
    one = degree(h, w.us)
    table = tables.price(review, facts)
    return [
        Drawing(
            uid="heat_price",
            title=_price_title(facts, one),
            subtitle=f"{unit} of heat this {facts.there.season} at {_other(facts)}, same outdoor air; pale: beyond "
            "what was tested"
            + ("; at risk: the crops that their coldest usual night would have harmed" if risks else ""),
            label="Bar chart of what the season's heat would have cost at other holds",
            description="; ".join(f"{row.label} {row.words}" for row in rows) + ".",
            wide=wide,
            narrow=narrow,
            table=table,
            notes=tuple(_price_notes(facts)),
            sure=_room(facts),
        ),
        *degree_table(facts),
    ]


def _kept_holds(facts: Facts) -> list[str]:
    """What was held, by date, as shown; without holds that are shown alike."""
    told = [facts.w.temp(one.hold_c) for one in facts.r.heat.stretches if one.hold_c is not None]
    return list(dict.fromkeys(told))


def _other(facts: Facts) -> str:
    return "one hold all along" if len(_kept_holds(facts)) > 1 else "other holds"


def _room(facts: Facts) -> str:
    """Whether a lower hold is advised, in the very words of the hold's own rule; empty where nothing is known."""
    advice = facts.on.hold_advice
    if not facts.r.season.heating or (advice.down_by_k is None and not advice.unknown_crops):
        return ""
    words = hold_words(advice, facts.w)
    if not words and advice.unknown_crops:
        words = f"no lower hold is advised: no cold limit is known for {listed(advice.unknown_crops)}"
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def _near(facts: Facts, hold_c: float) -> bool:
    """Five rows below and above are drawn; the table has all."""
    middle = facts.r.heat.hold_found_c
    return middle is None or abs(hold_c - middle) <= (6.2 if facts.w.us else 5.5)


def _price_row(row: tables.HoldPrice, facts: Facts, money: bool, risks: tables.Risks) -> Row:
    w, lost = facts.w, risks.get(row.hold_c, ([], []))[1]
    factor = (row.cost or 0.0) / row.kwh if money and row.kwh > 0 else 1.0
    value = row.cost if money and row.cost is not None else row.kwh
    return Row(
        label=f"hold {w.temp(row.hold_c, 0)}{f' – at risk: {listed(lost, 4)}' if lost else ''}",
        value=value,
        words=w.money(value, 0) if money else w.kwh(value),
        low=row.low * factor if row.low is not None else float("nan"),
        high=row.high * factor if row.high is not None else float("nan"),
        token="money" if money else "warm",
        pale=not row.tested,
    )


def _price_title(facts: Facts, one: Degree | None) -> str:
    if one is None:
        return "What other holds would take by the cover and the air changes; no heat was logged to test it"
    more, less = spared_words(facts, up=True), spared_words(facts)
    told = [f"a degree more: about {more} more"] if more else []
    told += [] if told and less and not part_unknown(facts) else [f"a degree less: {less} less"] if less else []
    words = "; ".join(told) or "another hold would have changed the heat by little"
    return words[:1].upper() + words[1:]


def _price_notes(facts: Facts) -> list[str]:
    h, w = facts.r.heat, facts.w
    basis = h.basis
    if basis is None:
        return []
    if basis.kind == "expectation":
        return ["Worked out from the cover's heat loss and the hours of cold alone; sun and soil would make it less."]
    notes = []
    if len(kept := _kept_holds(facts)) > 1:
        notes.append(
            f"By date {listed(kept, 6)} were held: a degree more or less is each of them a degree away. Each bar is "
            "one hold all along."
        )
    if basis.balance_c is not None:
        notes.append(
            f"Above {w.temp(basis.balance_c)} outdoors sun and soil alone kept the hold of "
            f"{w.temp(h.hold_found_c or 0.0)}."
        )
    if basis.explained is not None:
        notes.append(
            f"The cold outdoors explains {w.percent(100 * max(basis.explained, 0.0))} of how the heat went up and down."
        )
    if h.kwh_high is not None and h.kwh and part_unknown(facts):
        notes.append(
            f"Part of the {facts.there.season}'s heat is not known; the fine lines reach "
            f"{w.percent(100 * (h.kwh_high / h.kwh - 1))} "
            "higher for it."
        )
    if h.priced_by_run:
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
