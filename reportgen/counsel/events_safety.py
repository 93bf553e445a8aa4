"""What could have hurt someone: a burner without a flue in a tightened house, and what the diary says of fire or fumes.

A fuel heater without a flue is one whose `vented` is not true: left out counts as none for caution's sake, and is
asked for instead of told as certain (`flue_unsaid`). It burns on the days of its
own diary line; without one on the days on which its log drew, or in the stretches that its book of deliveries or meter
spans, which do not tell the day (`days` is 0 then).
"""

from __future__ import annotations

from datetime import date, timedelta

import pandas as pd

from reportgen.counsel.events_books import noted_on, texts
from reportgen.counsel.events_hazard import hazard_of
from reportgen.counsel.events_tight import tight_levers
from reportgen.counsel.grounds import Event
from reportgen.counsel.results import Results
from reportgen.measures.diary_words import says
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import DiaryEntry, HeatSupply, Readings

UNVENTED = "fuel burnt without a flue while the house was tightened"
UNSAID = "fuel burnt while the house was tightened; season.toml does not say whether it has a flue"
JOINED_DAYS = 2  # days without it between two stretches that are one
NO_FLAME = "electricity"


def unvented(readings: Readings) -> list[HeatSupply]:
    """Fuel heaters of which season.toml does not say that their fumes leave the house."""
    return [supply for supply in readings.heating if supply.fuel != NO_FLAME and supply.vented is not True]


def safety_events(r: Results, told_elsewhere: set[int]) -> list[Event]:
    """Every safety conjunction, and every line that speaks of fire or fumes and stands in no other event.

    Args:
        told_elsewhere: Lines of diary.csv that another event carries.
    """
    found = [event for supply in unvented(r.readings) for event in _conjunctions(r, supply)]
    names = [supply.name for supply in r.readings.heating]
    for entry in r.readings.diary:
        cause = hazard_of(entry, names)
        if cause is not None and entry.line not in told_elsewhere and _in_season(r, entry.date):
            found.append(_of_line(r, entry, cause))
    return found


def _conjunctions(r: Results, supply: HeatSupply) -> list[Event]:
    own = _own_lines(r.readings, supply)
    burnt, by_day = _burning_days(r.readings, supply, own)
    levers = [lever for lever in tight_levers(r.readings) if not _same(lever, own)]
    met = {day: [lever for lever in levers if _on(lever, day, r)] for day in sorted(burnt) if _in_season(r, day)}
    together = [day for day, on in met.items() if on]
    return [
        _conjunction(r, supply, run, [lever for lever in levers if any(lever in met[day] for day in run)], own, by_day)
        for run in _runs(together)
    ]


def _conjunction(
    r: Results, supply: HeatSupply, run: list[date], levers: list[Lever], own: list[DiaryEntry], by_day: bool
) -> Event:
    of_levers = {line for lever in levers for line in lever.lines}
    lines = [e for e in (*r.readings.diary_before, *r.readings.diary) if e.line in of_levers and e.date <= run[-1]]
    lines += [e for e in own if e.date <= run[-1] and (e.until or e.date) >= run[0] and e not in lines]
    cause = UNSAID if supply.vented is None else UNVENTED
    return Event(
        kind="safety",
        cause=cause,
        start=r.season.midnight(run[0]),
        end=r.season.midnight(run[-1] + timedelta(days=1)),
        line_crossed_after_min=None,
        minimum_c=None,
        place=None,
        outdoor_c=None,
        diary=texts(lines),
        diary_on=noted_on(lines, run[0], run[-1]),
        crops=(),
        rank=0,
        lines=tuple(e.line for e in lines),
        levers=tuple(lever.name for lever in levers),
        source=supply.name,
        days=len(run) if by_day else 0,
        hazard=cause,
        flue_unsaid=supply.vented is None,
    )


def _of_line(r: Results, entry: DiaryEntry, cause: str) -> Event:
    """A line that speaks of fire or fumes, on a night that was not too cold."""
    last = entry.until or entry.date
    return Event(
        kind="safety",
        cause=cause,
        start=r.season.midnight(entry.date),
        end=r.season.midnight(last + timedelta(days=1)),
        line_crossed_after_min=None,
        minimum_c=None,
        place=None,
        outdoor_c=None,
        diary=texts([entry]),
        diary_on=("",),
        crops=(),
        rank=0,
        lines=(entry.line,),
        hazard=cause,
    )


def _own_lines(readings: Readings, supply: HeatSupply) -> list[DiaryEntry]:
    """Lines that set this heater: they touch the heat and name it, by its words or its thing."""
    return [
        entry
        for entry in readings.diary
        if entry.kind in ("change", "spell", "upkeep")
        and "heater" in entry.touches
        and any(says(text, supply.name) for text in (entry.what, entry.thing))
    ]


def _same(lever: Lever, own: list[DiaryEntry]) -> bool:
    return bool(set(lever.lines) & {entry.line for entry in own})


def _burning_days(readings: Readings, supply: HeatSupply, own: list[DiaryEntry]) -> tuple[set[date], bool]:
    """Days on which it burned, and whether they are known by the day."""
    spells = [entry for entry in own if entry.kind == "spell" and entry.until is not None]
    lasting = [lever for lever in readings.levers if _same(lever, [e for e in own if e.kind == "change"])]
    by_diary = {day for entry in spells for day in _span(entry.date, entry.until or entry.date)}
    if by_diary:
        return by_diary, True
    given = supply.intervals[supply.intervals["heat_kwh"].fillna(supply.intervals["bought"]) > 1e-6]
    fine = given[~given["sparse"].to_numpy(dtype=bool)]
    if len(fine):
        return {start.date() for start in fine["start"]}, True
    stretches = zip(given["start"], given["end"], strict=True)
    in_book = {day for start, end in stretches for day in _span(start.date(), _before(end))}
    if lasting:
        on = [state for lever in lasting for state in lever.states if state.on]
        in_book &= {day for state in on for day in _span(state.from_.date(), _before(state.to))}
    return in_book, False


def _before(end: pd.Timestamp) -> date:
    """The last day of a stretch that ends at an instant."""
    return (end - pd.Timedelta(seconds=1)).date()


def _span(first: date, last: date) -> list[date]:
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def _on(lever: Lever, day: date, r: Results) -> bool:
    start, end = r.season.midnight(day), r.season.midnight(day + timedelta(days=1))
    return any(state.on and state.from_ < end and state.to > start for state in lever.states)


def _runs(days: list[date]) -> list[list[date]]:
    """Days in runs; a pause of up to two days is none."""
    runs: list[list[date]] = []
    for day in days:
        if runs and (day - runs[-1][-1]).days <= JOINED_DAYS:
            runs[-1].append(day)
        else:
            runs.append([day])
    return runs


def _in_season(r: Results, day: date) -> bool:
    return r.season.first_day <= day <= r.season.last_day
