"""The plan: what to do and when, row by row; never against a verdict, a care limit, a caution or another row."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from typing import get_args

from reportgen.counsel.grounds import Grounds, PlanRow, PlanStep
from reportgen.counsel.next_season import next_season, rest_of_season
from reportgen.counsel.results import Results
from reportgen.counsel.steps_levers import keep, undo
from reportgen.counsel.steps_log import log
from reportgen.counsel.steps_money import buy
from reportgen.counsel.steps_season import before_the_frost, sow
from reportgen.counsel.steps_try import tried

MOST_STEPS, MOST_IN_A_ROW = 10, 3
ROWS: tuple[PlanRow, ...] = get_args(PlanRow)


def steps(r: Results, on: Grounds) -> tuple[PlanStep, ...]:
    """The rows of the plan in their order: at most ten, three of a kind; of each kind the weightiest first."""
    ahead = next_season(r)
    now = rest_of_season(r) or ahead  # what can still be done in a winter that runs is done in it
    rows = (
        before_the_frost(r, on, now),
        sow(r, ahead),
        keep(r, on.levers, now),
        undo(r, on.levers, now),
        tried(r, on, ahead),
        buy(r, on, now),
        log(r, on, now),
    )
    return _so_many(rows)


def _so_many(rows: Sequence[Sequence[PlanStep]]) -> tuple[PlanStep, ...]:
    """The first of each row, then the second of each, until there are ten; told in the order of the rows."""
    by_turn = [
        step for turn in zip_longest(*(row[:MOST_IN_A_ROW] for row in rows)) for step in turn if step is not None
    ]
    kept = by_turn[:MOST_STEPS]
    return tuple(step for row in rows for step in row if any(step is one for one in kept))
