"""What a change did once the weather is taken out: one frozen value a change, doubt included."""

from __future__ import annotations

from reportgen.effects.judge import judge
from reportgen.effects.types import Changes, DoNothing, Effect, Night, Outcome, Trial, Tryable
from reportgen.readings.types import Readings

__all__ = ["Changes", "DoNothing", "Effect", "Night", "Outcome", "Trial", "Tryable", "effects"]


def effects(readings: Readings) -> Changes:
    """The effect of every change of the diary, with its interval, or why it cannot be told.

    Method: methods page, *What a change did*. Never raises for want of data: that is a result with its reason.
    """
    return judge(readings)
