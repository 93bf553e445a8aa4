"""The one alarm line that every page, the plan and the heading speak of."""

from __future__ import annotations

from reportgen.counsel.grounds import HoldAdvice
from reportgen.measures.frost import Alarm

WORTH_RINGING = 0.5  # share of an alarm's rings that were needed before it is worth hearing
SHORT_H = 1.0  # a warning shorter than this comes too late to do anything; our own line


def best_alarm(alarms: tuple[Alarm, ...]) -> Alarm | None:
    """The line that warns longest among those whose rings were mostly needed; else the one needed most often."""
    useful = [a for a in alarms if a.needed and a.warning_h is not None]
    worth = [a for a in useful if worth_ringing(a)]
    if worth:
        return max(worth, key=lambda a: (a.warning_h or 0.0, -a.alarm_c))
    return max(useful, key=lambda a: (a.needed / a.rings, a.warning_h or 0.0), default=None)


def told_alarm(alarms: tuple[Alarm, ...], advice: HoldAdvice, own_c: float | None) -> Alarm | None:
    """The line between the lowest setting and what was held, where one serves; else the best of the table.

    The grower's own line [°C] stays where it is worth hearing and warns no later: nobody is sent to turn it for less.
    """
    line = advice.alarm_c if not advice.alarm_why else None
    found = next((a for a in alarms if line is not None and a.alarm_c == line and a.needed), None)
    told = best_alarm(alarms) if found is None else found
    own = next((a for a in alarms if own_c is not None and a.alarm_c == own_c and a.needed), None)
    if told is None or own is None or not worth_ringing(own):
        return told
    kept = own.needed >= told.needed and (own.warning_h or 0.0) >= (told.warning_h or 0.0)
    return own if kept and found is not None else told


def worth_ringing(alarm: Alarm) -> bool:
    """Whether at least half of its rings were needed."""
    return alarm.needed >= WORTH_RINGING * alarm.rings
