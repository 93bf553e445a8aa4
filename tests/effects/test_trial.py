"""Next winter's on/off plans: balanced, dated, pasteable, and only where they can answer."""

from __future__ import annotations

import csv
import datetime as dt
import itertools

from effects.in_memory import entry
from made_season import readings, season

from reportgen.effects.causes import causes
from reportgen.effects.trial import blocks, plan_from, states_of, trials

WINTER = season("2025-10-18", "2026-04-12")
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
    (trial,), _ = trials((), (IDEA,), WINTER, False, COLD)
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


def test_heat_is_tried_in_the_cold_weeks_the_rest_at_once() -> None:
    """A plan judged on heat lies about the coldest weeks; another takes the first free weeks."""
    film = entry(COLD, "film", line=9, kind="idea", hoped_for=("less heating",), reversible=True)
    found, _ = trials((), (IDEA, film), WINTER, True, COLD)
    start = {trial.what: trial.nights[0].night for trial in found}
    assert abs((start["film"] + dt.timedelta(days=14) - dt.date(2027, 1, 20)).days) <= 18
    assert start["fleece, double"] == dt.date(2026, 11, 8)


def test_why_there_is_no_plan() -> None:
    """Not reversible, not said, soil, or no hope that a logger can judge: each with its reason."""
    ideas = [
        entry(COLD, "paint", kind="idea", hoped_for=("warmer nights",), reversible=False),
        entry(COLD, "mat", kind="idea", hoped_for=("warmer nights",)),
        entry(COLD, "pipe", kind="idea", hoped_for=("warmer soil",), reversible=True),
        entry(COLD, "song", kind="idea", hoped_for=("better growth",), reversible=True),
    ]
    found, without = trials((), ideas, WINTER, True, COLD)
    assert found == ()
    for what, word in (("paint", "undone"), ("mat", "reversible"), ("pipe", "bed"), ("song", "what it is hoped")):
        assert word in without[what]


def test_plans_do_not_overlap_and_end_before_the_last_three_weeks() -> None:
    """As many as fit; the rest are told that no weeks are left."""
    many = [entry(COLD, f"idea {n}", line=n, kind="idea", hoped_for=("drier air",), reversible=True) for n in range(6)]
    found, without = trials((), many, WINTER, False, COLD)
    spans = [(t.nights[0].night, t.nights[-1].night) for t in found]
    assert all(a[1] < b[0] for a, b in itertools.pairwise(spans))
    assert spans[-1][1] <= dt.date(2027, 3, 22)
    assert len(found) + len(without) == 6
