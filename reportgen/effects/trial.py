"""Next winter's trial: an on/off plan for what this winter could not tell, and where in the winter it may stand.

What could be tried is found here; counsel says what shall be, and when. Three or four nights a block, four weeks,
balanced over the days of the week, so that no habit of the grower's week goes along with it. What it can see: methods
page, *Alternation* (measured on simulated winters).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Collection, Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache
from itertools import product
from types import MappingProxyType

import pandas as pd

from reportgen.effects.types import NAN, SOIL, Effect, Night, Outcome, Trial, Tryable
from reportgen.effects.verdict import JUDGED_ON, judged_outcome
from reportgen.readings.types import DiaryEntry

WEEKS = 4  # a trial's length; our own line
NIGHTS = WEEKS * 7
LEAD_NIGHTS = 21  # quiet nights before the first switch and after the last: the window that the estimate takes
# Half-width with alternation / with one change, and alone, measured on simulated winters (methods page).
NARROWER: Mapping[str, float] = MappingProxyType({"lift": 0.41 / 0.76, "heat": 2.9 / 5.0, "night_humidity": 2.1 / 3.5})
NARROWER_ELSE = 0.6  # the weakest of the three, for outcomes not measured
ALONE: Mapping[str, float] = MappingProxyType({"lift": 0.41, "night_humidity": 2.1})  # half-width [K, points]
POWER = 1.42  # smallest visible / half-width: (t(.975) + t(.80)) / t(.975) at 40 degrees of freedom
DIARY_COLUMNS = ("date", "time", "kind", "what", "touches", "reversible", "hoped_for", "until")


@lru_cache(maxsize=1)
def blocks() -> tuple[int, ...]:
    """Lengths of the blocks, on first: of all rows of threes and fours that fill 28 nights, the one whose nights on
    are spread most evenly over the week, then over the four weeks."""
    rows = [row for count in (7, 8, 9) for row in product((3, 4), repeat=count) if sum(row) == NIGHTS]
    return min(rows, key=lambda row: (_unevenness(row), row))


def _unevenness(row: Sequence[int]) -> int:
    """Sum of squares of the nights on from half, by weekday and in all."""
    states = states_of(row)
    weekday = [sum(states[day::7]) for day in range(7)]
    return sum((2 * n - WEEKS) ** 2 for n in weekday) + (2 * sum(states) - NIGHTS) ** 2


def states_of(row: Sequence[int]) -> list[int]:
    """1 for a night on, 0 off."""
    return [1 - i % 2 for i, length in enumerate(row) for _ in range(length)]


def plan_from(start: date) -> tuple[Night, ...]:
    """The nights of a plan that begins on this date."""
    states = states_of(blocks())
    return tuple(
        Night(night=start + timedelta(days=i), on=bool(state), switch=i == 0 or state != states[i - 1])
        for i, state in enumerate(states)
    )


def tryables(
    effects: Sequence[Effect], ideas: Sequence[DiaryEntry], heated: bool
) -> tuple[tuple[Tryable, ...], Mapping[str, str]]:
    """Every change and idea that a switching on and off could answer; and why others of what is open could not."""
    found: list[Tryable] = []
    without: dict[str, str] = {}
    for what, outcome, hope, entry, now in _wanted(effects, ideas, heated):
        reason = _why_not(entry, outcome, hope)
        if reason is None and outcome is not None:
            found.append(_tryable(entry, hope, outcome, now))
        elif entry.kind == "idea" or _is_open(effects, entry.line):
            without[what] = reason or ""
    return tuple(found), MappingProxyType(without)


def _is_open(effects: Sequence[Effect], line: int) -> bool:
    return any(effect.line == line and effect.verdict == "cannot tell" for effect in effects)


def dated(one: Tryable, start: date) -> Trial:
    """The plan of one trial that begins on this date."""
    nights = plan_from(start)
    return Trial(
        what=one.what,
        hoped_for=one.hoped_for,
        outcome=one.outcome,
        nights=nights,
        visible=one.visible,
        visible_unit=one.visible_unit,
        visible_now=one.visible_now,
        why="it was noted as an idea" if one.idea else "this winter could not tell",
        diary_rows=_rows(one, nights),
    )


def free_starts(first: date, last: date, taken: Collection[date], nights: int = NIGHTS) -> tuple[date, ...]:
    """First nights from which so many nights lie free: in the season, a lead on both sides, no night of it taken."""
    start, end = first + timedelta(days=LEAD_NIGHTS), last - timedelta(days=LEAD_NIGHTS + nights - 1)
    days = ((end - start).days + 1) if end >= start else 0
    starts = (start + timedelta(days=n) for n in range(days))
    return tuple(s for s in starts if not any(s + timedelta(days=n) in taken for n in range(nights)))


def best_start(starts: Sequence[date], need: pd.Series | None, nights: int = NIGHTS) -> date | None:
    """The start whose nights have the highest mean of `need` (by date); the earliest of equals, or without a need."""
    if not starts:
        return None
    if need is None or not len(need):
        return starts[0]
    means = {s: _mean(need, s, nights) for s in starts}
    known = [s for s in starts if means[s] == means[s]]
    return max(known, key=lambda s: (means[s], -s.toordinal())) if known else starts[0]


def _mean(need: pd.Series, start: date, nights: int) -> float:
    """NaN where fewer than half of the nights have a value."""
    found = [need[day] for n in range(nights) if (day := start + timedelta(days=n)) in need.index]
    return float(sum(found)) / len(found) if 2 * len(found) >= nights else NAN


def coldest_stretch(minima: pd.Series, nights: int) -> tuple[date, date] | None:
    """First and last date of so many running nights with the lowest mean; None where none are half known."""
    dates = sorted(minima.index)
    starts = [dates[0] + timedelta(days=n) for n in range((dates[-1] - dates[0]).days - nights + 2)] if dates else []
    means = {s: _mean(minima, s, nights) for s in starts}
    known = [s for s in starts if means[s] == means[s]]
    if not known:
        return None
    start = min(known, key=lambda s: (means[s], s))
    return start, start + timedelta(days=nights - 1)


Wanted = tuple[str, str | None, str, DiaryEntry, Outcome | None]


def _wanted(effects: Sequence[Effect], ideas: Sequence[DiaryEntry], heated: bool) -> list[Wanted]:
    wanted: list[Wanted] = []
    for effect in effects:
        if effect.declared is not None:
            hope = effect.hoped_for[0]
            wanted.append((effect.what, effect.declared.outcome, hope, _entry_of(effect), effect.declared))
    for idea in ideas:
        hope = next((h for h in idea.hoped_for if h in JUDGED_ON), "")
        wanted.append((idea.what, judged_outcome(hope, idea.touches, heated), hope, idea, None))
    return wanted


def _entry_of(effect: Effect) -> DiaryEntry:
    """The row of the diary an effect came from, as far as a plan needs it."""
    return DiaryEntry(
        line=effect.line,
        date=effect.when,
        time=None,
        kind=effect.kind,
        what=effect.what,
        touches=effect.touches,
        reversible=effect.reversible,
        hoped_for=effect.hoped_for,
        until=effect.until,
        cost=effect.cost,
        years=effect.years,
        written=None,
        note="",
        thing=effect.thing or "",
    )


def _why_not(entry: DiaryEntry, outcome: str | None, hope: str) -> str | None:
    if outcome is None:
        return f"“{hope}” is nothing a logger can judge" if hope else "the diary does not say what it is hoped to do"
    if outcome in SOIL:
        return "the bed remembers for weeks, so that switching on and off shows nothing in it"
    if entry.reversible is None:
        return "the diary does not say whether it can be undone: write yes or no under “reversible”"
    return None if entry.reversible else "it cannot be undone"


def _tryable(entry: DiaryEntry, hope: str, outcome: str, now: Outcome | None) -> Tryable:
    known = now is not None and now.refused is None
    visible_now = now.smallest_visible if now is not None and known else NAN
    visible = visible_now * NARROWER.get(outcome, NARROWER_ELSE) if known else ALONE.get(outcome, NAN) * POWER
    return Tryable(
        line=entry.line,
        what=entry.what,
        thing=entry.thing or None,
        idea=entry.kind == "idea",
        touches=entry.touches,
        hopes=entry.hoped_for,
        hoped_for=hope,
        outcome=outcome,
        visible=visible,
        visible_unit=now.unit if now is not None else {"lift": "K", "night_humidity": "%"}.get(outcome, ""),
        visible_now=visible_now,
    )


def _rows(one: Tryable, nights: Sequence[Night]) -> tuple[str, ...]:
    """The plan as rows of diary.csv, the header first."""
    rows = [",".join(DIARY_COLUMNS)]
    for i, night in enumerate(nights):
        if night.on and night.switch:
            last = next((n.night for n in nights[i:] if not n.on), nights[-1].night + timedelta(days=1))
            rows.append(_csv(one, night.night, last - timedelta(days=1)))
    return tuple(rows)


def _csv(one: Tryable, start: date, until: date) -> str:
    out = io.StringIO()
    cells = [start.isoformat(), "12:00", "spell", one.what, ";".join(one.touches), "yes"]
    csv.writer(out, lineterminator="").writerow([*cells, ";".join(one.hopes), until.isoformat()])
    return out.getvalue()
