"""Findings of the heat: whether the aim was kept, what a degree costs, what the house loses, what the heater can do."""

from __future__ import annotations

from typing import Any

from reportgen.findings import cautions
from reportgen.findings.facts import Facts
from reportgen.findings.heat_more import appliances, flat_out, no_heat_known, unvented
from reportgen.findings.heat_words import degree, hold_words, known, per_kelvin, share_range, watts
from reportgen.findings.results import Results
from reportgen.findings.types import Finding, Source
from reportgen.findings.whole import of_the_time
from reportgen.wording import count, number

KEPT_WELL = 0.95  # share of the time; our own line
LEAKY = 1.3  # loss found against loss expected; beyond the figure's own ± 25 %
OVER_TARGET = 0.1  # share of the heat spent above the target before it is worth a sentence


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the heaters, the meters and the weather say; silent where they do not."""
    facts = Facts.of(r)
    rules = (_kept, _degree, _loss, _over_target, _size, flat_out, unvented, appliances, no_heat_known)
    return tuple(finding for rule in rules if (finding := rule(facts)) is not None)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="heat", **more)


def _kept(facts: Facts) -> Finding | None:
    h, w = facts.r.heat, facts.w
    share = h.share_at_or_above_hold
    if not known(share):
        return None
    percent = w.percent(100 * share.estimate)
    time = of_the_time(facts.r.frost.hours_recorded, facts.r.season.hours)
    well = share.estimate >= KEPT_WELL
    short = h.degree_hours_below_hold.estimate / max(h.hold_hours * (1 - share.estimate), 1e-9)
    lack = f" When it fell short it was by {w.diff(short)} on average." if share.estimate < 0.995 else ""
    return _finding(
        "hold-kept",
        claim=f"The aim ({hold_words(facts)}) was kept {percent} {time}.",
        evidence=f"{w.hours(h.hold_hours)} of crop air at the coldest place{share_range(w, share)}.{lack}",
        how_sure="Sure within the sensor's accuracy: one that reads high all season moves every hour near the aim.",
        next_step=_after_hold(facts, well),
        caution=None if well else cautions.heating(facts.fuels) or None,
        figure=percent,
        figure_note="of the time at or above the aim",
        token="target",
        anchor="heat_months",
        stake="good news" if well else "growth",
        sure="sure" if share.high == share.high and share.high - share.low < 0.2 else "fairly sure",
        weight=1.0 - share.estimate,
        sources=(Source(csv="heat_months.csv", how="sum", column="hours", value=h.hold_hours),),
    )


def _after_hold(facts: Facts, well: bool) -> str:
    """What to do about the aim, by whether anything heats the house and whether its full hours are known."""
    h = facts.r.heat
    if not facts.there.heater:
        return (
            "Nothing to do: it was kept without heat."
            if well
            else "Cover the crop inside on the nights that fall short."
        )
    if well:
        priced = bool(h.price_of_hold)
        return "Keep it" + (": what a degree less would spare stands on the price of a degree." if priced else ".")
    if any(s.hours_flat_out is not None for s in h.sources):
        return (
            "Look at the months on the chart: where the heater ran flat out it is too small, where it did not, the "
            "thermostat hangs in a warmer place than the crop."
        )
    return "Look at the months on the chart, and hang the thermostat's sensor beside the crop."


def _degree(facts: Facts) -> Finding | None:
    h, w = facts.r.heat, facts.w
    one = degree(h, w.us)
    if one is None or h.basis is None or h.hold_found_c is None:
        return None
    money = one.cost_more is not None and one.cost_less is not None
    more = w.money(one.cost_more or 0.0, 0) if money else w.kwh(one.kwh_more)
    less = w.money(one.cost_less or 0.0, 0) if money else w.kwh(one.kwh_less)
    step = w.diff(one.step_k, 0)
    flat = " The heater ran flat out at times: a lower hold may save less than this." if _flat(facts) else ""
    return _finding(
        "price-of-a-degree",
        claim=f"{step} more hold would have cost about {more} more, {step} less about {less} less.",
        evidence=f"Held was about {w.temp(h.hold_found_c)}; {_rests_on(facts)}, "
        f"this {facts.there.season}'s outdoor air by the hour."
        f"{flat}{_more_unknown(facts)}",
        how_sure="Fairly sure within a few degrees of what was held: on simulated houses with known truth the estimate "
        "was within 4 to 6 in a hundred at 2\u00a0K away.",
        next_step="Find the lowest hold that every crop stands in the table of holds, and set the thermostat to it "
        "before the coldest weeks.",
        caution=cautions.heating(facts.fuels) or None,
        figure=less,
        figure_note=f"for {step} less hold",
        token="money" if money else "warm",
        anchor="heat_price",
        stake="money",
        sure="fairly sure",
        weight=one.cost_less or one.kwh_less,
    )


def _more_unknown(facts: Facts) -> str:
    h = facts.r.heat
    if h.kwh_high is None or not h.kwh:
        return ""
    more = facts.w.percent(100 * (h.kwh_high / h.kwh - 1))
    return f" Part of the {facts.there.season}'s heat is not known: a degree may have cost up to {more} more than this."


def _flat(facts: Facts) -> bool:
    return any((s.hours_flat_out or 0.0) >= 1.0 for s in facts.r.heat.sources)


def _rests_on(facts: Facts) -> str:
    basis = facts.r.heat.basis
    if basis is None:
        return ""
    if basis.kind == "days":
        return f"heat of {count(basis.periods, 'day')}"
    return f"heat of {count(basis.periods, 'stretch', 'stretches')} of a day or more"


def _loss(facts: Facts) -> Finding | None:
    h, w = facts.r.heat, facts.w
    loss, expected = h.loss_w_per_k, h.loss_expected_w_per_k
    if not known(loss):
        return None
    low, high = (per_kelvin(w, x) for x in (loss.low, loss.high))
    beside, step, sealing = "", "", False
    if expected is not None:
        ratio = loss.estimate / expected
        sealing = ratio > LEAKY
        beside = f", where cover{' and air changes' if h.loss_with_air else ''} let expect {per_kelvin(w, expected)}"
        step = (
            "Look for gaps at doors, vents and the foot of the walls on a windy day: more is lost than the cover "
            "explains."
            if sealing
            else "The cover explains what is lost: only a better cover, or a lower hold, saves heat."
        )
    step = step or "Write u_value_w_m2k and glazing_area_m2 into season.toml, so that the cover's share can be told."
    return _finding(
        "heat-loss",
        claim=f"For each {w.diff_unit} that it is warmer than outdoors the house needs about "
        f"{_plain_watts(facts, loss.estimate)}{beside}.",
        evidence=f"{count(h.loss_nights, 'night')} heated throughout; between {low} and {high}.",
        how_sure="About, ±\u00a025\u00a0%: part of the heat goes into the bed and the frame, and a night cannot tell "
        "how much.",
        next_step=step,
        caution=(cautions.SEAL if facts.fuels - {"electricity"} else None) if sealing else None,
        figure=per_kelvin(w, loss.estimate),
        figure_note="heat loss, about",
        token="warm",
        anchor="heat_loss",
        stake="money",
        sure="fairly sure",
        weight=0.0,
        holds_for="this house",
    )


def _plain_watts(facts: Facts, w_per_k: float) -> str:
    value = w_per_k * 5 / 9 if facts.w.us else w_per_k
    return f"{number(value)}\u00a0W"


def _over_target(facts: Facts) -> Finding | None:
    h, w = facts.r.heat, facts.w
    if h.above_target_kwh is None or not h.kwh or h.above_target_kwh < OVER_TARGET * h.kwh:
        return None
    share = h.above_target_kwh / h.kwh
    money = f", about {w.money(share * h.cost)}" if h.cost is not None else ""
    return _finding(
        "heat-above-the-aim",
        claim=f"{w.kwh(h.above_target_kwh)} of heat kept the air warmer than you aimed for{money}.",
        evidence=f"{w.percent(100 * share)} of all heat: in each heated hour, the part of the lift that lay above "
        f"{hold_words(facts)}.",
        how_sure="Fairly sure: it is the air at the crop logger that is compared, not that at the thermostat.",
        next_step="Turn the thermostat down by as much as the air lies above the aim, or hang its sensor by the crop.",
        caution=cautions.heating(facts.fuels) or None,
        figure=w.kwh(h.above_target_kwh),
        figure_note="above the aim",
        token="warm",
        anchor="heat_weeks",
        stake="money",
        sure="fairly sure",
        weight=share * (h.cost or 0.0),
    )


def _size(facts: Facts) -> Finding | None:
    h, w = facts.r.heat, facts.w
    needed, line = h.heater_needed_w, h.line
    if needed.coldest_hour is None or needed.five_colder is None or line is None:
        return None
    have, short, beside = _against_rated(facts, needed.coldest_hour)
    return _finding(
        "heater-size",
        claim=f"The coldest hour, {w.temp(line.coldest_c)} outdoors, needed about {watts(needed.coldest_hour)} of heat"
        f"{beside}.",
        evidence=f"The line through {count(line.nights, 'heated night')}; between {watts(line.low_w)} and "
        f"{watts(line.high_w)}. {w.diff(5.0, 0)} colder it would be about {watts(needed.five_colder)}.",
        how_sure="Fairly sure inside the nights seen; colder than that it is a line drawn on.",
        next_step="Cover the crop inside on the coldest nights, or add what a licensed trade says your supply bears."
        if short
        else "No bigger heater is needed for such a winter; keep a second one for when the first fails.",
        caution=cautions.heating(facts.fuels) or None,
        figure=watts(needed.coldest_hour),
        figure_note="at the coldest hour",
        token="warm",
        anchor="heat_line",
        stake="crop at risk" if short else "good news",
        sure="fairly sure",
        weight=needed.coldest_hour / have if have else 0.0,
        sources=(Source(csv="heat_line.csv", how="count", column="night", value=float(line.nights)),),
    )


def _against_rated(facts: Facts, needed_w: float) -> tuple[float | None, bool, str]:
    """Heat the main heaters give at most (None where not given), whether it falls short, and the words for it."""
    listed = facts.r.season.heating
    main = [s for s in listed if s.role == "main"]
    if not main or any(s.rated_power_w is None for s in main):
        return None, False, ""
    have = float(sum((s.rated_power_w or 0.0) * s.efficiency for s in main))
    short = have < needed_w
    given = "the main heater gives" if len(main) == 1 else "the main heaters give"
    return have, short, f"; {given} {watts(have)} at most"
