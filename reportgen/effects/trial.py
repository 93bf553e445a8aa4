"""Next winter's trial: a dated on/off plan for what this winter could not tell.

Three or four nights a block, four weeks, balanced over the days of the week, so that no habit of the grower's week
goes along with it. What it can see: methods page, *Alternation* (measured on simulated winters).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache
from itertools import product
from types import MappingProxyType

from reportgen.effects.outcomes import HEAT
from reportgen.effects.types import NAN, SOIL, Effect, Night, Outcome, Trial
from reportgen.effects.verdict import JUDGED_ON, judged_outcome
from reportgen.readings.types import DiaryEntry
from reportgen.season import Season

WEEKS = 4  # a trial's length; our own line
NIGHTS = WEEKS * 7
REST_NIGHTS = 7  # between one trial and the next
LEAD_NIGHTS = 21  # quiet nights before the first switch
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


def trials(
    effects: Sequence[Effect], ideas: Sequence[DiaryEntry], season: Season, heated: bool, coldest: date
) -> tuple[tuple[Trial, ...], Mapping[str, str]]:
    """A plan for every reversible change that could not be told, and for every idea; and why others get none.

    Args:
        coldest: The middle of this winter's coldest four weeks: what is judged on heat is tried about then.
    """
    planned: list[Trial] = []
    without: dict[str, str] = {}
    free = _slots(season)
    for what, outcome, hope, entry, now in _wanted(effects, ideas, heated):
        reason = _why_not(entry, outcome, hope)
        if reason is None and not free:
            reason = "a season as long as this one has no four free weeks left for it"
        if reason is not None or outcome is None:
            without[what] = reason or ""
            continue
        start = _nearest(free, _same_day_next_year(coldest)) if outcome in HEAT else free[0]
        free.remove(start)
        planned.append(_trial(entry, hope, outcome, now, start))
    return tuple(sorted(planned, key=lambda trial: trial.nights[0].night)), MappingProxyType(without)


def _slots(season: Season) -> list[date]:
    """First nights of the four-week stretches that next winter holds, one after the other."""
    start = _same_day_next_year(season.first_day) + timedelta(days=LEAD_NIGHTS)
    end = _same_day_next_year(season.last_day) - timedelta(days=LEAD_NIGHTS)
    found = []
    while start + timedelta(days=NIGHTS) <= end:
        found.append(start)
        start += timedelta(days=NIGHTS + REST_NIGHTS)
    return found


def _nearest(slots: Sequence[date], middle: date) -> date:
    return min(slots, key=lambda start: (abs((start + timedelta(days=NIGHTS // 2) - middle).days), start))


Wanted = tuple[str, str | None, str, DiaryEntry, Outcome | None]


def _wanted(effects: Sequence[Effect], ideas: Sequence[DiaryEntry], heated: bool) -> list[Wanted]:
    wanted: list[Wanted] = []
    for effect in effects:
        if effect.verdict == "cannot tell" and effect.declared is not None:
            wanted.append(
                (effect.what, effect.declared.outcome, effect.hoped_for[0], _entry_of(effect), effect.declared)
            )
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
    )


def _why_not(entry: DiaryEntry, outcome: str | None, hope: str) -> str | None:
    if outcome is None:
        return f"“{hope}” is nothing a logger can judge" if hope else "the diary does not say what it is hoped to do"
    if outcome in SOIL:
        return "the bed remembers for weeks, so that switching on and off shows nothing in it"
    if entry.reversible is None:
        return "the diary does not say whether it can be undone: write yes or no under “reversible”"
    return None if entry.reversible else "it cannot be undone"


def _same_day_next_year(day: date) -> date:
    try:
        return day.replace(year=day.year + 1)
    except ValueError:  # 29 February
        return date(day.year + 1, 3, 1)


def _trial(entry: DiaryEntry, hope: str, outcome: str, now: Outcome | None, start: date) -> Trial:
    nights = plan_from(start)
    known = now is not None and now.refused is None
    visible_now = now.smallest_visible if now is not None and known else NAN
    visible = visible_now * NARROWER.get(outcome, NARROWER_ELSE) if known else ALONE.get(outcome, NAN) * POWER
    return Trial(
        what=entry.what,
        hoped_for=hope,
        outcome=outcome,
        nights=nights,
        visible=visible,
        visible_unit=now.unit if now is not None else {"lift": "K", "night_humidity": "%"}.get(outcome, ""),
        visible_now=visible_now,
        why="it was noted as an idea" if entry.kind == "idea" else "this winter could not tell",
        diary_rows=_rows(entry, nights),
    )


def _rows(entry: DiaryEntry, nights: Sequence[Night]) -> tuple[str, ...]:
    """The plan as rows of diary.csv, the header first."""
    rows = [",".join(DIARY_COLUMNS)]
    for i, night in enumerate(nights):
        if night.on and night.switch:
            last = next((n.night for n in nights[i:] if not n.on), nights[-1].night + timedelta(days=1))
            rows.append(_csv(entry, night.night, last - timedelta(days=1)))
    return tuple(rows)


def _csv(entry: DiaryEntry, start: date, until: date) -> str:
    out = io.StringIO()
    cells = [start.isoformat(), "12:00", "spell", entry.what, ";".join(entry.touches), "yes"]
    csv.writer(out, lineterminator="").writerow([*cells, ";".join(entry.hoped_for), until.isoformat()])
    return out.getvalue()
