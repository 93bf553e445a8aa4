"""What frost says of nights that were not: without heat, after a failure, in a gap of the record.

All of it comes from the house as a balance (measures/house) or, where a season cannot carry one, is a bound: a house
without heat may fall to the outdoor air, and is told as that. Methods page, *The house as a balance*.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH
from reportgen.measures.frost_fit import Regression, regress
from reportgen.measures.frost_types import AfterFailure, Forecast
from reportgen.measures.house.failure import AFTER_H, Stops, air_after, stops
from reportgen.measures.house.response import Response, in_state
from reportgen.measures.house.season import HouseModel
from reportgen.measures.house.size import FlatOut, flat_out
from reportgen.measures.house.without_heat import BELOW_OUTDOORS_K, LEVEL, NightLine, WithoutHeat, without_heat
from reportgen.problems import NotEnoughData

OUTDOOR_C = (0.0, -5.0, -10.0, -15.0)  # outdoor temperatures of the table
CLASSES = ("<3", "3-8", ">8")
FEWEST_UNHEATED = 10  # nights without heat, for a line of their own; our own floor
SAYS_NOTHING = 0.5  # a band that reaches over half of what lies between the hold and outdoors decides nothing
NAN = float("nan")


@dataclass(frozen=True, kw_only=True, slots=True)
class Ahead:
    """What the page says of such nights.

    `nights`: by evening without_heat_c, without_heat_low_c, without_heat_high_c [°C], NaN where not told. `season`: the
    coldest of them. `after`: rows by outdoor temperature, from `stopped_nights` heated nights. `flat`: where the heater
    runs flat out. `in_gap`: how a gap is told. `may_fall_to_c`: the coldest night outdoors plus the least lift of a
    night without heat, for the words "may have fallen to …, or colder" where `season` is None; None where neither is
    known. `reasons`: why what is missing is missing: without_heat, after_failure, heater_flat_out_c.
    """

    nights: pd.DataFrame = field(repr=False)
    season: Forecast | None
    after: tuple[AfterFailure, ...]
    flat: FlatOut | None
    stopped_nights: int
    in_gap: Regression | NightLine | None = field(repr=False)
    may_fall_to_c: float | None
    reasons: dict[str, str]


def ahead(model: HouseModel, table: pd.DataFrame, hold_c: float | None, line_c: float, rare_c: float | None) -> Ahead:
    """The forecasts of a season's frost page.

    Args:
        model: The house of the season.
        table: From `frost_nights.night_table`, with `heated_h`.
        hold_c: The hold found last [°C].
    """
    reasons: dict[str, str] = {}
    bare, nights, season = _without(model, table, hold_c, reasons)
    after, stopped = _after(model, hold_c, line_c, rare_c, reasons)
    return Ahead(
        nights=nights,
        season=season,
        after=after,
        flat=_flat(model, hold_c, reasons),
        stopped_nights=stopped,
        in_gap=bare.line if bare is not None and bare.line is not None else _unheated_line(table),
        may_fall_to_c=_may_fall_to(table),
        reasons=reasons,
    )


def _without(
    model: HouseModel, table: pd.DataFrame, hold_c: float | None, reasons: dict[str, str]
) -> tuple[WithoutHeat | None, pd.DataFrame, Forecast | None]:
    names = ("without_heat_c", "without_heat_low_c", "without_heat_high_c")
    nights = pd.DataFrame(NAN, index=table.index, columns=list(names))
    try:
        if model.house is None:
            raise NotEnoughData(model.why)
        found = without_heat(model.house, model.whole)
    except NotEnoughData as why:
        reasons["without_heat"] = str(why)
        return None, nights, None
    own = pd.DataFrame({"c": found.estimate_c, "half": found.half_k}, index=pd.Index(model.evenings()))
    own = own.reindex(table.index)
    middle = np.fmin(own["c"], table["inside_min"].where(own["c"].notna()))  # heat does not cool: never warmer without
    floor = (table["outdoor_min"] - BELOW_OUTDOORS_K).to_numpy()
    nights["without_heat_c"] = middle
    nights["without_heat_low_c"] = np.fmax(middle - own["half"], np.fmin(floor, middle))
    nights["without_heat_high_c"] = np.fmin(middle + own["half"], np.fmax(table["inside_min"], middle))
    return found, nights, _coldest(found, nights, table, hold_c, reasons)


def _coldest(
    found: WithoutHeat, nights: pd.DataFrame, table: pd.DataFrame, hold_c: float | None, reasons: dict[str, str]
) -> Forecast | None:
    if found.season_half_k is None or not nights["without_heat_c"].notna().any():
        reasons["without_heat"] = "no night is logged whole"
        return None
    spot = int(np.nanargmin(nights["without_heat_c"].to_numpy()))
    middle, outdoor = float(nights["without_heat_c"].iloc[spot]), float(table["outdoor_min"].iloc[spot])
    if hold_c is not None and 2.0 * found.season_half_k > hold_c - outdoor + BELOW_OUTDOORS_K:
        reasons["without_heat"] = "the band would reach from outdoors to the hold, and so decide nothing"
        return None
    low = max(middle - found.season_half_k, min(outdoor - BELOW_OUTDOORS_K, middle))
    return Forecast(estimate=middle, low=low, high=middle + found.season_half_k, level=LEVEL)


def _after(
    model: HouseModel, hold_c: float | None, line_c: float, rare_c: float | None, reasons: dict[str, str]
) -> tuple[tuple[AfterFailure, ...], int]:
    try:
        if model.house is None or hold_c is None:
            raise NotEnoughData(model.why or "too few heated night hours to tell what was held")
        found = stops(present(model))
    except NotEnoughData as why:
        reasons["after_failure"] = str(why)
        return (), 0
    outdoors = sorted({*OUTDOOR_C, *([rare_c] if rare_c is not None else [])}, reverse=True)
    told = [_row(found, out, hold_c, line_c) for out in outdoors if out <= found.mildest_c]
    rows = tuple(row for row in told if row is not None)
    if not rows:
        reasons["after_failure"] = (
            "the heated nights were too mild, or too unlike, to tell a failure at these temperatures"
        )
    return rows, len(found.outdoor_c[AFTER_H[0]])


def present(model: HouseModel) -> Response:
    """The winter in the house's present state."""
    assert model.house is not None
    return in_state(model.house, model.present) if len(model.states) > 1 else model.house


def _row(found: Stops, outdoor_c: float, hold_c: float, line_c: float) -> AfterFailure | None:
    """One outdoor temperature; None where the band would decide nothing."""
    floor = min(outdoor_c - BELOW_OUTDOORS_K, hold_c)
    told = {}
    for hours in AFTER_H:
        middle, half = air_after(found, outdoor_c, hours, hold_c)
        middle = max(middle, floor)
        if 2.0 * half > max(hold_c - floor, 0.0) / SAYS_NOTHING:
            return None
        told[hours] = Forecast(
            estimate=middle, low=max(middle - half, floor), high=min(middle + half, hold_c), level=LEVEL
        )
    three, eight = told[AFTER_H[0]], told[AFTER_H[1]]
    eight = replace(eight, estimate=min(eight.estimate, three.estimate))
    ends = ("low", "estimate", "high")
    classes = [_class(getattr(three, end), getattr(eight, end), line_c) for end in ends]
    return AfterFailure(
        outdoor_c=outdoor_c,
        after_3h_c=three.estimate,
        after_8h_c=eight.estimate,
        hours_to_line=" or ".join(CLASSES[min(classes) : max(classes) + 1]),
        after_3h=three,
        after_8h=eight,
    )


def _class(after_3h: float, after_8h: float, line_c: float) -> int:
    return 0 if after_3h < line_c else 1 if after_8h < line_c else 2


def _flat(model: HouseModel, hold_c: float | None, reasons: dict[str, str]) -> FlatOut | None:
    try:
        if model.house is None or hold_c is None:
            raise NotEnoughData(model.why or "too few heated night hours to tell what was held")
        return flat_out(present(model), model.dial_c(hold_c))
    except NotEnoughData as why:
        reasons["heater_flat_out_c"] = str(why)
        return None


def _unheated_line(table: pd.DataFrame) -> Regression | None:
    """Night minimum inside on outdoors over nights without heat (of a house without a heater: all nights)."""
    kept = _unheated(table)
    if len(kept) < FEWEST_UNHEATED:
        return None
    return regress(kept["outdoor_min"].to_numpy(dtype=np.float64), kept["inside_min"].to_numpy(dtype=np.float64))


def _unheated(table: pd.DataFrame) -> pd.DataFrame:
    whole = (table["share"] >= ENOUGH) & (table["outdoor_share"] >= ENOUGH)
    bare = table["heated_h"].fillna(0.0) == 0 if not table["heated_h"].notna().any() else table["heated_h"] == 0
    return table[whole & bare].dropna(subset=["inside_min", "outdoor_min"])


def _may_fall_to(table: pd.DataFrame) -> float | None:
    """A bound from above, never from below: nights without heat were mild ones, and a bed that is not heated cools."""
    kept, outdoors = _unheated(table), table["outdoor_min"].dropna()
    if not len(kept) or not len(outdoors):
        return None
    return float(outdoors.min() + (kept["inside_min"] - kept["outdoor_min"]).min())


def gap_low(found: Ahead, outdoor_c: float) -> float:
    """How cold the air may have been in a gap whose coldest outdoor air is known [°C]; NaN where it cannot be told.

    The low side: nobody knows whether the heater ran. Never more than 1 K under the outdoor air.
    """
    floor = outdoor_c - BELOW_OUTDOORS_K
    if isinstance(found.in_gap, NightLine):
        return max(found.in_gap.at(outdoor_c) - found.in_gap.half_k, floor)
    if isinstance(found.in_gap, Regression):
        return max(float(found.in_gap.bound(np.array([outdoor_c]))[0]), floor)
    return NAN
