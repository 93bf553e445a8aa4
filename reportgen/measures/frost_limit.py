"""The holding limit: down to which outdoor minimum the house stays above the frost line.

Method: methods page, *How cold may it get outside*: least squares of the night's minimum inside on that outside, with
its lower one-sided 95 % prediction bound; in a heated house of the cold end alone (`frost_cold`).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH
from reportgen.measures.exposure import Floats
from reportgen.measures.frost_cold import DIFFER, FEWEST_HEATED, HELD, Mask, cold_end, hold_by_nights, with_heat
from reportgen.measures.frost_fit import Regression, limit_of, regress
from reportgen.measures.frost_types import HoldingLimit
from reportgen.measures.house.size import FlatOut
from reportgen.measures.places import seldom_crop, seldom_outdoors, why_no
from reportgen.readings.types import Readings
from reportgen.wording import day

NO_HOLD = "the heat is not known by the hour, and the nights since it was last set do not show at what it held"
FEWEST_UNHEATED = 30  # nights of the fit (methods page)
HEAT = frozenset({"heater", "thermostat"})
TOUCHES = HEAT | {"envelope"}


def last_touch(readings: Readings, touches: frozenset[str] = TOUCHES) -> date | None:
    """The last day of the season on which one of them was altered: the envelope, a heater or the thermostat."""
    days = [
        when
        for entry in readings.diary
        if entry.kind in ("change", "spell", "upkeep") and touches & set(entry.touches)
        for when in (entry.date, entry.until)
        if when is not None and readings.season.first_day <= when <= readings.season.last_day
    ]
    return max(days, default=None)


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """What nights of one state tell: the limit [°C] or its reason, the nights it rests on, shape (n,), the line that is
    drawn through those `at` minima outdoors [°C], and how they were chosen."""

    outdoor_c: float | None
    reason: str
    used: Mask
    line: Regression | None = None
    at: Floats | None = None
    chosen: str = ""


def holding_limit(
    readings: Readings, table: pd.DataFrame, failed: set[date], heated: bool, flat: FlatOut | None
) -> HoldingLimit:
    """The limit from the nights of `frost_nights.night_table`, with `heated_h`; `failed`: evenings on which the heat
    failed."""
    both = (table["share"] >= ENOUGH) & (table["outdoor_share"] >= ENOUGH)
    if not both.any():
        seldom = seldom_crop(readings, "air_temperature") or seldom_outdoors(readings, "air_temperature")
        why = why_no(seldom, "no night with both inside and outdoor air logged")
        return HoldingLimit(**_flat(flat), reason=why)
    since = last_touch(readings)
    of_state = both & np.array([since is None or d > since for d in table.index])
    ran = np.array([d not in failed for d in table.index])
    seen = table[of_state & ran]
    after = f" since the house was last altered on {day(since, year=True)}" if since else ""
    set_on = last_touch(readings, HEAT)
    of_hold = table[both & ran & np.array([set_on is None or d > set_on for d in table.index])]
    told = told_by(seen, readings.season.aims.frost_c, heated, after, of_hold)
    points = table[both].reset_index()[["date", "outdoor_min", "inside_min"]]
    points.columns = pd.Index(["date", "outdoor_c", "inside_c"])
    points["fitted"] = points["date"].isin(set(seen.index[told.used]))
    return HoldingLimit(
        outdoor_c=told.outdoor_c,
        coldest_seen_c=float(seen["outdoor_min"].min()) if len(seen) else None,
        reason=told.reason,
        points=points,
        curve=_curve(told),
        chosen=told.chosen,
        left_out=int((of_state & ~ran).sum()),
        **_flat(flat),
    )


def told_by(
    seen: pd.DataFrame, line_c: float, heated: bool, after: str = "", of_hold: pd.DataFrame | None = None
) -> Told:
    """The limit that the nights of one state tell.

    Args:
        seen: Of `frost_nights.night_table`: nights of that state, logged inside and outdoors, without a failure.
        line_c: The frost line [°C].
        after: Since when these nights are, in words.
        of_hold: Nights of the same setting of the heat, also from before; those of the state where none are given.
    """
    x, y = _minima(seen)
    if not heated:
        return _unheated(x, y, line_c, after)
    hours = seen["heated_h"].to_numpy(dtype=np.float64) if "heated_h" in seen else np.full(len(x), np.nan)
    hold = hold_by_nights(*_minima(seen if of_hold is None else of_hold))
    used, logged = with_heat(y, hours, hold)
    chosen = "with heat" if logged else "at the hold"
    count = int(used.sum())
    if count < FEWEST_HEATED:
        what = "with heat" if logged else "at the usual hold or under it"
        why = NO_HOLD if hold is None and not logged else _few(count, what, after, FEWEST_HEATED)
        return Told(outdoor_c=None, reason=why, used=used, chosen=chosen)
    end = cold_end(x[used], y[used], line_c, (x, y))
    return Told(
        outdoor_c=end.outdoor_c,
        reason=end.reason,
        used=used,
        line=end.line,
        at=x[used][end.falling],
        chosen=chosen,
    )


def _minima(nights: pd.DataFrame) -> tuple[Floats, Floats]:
    x, y = (nights[name].to_numpy(dtype=np.float64) for name in ("outdoor_min", "inside_min"))
    return x, y


def _unheated(x: Floats, y: Floats, line_c: float, after: str) -> Told:
    """All nights: without heat nothing bends the line."""
    used = np.ones(len(x), dtype=bool)
    if len(x) < FEWEST_UNHEATED:
        return Told(outdoor_c=None, reason=_few(len(x), "", after, FEWEST_UNHEATED), used=used)
    line = regress(x, y)
    if line is None:
        return Told(outdoor_c=None, reason="every night had the same outdoor minimum", used=used)
    limit = limit_of(line, x, y, line_c)
    if limit is None or limit < float(x.min()):
        return Told(outdoor_c=None, reason=DIFFER if limit is None else HELD, used=used, line=line, at=x)
    return Told(outdoor_c=limit, reason="", used=used, line=line, at=x)


def _few(count: int, what: str, after: str, least: int) -> str:
    nights = f"only {count} nights" if count > 1 else "only one night" if count else "no night"
    return f"{nights}{' ' if what else ''}{what}{after}; {least} are needed"


def _curve(told: Told) -> pd.DataFrame:
    """The line and its bound over the nights that carry it."""
    if told.line is None or told.at is None:
        return pd.DataFrame()
    grid = np.linspace(float(told.at.min()), float(told.at.max()), 40)
    return pd.DataFrame({"outdoor_c": grid, "middle_c": told.line.middle(grid), "bound_c": told.line.bound(grid)})


def _flat(flat: FlatOut | None) -> dict[str, Any]:
    return {
        "heater_flat_out_c": None if flat is None else flat.outdoor_c,
        "flat_out_half_k": None if flat is None else flat.half_k,
    }


def evening(when: pd.Timestamp) -> date:
    """The evening after which the night of that moment is named."""
    return (when - pd.Timedelta(hours=12)).date() if when.hour < 12 else when.date()


def nights_of(start: pd.Timestamp, end: pd.Timestamp) -> set[date]:
    """The evenings of all nights that a stretch touches."""
    first, last = evening(start), evening(end)
    return {first + timedelta(days=n) for n in range((last - first).days + 1)}
