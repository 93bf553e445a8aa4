"""The finding of the hold: how far the thermostat may come down, what a degree costs, how well the aim was kept."""

from __future__ import annotations

from reportgen.counsel.bills import degree_ends
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Ends, HoldAdvice
from reportgen.counsel.heat_words import hold_words, known
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import of_the_time
from reportgen.measures.degree import Degree, degree
from reportgen.wording import between, count, listed, share_time

NOT_WORKED_OUT = "not worked out"


def the_hold(facts: Facts) -> Said | None:
    """Told of a heated house; silent where neither advice nor a price can be had."""
    advice, price = facts.on.hold_advice, degree(facts.r.heat, facts.w.us)
    told = advice.reason != NOT_WORKED_OUT
    if not facts.there.heater or (not told and price is None):
        return None
    return Said(
        claim=_claim(facts, advice) if told else f"{_price(facts, price)}.",
        evidence=_evidence(facts, advice, price if told else None),
        how_sure=_sure(facts, advice, told),
        next_step=_next(facts, advice),
        figure=_figure(facts, advice, price),
        figure_note=_note(facts, advice, price),
        about=advice.crop,
        token="money",
        stake="money" if advice.down_by_k or not told else "growth",
        weight=(advice.saves_money.high if advice.saves_money is not None else None) or 0.0,
        subject="hold",
        sources=_sources(facts, advice),
    )


def _sources(facts: Facts, a: HoldAdvice) -> tuple[Source, ...]:
    """The nights that count in data/hold.csv; of an advice how far the thermostat may come down."""
    if a.by_night is None or not a.by_night["heated"].any():
        return ()
    counted = float(a.by_night["counted"].sum())
    found = [Source(csv="hold.csv", how="count", column="evening", rows="counts == 'yes'", value=counted)]
    figures = {"room to come down": a.down_by_k or None, "short already": a.short_by_k or None}
    found += [
        Source(
            csv="hold_advice.csv", how="cell", column="value", rows=f"figure == '{name}'", value=facts.w.diff_value(k)
        )
        for name, k in figures.items()
        if k is not None
    ]
    return tuple(found)


def _claim(facts: Facts, a: HoldAdvice) -> str:
    w = facts.w
    if a.down_by_k is None:
        return f"How far the thermostat may come down cannot be told: {a.reason}."
    if a.down_by_k <= 0:
        short = f": it is {w.diff(a.short_by_k)} short for the {a.crop}" if a.short_by_k and a.crop else ""
        return f"Your thermostat has no room to come down{short}."
    set_to = f", to {w.temp(a.lowest_c)}" if a.lowest_c is not None else ""
    return f"The thermostat can come down by {w.diff(a.down_by_k)}{set_to}, by the {a.crop}."


def _evidence(facts: Facts, a: HoldAdvice, price: Degree | None) -> str:
    w = facts.w
    told = []
    if a.down_by_k is not None and a.usually_c is not None and a.coldest_c is not None:
        told.append(
            f"At that setting usually {w.temp(a.usually_c)} at the crop, coldest {w.temp(a.coldest_c)}, "
            f"of {count(a.nights, 'night')}."
        )
    if a.limit_c is not None and a.crop:
        told.append(f"The {a.crop} is taken to stand {w.temp(a.limit_c)}.")
    if a.unknown_crops:
        told.append(f"No limit of cold is known for {listed(a.unknown_crops)}: their weeks are left out.")
    if price is not None:
        told.append(f"{_price(facts, price)}.")
    if (share := facts.r.heat.share_at_or_above_hold) and known(share):
        time = of_the_time(facts.r.frost.hours_recorded, facts.r.season.hours)
        told.append(f"The aim ({hold_words(facts)}) was kept {share_time(share.estimate, time)}.")
    if a.flat_out_c is not None:
        told.append(f"On nights colder than {w.temp(a.flat_out_c, 0)} outdoors the dial decides nothing.")
    return " ".join(told) or "No nights show what the thermostat does."


def _price(facts: Facts, price: Degree | None) -> str:
    if price is None:
        return ""
    w, step = facts.w, facts.w.diff(price.step_k, 0)
    if price.cost_more is not None and price.cost_less is not None:
        more, less = w.money(price.cost_more, 0), w.money(price.cost_less, 0)
    else:
        more, less = w.kwh(price.kwh_more), w.kwh(price.kwh_less)
    return (
        f"A hold {step} higher would have cost about {more} more this {facts.there.season}, "
        f"{step} lower about {less} less"
    )


def _sure(facts: Facts, a: HoldAdvice, told: bool) -> str:
    if told and a.down_by_k is None:
        return "Cannot tell: that is no leave to turn it down."
    if told:
        return "Nine in ten: on simulated houses so lowered a dial kept the crop's limit on 19 of 20 and more."
    w, money = facts.w, degree_ends(facts, money=True) if facts.w.currency else None
    ends = money or degree_ends(facts, money=False)
    if ends is None or round(ends[1]) < 1:
        return "A hint within a few degrees of what was held; the table has the range of each hold."
    less = w.money_range(*ends) if money else between(*(w.kwh(end) for end in ends))
    return f"Nine in ten: {less} less, by how near such figures came to the truth on simulated houses."


def _next(facts: Facts, a: HoldAdvice) -> str:
    w = facts.w
    if a.down_by_k is None:
        if a.unknown_crops:
            return (
                f"Leave the thermostat as it is, and write down the cold that {listed(a.unknown_crops)} came through."
            )
        return "Leave the thermostat as it is, and write down what it is set to, each time you turn it."
    if a.down_by_k <= 0:
        return "Leave the dial where it is, or grow what stands more cold in those weeks."
    spares = _spares(facts, a.saves_money, a.saves_kwh)
    return f"Turn it down by {w.diff(a.down_by_k)}{spares}, with a probe at the crop that tells you if it falls lower."


def _spares(facts: Facts, money: Ends | None, kwh: Ends | None) -> str:
    w = facts.w
    if money is not None and money.low is not None and money.high is not None:
        return f", for {w.money_range(max(money.low, 0.0), money.high)} less"
    if kwh is not None and kwh.low is not None and kwh.high is not None:
        return f", for {w.kwh(max(kwh.low, 0.0))} to {w.kwh(kwh.high)} less"
    return ""


def _figure(facts: Facts, a: HoldAdvice, price: Degree | None) -> str:
    if a.down_by_k is not None:
        return facts.w.diff(a.down_by_k if a.down_by_k > 0 else a.short_by_k or 0.0)
    if price is None:
        return "—"
    return facts.w.money(price.cost_less, 0) if price.cost_less is not None else facts.w.kwh(price.kwh_less)


def _note(facts: Facts, a: HoldAdvice, price: Degree | None) -> str:
    if a.down_by_k is not None:
        return "less on the dial" if a.down_by_k > 0 else "short on the dial" if a.short_by_k else "of room"
    return f"for {facts.w.diff(price.step_k, 0)} less hold" if price is not None else "no advice"
