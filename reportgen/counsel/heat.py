"""Findings of the heat: whether the aim was kept, what a degree costs, what the house loses, what the heater can do."""

from __future__ import annotations

from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_more import appliances, flat_out, no_heat_known, unvented
from reportgen.counsel.heat_words import degree, hold_words, known, per_kelvin, share_range, watts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.counsel.whole import of_the_time
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
    limited = h.change_span is None and _flat(facts)
    flat = " The heater ran flat out at times: a lower hold may save less than this." if limited else ""
    return _finding(
        "price-of-a-degree",
        claim=f"{step} more hold would have cost about {more} more, {step} less about {less} less.",
        evidence=f"Held was about {w.temp(h.hold_found_c)}; {_rests_on(facts)}, "
        f"this {facts.there.season}'s outdoor air by the hour."
        f"{flat}{_more_unknown(facts)}",
        how_sure=_saving_sure(facts),
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


def _saving_sure(facts: Facts) -> str:
    """How far the true change of heat may lie from the told one."""
    span = facts.r.heat.change_span
    if span is None:
        return "Fairly sure within a few degrees of what was held; the table has the range of each hold."
    less, more = (facts.w.percent(100 * abs(end - 1)) for end in span)
    return f"Fairly sure: of ten such changes on simulated houses about nine lay from {less} under to {more} over this."


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
        evidence=f"{count(h.loss_nights, 'night')} heated throughout{_as_it_is(facts)}; between {low} and {high}.",
        how_sure="Fairly sure: of ten such spans on simulated houses about nine held the truth.",
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


def _as_it_is(facts: Facts) -> str:
    return " as the house is now" if len(facts.r.heat.loss_by_state) > 1 else ""


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
        evidence=f"{w.percent(100 * share)} of all heat: what was used, less what {hold_words(facts)} would have "
        "taken in the same weather by the table of holds.",
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
    needed, band = h.heater_needed_w, h.heater_needed_w.coldest_band
    if needed.coldest_hour is None or needed.to_buy is None or band is None or needed.five_band is None:
        return None
    have, short, beside = _against_rated(facts, needed.coldest_hour)
    wanted = have is not None and have < needed.to_buy
    return _finding(
        "heater-size",
        claim=f"The hardest three hours, with {w.temp(needed.coldest_c or 0.0)} the coldest outdoors, asked for about "
        f"{watts(needed.coldest_hour)} of heat{beside}.",
        evidence=f"As the house is now: between {watts(band.low)} and {watts(band.high)}; {w.diff(5.0, 0)} colder "
        f"between {watts(needed.five_band.low)} and {watts(needed.five_band.high)}. To keep single hours within about "
        f"{w.diff(1.0, 0)} of the hold a heater of about {watts(needed.to_buy)} is wanted.",
        how_sure="Fairly sure: of ten such spans on simulated houses about nine held the truth.",
        next_step=_size_step(short, wanted),
        caution=cautions.heating(facts.fuels) or None,
        figure=watts(needed.coldest_hour),
        figure_note="in the hardest three hours",
        token="warm",
        anchor="heat_line",
        stake="crop at risk" if short else "good news",
        sure="fairly sure",
        weight=needed.coldest_hour / have if have else 0.0,
    )


def _size_step(short: bool, wanted: bool) -> str:
    if short:
        return "Cover the crop inside on the coldest nights, or add what a licensed trade says your supply bears."
    if wanted:
        return "It carries such nights with single hours under the hold: cover the crop inside when they are forecast."
    return "It is large enough for such a winter; keep a second one for when it fails."


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
