"""The frost page's answer: on how many nights frost came in and what the worst was, or how near it came."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.counsel.facts import Facts
from reportgen.counsel.frost import FAR_K
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    OPEN_OR_ALTERED,
    TOO_COLD,
    Event,
)
from reportgen.counsel.said_events import losses
from reportgen.counsel.whole import hidden
from reportgen.wording import are, clock, count, day

_NIGHT: Mapping[str, str] = MappingProxyType(
    {
        HEAT_FAILED: "the night the heater stood still",
        HEAT_OUT: "a night on which the heat was out",
        OPEN_OR_ALTERED: "a night with something left open or altered",
        TOO_COLD: "a night colder than the heater can make good",
        NO_HEAT_YET: "before the first heat",
        NO_HEAT_ANY_MORE: "after the last heat",
    }
)


def headline(facts: Facts) -> str:
    """Frost came in on 3 nights; the worst was the night the heater stood still."""
    f, w = facts.r.frost, facts.w
    m = f.minimum
    if m.temperature_c is None or m.margin_k is None or m.at is None:
        return "How close it came to frost"
    gaps = " on record" if hidden(f, w) else ""
    if m.margin_k > FAR_K:
        return f"Never colder than {w.temp(m.temperature_c)} inside{gaps}"
    coldest = f"{w.temp(m.temperature_c)} on {day(m.at)}"
    if m.margin_k >= 0:
        never = "It never froze inside" if f.line_c == 0 else f"Never under your line of {w.temp(f.line_c)}"
        return f"{never}{gaps}; closest {coldest}"
    return f"{_came(facts, bool(gaps))}{_worst(facts, coldest)}"


def _came(facts: Facts, gaps: bool) -> str:
    f, w = facts.r.frost, facts.w
    nights = f.nights_below["0"].estimate
    what = "Frost came in" if f.line_c == 0 else f"It fell under {w.temp(f.line_c)} inside"
    if not nights:
        return what
    return f"{what} on {'at least ' if gaps else ''}{count(nights, 'night')}"


def _worst(facts: Facts, coldest: str) -> str:
    one = facts.r.frost.nights_below["0"].estimate <= 1
    event = worst_event(facts)
    night = _NIGHT.get(event.cause, "") if event is not None else ""
    if not night:
        return f": {coldest}" if one else f"; the worst was {coldest}"
    return f": {night}" if one else f"; the worst was {night}"


def worst_event(facts: Facts) -> Event | None:
    """The event that holds the coldest moment; None where none was made of it."""
    at = facts.r.frost.minimum.at
    told = [e for e in facts.on.events if e.kind in ("frost", "failure")]
    return next((e for e in told if at is not None and (e.at == at or e.start <= at <= e.end)), None)


def lead(facts: Facts) -> str:
    """Where and when it was coldest and what was lost; then, for the fold, what was counted."""
    f, w = facts.r.frost, facts.w
    m, parts = f.minimum, list[str]()
    if m.at is not None and m.temperature_c is not None:
        outside = f", with {w.temp(m.outdoor_c)} outdoors" if m.outdoor_c is not None else ""
        at = f"Coldest was {w.temp(m.temperature_c)} at “{m.logger}”, {day(m.at)}, {clock(m.at)}{outside}"
        parts.append(at + _lost(facts))
    if lost := hidden(f, w).rstrip("."):
        parts.append(lost)
    nights, hours = f.nights_below["0"], f.hours_below["0"]
    fell = (
        f"The air fell below {w.temp(f.line_c)} on {count(nights.estimate, 'night')}, for "
        f"{w.hours(hours.estimate, 1)} in all"
        if nights.estimate
        else f"No night of {w.hours(f.hours_recorded)} on record fell below {w.temp(f.line_c)}"
    )
    parts.append(f"{fell}; {count(f.nights, 'night')} {are(f.nights, 'was', 'were')} logged whole")
    return ". ".join(parts) + "."


def _lost(facts: Facts) -> str:
    event = worst_event(facts)
    taken = losses([event]) if event is not None else ""
    return f"; it cost {taken}" if taken else ""
