"""The winter's own do-nothing dates: the same estimator where nothing was done.

An illustration in counts, no p-value: the dates overlap one another and share the winter's weather.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from reportgen.effects.causes import Cause
from reportgen.effects.estimate import DayArrays, outcome_of
from reportgen.effects.types import DoNothing


def do_nothing(outcome: str, quiet: Sequence[date], arrays: DayArrays) -> tuple[DoNothing, ...]:
    """What the estimator says of each quiet date; dates it refuses are left out."""
    found = []
    for when in quiet:
        day = when.toordinal()
        result = outcome_of(Cause(entries=(), first=day - 1, last=day), outcome, arrays)
        if result.refused is None:
            found.append(DoNothing(when=when, effect=result.effect, low=result.low, high=result.high))
    return tuple(found)


def beaten(effect: float, others: Sequence[DoNothing]) -> int:
    """How many do-nothing dates have a smaller effect (same unit), whatever its sign."""
    return sum(abs(other.effect) < abs(effect) for other in others)
