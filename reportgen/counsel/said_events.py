"""An event in words: what happened, why, and what it cost; one sentence however many measures saw it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import zip_longest
from types import MappingProxyType

from reportgen.counsel.brief import begun, fitted, heater, short
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    NOT_KNOWN,
    OPEN_OR_ALTERED,
    TOO_COLD,
    UNHEATED,
    Event,
)
from reportgen.wording import Wording, count, day, listed, number, span

LONG_MIN = 120.0  # minutes from which a time is told in hours

_CAUSES: Mapping[str, str] = MappingProxyType(
    {
        HEAT_FAILED: "the heater stood still",
        HEAT_OUT: "the heat was out",
        OPEN_OR_ALTERED: "something stood open or was altered",
        TOO_COLD: "it was colder than the heater can make good",
        NO_HEAT_YET: "there was no heat yet",
        NO_HEAT_ANY_MORE: "there was no heat any more",
        UNHEATED: "the house is unheated",
        NOT_KNOWN: "the cause is not known",
    }
)


def cause_words(event: Event) -> str:
    """Why it happened; of a loss the word of its own column."""
    if event.kind == "loss":
        return event.cause
    return _CAUSES.get(event.cause, event.cause)


def clause(event: Event, w: Wording) -> str:
    """It in at most fifteen words, for a heading."""
    if event.kind == "loss":
        return f"{begun(short(event.cause) or 'A cause not noted')} took {losses([event]) or 'plants'}"
    low = "" if event.minimum_c is None else f"{w.temp(event.minimum_c)} inside"
    if event.cause == HEAT_FAILED:
        return fitted((f"The heater stood still on {day(event.start)}", low), 15, ": ")
    head = f"{begun(low)} on {day(event.at or event.start)}" if low else f"Cold on {day(event.start)}"
    return fitted((head, cause_words(event)), 15, ": ")


def sentence(event: Event, w: Wording) -> str:
    """It in at most forty words, with its number, its cause and its losses."""
    diary = f"the diary: {quoted_lines(event)[0]}" if event.diary and event.kind != "loss" else ""
    if event.nobody_noted:
        diary = "our diary is silent on it"
    minutes = event.line_crossed_after_min
    soon = "" if minutes is None else f"the line was crossed after {lag_words(minutes)}"
    lost = losses([event])
    taken = f"it cost {lost}" if lost and event.kind != "loss" else ""
    return begun(fitted((clause(event, w), soon, taken, _outdoors(event, w), diary), 40)) + "."


def quoted_lines(event: Event) -> list[str]:
    """“Door left ajar” (12 November): the lines of the diary, with their days where they are not the event's own."""
    return [
        f"“{text}” ({on})" if on else f"“{text}”" for text, on in zip_longest(event.diary, event.diary_on, fillvalue="")
    ]


def lag_words(minutes: float) -> str:
    """36 minutes, or 4.3 h from two hours on."""
    return count(minutes, "minute") if minutes < LONG_MIN else f"{number(minutes / 60, 1)}\u00a0h"


def safety_clause(event: Event) -> str:
    """A safety conjunction in at most fifteen words."""
    days = f" {count(event.days, 'day')}" if event.days else ""
    if not event.source:
        return begun(fitted((event.cause, span(event.start, event.last_day)), 15, ", "))
    house = " in a house made tight" if event.levers else ""
    if event.flue_unsaid:
        return f"The {heater(event.source)} burned{days}{house}: no flue is noted"
    return f"The {heater(event.source)} burned{days} without a flue{house}"


def losses(events: Sequence[Event]) -> str:
    """7 pak choi and 9 lettuce; empty where none were lost."""
    plants: dict[str, float] = defaultdict(float)
    for event in events:
        for met in event.crops:
            if met.lost:
                plants[met.crop] += met.lost
    worst = sorted(plants.items(), key=lambda pair: (-pair[1], pair[0]))
    return listed((f"{number(n)}\u00a0{short(crop, 2)}" for crop, n in worst), 3)


def _outdoors(event: Event, w: Wording) -> str:
    return "" if event.outdoor_c is None else f"{w.temp(event.outdoor_c)} outside"
