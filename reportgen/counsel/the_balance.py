"""The finding of the balance: which weeks were worth heating, and what it all cost against what it gave."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Balance, Ends
from reportgen.counsel.harvest_words import weighings
from reportgen.counsel.said_balance import each_money, heat_money, total_money
from reportgen.counsel.types import Said, Source
from reportgen.wording import day, listed, shares

PARTS = (("heat", "for heat"), ("appliances", "for appliances"), ("costs", "by the costs book"))
LEAST = 0.01  # money of a part that is worth a word


def the_balance(facts: Facts) -> Said | None:
    """Everything or nothing; silent where neither money nor weeks can be told, and where nothing was weighed: then the
    Harvest page has no picture to stand beside, and Heat tells the money."""
    b = facts.on.balance
    weeks = _weeks_words(facts, b)
    if not facts.r.harvest.kg or (not weeks and b.total is None):
        return None
    return Said(
        claim=f"{weeks}." if weeks else f"{_all_in(facts, b)}.",
        evidence=" ".join(
            part
            for part in (_sum(facts, b, weeks), _all_needed(facts, b), _against(facts, b), _missing(b) if weeks else "")
            if part
        ),
        how_sure=_sure(facts, weeks),
        next_step=_next(facts, b),
        figure=_figure(facts, b, weeks),
        figure_note=_note(facts, b, weeks),
        about="heat" if weeks else None,
        token="money",
        anchor="harvest_weeks" if weeks else None,
        weight=(b.not_needed_money.low if b.not_needed_money is not None else None) or b.total or 0.0,
        subject="weeks",
        sources=_sources(facts, b),
    )


def _sources(facts: Facts, b: Balance) -> tuple[Source, ...]:
    """Rows of data/harvest_balance.csv; it is written where there is a sum in money."""
    w, spent = facts.w, b.not_needed_money
    if b.total is None or not w.currency:
        return ()
    cells = {
        "in all": b.total,
        "heat of nights that can be judged": b.judged_money,
        "of it needed by no crop, least": None if spent is None else spent.low,
        "of it needed by no crop, most": None if spent is None else spent.high,
    }
    return tuple(
        Source(csv="harvest_balance.csv", how="cell", column=w.currency, rows=f"what == '{name}'", value=value)
        for name, value in cells.items()
        if value is not None
    )


def _weeks_words(facts: Facts, b: Balance) -> str:
    """EUR 120 to 160 of EUR 270 of heat kept plants that did not need it; empty where it cannot be judged."""
    spent, w = b.not_needed_money, facts.w
    if spent is None or b.judged_money is None or spent.low is None or spent.high is None or not w.currency:
        return ""
    judged = w.money(b.judged_money, 0)
    if round(spent.high) <= 0:
        return ""
    return f"{_ends(facts, spent)} of {judged} of heat kept plants that did not need it"


def _all_needed(facts: Facts, b: Balance) -> str:
    """Where every heated night that can be judged had a crop that needed it."""
    spent = b.not_needed_money
    if spent is None or b.judged_money is None or spent.high is None or round(spent.high) > 0 or not facts.w.currency:
        return ""
    return f"Some crop needed the heat on every night that can be judged, {facts.w.money(b.judged_money, 0)} of it."


def _ends(facts: Facts, money: Ends) -> str:
    low, high = max(money.low or 0.0, 0.0), money.high or 0.0
    return facts.w.money(high, 0) if round(low) == round(high) else facts.w.money_range(low, high)


def _all_in(facts: Facts, b: Balance) -> str:
    """In all EUR 416.29 for 32.5 kg, EUR 12.81 per kg."""
    w = facts.w
    each = f", {each_money(b, facts)} per\u00a0{w.mass_unit}" if b.per_kg is not None else ""
    mass = f" for {w.mass(b.kg)}" if b.kg else ""
    whole = "In all" if not b.missing else f"Without {listed(b.missing)},"
    cost = "has so far cost" if facts.r.season.so_far else "cost"
    return f"{whole} this {facts.there.season} {cost} {total_money(b, w, 2)}{mass}{each}"


def _sum(facts: Facts, b: Balance, weeks: str) -> str:
    """The parts, rounded so that what is printed adds up to the sum that is printed."""
    if b.total is None:
        return ""
    amounts = [(getattr(b, name), words) for name, words in PARTS]
    amounts.append((b.changes_by_years, "for a year's share of the changes"))
    known = [(float(value), words) for value, words in amounts if value is not None and abs(value) >= LEAST]
    printed = shares([value for value, _ in known], 2)
    told = listed(
        [f"{_part(b, value, words, facts)} {words}" for value, (_, words) in zip(printed, known, strict=True)]
    )
    head = f"{_all_in(facts, b)}: " if weeks else ""
    return f"{head}{told}." if told else ""


def _part(b: Balance, printed: float, words: str, facts: Facts) -> str:
    low, high = heat_money(b, printed, 2) if words == PARTS[0][1] else (printed, printed)
    return facts.w.money_range(low, high, 2) if low < high else facts.w.money(printed)


def _against(facts: Facts, b: Balance) -> str:
    w, told = facts.w, []
    if b.shop_value is not None:
        told.append(f"in the shop the harvest would have cost {w.money(b.shop_value)}")
    if b.work_hours:
        told.append(f"{w.hours(b.work_hours)} of work are not in it")
    if len(facts.r.harvest.pickings):
        told.append(weighings(facts))
    words = "; ".join(told)
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def _missing(b: Balance) -> str:
    return f"Not in it: {listed(b.missing)}." if b.missing else ""


def _sure(facts: Facts, weeks: str) -> str:
    if weeks:
        return (
            "Nine in ten for the air without heat, by simulated houses; the bands of the crops are rough, so the low "
            "end is the one to trust."
        )
    metered = "metered" if facts.there.heater else "written down"
    return f"Sure: it was weighed and {metered}; how many years a thing lasts is your own guess."


def _next(facts: Facts, b: Balance) -> str:
    if b.hardy_from is not None:
        return (
            f"From {day(b.hardy_from)} grow hardy crops alone, and leave those weeks unheated: nothing that stood then "
            "would have needed heat."
        )
    if b.shop_value is not None and b.total is not None and b.shop_value < b.total:
        return "Grow more of what is dear in the shop and stands the cold, or take it as the price of the garden."
    if not facts.r.readings.plantings or not b.kg:
        return "Weigh what you pick and date what you plant: then what it cost can be set against what it gave."
    if not facts.there.heater:
        return _unheated(b)
    return "Heat for the weeks in which a tender crop stands, and grow what stands the cold in the others."


def _unheated(b: Balance) -> str:
    """A house without heat whose harvest and plantings are known: what is left to do by what is known of the shop."""
    if b.shop_value is None:
        return "Write what the shop asks beside each crop: then what it cost can be set against what it gave."
    if b.missing:
        return "Write down the rest of what it cost before you call it paid."
    return "Leave the costs as they are: at shop prices it paid for itself."


def _figure(facts: Facts, b: Balance, weeks: str) -> str:
    if weeks and b.not_needed_money is not None:
        return _ends(facts, b.not_needed_money)
    return each_money(b, facts) if b.per_kg is not None else total_money(b, facts.w)


def _note(facts: Facts, b: Balance, weeks: str) -> str:
    if weeks:
        return "of heat that no crop needed"
    return f"a {facts.w.mass_unit}, all in" if b.per_kg is not None else "in all"
