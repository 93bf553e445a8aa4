"""Why it was too cold: the first cause that holds, by the design's list, and nothing that the record does not say."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.counsel.events_spells import Happening
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    NOT_KNOWN,
    OPEN_OR_ALTERED,
    TOO_COLD,
    UNHEATED,
)
from reportgen.counsel.results import Results
from reportgen.measures.diary_words import speaks_of_heat, words_of
from reportgen.measures.draw import Draw, draw_of
from reportgen.measures.frost_limit import evening
from reportgen.measures.heating_hours import full_power_from
from reportgen.readings.types import DiaryEntry, HeatSupply

LONGEST_OUT_S = 24 * 3600.0  # a line of the diary older than this is not why the air fell
LEAST_FALL_H = 1.0  # the draw is looked at over this long at least
COLD_SIDE = frozenset({"envelope", "air", "heater", "thermostat"})
# Whole words of an event that tell of something open, off or out of its place.
OPEN = frozenset(
    {"open", "opened", "ajar", "unlatched", "unshut", "gap", "hole", "broke", "broken", "cracked", "smashed", "torn"}
    | {"tore", "blown", "blew", "slipped", "fell", "fallen", "off", "out", "outage", "cut", "failed", "stopped"}
    | {"still", "tripped", "empty", "unplugged", "disconnected", "missing", "forgotten"}
)
DOORS = frozenset(
    {"open", "opened", "ajar", "unlatched", "unshut", "gap", "hole", "door", "vent", "window", "pane", "glass", "roof"}
)


def cause_of(r: Results, one: Happening, coldest_at: pd.Timestamp | None, lines: Iterable[DiaryEntry]) -> str:
    """The first that holds: the heat failed, it was out by the diary, something stood open or was altered that night,
    colder than the heater can make good, no heat yet, no heat any more, unheated; else not known."""
    supplies = [supply for supply in r.readings.heating if len(supply.intervals)]
    if one.failures:
        return HEAT_FAILED
    told = [] if coldest_at is None else [e for e in lines if _let_cold_in(e, evening(coldest_at))]
    if told:
        return HEAT_OUT if any(_heat_out(r, entry) for entry in told) else OPEN_OR_ALTERED
    if not r.readings.heating:
        return UNHEATED
    if coldest_at is not None and _flat_out(r, one, coldest_at):
        return TOO_COLD
    return _before_or_after(supplies, one)


def _let_cold_in(entry: DiaryEntry, night: date) -> bool:
    """Whether a line tells, for that night, of something that stood open, was off or was altered."""
    if night not in nights_told(entry):
        return False
    if entry.kind == "event":
        return bool(COLD_SIDE & set(entry.touches)) or bool(OPEN & set(words_of(f"{entry.what} {entry.note}")))
    return entry.kind in ("change", "spell") and bool(COLD_SIDE & set(entry.touches)) and not _keeps_warm(entry)


def _keeps_warm(entry: DiaryEntry) -> bool:
    """Whether a line tells of what was put on against the cold, as a carpet over the lid: that let none in."""
    hopes, cover = set(entry.hoped_for), "envelope" in entry.touches
    return "warmer nights" in hopes or (cover and "less heating" in hopes)


def _heat_out(r: Results, entry: DiaryEntry) -> bool:
    """Whether an event speaks of the heat alone, as an empty cylinder or a power cut: nothing stood open then."""
    words = set(words_of(f"{entry.what} {entry.note}"))
    names = [supply.name for supply in r.readings.heating]
    return bool(names) and entry.kind == "event" and speaks_of_heat(entry, names) and not words & DOORS


def out_to_line_min(r: Results, one: Happening, lines: Iterable[DiaryEntry]) -> float | None:
    """Minutes from the time at which the diary has the heat out until the air was under the line; None without it."""
    named = [e for e in lines if e.time is not None and _heat_out(r, e)]
    zone = r.readings.season.zone
    times = [
        pd.Timestamp.combine(e.date, e.time).tz_localize(zone, ambiguous=True, nonexistent="shift_forward").timestamp()
        for e in named
        if e.time is not None
    ]
    before = [one.start_s - at for at in times if 0.0 <= one.start_s - at < LONGEST_OUT_S]
    return min(before) / 60.0 if before else None


def nights_told(entry: DiaryEntry) -> set[date]:
    """The evenings of the nights a line may speak of: of its day, and where it gives no time past noon the one before;
    a spell alters the house as it begins and as it ends."""
    days = {entry.date} | ({entry.until} if entry.kind == "spell" and entry.until is not None else set())
    if entry.time is not None and entry.kind != "spell":
        return {entry.date if entry.time.hour >= 12 else entry.date - timedelta(days=1)}
    return days | ({entry.date - timedelta(days=1)} if entry.kind == "event" else set())


def _flat_out(r: Results, one: Happening, coldest_at: pd.Timestamp) -> bool:
    """Whether the main heaters drew at least 95 % of what they can from the crossing to the coldest moment."""
    mains = [source for source in r.season.heating if source.role == "main"]
    draws = [(source.rated_power_w, draw_of(r.readings, source.name)) for source in mains]
    end = coldest_at.timestamp()
    start = min(one.start_s, end - LEAST_FALL_H * 3600.0)
    shares = [_share_of_rated(draw, rated, start, end) for rated, draw in draws if draw is not None and rated]
    return bool(draws) and len(shares) == len(draws) and all(share >= full_power_from(1.0) for share in shares)


def _share_of_rated(draw: Draw, rated_w: float, start: float, end: float) -> float:
    """Mean draw over the rated power between two instants; 0 where less than nine tenths of it is known."""
    hours = np.clip(np.minimum(draw.ends, end) - np.maximum(draw.starts, start), 0.0, None) * draw.known
    if hours.sum() < 0.9 * (end - start):
        return 0.0
    mean = float((draw.amount * hours).sum() / hours.sum())
    return mean if draw.switch else mean / rated_w


def _before_or_after(supplies: list[HeatSupply], one: Happening) -> str:
    """Before the first or after the last heat of the main heaters, where their books know those hours."""
    mains = [supply for supply in supplies if supply.role == "main"] or supplies
    if not mains or any(_unknown(supply, one) for supply in mains):
        return NOT_KNOWN
    given = [table[table["heat_kwh"].to_numpy(dtype=float) > 1e-6] for table in (s.intervals for s in mains)]
    given = [table for table in given if len(table)]
    if not given:
        return NOT_KNOWN
    if one.end_s <= min(table["start"].min().timestamp() for table in given):
        return NO_HEAT_YET
    if one.start_s >= max(table["end"].max().timestamp() for table in given):
        return NO_HEAT_ANY_MORE
    return NOT_KNOWN


def _unknown(supply: HeatSupply, one: Happening) -> bool:
    """Whether the record of a heater has a gap in those hours."""
    gaps = supply.gaps
    return any(
        start.timestamp() < one.end_s and end.timestamp() > one.start_s
        for start, end in zip(gaps["start"], gaps["end"], strict=True)
    )
