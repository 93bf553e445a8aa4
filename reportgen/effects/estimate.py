"""One outcome of one cause: window, design, fit; or the reason why not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.effects import gls
from reportgen.effects.bed import with_what_it_gives_back
from reportgen.effects.causes import Cause, Days, is_in
from reportgen.effects.design import (
    COLDER_SD,
    COLDER_SD_PER_K,
    GROWS,
    USABLE,
    Design,
    Refused,
    check_heated,
    check_sides,
    check_weather_alike,
    design,
    mostly_heated,
    moves,
    named,
)
from reportgen.effects.gls import Floats
from reportgen.effects.lost_nights import Need, lost_words
from reportgen.effects.outcomes import HEAT, DayTable
from reportgen.effects.types import SOIL, WARMTH, Outcome
from reportgen.effects.weather import BED_COLUMNS, EXTRAS, FROM_BED, SETS
from reportgen.measures.places import NO_OUTDOORS
from reportgen.measures.seldom import NOTHING_TOLD

WINDOW_DAYS = 21  # looked at on each side of a change; our own line, its errors in tests/studies/RESULTS.md
LONG_BEFORE_DAYS = 28  # where the season holds fewer than 21 days after
OUTDOOR_LOGGER = "an outdoor logger"
OFTEN = "a reading every ten minutes, day and night"
COUNTS = {"watts_per_kelvin": "with heat for 7 of 10 hours and the house 3\u00a0K (5\u00a0°F) or more above outdoors"}
NEEDED = {
    "lift": "the air inside or outdoors",
    "night_minimum": "the air inside or outdoors",
    "heat": "the heat",
    "watts_per_kelvin": "the heat or the air",
    "night_humidity": "the humidity beside the crop",
    "moisture": "the air's temperature or humidity",
    "damp_hours": "the humidity beside the crop",
    "soil_mean": "the bed",
    "soil_swing": "the bed",
    "daily_light": "the light inside",
}
COLD = {"heat": "hd15"}  # what is done to heat grows with the cold; the column that tells how cold a day was
LOGGED_SHARE = 0.8  # a weather column counts as logged when it is there on this share of the outcome's days


@dataclass(frozen=True, kw_only=True, slots=True)
class DayArrays:
    """The season as plain arrays over its garden days, and everything that was done in it."""

    days: Floats  # ordinals of the dates, shape (n,)
    outcomes: Mapping[str, Floats]
    weather: Mapping[str, Floats]
    heated: Floats
    units: Mapping[str, str]
    missing: Mapping[str, str]
    causes: tuple[Cause, ...]
    lost: Days  # days of events
    needs: Mapping[str, tuple[Need, ...]] = field(default_factory=dict)  # outcome → what a night must have for it


def day_arrays(table: DayTable, causes: Sequence[Cause], lost: Days) -> DayArrays:
    """The day table as arrays."""
    return DayArrays(
        days=np.asarray([d.toordinal() for d in table.outcomes.index], dtype=np.float64),
        outcomes={str(name): table.outcomes[name].to_numpy(dtype=np.float64) for name in table.outcomes},
        weather={str(name): table.weather[name].to_numpy(dtype=np.float64) for name in table.weather},
        heated=table.heat.table["heated"].to_numpy(dtype=np.float64),
        units=table.units,
        missing=table.missing,
        causes=tuple(causes),
        lost=lost,
        needs=table.needs,
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Rows:
    """The days of one estimate and what is known of them."""

    index: NDArray[np.int64]  # into the days of the arrays
    columns: tuple[str, ...]  # weather columns to try
    left_out: tuple[str, ...]
    covariate_set: int


def outcome_of(cause: Cause, outcome: str, arrays: DayArrays, *, declared: bool = False) -> Outcome:
    """The effect of a cause on one outcome, or the outcome refused with its reason."""
    unit = arrays.units[outcome]
    counts = (0, 0)
    try:
        if cause.too_long:
            raise Refused(
                "a chain of changes longer than a week is no single change",
                "at least four days between one change and the next",
            )
        y = _known(outcome, arrays)
        rows = _rows(cause, outcome, y, arrays)
        step = cause.on(arrays.days[rows.index])
        counts = (int((step == 0).sum()), int((step == 1).sum()))
        told = _estimated(cause, outcome, y, rows, step, arrays, declared)
        if outcome in WARMTH and BED_COLUMNS & set(told.columns) and not mostly_heated(step, arrays.heated[rows.index]):
            return with_what_it_gives_back(told, _without_probe(cause, outcome, y, arrays))
        return told
    except Refused as refused:
        return Outcome(
            outcome=outcome,
            unit=unit,
            declared=declared,
            days_before=counts[0],
            days_after=counts[1],
            refused=str(refused),
            answerable=refused.answerable,
            blocked_by=refused.blocked_by,
        )


def _without_probe(cause: Cause, outcome: str, y: Floats, arrays: DayArrays) -> Outcome:
    """What the same house would tell had it no probe in its bed."""
    bare = replace(arrays, weather={name: of for name, of in arrays.weather.items() if name not in BED_COLUMNS})
    rows = _rows(cause, outcome, y, bare)
    return _estimated(cause, outcome, y, rows, cause.on(bare.days[rows.index]), bare, False)


def _known(outcome: str, arrays: DayArrays) -> Floats:
    if outcome not in arrays.outcomes:
        why = arrays.missing.get(outcome, "it was not logged")
        wanted = OUTDOOR_LOGGER if why == NO_OUTDOORS else "a logger for it"
        raise Refused(why, OFTEN if NOTHING_TOLD in why else wanted)
    if "ton" not in arrays.weather and outcome != "daily_light":
        why = arrays.missing.get("weather", "no outdoor temperature was logged")
        raise Refused(why, OFTEN if NOTHING_TOLD in why else OUTDOOR_LOGGER)
    return arrays.outcomes[outcome]


def window(cause: Cause, days: Floats) -> NDArray[np.bool_]:
    """The days around a cause: 21 on either side, 28 before where the season ends too soon; shape as `days`."""
    after = (days > cause.last) & (days <= cause.last + WINDOW_DAYS)
    back = LONG_BEFORE_DAYS if after.sum() < WINDOW_DAYS and not cause.alternates else WINDOW_DAYS
    return np.asarray((days >= cause.first - back) & (days <= cause.last + WINDOW_DAYS))


def _rows(cause: Cause, outcome: str, y: Floats, arrays: DayArrays) -> Rows:
    """The usable days: in the window, unspoiled, with outcome and weather."""
    usable = window(cause, arrays.days) & ~_spoiled(cause, outcome, arrays) & ~np.isnan(y)
    if outcome in SOIL:
        usable[0] = False
        usable[1:] &= ~np.isnan(y[:-1])
    number, columns, left_out = _columns(cause, outcome, usable, arrays)
    for name in columns:
        usable = usable & ~np.isnan(arrays.weather[name])
    return Rows(index=np.flatnonzero(usable), columns=columns, left_out=left_out, covariate_set=number)


def _spoiled(cause: Cause, outcome: str, arrays: DayArrays) -> NDArray[np.bool_]:
    """Days of events and of switches, its own and others'."""
    spoiled: set[int] = set(arrays.lost) | cause.spoiled(outcome)
    for other in arrays.causes:
        if other is not cause:
            spoiled |= other.spoiled(outcome)
    return is_in(arrays.days, frozenset(spoiled))


def _lost(cause: Cause, outcome: str, rows: Rows, arrays: DayArrays, on: bool) -> str:
    """What the nights of a side were lost to."""
    own = is_in(arrays.days, cause.spoiled(outcome))
    return lost_words(
        side=window(cause, arrays.days) & ~own & ((cause.on(arrays.days) == 1) == on),
        spoiled=_spoiled(cause, outcome, arrays),
        needs=arrays.needs.get(outcome, ()),
        y=arrays.outcomes[outcome],
        columns={name: arrays.weather[name] for name in rows.columns},
        outcome_words=NEEDED[outcome],
    )


def _columns(
    cause: Cause, outcome: str, usable: NDArray[np.bool_], arrays: DayArrays
) -> tuple[int, tuple[str, ...], tuple[str, ...]]:
    """The first set that was logged in full, else the last without what is missing; the bed's columns last of all."""
    logged = {name for name, values in arrays.weather.items() if _logged(values[usable])}
    sets = SETS[outcome]
    number = next((i for i, names in enumerate(sets) if logged.issuperset(names)), len(sets) - 1)
    extras = tuple(name for name in EXTRAS.get(outcome, ()) if name in logged) if number == 0 else ()
    from_bed = FROM_BED.get(outcome, ())
    hidden = BED_COLUMNS if any("bed" in entry.touches for entry in cause.entries) else frozenset()
    kept = tuple(n for n in (*sets[number], *extras, *from_bed) if n in logged and n not in hidden)
    return number + 1, kept, tuple(n for n in (*sets[number], *from_bed) if n not in kept)


def _logged(values: Floats) -> bool:
    return len(values) > 0 and float((~np.isnan(values)).mean()) >= LOGGED_SHARE


def _estimated(
    cause: Cause, outcome: str, y: Floats, rows: Rows, step: Floats, arrays: DayArrays, declared: bool
) -> Outcome:
    _check(cause, outcome, y[rows.index], rows, step, arrays)
    plan = _design(cause, outcome, y, rows, step, arrays)
    days = arrays.days[rows.index]
    found = gls.fit(y[rows.index], plan.x, gls.grid(days))
    if outcome in SOIL:
        estimate = gls.lagged_step(found, 1, plan.names.index("yesterday"), int(step.sum()))
    else:
        estimate = gls.step(found, 1)
    outdoors = arrays.weather.get("ton")
    return Outcome(
        outcome=outcome,
        unit=arrays.units[outcome],
        declared=declared,
        effect=estimate.effect,
        low=estimate.low,
        high=estimate.high,
        smallest_visible=estimate.smallest_visible,
        days_before=int((step == 0).sum()),
        days_after=int((step == 1).sum()),
        se=estimate.se,
        dof=estimate.dof,
        before_mean=_without_it(outcome, y[rows.index], step, estimate.effect),
        columns=plan.weather,
        left_out=rows.left_out,
        covariate_set=rows.covariate_set,
        effective_days=estimate.effective_days,
        nights=_nights(days, y[rows.index], step, plan, estimate, outdoors, rows) if declared else None,
    )


def _without_it(outcome: str, y: Floats, step: Floats, effect: float) -> float:
    """What the effect is a share of: the mean of the days before; of heat that of the days after less the effect,
    for a mild October before a cold November says nothing of what November took without it."""
    return float(y[step == 1].mean()) - effect if outcome in COLD else float(y[step == 0].mean())


def _check(cause: Cause, outcome: str, y: Floats, rows: Rows, step: Floats, arrays: DayArrays) -> None:
    words = ("off", "on") if cause.alternates else ("before", "after")
    check_sides(step, words, COUNTS.get(outcome, USABLE), lambda on: _lost(cause, outcome, rows, arrays, on))
    if outcome in SOIL and cause.alternates:
        raise Refused(
            "the bed remembers for weeks: nights on and nights off cannot be told apart in it",
            "one lasting change with three quiet weeks on either side",
        )
    if not moves(y):
        raise Refused("it hardly varied in these weeks", "a stretch of winter in which it moves")
    if "ton" in arrays.weather:
        outdoors = arrays.weather["ton"][rows.index]
        known = ~np.isnan(outdoors)
        check_sides(step[known], words)
        colder_sd = COLDER_SD_PER_K if outcome == "watts_per_kelvin" else COLDER_SD
        check_weather_alike(step[known], outdoors[known], words, colder_sd)
    if outcome in HEAT:
        check_heated(step, arrays.heated[rows.index])


def _design(cause: Cause, outcome: str, y: Floats, rows: Rows, step: Floats, arrays: DayArrays) -> Design:
    days = arrays.days[rows.index]
    others = named([other for other in arrays.causes if other is not cause], days)
    lag = y[rows.index - 1] if outcome in SOIL else None
    weather = {name: arrays.weather[name][rows.index] for name in rows.columns}
    return design(step, others, lag, weather, weather.get(COLD.get(outcome, "")))


def _nights(
    days: Floats, y: Floats, step: Floats, plan: Design, estimate: gls.Estimate, ton: Floats | None, rows: Rows
) -> pd.DataFrame:
    """For the chart: every day used, what it was, and what the model says it would have been without the change."""
    own = [1, *(n for n, name in enumerate(plan.names) if name == GROWS)]
    coefficients = np.asarray(estimate.coefficients)
    done = plan.x[:, own] @ coefficients[own]
    return pd.DataFrame(
        {
            "day": [date.fromordinal(int(day)) for day in days],
            "value": y,
            "outdoor_c": np.full(len(y), np.nan) if ton is None else ton[rows.index],
            "after": step == 1,
            "without_change": plan.x @ coefficients - done,
        }
    )
