"""What was done and when, as columns of zeros and ones over the garden days, and which days it spoils.

A garden day is named by the ordinal of its date. Rules: methods page, *What a change did*, step 1 and *Alternation*.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.effects.gls import Floats
from reportgen.measures.days import standard_offset
from reportgen.readings.chains import spells_by_name
from reportgen.readings.types import DiaryEntry, Readings
from reportgen.season import Season

CHAIN_DAYS = 3  # changes at most this far apart are one group
GROUP_LIMIT_DAYS = 7  # a longer group is no longer one change
NOON = (time(10), time(16))  # a switch in these hours spoils no night
NEAR_NOON = (time(11), time(13))  # … nor, in these, the heat of a garden day
NIGHT_OUTCOMES = frozenset({"lift", "night_minimum", "watts_per_kelvin", "night_humidity", "moisture", "damp_hours"})
Days = frozenset[int]


@dataclass(frozen=True, kw_only=True, slots=True)
class Cause:
    """Something whose effect is estimated as one: a change, a group of changes, or a spell with all its switches.

    `blocks`: garden days on, first and last, of a spell; empty for a step. `first`, `last`: the first and last
    spoiled day of a step (the step is on after `last`), or the first and the last garden day of a spell. `switched`:
    causes that are its switches, where a change and its undoing are fitted as one; they say which days are spoiled.
    """

    entries: tuple[DiaryEntry, ...]
    first: int
    last: int
    blocks: tuple[tuple[int, int], ...] = ()
    too_long: bool = False
    switched: tuple[Cause, ...] = ()

    @property
    def alternates(self) -> bool:
        """It goes off again."""
        return bool(self.blocks)

    @property
    def names(self) -> tuple[str, ...]:
        """What it is called in the diary."""
        return tuple(dict.fromkeys(entry.what for entry in self.entries))

    def on(self, days: Floats) -> Floats:
        """1 where it is in force, shape of `days`."""
        if not self.blocks:
            return (days > self.last).astype(np.float64)
        inside = np.zeros(len(days), dtype=bool)
        for start, end in self.blocks:
            inside |= (days >= start) & (days <= end)
        return inside.astype(np.float64)

    def spoiled(self, outcome: str) -> Days:
        """Garden days of which it cannot be said whether it was in force."""
        if self.switched:
            return frozenset().union(*(cause.spoiled(outcome) for cause in self.switched))
        if not self.blocks:
            return frozenset(range(self.first, self.last + 1))
        days: set[int] = set()
        for entry, (start, end) in zip(self.entries, self.blocks, strict=True):
            days |= _switch_days(entry, start, outcome) | _switch_days(entry, end + 1, outcome)
        return frozenset(days)


def _switch_days(entry: DiaryEntry, day: int, outcome: str) -> set[int]:
    """Days lost to a switch that puts the state of `day` on or off."""
    when = entry.time
    if when is None:
        return {day}
    calm = NOON if outcome in NIGHT_OUTCOMES else NEAR_NOON
    if outcome != "daily_light" and calm[0] <= when <= calm[1]:
        return set()
    return {day if when >= time(12) or outcome == "daily_light" else day - 1}


def touched_days(entry: DiaryEntry, season: Season) -> tuple[int, int]:
    """First and last garden day that an entry spoils: the one that holds its time, else both that touch its date."""
    if entry.time is None:
        return entry.date.toordinal() - 1, entry.date.toordinal()
    local = pd.Timestamp.combine(entry.date, entry.time)
    instant = local.tz_localize(season.zone, ambiguous=True, nonexistent="shift_forward")
    standard = instant.tz_convert("UTC").tz_localize(None) + standard_offset(season)
    day = (standard - timedelta(hours=12)).toordinal()
    return day, day


def causes(readings: Readings) -> tuple[Cause, ...]:
    """Every change, spell and acting upkeep of the diary; changes close together are one."""
    steps = [e for e in readings.diary if e.kind == "change" or (e.kind == "upkeep" and acts(e, readings))]
    spells = [e for e in readings.diary if e.kind == "spell"]
    found = [_group(chain, readings.season) for chain in _chains(steps)]
    found += [_spell(entries, readings.season) for entries in spells_by_name(spells)]
    return tuple(sorted(found, key=lambda cause: (cause.first, cause.names)))


def acts(entry: DiaryEntry, readings: Readings) -> bool:
    """Whether upkeep altered something: it says what it touches, takes something back or is taken back."""
    return bool(entry.touches) or any(entry.line in lever.lines for lever in readings.levers)


def _chains(steps: Iterable[DiaryEntry]) -> list[list[DiaryEntry]]:
    chains: list[list[DiaryEntry]] = []
    for entry in sorted(steps, key=lambda e: (e.date, e.time or time(12), e.line)):
        if chains and (entry.date - chains[-1][-1].date).days <= CHAIN_DAYS:
            chains[-1].append(entry)
        else:
            chains.append([entry])
    return chains


def _group(chain: Sequence[DiaryEntry], season: Season) -> Cause:
    touched = [touched_days(entry, season) for entry in chain]
    return Cause(
        entries=tuple(chain),
        first=min(first for first, _ in touched),
        last=max(last for _, last in touched),
        too_long=(chain[-1].date - chain[0].date).days > GROUP_LIMIT_DAYS,
    )


def _spell(entries: Sequence[DiaryEntry], season: Season) -> Cause:
    blocks = tuple((e.date.toordinal(), (e.until or season.last_day).toordinal()) for e in entries)
    return Cause(
        entries=tuple(entries),
        first=min(start for start, _ in blocks),
        last=max(end for _, end in blocks),
        blocks=blocks,
    )


def event_days(readings: Readings) -> Days:
    """Garden days lost to events (a power cut, a door left open)."""
    days: set[int] = set()
    for entry in readings.diary:
        if entry.kind == "event":
            first, last = touched_days(entry, readings.season)
            last = max(last, entry.until.toordinal()) if entry.until else last
            days |= set(range(first, last + 1))
    return frozenset(days)


def quiet_dates(season: Season, entries: Iterable[DiaryEntry], every: int = 5, apart: int = 7) -> list[date]:
    """Every fifth date without an entry within seven days: nothing was done there."""
    busy: set[int] = set()
    for entry in entries:
        if entry.kind in ("idea", "away"):
            continue
        last = entry.until or entry.date
        busy |= set(range(entry.date.toordinal() - apart, last.toordinal() + apart + 1))
    first, last_day = season.first_day.toordinal(), season.last_day.toordinal()
    return [date.fromordinal(day) for day in range(first, last_day + 1, every) if day not in busy]


def is_in(days: Floats, wanted: Days) -> NDArray[np.bool_]:
    """Which of the days are among the wanted, both as day numbers (date.toordinal); shape (n,)."""
    return np.isin(days, np.fromiter(wanted, dtype=np.float64, count=len(wanted)))
