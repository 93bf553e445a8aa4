"""Channels that write too seldom: no night, no hour and no extreme can be told of them, only a mean.

Season-folder contract, *What the reader promises*: a channel whose usual step is longer than two readings may ever be
apart to be joined (3 h, soil 6 h) has none of these. On/off logs hold their value and counters are differenced: both
are exempt.
"""

from __future__ import annotations

from reportgen.readings.columns import SWITCHES
from reportgen.readings.join import most_apart_s
from reportgen.readings.types import Channel
from reportgen.units import DAY_S, of_kind
from reportgen.wording import NBSP, number

COUNTERS = of_kind("counter")  # differenced across gaps: their mean says nothing
NOTHING_TOLD = "no night, no hours and no extremes"


def too_seldom(channel: Channel) -> bool:
    """True where the channel tells no night, no hour and no extreme."""
    return seldom_step(channel.measure, channel.step_s, len(channel.values))


def seldom_step(measure: str, step_s: float | None, readings: int) -> bool:
    """The same of a measure, its usual step [s] (None: fewer than two readings) and its number of readings."""
    if measure in (*SWITCHES, *COUNTERS):
        return False
    return readings < 2 or step_s is None or step_s > most_apart_s(measure)


def why_seldom(channel: Channel) -> str:
    """The reason in words, to stand after a colon or alone."""
    if len(channel.values) < 2 or channel.step_s is None:  # a lone reading has no step
        return f"“{channel.logger}” has a single reading, and one reading tells {NOTHING_TOLD}"
    most = number(most_apart_s(channel.measure) / 3600.0)
    return (
        f"“{channel.logger}” was read {how_often(channel.step_s)}, and readings more than {most}{NBSP}h apart tell "
        f"{NOTHING_TOLD}"
    )


def how_often(step_s: float) -> str:
    """once every 8 h; about once a day; once every 31 days."""
    if abs(step_s - DAY_S) < 0.1 * DAY_S:
        return "about once a day"
    if step_s < 2 * DAY_S:
        return f"once every {number(step_s / 3600.0)}{NBSP}h"
    return f"once every {number(step_s / DAY_S)}{NBSP}days"
