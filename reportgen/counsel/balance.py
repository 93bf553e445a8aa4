"""The balance: what the season gave against what it took, and which weeks were worth heating."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.counsel.grounds import Balance, BalanceWeek, Ends
from reportgen.counsel.results import Results
from reportgen.measures.harvest_after import picked_after, value_of
from reportgen.measures.harvest_costs import CostBars
from reportgen.measures.heat_needed import HeatNeeded, heat_needed, needed_by_week
from reportgen.measures.heat_sums import gaps_in, total_cost

DIARY, COSTS = "diary.csv", "costs.csv"


@dataclass(frozen=True, kw_only=True, slots=True)
class _Money:
    """The four parts of what it took; None where a part is not known, with the words for it."""

    heat: float | None
    appliances: float | None
    costs: float | None
    changes: float | None
    reasons: dict[str, str]
    missing: tuple[str, ...]

    @property
    def total(self) -> float | None:
        """What is known of them; None where heat was given and its cost is not known, or nothing is."""
        known = [part for part in (self.heat, self.appliances, self.costs, self.changes) if part is not None]
        return sum(known) if known and "heat unknown" not in self.reasons else None


def balance(r: Results) -> Balance:
    """Everything or nothing."""
    h, money = r.harvest, _money(r)
    needed = heat_needed(r.readings, r.frost.table)
    reasons = {key: why for key, why in money.reasons.items() if key != "heat unknown"}
    total = money.total
    if total is None:
        reasons["total"] = r.readings.without("prices", reasons.get("heat", "nothing that was paid is written down"))
    per_kg = total / h.kg if total is not None and h.kg else None
    if per_kg is None:
        reasons["per_kg"] = reasons.get("total", h.reasons.get("kg", "nothing was picked in the season's days"))
    return Balance(
        heat=money.heat,
        appliances=money.appliances,
        costs=money.costs,
        changes_by_years=money.changes,
        total=total,
        per_kg=per_kg,
        missing=money.missing,
        weeks=_weeks(r, needed, reasons),
        reasons=reasons,
        total_ends=_ends(r, total),
        kg=h.kg,
        shop_value=h.shop_value,
        work_hours=h.bars.hours,
        not_needed_money=_spared(needed),
        judged_money=needed.judged.money if needed.judged.nights else None,
        hardy_from=needed.hardy_from,
        hardy_until=needed.hardy_until,
        heat_kwh=h.heat.kwh,
        needed=needed,
        tender_value=_tender_value(r, needed),
        backup_money=_backup(r),
    )


def _money(r: Results) -> _Money:
    """The parts, as the harvest's own lines add them up: one figure, one value."""
    bars, reasons = r.harvest.bars, {}
    heat = bars.heat if r.readings.heating else None
    if heat is None:
        reasons["heat"] = r.harvest.heat.reasons.get("cost", "the cost of the heat is not known")
        if r.readings.heating:
            reasons["heat unknown"] = reasons["heat"]
    drawn = [part.amount for part in bars.parts if part.group == "appliance"]
    if not drawn:
        none = "no appliance is listed in season.toml"
        unpriced = r.readings.without("prices", "no price is given for any appliance")
        reasons["appliances"] = unpriced if bars.without_price else none
    return _Money(
        heat=heat,
        appliances=sum(drawn) if drawn else None,
        costs=_of_book(r, bars, COSTS, "costs", reasons),
        changes=_of_book(r, bars, DIARY, "changes_by_years", reasons),
        reasons=reasons,
        missing=_missing(r),
    )


def _ends(r: Results, total: float | None) -> Ends | None:
    """Both ends of the total: of a store that nobody looked at, of hours of which the price is not known. What was not
    recorded at all is in neither; it is named as missing."""
    money = r.harvest.heat.money
    if total is None or not r.readings.heating or money.value is None or money.low is None or money.high is None:
        return None
    high = money.value if gaps_in(r.harvest.heat.heat) else money.high
    return Ends(low=total - money.value + money.low, high=total - money.value + high)


def _of_book(r: Results, bars: CostBars, book: str, key: str, reasons: dict[str, str]) -> float | None:
    amounts = [part.amount for part in bars.parts if part.book == book]
    if not amounts and not r.readings.books.get(book.removesuffix(".csv"), False):
        reasons[key] = r.readings.without("prices", f"no {book} is kept") if book == COSTS else f"no {book} is kept"
        return None
    return float(sum(amounts))


def _missing(r: Results) -> tuple[str, ...]:
    """What is in none of the parts, in words that follow *without*."""
    bars, money = r.harvest.bars, r.harvest.heat.money
    found = [f"what the {name} drew, which has no price" for name in bars.without_price]
    if r.readings.heating and bars.heat is None:
        found.insert(0, f"heat ({money.reason})")
    elif gaps_in(r.harvest.heat.heat):
        found.insert(0, "some heat that was not recorded")
    for book, words in (
        ("costs", f"seed, soil and the like ({r.readings.without('prices', 'no book of costs')})"),
        ("diary", "changes (no diary)"),
    ):
        if not r.readings.books.get(book, False):
            found.append(words)
    return tuple(found)


def _weeks(r: Results, needed: HeatNeeded, reasons: dict[str, str]) -> tuple[BalanceWeek, ...]:
    h = r.harvest
    after = picked_after(h.pickings, [week.monday for week in h.weeks])
    shares = needed_by_week(needed)
    if h.kg is None:
        reasons["weeks.kg"] = reasons["weeks.value"] = h.reasons["kg"]
    elif h.shop_value is None:
        reasons["weeks.value"] = h.reasons.get("shop_value", "")
    if h.heat.cost is None:
        reasons["weeks.heat_money"] = h.heat.reasons.get("cost", "")
    reasons["weeks.needed_share"] = needed.reason or "no night of that week had heat, or none of them can be judged"
    return tuple(
        BalanceWeek(
            week=week.week,
            heat_money=week.cost,
            kg=None if h.kg is None else picked.kg,
            value=None if h.shop_value is None else picked.value,
            needed_share=shares.get(week.monday),
            heat_kwh=week.kwh,
            monday=week.monday,
            stood=_stood(needed, week.week),
        )
        for week, picked in zip(h.weeks, after, strict=True)
    )


def _stood(needed: HeatNeeded, week: str) -> tuple[str, ...]:
    """Crops that stood on a heated night of that ISO week."""
    nights = [night for night in needed.nights if night.night.strftime("%G-W%V") == week]
    return tuple(dict.fromkeys(crop for night in nights for crop in night.stood))


def _spared(needed: HeatNeeded) -> Ends | None:
    """Money of nights that no standing crop needed, by the low and the high end of the forecast."""
    if not needed.judged.nights or needed.judged.money is None:
        return None
    return Ends(low=needed.spared_low.money, high=needed.spared_high.money)


def _tender_value(r: Results, needed: HeatNeeded) -> float | None:
    """Shop value of what was picked of crops that needed the heat, from the first such night on."""
    first = next((night.night for night in needed.nights if night.crops), None)
    return None if first is None else value_of(r.harvest.pickings, needed.tender, first)


def _backup(r: Results) -> float | None:
    """What the backup heaters' heat cost; None without one or without its price."""
    backup = [supply for supply in r.readings.heating if supply.role == "backup"]
    return total_cost(backup).value if backup else None
