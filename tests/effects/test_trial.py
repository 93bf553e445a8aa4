"""Next winter's on/off plans: balanced, dated, pasteable, and only where they can answer."""

from __future__ import annotations

import csv
import datetime as dt

import pandas as pd
from effects.in_memory import entry
from made_season import readings, season

from reportgen.effects.causes import causes
from reportgen.effects.trial import (
    best_start,
    blocks,
    coldest_stretch,
    dated,
    free_starts,
    plan_from,
    states_of,
    tryables,
)

COLD = dt.date(2026, 1, 20)
IDEA = entry(dt.date(2026, 1, 5), "fleece, double", kind="idea", hoped_for=("warmer nights",), reversible=True)


def test_blocks_are_three_or_four_nights_and_fill_four_weeks() -> None:
    """As the method asks: 28 nights in blocks of three or four, about half of them on."""
    assert set(blocks()) <= {3, 4}
    assert sum(blocks()) == 28
    assert 12 <= sum(states_of(blocks())) <= 16


def test_weekdays_are_spread_over_on_and_off() -> None:
    """No habit of the week may go along with it: at most one weekday is on (or off) in all four weeks.

    With blocks of three or four nights in 28 no plan does better: found by trying all of them.
    """
    nights = plan_from(dt.date(2026, 11, 9))
    on = [sum(n.on for n in nights if n.night.weekday() == weekday) for weekday in range(7)]
    assert sum(n in (0, 4) for n in on) <= 1


def test_rows_pasted_into_the_diary_give_the_plan_back() -> None:
    """Read as diary rows, they are one spell that is on in exactly the nights of the plan."""
    (could,), _ = tryables((), (IDEA,), False)
    trial = dated(could, dt.date(2026, 11, 9))
    rows = list(csv.DictReader(trial.diary_rows))
    diary = tuple(
        entry(
            dt.date.fromisoformat(row["date"]),
            row["what"],
            kind=row["kind"],
            time=dt.time.fromisoformat(row["time"]),
            until=dt.date.fromisoformat(row["until"]),
            line=n,
        )
        for n, row in enumerate(rows, start=2)
    )
    (cause,) = causes(readings(season("2026-10-18", "2027-04-12"), diary=diary))
    on = {n.night.toordinal() for n in trial.nights if n.on}
    assert {day for a, b in cause.blocks for day in range(a, b + 1)} == on
    assert cause.names == ("fleece, double",)


def test_a_trial_starts_where_its_nights_are_free_and_matter_most() -> None:
    """Cold on 28 nights from 1 January: from that night on. With the tenth taken, from the eleventh, which keeps the
    most of them. Three weeks stay free on either side."""
    first, last, cold = dt.date(2025, 10, 18), dt.date(2026, 4, 12), dt.date(2026, 1, 1)
    days = [first + dt.timedelta(days=n) for n in range((last - first).days + 1)]
    need = pd.Series([float(cold <= day < cold + dt.timedelta(days=28)) for day in days], index=pd.Index(days))
    assert best_start(free_starts(first, last, ()), need) == cold
    assert best_start(free_starts(first, last, {dt.date(2026, 1, 10)}), need) == dt.date(2026, 1, 11)
    starts = free_starts(first, last, ())
    assert starts[0] == dt.date(2025, 11, 8) and starts[-1] + dt.timedelta(days=27 + 21) == last
    assert best_start(starts, None) == starts[0] and best_start((), need) is None


def test_the_coldest_stretch_is_the_one_with_the_lowest_mean() -> None:
    """Three nights at -9 among nights at 0; nothing is the coldest of nothing."""
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(20)]
    minima = pd.Series([-9.0 if 5 <= n <= 7 else 0.0 for n in range(20)], index=pd.Index(days))
    assert coldest_stretch(minima, 3) == (days[5], days[7])
    assert coldest_stretch(minima.iloc[:0], 3) is None


def test_why_there_is_no_plan() -> None:
    """Not reversible, not said, soil, or no hope that a logger can judge: each with its reason."""
    ideas = [
        entry(COLD, "paint", kind="idea", hoped_for=("warmer nights",), reversible=False),
        entry(COLD, "mat", kind="idea", hoped_for=("warmer nights",)),
        entry(COLD, "pipe", kind="idea", hoped_for=("warmer soil",), reversible=True),
        entry(COLD, "song", kind="idea", hoped_for=("better growth",), reversible=True),
    ]
    found, without = tryables((), ideas, True)
    assert found == ()
    for what, word in (("paint", "undone"), ("mat", "reversible"), ("pipe", "bed"), ("song", "what it is hoped")):
        assert word in without[what]
