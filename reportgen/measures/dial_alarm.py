"""Which alarm line between the lowest setting and what was held would have warned, and how long before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.measures.frost_types import Alarm

SHORTEST_H = 1.0  # a shorter warning is "minutes"; our own line
FEWEST_USEFUL = 0.5  # share of the rings that must have been needed, else it rings for nothing; our own line


@dataclass(frozen=True, kw_only=True, slots=True)
class AlarmLine:
    """The line that would have served, or None with why none did.

    `why`: "" where a line served, else "no line", "silent" (none would have rung), "for nothing" or "minutes".
    `best`: of the lines that served not, the one that warned longest.
    """

    alarm: Alarm | None
    why: str
    best: Alarm | None = None


def alarm_between(alarms: Sequence[Alarm], lowest_c: float, held_c: float) -> AlarmLine:
    """The line above the lowest setting and under what was held that warned an hour or more and rang mostly in need.

    Of several the one with the fewest rings for nothing, then the longest warning.
    """
    inside = [one for one in alarms if lowest_c < one.alarm_c < held_c]
    if not inside:
        return AlarmLine(alarm=None, why="no line")
    serving = [one for one in inside if _serves(one)]
    if serving:
        return AlarmLine(alarm=min(serving, key=lambda one: (one.rings - one.needed, -(one.warning_h or 0.0))), why="")
    if not any(one.rings for one in inside):
        return AlarmLine(alarm=None, why="silent")
    needed = [one for one in inside if one.needed and one.warning_h is not None]
    short = [one for one in needed if one.needed >= FEWEST_USEFUL * one.rings]
    best = max(short or needed, key=lambda one: one.warning_h or 0.0, default=None)
    return AlarmLine(alarm=None, why="minutes" if short else "for nothing", best=best)


def _serves(one: Alarm) -> bool:
    return (
        one.warning_h is not None and one.warning_h >= SHORTEST_H and 0 < one.rings <= one.needed / FEWEST_USEFUL + 1e-9
    )
