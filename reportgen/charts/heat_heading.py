"""The heat page's answer: what the heat cost, and what a degree less would have spared."""

from __future__ import annotations

from reportgen.counsel.bills import degree_ends
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_bounds import part_unknown, season_heat, season_money, unknown
from reportgen.counsel.heat_words import hold_words, known
from reportgen.counsel.whole import of_the_time
from reportgen.wording import between, share_time


def headline(facts: Facts) -> str:
    """EUR 276 of heat; a degree less would have spared EUR 42 to 54."""
    h = facts.r.heat
    if h.kwh is None:
        return "What the heat was is not known" if facts.there.heater else _unheated(facts)
    heat = f"{season_money(facts, h.cost)} of heat" if h.cost is not None else f"{season_heat(facts)} of heat"
    if (less := spared_words(facts)) and not part_unknown(facts):
        return f"{heat}; a degree less would have spared {less}"
    return heat + (f", and the aim was kept {_kept(facts)}" if known(h.share_at_or_above_hold) else "")


def spared_words(facts: Facts, up: bool = False) -> str:
    """Both ends of what one degree less (or, `up`, more) makes of this winter's heat; empty where not known."""
    money = bool(facts.w.currency) and facts.r.heat.cost is not None
    ends = degree_ends(facts, money=money, up=up)
    if ends is None or round(ends[1]) < 1:
        return ""
    return _money(facts, ends) if money else between(*(facts.w.kwh(end) for end in ends))


def _money(facts: Facts, ends: tuple[float, float]) -> str:
    low, high = (round(end) for end in ends)
    return facts.w.money(high, 0) if low == high else facts.w.money_range(low, high)


def _kept(facts: Facts) -> str:
    time = of_the_time(facts.r.frost.hours_recorded, facts.r.season.hours)
    return share_time(facts.r.heat.share_at_or_above_hold.estimate, time)


def _unheated(facts: Facts) -> str:
    if not known(facts.r.heat.share_at_or_above_hold):
        return "No heater is listed"
    share = share_time(facts.r.heat.share_at_or_above_hold.estimate)
    return f"No heater is listed; the aim was kept {share}"


def lead(facts: Facts) -> str:
    """How much heat and what was aimed for; then, for the fold, the dark weeks and the carbon dioxide."""
    h, w = facts.r.heat, facts.w
    parts = [part for part in (unknown(facts), _aimed(facts)) if part]
    if h.dark_weeks.cost is not None and h.cost and h.dark_weeks.cost < 0.995 * h.cost:
        picked, beside = facts.r.harvest.kg, h.dark_weeks.kg
        gave = f" and gave {w.percent(100 * beside / picked)} of the harvest" if picked and beside is not None else ""
        share = w.percent(100 * h.dark_weeks.cost / h.cost)
        parts.append(f"The days under ten hours of daylight took {share} of the money{gave}")
    if h.co2_kg is not None:
        parts.append(f"By the factors you gave the heat set {w.mass(h.co2_kg, 0)} of carbon dioxide free")
    return ". ".join(parts) + "." if parts else "What the season's readings tell of its heat."


def _aimed(facts: Facts) -> str:
    h, w = facts.r.heat, facts.w
    told = [f"{season_heat(facts)} in all"] if h.kwh is not None and h.cost is not None else []
    told += [f"aimed for: {hold_words(facts)}"] if h.holds else []
    told += [f"kept on heated nights: about {w.temp(h.hold_found_c)}"] if h.hold_found_c is not None else []
    words = "; ".join(told)
    return words[:1].upper() + words[1:]
