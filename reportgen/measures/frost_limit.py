"""The holding limit: down to which outdoor minimum the house stays above the frost line.

Method: methods page, *Frost margin*: least squares of the night's minimum inside on that outside, with its lower
one-sided 95 % prediction bound (textbook formula, e.g. Draper and Smith, Applied Regression Analysis, ch. 1).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import numpy as np
import pandas as pd
from scipy.special import stdtrit

from reportgen.measures.days import ENOUGH
from reportgen.measures.exposure import Floats
from reportgen.measures.frost_types import HoldingLimit
from reportgen.measures.house.size import FlatOut
from reportgen.measures.places import seldom_crop, seldom_outdoors, why_no
from reportgen.readings.types import Readings
from reportgen.wording import day

FEWEST_HEATED, FEWEST_UNHEATED = 20, 30  # nights of the fit (methods page)
SURE = 0.95  # share of such nights that a bound is to hold
TOUCHES = frozenset({"envelope", "heater", "thermostat"})
SEARCH_STEP_K = 0.05  # of the search for the limit


@dataclass(frozen=True, kw_only=True, slots=True)
class Regression:
    """y = intercept + slope · x of n nights, residual standard deviation s."""

    n: int
    intercept: float
    slope: float
    s: float
    x_mean: float
    x_squares: float

    def middle(self, x: Floats) -> Floats:
        """The fitted line at `x`, in the unit of y; any shape, kept."""
        return np.asarray(self.intercept + self.slope * x)

    def bound(self, x: Floats) -> Floats:
        """Lower one-sided 95 % prediction bound of one more night at `x`, in the unit of y; any shape, kept.

        Source: Draper and Smith, Applied Regression Analysis, ch. 1 (textbook formula).
        """
        spread = np.sqrt(1 + 1 / self.n + (x - self.x_mean) ** 2 / self.x_squares)
        return np.asarray(self.middle(x) - stdtrit(self.n - 2, SURE) * self.s * spread)


def regress(x: Floats, y: Floats) -> Regression | None:
    """Least squares of y on x, shapes (n,); the slope in the unit of y for one of x.

    None for fewer than three points or a constant x. Source: textbook formula, e.g. Draper and Smith, Applied
    Regression Analysis, ch. 1.
    """
    n = len(x)
    squares = float(((x - x.mean()) ** 2).sum()) if n else 0.0
    if n < 3 or squares < 1e-9:
        return None
    slope = float(((x - x.mean()) * (y - y.mean())).sum() / squares)
    intercept = float(y.mean() - slope * x.mean())
    rss = float(((y - intercept - slope * x) ** 2).sum())
    return Regression(
        n=n,
        intercept=intercept,
        slope=slope,
        s=float(np.sqrt(rss / (n - 2))),
        x_mean=float(x.mean()),
        x_squares=squares,
    )


def limit_of(fit: Regression, x: Floats, y: Floats, line_c: float) -> float | None:
    """The lowest x [°C] from which the bound stays above the line up to the mildest night, at 0.05 K.

    `x`, `y`: the nights' minima outdoors and inside [°C], shapes (n,). Never below an x at which the line was crossed.
    None where even the mildest night's bound does not clear the line; −60 where the bound clears it as far down as is
    looked.
    """
    grid = np.arange(float(x.max()), -60.0, -SEARCH_STEP_K)
    clear = fit.bound(grid) > line_c
    if not clear[0]:
        return None
    lowest = float(grid[-1]) if clear.all() else float(grid[int(np.argmin(clear)) - 1])
    crossed = x[y < line_c]
    return max(lowest, float(crossed.max())) if len(crossed) else lowest


def last_touch(readings: Readings) -> date | None:
    """The last day of the season on which the envelope, a heater or the thermostat was altered."""
    days = [
        when
        for entry in readings.diary
        if entry.kind in ("change", "spell", "upkeep") and TOUCHES & set(entry.touches)
        for when in (entry.date, entry.until)
        if when is not None and readings.season.first_day <= when <= readings.season.last_day
    ]
    return max(days, default=None)


def holding_limit(
    readings: Readings, table: pd.DataFrame, failed: set[date], heated: bool, flat: FlatOut | None
) -> HoldingLimit:
    """The limit from the nights of `frost_nights.night_table`; `failed` are the evenings of failure nights."""
    line_c = readings.season.aims.frost_c
    both = (table["share"] >= ENOUGH) & (table["outdoor_share"] >= ENOUGH)
    if not both.any():
        seldom = seldom_crop(readings, "air_temperature") or seldom_outdoors(readings, "air_temperature")
        why = why_no(seldom, "no night with both inside and outdoor air logged")
        return HoldingLimit(**_flat(flat), reason=why)
    since = last_touch(readings)
    usable = both & np.array([d not in failed and (since is None or d > since) for d in table.index])
    seen = table[usable]
    points = table[both].reset_index()[["date", "outdoor_min", "inside_min"]]
    points.columns = pd.Index(["date", "outdoor_c", "inside_c"])
    coldest = float(seen["outdoor_min"].min()) if len(seen) else None
    chosen = seen.nsmallest(len(seen) // 2, "outdoor_min") if heated else seen
    points["fitted"] = points["date"].isin(set(chosen.index))
    known = HoldingLimit(coldest_seen_c=coldest, **_flat(flat), points=points)
    few = _too_few(len(chosen), heated, since)
    x, y = (chosen[c].to_numpy(dtype=np.float64) for c in ("outdoor_min", "inside_min"))
    fit = regress(x, y) if not few else None
    if fit is None or coldest is None:
        return _but(known, reason=few or "every night had the same outdoor minimum")
    grid = np.linspace(float(x.min()), float(x.max()), 40)
    curve = pd.DataFrame({"outdoor_c": grid, "middle_c": fit.middle(grid), "bound_c": fit.bound(grid)})
    return _said(_but(known, curve=curve), limit_of(fit, x, y, line_c), coldest)


def _flat(flat: FlatOut | None) -> dict[str, Any]:
    return {
        "heater_flat_out_c": None if flat is None else flat.outdoor_c,
        "flat_out_half_k": None if flat is None else flat.half_k,
    }


def _too_few(count: int, heated: bool, since: date | None) -> str:
    least = FEWEST_HEATED if heated else FEWEST_UNHEATED
    if count >= least:
        return ""
    what = "cold nights (the colder half)" if heated else "nights"
    after = f" since the house was last altered on {day(since, year=True)}" if since else ""
    return f"only {count} {what}{after}; {least} are needed"


def _said(known: HoldingLimit, limit: float | None, coldest: float) -> HoldingLimit:
    if limit is None:
        return _but(known, reason="nights of the same outdoor minimum differ too much to name a limit")
    if limit < coldest:
        return _but(known, reason="held on every night down to the coldest seen; colder was not tested")
    return _but(known, outdoor_c=limit, reason="")


def _but(known: HoldingLimit, **changed: object) -> HoldingLimit:
    fields = {name: getattr(known, name) for name in HoldingLimit.__dataclass_fields__} | changed
    return HoldingLimit(**fields)


def evening(when: pd.Timestamp) -> date:
    """The evening after which the night of that moment is named."""
    return (when - pd.Timedelta(hours=12)).date() if when.hour < 12 else when.date()


def nights_of(start: pd.Timestamp, end: pd.Timestamp) -> set[date]:
    """The evenings of all nights that a stretch touches."""
    first, last = evening(start), evening(end)
    return {first + timedelta(days=n) for n in range((last - first).days + 1)}
