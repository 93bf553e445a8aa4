"""What was picked in a week and in the four weeks after it: the picking that the week's heat may have lived for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import pandas as pd

WEEKS_AFTER = 4  # a leaf crop that is picked again regrows in about a month; common practice, no source


@dataclass(frozen=True, kw_only=True, slots=True)
class PickedAfter:
    """Weight [kg] of a week and the four after it, lost pickings left out, and its shop value; None where no price is
    given for any of it. These windows overlap: their sums mean nothing."""

    kg: float
    value: float | None


def picked_after(pickings: pd.DataFrame, mondays: Sequence[date]) -> list[PickedAfter]:
    """One window a Monday.

    Args:
        pickings: As `harvest.pickings_table`: date, kg, use, value (NaN without a price).
    """
    kept = pickings[pickings["use"] != "lost"]
    return [_window(kept, monday) for monday in mondays]


def _window(kept: pd.DataFrame, monday: date) -> PickedAfter:
    until = monday + timedelta(days=7 * (1 + WEEKS_AFTER))
    rows = kept.loc[[monday <= day < until for day in kept["date"]]]
    value = rows["value"].dropna()
    return PickedAfter(kg=float(rows["kg"].sum()), value=float(value.sum()) if len(value) or not len(rows) else None)


def value_of(pickings: pd.DataFrame, crops: Sequence[str], since: date) -> float | None:
    """Shop value [money] of what was picked of some crops from a day on, lost pickings left out; None where any has no
    price or none was picked.
    """
    rows = pickings[(pickings["use"] != "lost") & pickings["crop"].isin(list(crops))]
    values = rows.loc[[day >= since for day in rows["date"]], "value"]
    return float(values.sum()) if len(values) and values.notna().all() else None
