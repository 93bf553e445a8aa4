"""What the picking was worth: the household's share of its vegetables, the shop's price, and where the two meet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

import pandas as pd

from reportgen.measures.days import dates
from reportgen.readings.types import Readings

HALF = 0.5  # a week "at half or more" of what the household eats (the contract's line)


class EatenWeek(Protocol):
    """A week with what was eaten or stored of its picking, and how many of its days the season has."""

    @property
    def eaten_kg(self) -> float:
        """What was eaten or stored of the week's picking [kg]."""

    @property
    def days(self) -> int:
        """How many of the week's days lie in the season, 1…7."""


def household(
    readings: Readings, kept: pd.DataFrame, weeks: Sequence[EatenWeek], kg: float | None, reasons: dict[str, str]
) -> tuple[float | None, int | None]:
    """Share of the household's vegetables (what was eaten or stored), and weeks at half or more of them.

    `kg`: what was picked [kg], None where that is not known. Both None, with the reason in `reasons`, where it or the
    need is not known.
    """
    need = readings.season.household.vegetables_kg_per_week
    words = reasons.get("kg") if kg is None else "household.vegetables_kg_per_week is not given"
    if need is None or kg is None:
        reasons["share_of_household"] = reasons["weeks_at_half_or_more"] = words or ""
        return None, None
    eaten = float(kept.loc[kept["use"].isin(["eaten", "stored"]), "kg"].sum())
    at_half = sum(week.eaten_kg >= HALF * need * week.days / 7 for week in weeks)
    return eaten / (need * len(dates(readings.season)) / 7), at_half


def shop_value(kept: pd.DataFrame, kg: float | None, reasons: dict[str, str]) -> tuple[float | None, float | None]:
    """Shop value [money] of what was kept and has a price, and the share of the kilograms that has one.

    `kept`: pickings without the lost ones. `reasons` is told why where there is no value, and which crops have no
    price.
    """
    priced = kept[kept["value"].notna()]
    if kg is None or not kg or priced.empty:
        reasons["shop_value"] = reasons.get("kg", "no shop price is given for what was picked")
        return None, None
    share = float(priced["kg"].sum()) / kg
    if share < 0.9995:
        missing = sorted(set(kept.loc[kept["value"].isna(), "crop"]))
        reasons["shop_value"] = f"no price for {', '.join(missing)}: the value is that of the rest"
    return float(priced["value"].sum()), share


def break_even(cost: float | None, value: float | None, priced: float | None, kg: float | None) -> float | None:
    """Kilograms, of the mix that was picked, whose shop value would pay a cost [money]; None where anything is not
    known.

    `value` [money]: of the share `priced` (0…1) of `kg`.
    """
    if cost is None or not value or not priced or not kg:
        return None
    return cost / (value / (priced * kg))
