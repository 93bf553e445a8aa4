"""Day or month first, where one file alone does not settle it: its neighbours do, then the season; else it is asked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import Opened
from reportgen.readings.order import Order, spans
from reportgen.readings.stamps import NAT
from reportgen.readings.time_faults import tell_open_order
from reportgen.season import Season


def settle(opened: Sequence[Opened], season: Season, told: Mapping[str, Faults]) -> list[bool | None]:
    """For each file of one logger whether the day comes first; None for one that cannot be read, which is told."""
    known = {one.order.day_first for one in opened if one.order.day_first is not None and one.order.why}
    orders: list[bool | None] = []
    for one in opened:
        first = one.order.day_first
        if first is None and len(known) == 1:
            first = next(iter(known))
            one.order = Order(day_first=first, why="day and month as in the logger's other files")
        if first is None:
            first = _by_season(one, season)
        if first is None:
            tell_open_order(one, told[one.found.file])
        orders.append(first)
    return orders


def _by_season(one: Opened, season: Season) -> bool | None:
    """The only reading that lies within the season, if one lies there whole and the other not at all."""
    inside = {first: _inside(spans(one.stamps, first), season) for first in (True, False)}
    if inside[True] == "whole" and inside[False] == "none":
        one.order = Order(day_first=True, why="day before month: the other reading lies outside the season")
        return True
    if inside[False] == "whole" and inside[True] == "none":
        one.order = Order(day_first=False, why="month before day: the other reading lies outside the season")
        return False
    return None


def _inside(span: tuple[int, int], season: Season) -> str:
    if NAT in span:
        return "none"
    first, last = (dt.datetime.fromtimestamp(ms / 1000, dt.UTC).date() for ms in span)
    if season.first_day <= first and last <= season.last_day:
        return "whole"
    return "none" if last < season.first_day or first > season.last_day else "part"
