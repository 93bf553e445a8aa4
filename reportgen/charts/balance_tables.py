"""What the winter gave against what it took, with parts that add up, and which nights' heat a crop needed."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Balance
from reportgen.counsel.heat_bounds import unlooked
from reportgen.counsel.said_balance import each_money, heat_money, total_money
from reportgen.counsel.the_balance import LEAST
from reportgen.measures.heat_needed import HeatNeeded, Need
from reportgen.units import POUND_KG
from reportgen.wording import Wording, day, listed, number, of_all, shares

NAMES = (
    ("heat", "heat"),
    ("appliances", "appliances"),
    ("costs", "the costs book"),
    ("changes_by_years", "a year's share of the changes"),
)
NIGHTS = "harvest_needed"
# Words of a night's judgement, in the order in which the page tells them.
NEEDS: Mapping[Need, str] = {
    "needed": "needed by a crop",
    "perhaps": "perhaps needed",
    "not needed": "needed by no crop",
    "not judged": "not judged",
}


def balance_table(facts: Facts) -> list[Table]:
    """The parts of the balance, rounded so that they add up to the printed sum, each also by weight."""
    b, w = facts.on.balance, facts.w
    known = [(words, float(v)) for name, words in NAMES if (v := getattr(b, name)) is not None and abs(v) >= LEAST]
    if b.total is None or not w.currency or not known:
        return []
    printed = shares([value for _, value in known], 2)
    by_mass = _by_mass(facts, [value for _, value in known])
    rows = [
        (words, _of_part(b, words, value, w), *each)
        for (words, _), value, each in zip(known, printed, by_mass, strict=True)
    ]
    rows.append(("in all", total_money(b, w, 2), *([each_money(b, facts)] if by_mass[0] and b.per_kg else [])))
    if b.shop_value is not None:
        each = [w.money(facts.per_mass(b.shop_value / b.kg))] if by_mass[0] and b.kg else []
        rows.append(("the same in the shop", w.money(b.shop_value), *each))
    weight = (f"for each {w.mass_unit}",) if by_mass[0] else ()
    return [
        Table(
            uid="harvest_balance",
            title=_balance_title(facts),
            subtitle="What is used up counts whole; of what lasts for years a year's share, its price divided by them",
            columns=("what", "money", *weight),
            rows=tuple(rows),
            data=_balance_data(b, w),
            notes=((f"The sum is without {listed(b.missing)}.",) if b.missing else ()) + tuple(unlooked(facts)),
        )
    ]


def _of_part(b: Balance, words: str, printed: float, w: Wording) -> str:
    low, high = heat_money(b, printed, 2) if words == NAMES[0][1] else (printed, printed)
    return w.money_range(low, high, 2) if low < high else w.money(printed)


def _balance_data(b: Balance, w: Wording) -> pd.DataFrame:
    """Every part, known or not, the sum, and of the heat what no standing crop needed."""
    spent = b.not_needed_money
    rows: list[tuple[str, float | None, float | None, str]] = [
        (words, getattr(b, name), None, b.reasons.get(name, "")) for name, words in NAMES
    ]
    rows += [
        ("in all", b.total, b.kg, b.reasons.get("total", "")),
        ("the same in the shop", b.shop_value, b.kg, ""),
        ("heat of nights that can be judged", b.judged_money, None, b.reasons.get("weeks.needed_share", "")),
        ("of it needed by no crop, least", None if spent is None else spent.low, None, ""),
        ("of it needed by no crop, most", None if spent is None else spent.high, None, ""),
        ("heat of the backup heaters", b.backup_money, None, ""),
    ]
    frame = pd.DataFrame(rows, columns=["what", w.currency, w.mass_unit, "why not known"])
    frame = frame.astype({w.currency: float, w.mass_unit: float})
    frame[w.mass_unit] = frame[w.mass_unit].map(w.mass_value)
    frame.insert(
        3, f"{w.currency} per {w.mass_unit}", frame[w.currency] / frame[w.mass_unit].where(frame[w.mass_unit] > 0)
    )
    known = frame[w.currency].notna()
    frame["why not known"] = frame["why not known"].where(~known, "")
    return frame.round(6)


def _by_mass(facts: Facts, values: list[float]) -> list[tuple[str, ...]]:
    """Each part by weight, so that these add up too; nothing where nothing was weighed."""
    b = facts.on.balance
    if b.per_kg is None or not b.kg:
        return [() for _ in values]
    scale = (POUND_KG if facts.w.us else 1.0) / b.kg
    return [(facts.w.money(value),) for value in shares([value * scale for value in values], 2)]


def _balance_title(facts: Facts) -> str:
    """Which part took most, by its share."""
    b, w = facts.on.balance, facts.w
    known = [(v, words) for name, words in NAMES if (v := getattr(b, name)) is not None]
    most, words = max(known)
    if not b.total or most / b.total < 0.5:
        return f"It took {total_money(b, w, 2)} in all"
    return f"{words[:1].upper()}{words[1:]} took {w.percent(100 * most / b.total)} of the {w.money(b.total, 0)}"


def needed_table(facts: Facts) -> list[Table]:
    """Every night with heat and whether a standing crop needed it; nothing where no night had heat."""
    needed = facts.on.balance.needed
    if needed is None or not needed.heated.nights:
        return []
    w = facts.w
    rows = []
    for need, words in NEEDS.items():
        nights = [night for night in needed.nights if night.need == need]
        if nights:
            kwh = sum(night.kwh for night in nights)
            money = [night.money for night in nights if night.money is not None]
            paid = (w.money(sum(money)),) if w.currency and len(money) == len(nights) else ("–",)
            rows.append((words, number(len(nights)), w.kwh(kwh), *paid))
    return [
        Table(
            uid=NIGHTS,
            title=f"{_begun(of_all(needed.judged.nights, needed.heated.nights, 'heated night'))} can be judged by what "
            "stood then",
            subtitle="Heat of each night by whether it kept a standing crop from its limit; perhaps: at the cold end "
            "of the night without heat alone",
            columns=("heat", "nights", "kWh", "money"),
            rows=tuple(rows),
            data=_nights_data(needed, w),
            notes=_why_not(needed),
        )
    ]


def _begun(words: str) -> str:
    return words[:1].upper() + words[1:]


def _why_not(needed: HeatNeeded) -> tuple[str, ...]:
    told = [f"No limit of cold is known for {listed(needed.unknown_crops)}."] if needed.unknown_crops else []
    if needed.hardy_from is not None:
        told.append(f"From {day(needed.hardy_from)} nothing that stood needed heat.")
    return (" ".join(told),) if told else ()


def _nights_data(needed: HeatNeeded, w: Wording) -> pd.DataFrame:
    frame = pd.DataFrame(
        {
            "night": [night.night for night in needed.nights],
            "kWh": [round(night.kwh, 4) for night in needed.nights],
            "heat": [NEEDS[night.need] for night in needed.nights],
            "crops that needed it": ["; ".join(night.crops) for night in needed.nights],
            "crops that surely did": ["; ".join(night.surely) for night in needed.nights],
            "crops without a known limit": ["; ".join(night.without_band) for night in needed.nights],
            "why not judged": [night.why for night in needed.nights],
        }
    )
    if w.currency:
        money = [float("nan") if night.money is None else round(night.money, 6) for night in needed.nights]
        frame.insert(2, w.currency, money)
    return frame
