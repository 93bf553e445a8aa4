"""What to do after a spell of cold: by its cause, and by what the record says of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from reportgen.counsel.brief import heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    OPEN_OR_ALTERED,
    TOO_COLD,
    Event,
)
from reportgen.measures.diary_words import words_of
from reportgen.measures.frost_limit import nights_of
from reportgen.wording import day, listed

STUCK = frozenset(
    {"ash", "ashes", "auger", "blocked", "bridge", "bridged", "clinker", "clogged", "grate", "hopper", "jam", "jammed"}
    | {"soot", "sooted", "stuck"}
)
USED_UP = frozenset({"empty", "finished", "ran", "runs", "used"})  # of the fuel


def step(facts: Facts, e: Event) -> str:
    """What would have helped; of a cause without a step of its own the cover over the crop."""
    return _NEXT.get(e.cause, _cover)(facts, e)


def _cover(facts: Facts, e: Event) -> str:
    names = listed(list(dict.fromkeys(c.crop for c in [c for c in e.crops if c.lost] or e.crops))) or "tenderest crop"
    when = f"before a frost like that of {day(e.start)}"
    return f"Draw fleece over the {names} at dusk {when}, or grow a hardier kind instead."


def _failed(facts: Facts, e: Event) -> str:
    if e.hazard:
        return (
            "Keep everything clear of the heater, and have a licensed trade check it before it runs again; then an "
            "alarm that tells when its power is gone."
        )
    power = " when the heater's power is gone, and another" if _electric(facts, e) else ""
    return f"Have an alarm that tells{power} when the air at the crop falls; draw fleece at dusk, clear of any heater."


def _out(facts: Facts, e: Event) -> str:
    """Of what is bought in cylinders, sacks or cans a store that lasts the night; else as of heat that failed."""
    stored = [s for s in facts.r.season.heating if s.deliveries and e.source in (None, s.name)]
    if not stored or _electric(facts, e):
        return _failed(facts, e)
    alarm = "have an alarm that tells when the air at the crop falls."
    said = set(words_of(" ".join(e.diary)))
    if said & STUCK and not said & USED_UP:
        named = f"the {heater(stored[0].name)}" if len(stored) == 1 else "the heater"
        return f"Clean {named} once it has gone cold, and see that it feeds and burns before each cold night; {alarm}"
    ready = "connected" if all(source.fuel == "propane" for source in stored) else "ready"
    return f"Weigh what is left before each cold night and have more than a night's heat {ready}; {alarm}"


def _electric(facts: Facts, e: Event) -> bool:
    """What stopped runs on mains power; of heat that nobody names, all that the season lists."""
    own = [source for source in facts.r.season.heating if e.source in (None, source.name)]
    return bool(own) and all(source.fuel == "electricity" for source in own)


def _too_cold(facts: Facts, e: Event) -> str:
    under = _came_close_c(facts, e)
    at = f" under {facts.w.temp(under, 0)}" if under is not None else ""
    return f"Draw fleece at dusk, clear of the heater, on nights forecast{at}: a higher hold is of no use then."


def _came_close_c(facts: Facts, e: Event) -> float | None:
    """The mildest night's coldest outdoors on which the air came within a degree of the line though the heat was on; at
    least the outdoor air of the event's own coldest moment."""
    table, line = facts.r.frost.table, facts.r.frost.line_c
    if not {"inside_min", "outdoor_min"} <= set(table.columns):
        return e.outdoor_c
    others = {night for o in facts.on.events if o.cause != TOO_COLD for night in nights_of(o.start, o.end)}
    close = table[(table["inside_min"] <= line + 1.0) & ~table.index.isin(others)]["outdoor_min"].dropna()
    return max([*close, *([] if e.outdoor_c is None else [e.outdoor_c])], default=None)


def _not_yet(facts: Facts, e: Event) -> str:
    return f"Have the heater clear, checked and ready by {day(e.start)} next time."


def _no_more(facts: Facts, e: Event) -> str:
    return f"Leave the heater ready until after {day(e.last_day)}."


def _open(facts: Facts, e: Event) -> str:
    return "Note each evening in frost, beside the diary, that doors and vents are as they should be."


_NEXT: Mapping[str, Callable[[Facts, Event], str]] = MappingProxyType(
    {
        HEAT_FAILED: _failed,
        TOO_COLD: _too_cold,
        NO_HEAT_YET: _not_yet,
        NO_HEAT_ANY_MORE: _no_more,
        HEAT_OUT: _out,
        OPEN_OR_ALTERED: _open,
    }
)
