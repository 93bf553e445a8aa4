"""The failures in the record: times without heat, by the heater log's own step, in which the air fell far under the
hold. An empty record is not one: what a dead plug did not write is not known."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.diary_words import speaks_of_heat
from reportgen.measures.draw import draw_of, idle_runs
from reportgen.measures.exposure import Line, clip_s, hours_below, spells_below, to_seconds
from reportgen.measures.frost_types import Failure
from reportgen.readings.types import Readings

UNDER_HOLD_K, LEAST_H = 2.0, 2.0  # a failure: this far under the hold, this long
FELL_K = 1.0  # … and fallen this far since the heat was missed: a house that lies still was not left by its heat
BEFORE_S, AFTER_S = 900.0, 3600.0  # the diary's time is its beginning from so long before the log's to so long after


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


def failures(readings: Readings, curve: Line | None, hold: pd.Series) -> tuple[Failure, ...]:
    """Every failure of the main heat in the record.

    The logs of the main heaters say, by their own step, that nothing was drawn, between their first and their last
    draw; the air fell through the hold and lay more than 2 K under it for two hours or longer. It begins when the draw
    ended, or when the air fell under the hold if that was later; it ends when heat came again or the air was back.

    Args:
        curve: The coldest crop air.
        hold: `hold_by_hour`; no failure where it is not known.
    """
    mains = [source for source in readings.season.heating if source.role == "main"]
    draws = [draw for source in mains if (draw := draw_of(readings, source.name)) is not None]
    if curve is None or not draws:
        return ()
    name = mains[0].name if len(mains) == 1 else None
    found, pieces = [], _pieces(hold)
    for a, b in idle_runs(draws, LEAST_H):
        if _stayed_warm(curve, a, b, hold):
            continue
        part = clip_s(curve, a, b)
        found += [_told(readings, part, spell, name) for spell in _falls(part, pieces)]
    return tuple(found)


def _stayed_warm(curve: Line, start_s: float, end_s: float, hold: pd.Series) -> bool:
    """Whether no reading of a run can be that far under any hold of the season."""
    first, last = np.searchsorted(curve.seconds, [start_s, end_s])
    inside = curve.values[max(first - 1, 0) : last + 1]
    return not len(inside) or not hold.notna().any() or float(inside.min()) >= float(hold.max()) - UNDER_HOLD_K


def _falls(part: Line, pieces: list[tuple[float, float, float]]) -> list[tuple[float, float]]:
    """Stretches of the air without heat under the hold that count as a failure [s since 1970]."""
    found = []
    for start, end, hold_c in pieces:
        if len(part.values) < 2 or start >= part.seconds[-1] or end <= part.seconds[0]:
            continue
        piece = clip_s(part, start, end)
        for a, b in spells_below(piece, hold_c):
            spell = clip_s(piece, a, b)
            deep = len(spell.values) > 1 and hours_below(spell, hold_c - UNDER_HOLD_K) >= LEAST_H
            if deep and spell.values[0] - spell.values.min() >= FELL_K:
                found.append((a, b))
    return found


def _told(readings: Readings, part: Line, spell: tuple[float, float], name: str | None) -> Failure:
    a, b = spell
    noted = _noted_s(readings, a, b)
    start = a if noted is None else noted
    here = clip_s(part, min(a, start), b)
    return Failure(
        start=part.stamp(round(start)),
        end=part.stamp(round(b)),
        hours=(b - start) / 3600.0,
        minimum_c=float(here.values.min()),
        line_crossed_after_min=_crossed_after_min(here, start, readings.season.aims.frost_c),
        source=name,
        by_diary=noted is not None,
    )


def _noted_s(readings: Readings, start_s: float, end_s: float) -> float | None:
    """The diary's own time of the failure: of an event that speaks of the heat, from a quarter of an hour before the
    log shows it to an hour after; a later one is the time at which it was found."""
    names = [source.name for source in readings.season.heating]
    for entry in readings.diary:
        if entry.kind != "event" or entry.time is None or not speaks_of_heat(entry, names):
            continue
        at = pd.Timestamp.combine(entry.date, entry.time).tz_localize(
            readings.season.zone, ambiguous=True, nonexistent="shift_forward"
        )
        if start_s - BEFORE_S <= at.timestamp() <= min(start_s + AFTER_S, end_s):
            return at.timestamp()
    return None


def told_evenings(readings: Readings) -> set[date]:
    """Evenings of the nights on which, by an event of the diary that speaks of the heat, it may not have run.

    Without a time of day: the night before that day and the one after it.
    """
    names = [source.name for source in readings.season.heating]
    out: set[date] = set()
    for entry in readings.diary:
        if entry.kind != "event" or not speaks_of_heat(entry, names):
            continue
        late = entry.time is not None and entry.time.hour >= 12
        first = entry.date if late else entry.date - timedelta(days=1)
        last = entry.until or (entry.date if late or entry.time is None else first)
        out |= {first + timedelta(days=n) for n in range((last - first).days + 1)}
    return out


def _crossed_after_min(part: Line, start_s: float, frost_c: float) -> float | None:
    """Minutes from the failure until the air was under the frost line; None where it never was."""
    under = spells_below(part, frost_c)
    return max(under[0][0] - start_s, 0.0) / 60.0 if under else None


def _pieces(hold: pd.Series) -> list[tuple[float, float, float]]:
    """Start, end [s since 1970] and value of each stretch of one known hold."""
    values, seconds = hold.to_numpy(dtype=np.float64), to_seconds(pd.DatetimeIndex(hold.index))
    if not len(values):
        return []
    new = np.flatnonzero(np.concatenate([[True], values[1:] != values[:-1]]) & ~np.isnan(values))
    ends = [next((i for i in range(a + 1, len(values)) if values[i] != values[a]), len(values)) for a in new]
    return [(seconds[a], seconds[b - 1] + 3600.0, float(values[a])) for a, b in zip(new, ends, strict=True)]


def failure_evenings(found: tuple[Failure, ...], table: pd.DataFrame) -> set[date]:
    """Evenings of the nights that a failure touches."""
    out: set[date] = set()
    for failure in found:
        last = failure.end - pd.Timedelta(seconds=1)
        for stamp in (failure.start, last):
            out.add((stamp - pd.Timedelta(hours=12)).date() if stamp.hour < 12 else stamp.date())
    return out & set(table.index)
