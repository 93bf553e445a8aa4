"""Words for what is not known of the heat, and between which bounds heat and money then lie."""

from __future__ import annotations

import math

from reportgen.counsel.brief import heater
from reportgen.counsel.facts import Facts
from reportgen.measures.heat_types import Source
from reportgen.readings.types import Readings
from reportgen.wording import NBSP, Wording, count, day, number

LITTLE_KWH = 0.5  # heat that rests on estimates and is not worth a line


def kwh_words(w: Wording, kwh: float, low: float | None, high: float | None) -> str:
    """1 240 kWh, or 1 240 to 1 310 kWh where `low` and `high` are known."""
    if low is None or high is None or number(low) == number(high):
        return w.kwh(kwh)
    return f"{number(low)} to {w.kwh(high)}"


def money_words(w: Wording, cost: float, low: float | None, high: float | None, digits: int = 0) -> str:
    """A `cost` [money] with its ends `low` and `high`: EUR 400, or EUR 400 to 430."""
    if low is None or high is None or number(low, digits) == number(high, digits):
        return w.money(cost, digits)
    return w.money_range(low, high, digits)


def season_heat(facts: Facts) -> str:
    """The season's heat, as a range where part of it is not known."""
    h = facts.r.heat
    return kwh_words(facts.w, h.kwh or 0.0, h.kwh_low, h.kwh_high)


def season_money(facts: Facts, cost: float, digits: int = 0) -> str:
    """The season's `cost` of heat [money], as a range where it is one."""
    h = facts.r.heat
    return money_words(facts.w, cost, h.cost_low, h.cost_high, digits)


def part_unknown(facts: Facts) -> bool:
    """Whether some of the heat was not recorded at all, so that it may have been more."""
    h = facts.r.heat
    return h.kwh is not None and h.kwh_high is not None and number(h.kwh_high, 3) != number(h.kwh, 3)


def unknown(facts: Facts) -> str:
    """What is not known of the season's heat, in a sentence; empty where all is known."""
    gone = [source for source in facts.r.heat.sources if source.unknown_h >= 1]
    h, w = facts.r.heat, facts.w
    if not gone or h.kwh_low is None or h.kwh_high is None or h.known_share is None:
        return ""
    worst = max(gone, key=lambda source: source.unknown_h)
    percent = w.percent(100 * (1 - h.known_share), 0 if h.known_share < 0.99 else 1)
    return (
        f"For {count(worst.unknown_h, 'hour')}, {percent} of the season, nothing is known of what the "
        f"{heater(worst.name)} gave: the heat of the rest is {w.kwh(h.kwh_low)}, and in all it was "
        f"{w.kwh(h.kwh_high)} at most"
    )


def spread_by(readings: Readings) -> str:
    """How what is known only as sums was put into its days."""
    by_time = any(supply.shared_by == "time" for supply in readings.heating)
    return "evenly, since no outdoor air is on record" if by_time else "by the cold"


def source_notes(facts: Facts) -> list[str]:
    """One note a source and doubt, below the table of sources."""
    return [words for source in facts.r.heat.sources for words in _notes(facts, source)]


def _notes(facts: Facts, source: Source) -> list[str]:
    w = facts.w
    notes = []
    if source.unknown_h >= 1 and source.kwh_high is not None:
        money = _gap_money(w, source)
        notes.append(
            f"{source.name}: no record for {count(source.unknown_h, 'hour')}. In these it gave between nothing and "
            f"{w.kwh(source.kwh_high - (source.kwh or 0.0))}{money}: no more than in the hardest stretch of such a "
            "length that was logged, where it was no colder outdoors than then, else no more than it can."
        )
    if source.by_tariff and source.cost_low is not None and source.cost_high is not None:
        notes.append(
            f"{source.name}: the price depends on the hour, and its sums do not tell the hours. By the cold of each "
            f"hour it cost {w.money(source.cost or 0.0)}; all in the cheapest or all in the dearest hours it can have "
            f"been {w.money_range(source.cost_low, source.cost_high, 2)}."
        )
    if source.estimated_kwh > LITTLE_KWH:
        notes.append(
            f"{source.name}: {w.kwh(source.estimated_kwh)} rest on a reading or bill marked as estimated: what it "
            "guessed too low came with the next one, so only the two together are known."
        )
    return [*notes, *_stock_notes(facts, source)]


def _gap_money(w: Wording, source: Source) -> str:
    if source.cost is None or source.cost_high is None or source.by_tariff:
        return ""
    return f", for up to {w.money(source.cost_high - source.cost)}"


def _stock_notes(facts: Facts, source: Source) -> list[str]:
    stock, w = source.stock, facts.w
    if stock is None:
        return []
    unit = source.bought_unit.replace("gal_us", "US gal")
    notes = [words] if (words := unlooked_words(facts, source)) else []
    if stock.left > 0:
        told = bool(w.currency) and not math.isnan(stock.left_paid)
        paid = f", for which {w.money(stock.left_paid)} had been paid," if told else ""
        notes.append(
            f"{source.name}: {_amount(stock.left)}{NBSP}{unit}{paid} {'was' if stock.left == 1 else 'were'} left after "
            "the last day and count neither as heat nor as cost."
        )
    early = sum(one.amount for one in stock.purchases if one.at < facts.r.season.start)
    if early > 0:
        used = f"{_amount(stock.used_before)}{NBSP}{unit} of it" if stock.used_before >= 0.05 else "none of it"
        notes.append(
            f"{source.name}: {_amount(early)}{NBSP}{unit} were bought before the season; {used} is counted as burnt "
            "before its first day."
        )
    if source.cost is not None:
        notes.append(f"{source.name}: the cost is what was paid for what was burnt, the oldest stock first.")
    return notes


def unlooked_words(facts: Facts, source: Source) -> str:
    """That all counts as burnt because nobody wrote what was left, and between which ends heat and money then lie."""
    stock, w = source.stock, facts.w
    if stock is None or stock.unlooked_since is None or not source.kwh or not source.unlooked_kwh > LITTLE_KWH:
        return ""
    least = max(source.kwh - source.unlooked_kwh, 0.0)
    ends = f"between {number(least)} and {w.kwh(source.kwh)} of heat"
    if source.cost is not None and source.unlooked_cost > 0 and not source.by_tariff:
        low, high = number(max(source.cost - source.unlooked_cost, 0.0)), number(source.cost)
        ends += f", for {w.currency}{NBSP}{low} to {high}"
    return (
        f"{source.name}: nobody wrote down what was left, so all that was there on {day(stock.unlooked_since)} and "
        f"came since counts as burnt; it may have been {ends}."
    )


def unlooked(facts: Facts) -> list[str]:
    """The same of every store of which nobody looked."""
    return [words for source in facts.r.heat.sources if (words := unlooked_words(facts, source))]


def _amount(value: float) -> str:
    return number(value, 0 if value >= 100 else 1)
