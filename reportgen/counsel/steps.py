"""The plan: what to do and when, row by row; never against a verdict, a care limit, a caution or another row."""

from __future__ import annotations

from reportgen.counsel.grounds import Grounds, PlanStep
from reportgen.counsel.results import Results


def steps(r: Results, on: Grounds) -> tuple[PlanStep, ...]:
    """The rows of the plan in their order."""
    return ()
