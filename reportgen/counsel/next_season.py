"""Next season's calendar: the days of this one a year on, in either hemisphere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import pandas as pd

from reportgen.counsel.results import Results
from reportgen.effects.trial import coldest_stretch
from reportgen.readings.book_rows import JUDGED_HOPES
from reportgen.readings.types import DiaryEntry, HeatSupply

HEATED_KWH = 0.1  # a day that got less is one on which a plug or a thermostat only woke
BY_THE_DAY_H = 36.0  # a stretch longer than this is not known by the day
COLDEST_NIGHTS = 21
OPEN_DAYS = 28  # as far ahead as is planned where a winter still runs and season.toml names no last day; ours
READY_NOW = 7
QUIET_NIGHTS = 10  # after a change, before the next; as README.md asks for
Span = tuple[date, date]


@dataclass(frozen=True, kw_only=True, slots=True)
class NextSeason:
    """Dates of next season that a plan keeps to; both ends of a span included.

    `heated`: first and last day with heat. `frost`: first and last night whose outdoor (without a logger there: inside)
    minimum lay under the frost line. `coldest`: the coldest three weeks. `unlogged`: days whose heat is not known by
    the day. All None or empty where this season does not tell. `running`: it is the rest of a winter that still runs;
    `quiet`: then the day before which nothing should be altered.
    """

    first: date
    last: date
    heated: Span | None
    frost: Span | None
    coldest: Span | None
    away: tuple[Span, ...]
    unlogged: frozenset[date]
    running: bool = False
    quiet: date | None = None

    def within(self, day: date) -> date:
        """The day, or the end of the season nearest to it."""
        return min(max(day, self.first), self.last)

    @property
    def begins(self) -> date:
        """By when the house must be ready: its first heated night, else its first frost, else a month on; within a week
        where the winter runs."""
        if self.running:
            return self.within(self.first + timedelta(days=READY_NOW))
        ready = self.heated or self.frost
        return ready[0] if ready else self.within(self.first + timedelta(days=30))


def a_year_on(day: date) -> date:
    """The same date a year on; 29 February becomes 28 February."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)


def next_season(r: Results) -> NextSeason:
    """The calendar that follows from this season's."""
    season, cold = r.season, outdoor_nights(r)
    under = [] if cold is None else list(cold.index[cold < season.aims.frost_c])
    heated = sorted(day for supply in r.readings.heating for day in _heated(supply))
    away = [(e.date, e.until or e.date) for e in r.readings.diary if e.kind == "away"]
    return NextSeason(
        first=a_year_on(season.first_day),
        last=a_year_on(season.last_day),
        heated=_ahead(heated, season.first_day, season.last_day),
        frost=_ahead(under, season.first_day, season.last_day),
        coldest=None if cold is None else _moved(coldest_stretch(cold, COLDEST_NIGHTS)),
        away=tuple((a_year_on(a), a_year_on(b)) for a, b in away),
        unlogged=frozenset(a_year_on(day) for supply in r.readings.heating for day in _unknown_days(supply)),
    )


def rest_of_season(r: Results) -> NextSeason | None:
    """The days still to come of a winter that still runs, to the last day that season.toml names, or four weeks on;
    None where it is over.

    How cold they will be nobody knows: while it is not known how cold it may get outside, all of them may be the
    coldest weeks. Heat is taken as logged as in the last week.
    """
    now, season = r.season.so_far, r.season
    if now is None:
        return None
    first, last = now + timedelta(days=1), season.planned_last_day or now + timedelta(days=OPEN_DAYS)
    if last < first:
        return None
    unknown = {day for supply in r.readings.heating for day in _unknown_days(supply)}
    loose = any(now - timedelta(days=n) in unknown for n in range(7))
    away = [(e.date, e.until or e.date) for e in r.readings.diary if e.kind == "away" and (e.until or e.date) > now]
    return NextSeason(
        first=first,
        last=last,
        heated=None,
        frost=None,
        coldest=(first, last),
        away=tuple(away),
        unlogged=frozenset(first + timedelta(days=n) for n in range((last - first).days + 1)) if loose else frozenset(),
        running=True,
        quiet=max((quiet_until(e) for e in still_quiet(r)), default=None),
    )


def still_quiet(r: Results) -> tuple[DiaryEntry, ...]:
    """Changes that a logger can judge whose quiet nights go beyond the last reading of a winter that still runs."""
    now = r.season.so_far
    lines = [e for e in r.readings.diary if e.kind == "change" and set(e.hoped_for) & set(JUDGED_HOPES)]
    return tuple(e for e in lines if now is not None and quiet_until(e) > now)


def quiet_until(entry: DiaryEntry) -> date:
    """The day on which the quiet nights after a change are over."""
    return entry.date + timedelta(days=QUIET_NIGHTS)


def outdoor_nights(r: Results) -> pd.Series | None:
    """Minimum of each long night outdoors [°C] by its evening; inside where outdoors was not logged; None without."""
    table = getattr(r.frost, "table", None)
    if not isinstance(table, pd.DataFrame):
        return None
    for name in ("outdoor_min", "inside_min"):
        if name in table and table[name].notna().any():
            return table[name].dropna().astype(float)
    return None


def _ahead(days: Sequence[date], first: date, last: date) -> Span | None:
    inside = [day for day in days if first <= day <= last]
    return (a_year_on(min(inside)), a_year_on(max(inside))) if inside else None


def _moved(span: Span | None) -> Span | None:
    return None if span is None else (a_year_on(span[0]), a_year_on(span[1]))


def _heated(supply: HeatSupply) -> list[date]:
    """Days on which it gave heat; of a sum over days the first and the last."""
    table = supply.intervals
    if not len(table):
        return []
    heat = table["heat_kwh"].where(table["heat_kwh"].notna(), table["bought"]).astype(float)
    starts, ends = pd.DatetimeIndex(table["start"]).date, (pd.DatetimeIndex(table["end"]) - pd.Timedelta("1s")).date
    by_day = heat.groupby(starts).sum()
    found = [day for day, kwh in by_day.items() if kwh >= HEATED_KWH]
    return found + [end for end, kwh in zip(ends, heat, strict=True) if kwh >= HEATED_KWH]


def _unknown_days(supply: HeatSupply) -> Iterator[date]:
    table, gaps = supply.intervals, supply.gaps
    if len(table):
        hours = (table["end"] - table["start"]).dt.total_seconds() / 3600.0
        loose = table[(hours > BY_THE_DAY_H) & table["sparse"].astype(bool) & (table["heat_kwh"].fillna(1.0) > 0)]
        yield from _days(loose)
    if len(gaps):
        yield from _days(gaps)


def _days(rows: pd.DataFrame) -> Iterator[date]:
    for start, end in zip(rows["start"], rows["end"], strict=True):
        for n in range((end.date() - start.date()).days + 1):
            yield start.date() + timedelta(days=n)
