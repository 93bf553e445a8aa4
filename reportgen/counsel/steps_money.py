"""Row Buy or put by: the heat money of next winter, and the ideas of the diary that have a price."""

from __future__ import annotations

from datetime import timedelta

from reportgen.counsel.bills import bills_of, next_heat
from reportgen.counsel.brief import begun, cut, fitted, lowered, short
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Grounds, PlanStep
from reportgen.counsel.next_season import NextSeason
from reportgen.counsel.results import Results
from reportgen.counsel.steps_levers import UNSAFE
from reportgen.counsel.touched import caution_of
from reportgen.measures.harvest_next import COLDER_K
from reportgen.readings.diary_lines import untried
from reportgen.readings.types import DiaryEntry
from reportgen.wording import between, listed, number

WHAT_WORDS, WHY_WORDS = 8, 12
NOT_YET = "do not buy yet"
LATE_DAYS = 14  # after the first day
NO_SMALL_SUM = 0.1  # of the heat's money
PUT_BY_DAYS = 30  # before the heating begins


def buy(r: Results, on: Grounds, ahead: NextSeason) -> list[PlanStep]:
    """The money first, then the ideas by price."""
    facts = Facts.of(r)
    ideas = [entry for entry in untried(r.readings.diary) if entry.cost]
    ideas.sort(key=lambda entry: (-(entry.cost or 0.0), entry.line))
    return [*_put_by(facts, on, ahead), *(_idea(facts, entry, ahead) for entry in ideas)]


def _put_by(facts: Facts, on: Grounds, ahead: NextSeason) -> list[PlanStep]:
    found, w = next_heat(facts, on), facts.w
    if found is None or not w.currency:
        return []
    low, high = (round(end) for end in found.money)
    money = w.money(high, 0) if low == high else w.money_range(low, high)
    start = ahead.within(ahead.begins - timedelta(days=PUT_BY_DAYS))
    prices = "at next prices" if found.next_prices else f"at this {facts.there.season}'s prices"
    kwh = between(*(w.kwh(end) for end in found.kwh))
    names = listed(dict.fromkeys(short(name, 2) for name in found.kept), 3)
    up = f"{lowered(names)} all {facts.there.season}" if names else ""
    return [
        PlanStep(
            row="Buy or put by",
            from_=start,
            to=max(ahead.within(ahead.begins - timedelta(days=1)), start),
            what=fitted((f"Put by {_at_least(on)}{money} for heat", _power(facts, on)), WHAT_WORDS),
            why=cut(fitted((f"{kwh} {prices}", up, _colder(facts)), WHY_WORDS), WHY_WORDS),
            lever=None,
            caution=None,
            cost=found.money[1],
        )
    ]


def _power(facts: Facts, on: Grounds) -> str:
    """What lamps, fans and dehumidifiers drew, where it is no small sum beside the heat: it is to be paid again."""
    drawn, heat = on.balance.appliances, on.balance.heat
    if not drawn or drawn < NO_SMALL_SUM * (heat or 0.0):
        return ""
    return f"appliances {_part_of_it(facts)}{facts.w.money(drawn, 0)}"


def _part_of_it(facts: Facts) -> str:
    """An appliance that drew nothing before the season was well under way would draw more in a whole one."""
    late = facts.r.season.start + timedelta(days=LATE_DAYS)
    starts = [s.intervals["start"].min() for s in facts.r.readings.appliances if len(s.intervals)]
    return "over " if any(start > late for start in starts) else ""


def _at_least(on: Grounds) -> str:
    """What kept heat in this season and is to come off would have to be heated for."""
    gone = any(lever.saves_heat and lever.on_now and lever.verdict in UNSAFE for lever in on.levers)
    return "at least " if gone else ""


def _colder(facts: Facts) -> str:
    """What a colder winter adds, where a price of a degree can be told."""
    found, w = bills_of(facts), facts.w
    colder, same = found.get("colder"), found.get("next prices", found.get("as it was"))
    if colder is None or same is None or colder.cost <= same.cost:
        return ""
    apart = w.diff(COLDER_K, 1 if w.us else 0)
    return f"{apart} colder adds {w.money(colder.cost - same.cost, 0)}"


def _idea(facts: Facts, entry: DiaryEntry, ahead: NextSeason) -> PlanStep:
    """Bought for safety it is bought; else it waits until something has shown what it would do here."""
    w, cost, heat = facts.w, entry.cost or 0.0, facts.number("heat.cost")
    safe = "safer" in entry.hoped_for
    part = f"{number(100 * cost / heat)}\u00a0% of this {facts.there.season}'s heat" if heat and not safe else ""
    years = f"{w.money(cost / entry.years)} a year" if entry.years else ""
    untold = "no nights are needed to tell" if safe else "nothing measured here yet"
    return PlanStep(
        row="Buy or put by",
        from_=ahead.first,
        to=ahead.within(ahead.begins - timedelta(days=1)) if safe else ahead.last,
        what=f"{begun(short(entry.thing or entry.what, 4))}: {'buy it' if safe else NOT_YET}",
        why=cut(fitted((w.money(cost, 0), untold, part, years), WHY_WORDS), WHY_WORDS),
        lever=None,
        caution=caution_of(facts.r, entry.touches, entry.what, entry.thing),
        cost=cost,
    )
