"""One alarm line for all pages: the grower's own stays where it serves as well."""

from __future__ import annotations

from typing import Any

from counsel.grounded import hold

from reportgen.counsel.alarms import told_alarm, worth_ringing
from reportgen.measures.frost import Alarm


def ring(alarm_c: float, rings: int, needed: int, warning_h: float | None = 2.0) -> Alarm:
    return Alarm(alarm_c=alarm_c, rings=rings, needed=needed, warning_h=warning_h)


LOW, OWN, LATE = ring(2.0, 13, 8, 1.7), ring(2.8, 15, 8, 2.9), ring(2.8, 15, 8, 1.0)


def told(*alarms: Alarm, own_c: float | None = 2.8, **more: Any) -> Alarm | None:
    return told_alarm(alarms, hold(**({"alarm_c": 2.0, "alarm_why": ""} | more)), own_c)


def test_one_s_own_line_that_warns_earlier_is_left_alone() -> None:
    """13 rings against 15, 8 of them needed, an hour more of warning: nobody turns an alarm down for that."""
    assert told(LOW, OWN) == OWN
    assert told(LOW, OWN, own_c=None) == LOW


def test_one_s_own_line_gives_way_where_it_warns_later_or_rings_for_nothing() -> None:
    """Later; needed less often; needed in fewer than half of its rings."""
    assert told(LOW, LATE) == LOW
    assert told(LOW, ring(2.8, 9, 7, 2.9)) == LOW
    assert told(LOW, ring(2.8, 17, 8, 2.9)) == LOW


def test_half_of_the_rings_is_worth_hearing() -> None:
    assert worth_ringing(ring(2.0, 4, 2)) and not worth_ringing(ring(2.0, 5, 2))
