"""Levers: both sides of what the grower set, and one verdict each."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.counsel.grounds import Event, JudgedLever
from reportgen.counsel.results import Results


def judged_levers(r: Results, happened: Sequence[Event]) -> tuple[JudgedLever, ...]:
    """Every lever of the season with its verdict, the one to be told first first."""
    return ()
