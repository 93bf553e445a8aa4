"""The difference between two winters once the weather is taken out.

The estimator of the changes with a winter column in place of the step: noise knows nothing of the other winter, and the
wandering level is centred within each, so that the coefficient is the difference of the season means. Method: methods
page, *Two winters*.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

import numpy as np
import pandas as pd

from reportgen.effects.design import design
from reportgen.effects.gls import Estimate, Floats, fit, lagged_step, step, winters_grid
from reportgen.effects.outcomes import DayTable
from reportgen.effects.weather import EXTRAS, SETS
from reportgen.problems import NotEnoughData
from reportgen.winters.apart import widened
from reportgen.winters.common import moved

BED = "tsd"  # how warm the bed is against the night outdoors
WARMTH = frozenset({"lift", "night_minimum"})
FEWEST_DAYS = 21  # usable days each winter must have; a change needs 21 on a side (methods page)


@dataclass(frozen=True, kw_only=True, slots=True)
class Difference:
    """This winter minus last at equal weather, with what it rests on and both raw means over the same days."""

    estimate: Estimate
    mean_last: float
    mean_this: float
    days_last: int
    days_this: int
    columns: tuple[str, ...]
    apart_k: float  # this winter's mean night outdoors less last winter's; NaN where not known


@dataclass(frozen=True, kw_only=True, slots=True)
class _Days:
    y: Floats
    weather: pd.DataFrame
    number: Floats  # of the day, rising within each winter
    winter: np.ndarray[tuple[int], np.dtype[np.int64]]  # 0 last, 1 this


def equal_weather(this: DayTable, last: DayTable, outcome: str, years: int) -> Difference:
    """The difference in one outcome.

    Args:
        this: Days of this winter, the shared calendar days only.
        last: Likewise of last winter.
        outcome: A name of `reportgen.effects.outcomes.OUTCOMES`.
        years: By which last winter's dates are moved to lie on this winter's.

    Raises:
        NotEnoughData: With the reason in the grower's words.
    """
    for winter, words in ((this, "this winter"), (last, "last winter")):
        if outcome not in winter.outcomes:
            raise NotEnoughData(f"{words}: {winter.missing.get(outcome, 'not logged')}")
    if this.units[outcome] != last.units[outcome]:
        raise NotEnoughData("the two winters logged it in units that cannot be set side by side")
    names = columns_for(outcome, this.weather, last.weather)
    days = _days(this, last, outcome, names, years)
    counts = [int((days.winter == w).sum()) for w in (0, 1)]
    if min(counts) < FEWEST_DAYS:
        fewest = "last" if counts[0] <= counts[1] else "this"
        raise NotEnoughData(
            f"only {min(counts)} days of {fewest} winter have it with its weather, {FEWEST_DAYS} are needed"
        )
    _comparable(days)
    return _fitted(days, outcome, names, counts, _mean_night(this) - _mean_night(last))


def _mean_night(winter: DayTable) -> float:
    """Mean of the nights outdoors of the shared days [°C]; NaN where not logged."""
    return float(winter.weather["ton"].mean()) if "ton" in winter.weather else float("nan")


def columns_for(outcome: str, this: pd.DataFrame, last: pd.DataFrame) -> tuple[str, ...]:
    """The first set of weather columns that both winters can compute whole, else what both have of the last set.

    The bed's warmth (`tsd`) stays out of the warmth outcomes: over a whole winter it is the house's own doing and no
    weather. With it, the true gain of a better cover lay inside the interval in none of 42 simulated unheated houses.
    For the same reason what changes have beside every set (`ts`, `tsr`) has no place here.
    """
    both = {c for c in this.columns if c in last.columns and this[c].notna().any() and last[c].notna().any()}
    sets = [tuple(c for c in s if c != BED or outcome not in WARMTH) for s in SETS[outcome]]
    chosen = next((s for s in sets if set(s) <= both), None)
    if chosen is None:
        return tuple(c for c in sets[-1] if c in both)
    extras = EXTRAS.get(outcome, ()) if chosen == sets[0] else ()
    return chosen + tuple(c for c in extras if c in both)


def _days(this: DayTable, last: DayTable, outcome: str, names: tuple[str, ...], years: int) -> _Days:
    parts, number, winter = [], [], []
    for which, table in enumerate((last, this)):
        rows = pd.concat([table.outcomes[outcome].rename("y"), table.weather[list(names)]], axis=1).dropna()
        parts.append(rows)
        number += [float(_moved(day, 0 if which else years).toordinal()) for day in rows.index]
        winter += [which] * len(rows)
    whole = pd.concat(parts, ignore_index=True)
    return _Days(
        y=whole["y"].to_numpy(dtype=np.float64),
        weather=whole[list(names)],
        number=np.asarray(number),
        winter=np.asarray(winter, dtype=np.int64),
    )


def _moved(day: date, years: int) -> date:
    return moved(day, years) if years else day


def _comparable(days: _Days) -> None:
    """Refuse where the two winters' nights hardly overlap: the model would have to invent the one from the other."""
    if "ton" not in days.weather:
        return
    night = days.weather["ton"].to_numpy(dtype=np.float64)
    last, this = night[days.winter == 0], night[days.winter == 1]
    inside = float(((this >= last.min() - 0.5) & (this <= last.max() + 0.5)).mean())
    if inside < 0.5:
        raise NotEnoughData(
            "the nights of the two winters were too unlike: fewer than half of this winter's had their like"
        )


def _fitted(days: _Days, outcome: str, names: tuple[str, ...], counts: list[int], apart_k: float) -> Difference:
    lagged = outcome == "soil_mean"
    rows = _with_yesterday(days) if lagged else np.arange(len(days.y))
    winter, y = days.winter[rows], days.y[rows]
    if min((winter == 0).sum(), (winter == 1).sum()) < FEWEST_DAYS:
        raise NotEnoughData("too few days in a row for an estimate")
    if float(np.ptp(y)) == 0.0:
        raise NotEnoughData("it did not vary at all")
    weather = {name: days.weather[name].to_numpy(dtype=np.float64)[rows] for name in names}
    columns = design(winter.astype(np.float64), {}, days.y[rows - 1] if lagged else None, weather)
    found = fit(y, columns.x, winters_grid(days.number[rows], winter))
    plain = lagged_step(found, 1, 2, int((winter == 1).sum())) if lagged else step(found, 1)
    mean_last = float(days.y[days.winter == 0].mean())
    return Difference(
        estimate=widened(plain, outcome, apart_k, mean_last),
        mean_last=mean_last,
        mean_this=float(days.y[days.winter == 1].mean()),
        days_last=counts[0],
        days_this=counts[1],
        columns=columns.weather,
        apart_k=apart_k,
    )


def _with_yesterday(days: _Days) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Rows whose row before is the day before, of the same winter."""
    follows = (np.diff(days.number) == 1) & (np.diff(days.winter) == 0)
    return np.flatnonzero(follows) + 1


def differences(
    this: DayTable, last: DayTable, outcomes: tuple[str, ...], years: int
) -> Mapping[str, Difference | str]:
    """Every outcome's difference, or why it cannot be had."""
    found: dict[str, Difference | str] = {}
    for outcome in outcomes:
        try:
            found[outcome] = equal_weather(this, last, outcome, years)
        except NotEnoughData as reason:
            found[outcome] = str(reason)
    return found
