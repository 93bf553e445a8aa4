"""If the heat fails: where the air would go, by this house's own nights; and the failures in the record.

There is no single time constant: the air loses about three quarters of its lift within 3 h and then rides on the soil
(methods page, *If the heat fails*; the figures come from simulated houses, and so do the bands).
"""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.exposure import Floats
from reportgen.measures.frost_hours import nights_by_hour
from reportgen.measures.frost_limit import regress
from reportgen.measures.frost_types import AfterFailure, CoolingModel, Failure
from reportgen.readings.types import Readings

# About nine in ten and 95 % of the errors on simulated houses (tests/studies/FROST.md; the experiment by which the
# unheated relation was chosen had 0.8 K, this study 1.1 K: the wider is taken).
BALANCE_BAND_K, UNHEATED_BAND_K = 1.8, 1.1
SOIL_FALLS_K_H = 0.25  # [K/h] of the bed's surface layer without heat; a figure from simulated houses
FEWEST_NIGHTS = 10  # for either model; our own floor
OUTDOOR_C = (0.0, -5.0, -10.0, -15.0)  # outdoor temperatures of the table
FULL_H, SEEN_H = 10, 9  # hours of night N, and how many of them must be known
UNDER_HOLD_K, LEAST_H = 2.0, 2  # a failure: this far under the hold, this long
UNSURE = 0.1  # share of a night's heat that may be known only as a sum
CLASSES = ("<3", "3-8", ">8")
MORNING_H = 6  # the hourly fit takes 00–06 h


def model_of(hours: pd.DataFrame, heated: bool, no_soil: str = "no soil temperature") -> CoolingModel:
    """The first of the models that this season's data carry.

    A heated house with power by the hour and a soil probe: the balance of its fully heated nights; else nights without
    heat; else none, with the reason. `no_soil`: why there is no soil temperature, where there is none.
    """
    if not hours["soil"].notna().any():
        return CoolingModel(kind="", why=f"{no_soil}, and without heat the air rides on the soil")
    if not hours["outside"].notna().any() or not hours["inside"].notna().any():
        return CoolingModel(kind="", why="it needs crop air and outdoor air together")
    if heated and (found := _balance(hours)) is not None:
        return found
    found = _unheated(hours)
    if found is not None:
        return found
    why = f"fewer than {FEWEST_NIGHTS} nights fully heated and known by the hour, and as few without heat"
    return CoolingModel(kind="", why=why if heated else f"fewer than {FEWEST_NIGHTS} nights with soil and outdoor air")


def _balance(hours: pd.DataFrame) -> CoolingModel | None:
    """P = U(T_in − T_out) − G(T_soil − T_in) + c on fully heated nights, G ≥ 0, by least squares."""
    nights = nights_by_hour(hours)
    full = (nights["heated_h"] >= FULL_H) & (nights["known_h"] >= SEEN_H)
    nights = nights[full & (nights["unsure"] <= UNSURE * nights["watts"])].dropna(subset=["soil"])
    if len(nights) < FEWEST_NIGHTS:
        return None
    lift = (nights["inside"] - nights["outside"]).to_numpy(dtype=np.float64)
    under = (nights["soil"] - nights["inside"]).to_numpy(dtype=np.float64)
    watts = nights["watts"].to_numpy(dtype=np.float64)
    u, g, c = _two_slopes(lift, under, watts)
    if g < 0:
        fit = regress(lift, watts)
        if fit is None:
            return None
        u, g, c = fit.slope, 0.0, fit.intercept
    if u <= 0:
        return None
    return CoolingModel(
        kind="balance",
        share_out=u / (u + g),
        share_soil=g / (u + g),
        constant_c=-c / (u + g),
        band_k=BALANCE_BAND_K,
        soil_c=float(nights["soil"].median()),
        nights=len(nights),
    )


def _two_slopes(lift: Floats, under: Floats, watts: Floats) -> tuple[float, float, float]:
    x = np.column_stack([lift, -under, np.ones(len(lift))])
    found, *_ = np.linalg.lstsq(x, watts, rcond=None)
    return float(found[0]), float(found[1]), float(found[2])


def _unheated(hours: pd.DataFrame) -> CoolingModel | None:
    """(T_in − T_out) = f·(T_soil − T_out) + c on hourly readings, 00–06 h of nights without heat."""
    cold = nights_by_hour(hours)
    nights = set(cold.index[(cold["heated_h"] == 0) & (cold["watts"] == 0) & (cold["unsure"] < 1)])
    part = hours[hours["night"].isin(nights) & (hours["clock_h"] < MORNING_H)].dropna(
        subset=["inside", "outside", "soil"]
    )
    count = part["night"].nunique()
    if count < FEWEST_NIGHTS:
        return None
    fit = regress(
        (part["soil"] - part["outside"]).to_numpy(dtype=np.float64),
        (part["inside"] - part["outside"]).to_numpy(dtype=np.float64),
    )
    if fit is None:
        return None
    return CoolingModel(
        kind="unheated nights",
        share_out=1.0 - fit.slope,
        share_soil=fit.slope,
        constant_c=fit.intercept,
        band_k=UNHEATED_BAND_K,
        soil_c=float(part["soil"].median()),
        nights=count,
    )


def after_failure(
    model: CoolingModel, hold_c: float | None, line_c: float, rare_c: float | None
) -> tuple[AfterFailure, ...]:
    """Rows by outdoor temperature, from the hold; empty without a model or a hold."""
    if not model.kind or hold_c is None:
        return ()
    outdoors = sorted({*OUTDOOR_C, *([rare_c] if rare_c is not None else [])}, reverse=True)
    return tuple(_after(model, hold_c, line_c, out) for out in outdoors)


def _after(model: CoolingModel, hold_c: float, line_c: float, outdoor_c: float) -> AfterFailure:
    temps = [_air(model, outdoor_c, h, hold_c) for h in (3.0, 8.0)]
    classes = [_class(temps[0] + s, temps[1] + s, line_c) for s in (-model.band_k, 0.0, model.band_k)]
    return AfterFailure(
        outdoor_c=outdoor_c,
        after_3h_c=temps[0],
        after_8h_c=temps[1],
        hours_to_line=" or ".join(CLASSES[min(classes) : max(classes) + 1]),
    )


def _air(model: CoolingModel, outdoor_c: float, hours: float, hold_c: float) -> float:
    soil = model.soil_c - SOIL_FALLS_K_H * hours
    return min(model.share_out * outdoor_c + model.share_soil * soil + model.constant_c, hold_c)


def _class(after_3h: float, after_8h: float, line_c: float) -> int:
    return 0 if after_3h < line_c else 1 if after_8h < line_c else 2


def without_heat(model: CoolingModel, hours: pd.DataFrame, index: pd.Index) -> pd.Series:
    """Coldest air of each night (00–06 h) without heat [°C]; NaN where the model or the weather is missing."""
    if not model.kind:
        return pd.Series(np.nan, index=index)
    part = hours[hours["clock_h"] < MORNING_H].dropna(subset=["outside", "soil"])
    air = model.share_out * part["outside"] + model.share_soil * part["soil"] + model.constant_c
    air = air.where(~(part["inside"] < air), part["inside"])  # heat does not cool: it was no warmer without
    found = air.groupby(part["night"]).agg(["min", "size"])
    return found["min"].where(found["size"] >= MORNING_H - 1).reindex(index)


def hold_by_hour(readings: Readings, hours: pd.DataFrame) -> pd.Series:
    """H: the median crop air of heated night hours, per stretch between entries that touch the thermostat [°C]."""
    entries = [
        entry
        for entry in readings.diary
        if entry.kind in ("change", "spell", "upkeep") and {"thermostat", "heater"} & set(entry.touches)
    ]
    edges = {entry.date for entry in entries} | {e.until + timedelta(days=1) for e in entries if e.until is not None}
    begun = np.sort([day.toordinal() for day in edges])
    nights = [night.toordinal() for night in hours["night"]]
    stretch = pd.Series(np.searchsorted(begun, nights, side="right"), index=hours.index)
    dark = (hours["clock_h"] >= 20) | (hours["clock_h"] < 6)
    warm = hours["inside"].where(dark & (hours["heated"] == 1))
    return stretch.map(warm.groupby(stretch).median())


def failures(hours: pd.DataFrame, hold: pd.Series) -> tuple[Failure, ...]:
    """At least 2 h without heat while the air was more than 2 K under the hold and falling."""
    under = ((hours["heated"] == 0) & (hours["inside"] < hold - UNDER_HOLD_K)).to_numpy(dtype=bool)
    falling = under & (hours["inside_end"] < hours["inside_start"]).to_numpy(dtype=bool)
    out = []
    for first, last in _runs(under):
        down = np.flatnonzero(falling[first : last + 1])
        if len(down) < LEAST_H:
            continue
        stretch = hours.iloc[first + down[0] : first + down[-1] + 1]
        start, end = stretch.index[0], stretch.index[-1] + pd.Timedelta(hours=1)
        lowest = float(np.nanmin([stretch["inside_end"].min(), stretch["inside"].min()]))
        out.append(Failure(start=start, end=end, hours=float(len(stretch)), minimum_c=lowest))
    return tuple(out)


def _runs(mask: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> list[tuple[int, int]]:
    """First and last position of each unbroken run of True."""
    edge = np.flatnonzero(np.diff(np.concatenate([[False], mask, [False]]).astype(int)))
    return [(int(a), int(b) - 1) for a, b in zip(edge[0::2], edge[1::2], strict=True)]


def flat_out_c(readings: Readings, hours: pd.DataFrame, hold_c: float | None) -> float | None:
    """Outdoor temperature at which the night heating line P = a + b(T_in − T_out) reaches the rated power [°C]."""
    rated = [h.rated_power_w for h in readings.heating if h.role == "main"]
    if not rated or any(r is None for r in rated) or hold_c is None:
        return None
    nights = nights_by_hour(hours)
    nights = nights[(nights["heated_h"] >= 7) & (nights["known_h"] >= SEEN_H)]
    nights = nights[nights["unsure"] <= UNSURE * nights["watts"]]
    if len(nights) < FEWEST_NIGHTS:
        return None
    lift = (nights["inside"] - nights["outside"]).to_numpy(dtype=np.float64)
    fit = regress(lift, nights["watts"].to_numpy(dtype=np.float64))
    if fit is None or fit.slope <= 0:
        return None
    power = float(sum(r for r in rated if r is not None))
    return hold_c - (power - fit.intercept) / fit.slope


def failure_evenings(found: tuple[Failure, ...], table: pd.DataFrame) -> set[date]:
    """Evenings of the nights that a failure touches."""
    out: set[date] = set()
    for failure in found:
        last = failure.end - pd.Timedelta(seconds=1)
        for stamp in (failure.start, last):
            out.add((stamp - pd.Timedelta(hours=12)).date() if stamp.hour < 12 else stamp.date())
    return out & set(table.index)
