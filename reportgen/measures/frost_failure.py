"""The failures in the record: hours without heat in which the air fell far under the hold."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.frost_types import Failure
from reportgen.readings.types import Readings

UNDER_HOLD_K, LEAST_H = 2.0, 2  # a failure: this far under the hold, this long


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


def failure_evenings(found: tuple[Failure, ...], table: pd.DataFrame) -> set[date]:
    """Evenings of the nights that a failure touches."""
    out: set[date] = set()
    for failure in found:
        last = failure.end - pd.Timedelta(seconds=1)
        for stamp in (failure.start, last):
            out.add((stamp - pd.Timedelta(hours=12)).date() if stamp.hour < 12 else stamp.date())
    return out & set(table.index)
