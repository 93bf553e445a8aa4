"""The balance in words: what it gave against what it took, and which weeks were worth heating."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.counsel.brief import fitted, short
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Balance, BalanceWeek
from reportgen.counsel.harvest_words import picked_words
from reportgen.counsel.sides import ends_of_money
from reportgen.wording import Wording, day, listed, number, shares


def total_money(balance: Balance, w: Wording, digits: int = 0) -> str:
    """EUR 416, or EUR 372 to 416 where the heat's money has ends."""
    low, high = _ends(balance, digits)
    if low == high:
        return w.money(balance.total or 0.0, digits)
    return w.money_range(low, high, digits)


def each_money(balance: Balance, facts: Facts) -> str:
    """The same for one kilogram or pound: EUR 12.81, or EUR 11.44 to 12.81."""
    low, high = (facts.per_mass(end / (balance.kg or 1.0)) for end in _ends(balance, 9))
    if number(low, 2) == number(high, 2):
        return facts.w.money(facts.per_mass(balance.per_kg or 0.0))
    return facts.w.money_range(low, high, 2)


def heat_money(balance: Balance, printed: float, digits: int = 0) -> tuple[float, float]:
    """Both ends of the heat's part [money], so that the printed parts add up to both printed ends of the total.

    Args:
        balance: With the ends of its total, where it has any.
        printed: That part as it is printed beside a sum of one figure [money].
        digits: How many decimals are printed.
    """
    low, high = _ends(balance, digits)
    total = round(balance.total or 0.0, digits)
    return max(printed - (total - low), 0.0), printed + (high - total)


def _ends(balance: Balance, digits: int) -> tuple[float, float]:
    total, ends = round(balance.total or 0.0, digits), balance.total_ends
    if ends is None or ends.low is None or ends.high is None:
        return total, total
    return round(max(ends.low, 0.0), digits), round(ends.high, digits)


def total_words(balance: Balance, w: Wording) -> str:
    """Heat 180, appliances 12 and the rest 120: printed parts add up to the printed sum."""
    named = (
        ("heat", balance.heat),
        ("appliances", balance.appliances),
        ("costs", balance.costs),
        ("a year's share of the changes", balance.changes_by_years),
    )
    known = [(name, value) for name, value in named if value]
    if not known:
        return ""
    rounded = shares([value for _, value in known])
    told = []
    for (name, _), value in zip(known, rounded, strict=True):
        low, high = heat_money(balance, value) if name == "heat" else (value, value)
        told.append(f"{name} {number(low)} to {number(high)}" if low < high else f"{name} {number(value)}")
    return listed(told)


def per_kg_words(balance: Balance, facts: Facts) -> str:
    """EUR 9.20 per kg picked; all of it EUR 270 in the shop: not to be taken for a kilogram's."""
    if balance.per_kg is None or not balance.kg:
        return ""
    value = balance.shop_value
    shop = "" if value is None else f"; all of it {facts.w.money(value, 0)} in the shop"
    return f"{each_money(balance, facts)} per\u00a0{facts.w.mass_unit} {picked_words(facts)}{shop}"


def missing_words(balance: Balance) -> str:
    """In all, but without the gas."""
    return f"without {listed(dict.fromkeys(short(text, 5) for text in balance.missing), 2)}" if balance.missing else ""


HEATED = 0.05  # of kWh or money: less is a plug that only woke


def heated_weeks(balance: Balance) -> list[BalanceWeek]:
    """Weeks in which heat was given."""
    return [week for week in balance.weeks if max(week.heat_money or 0.0, week.heat_kwh or 0.0) > HEATED]


def needed_weeks(weeks: Sequence[BalanceWeek]) -> int:
    """Of weeks that were judged, those in which at least half of the heat was needed."""
    return sum((week.needed_share or 0.0) >= 0.5 for week in weeks)


def weeks_clause(balance: Balance) -> str:
    """All 8 weeks judged needed their heat."""
    told = [week for week in heated_weeks(balance) if week.needed_share is not None]
    needed, of = needed_weeks(told), len(told)
    if of == 1:
        return f"The one week judged {'needed its heat' if needed else 'did not need its heat'}"
    if needed == of:
        return f"All {number(of)} weeks judged needed their heat"
    whose = "its" if needed == 1 else "their"
    return f"{number(needed) if needed else 'None'} of the {number(of)} weeks judged needed {whose} heat"


def weeks_words(balance: Balance, facts: Facts) -> str:
    """EUR x of y kept plants that did not need it; the earliest week in which hardy crops alone would have stood."""
    w, spent, of = facts.w, balance.not_needed_money, balance.judged_money
    money = ""
    if spent is not None and of is not None and w.currency:
        ends = ends_of_money(spent, w)
        money = f"{ends} of {number(of)} kept plants that did not need it"
        if spent.high is not None and round(spent.high) <= 0:
            money = f"{w.money(of, 0)} could be judged, and none of it was for nothing"
    hardy = "" if balance.hardy_from is None else f"from {day(balance.hardy_from)} hardy crops alone could have stood"
    value = ""
    if balance.shop_value is not None and balance.heat is not None and w.currency:
        value = f"heat {w.money(balance.heat, 0)} beside {w.money(balance.shop_value, 0)} of greens"
    return fitted((money, hardy, value), 25) or _share(balance)


def _share(balance: Balance) -> str:
    """In kilowatt-hours where there are no prices."""
    weeks = [week for week in balance.weeks if week.needed_share is not None and week.heat_kwh]
    total = sum(week.heat_kwh or 0.0 for week in weeks)
    if not total:
        return "no week's heat is known"
    spared = sum((week.heat_kwh or 0.0) * (1.0 - (week.needed_share or 0.0)) for week in weeks)
    return f"{number(spared)} of {number(total)}\u00a0kWh kept plants that did not need it"
