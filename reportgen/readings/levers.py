"""Levers: what the grower can set. Diary lines that are one thing, and when it was on and when off.

A change, the line that takes it back (`undoes`), the line that puts it on again, and the rows of a spell with one
`what` are one lever. A change is on from its time; a spell from its time of the first day to noon after its last
night; a line without a time counts from noon. Two states follow each other without a gap from the season's first
midnight to its last.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

import pandas as pd

from reportgen.readings.chains import Chain
from reportgen.readings.lever_types import Lever, State
from reportgen.readings.types import DiaryEntry
from reportgen.season import Season

NOON = dt.time(12)


def levers_of(chains: Iterable[Chain], season: Season) -> tuple[Lever, ...]:
    """Every chain with a line in the season, by its first line; a line of before the season counts only in a chain.

    Ideas and events are no levers; upkeep is one only where it takes something back or is taken back.
    """
    return tuple(_lever(chain, season) for chain in chains if any(in_season(e, season) for e in chain.entries))


def levers_before(chains: Iterable[Chain], season: Season) -> tuple[Lever, ...]:
    """What was set before the season, lasts, and has no line in it: on from its first midnight to its last."""
    old = [chain for chain in chains if all(entry.date < season.first_day for entry in chain.entries)]
    found = [_lever(chain, season) for chain in old if not any(in_season(e, season) for e in chain.entries)]
    return tuple(lever for lever in found if any(state.on for state in lever.states))


def in_season(entry: DiaryEntry, season: Season) -> bool:
    """Whether a line, or a part of its spell, lies in the season."""
    return entry.date <= season.last_day and (entry.until or entry.date) >= season.first_day


def _lever(chain: Chain, season: Season) -> Lever:
    states = _states(chain, season)
    thing = next((e.thing for e in chain.entries if e.thing), None)
    touches = tuple(dict.fromkeys(word for e in chain.entries for word in e.touches))
    reasons = {} if thing else {"thing": "the diary has no word for it under “thing”"}
    if not touches:
        reasons["touches"] = "the diary does not say what it touches"
    return Lever(
        name=chain.entries[0].what,
        thing=thing,
        touches=touches,
        entries=tuple(e.date for e in chain.entries),
        states=states,
        hours_on=sum(s.hours for s in states if s.on),
        hours_off=sum(s.hours for s in states if not s.on),
        reasons=MappingProxyType(reasons),
        lines=tuple(e.line for e in chain.entries),
        undone=MappingProxyType(dict(chain.undone)),
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Stretch:
    """What one line does: it puts the lever on or off from an instant, for a spell until another."""

    start: pd.Timestamp
    end: pd.Timestamp | None
    on: bool


def _states(chain: Chain, season: Season) -> tuple[State, ...]:
    stretches = [_stretch(e, chain.puts[e.line], season) for e in chain.entries]
    knots = {season.start, season.end, *(s.start for s in stretches), *(s.end for s in stretches if s.end is not None)}
    inside = sorted(knot for knot in knots if season.start <= knot <= season.end)
    states: list[State] = []
    for start, end in pairwise(inside):
        on = _on(stretches, start)
        if states and states[-1].on == on:
            start = states.pop().from_
        states.append(State(from_=start, to=end, on=on))
    return tuple(states)


def _on(stretches: Sequence[_Stretch], at: pd.Timestamp) -> bool:
    """Of a change the last word holds; of a spell as long as it runs and no later change has ended it."""
    lasting = [s for s in stretches if s.end is None and s.start <= at]
    since = lasting[-1].start if lasting else None
    running = [
        s for s in stretches if s.end is not None and s.start <= at < s.end and (since is None or s.start >= since)
    ]
    spoken = running or lasting
    return spoken[-1].on if spoken else False


def _stretch(entry: DiaryEntry, on: bool, season: Season) -> _Stretch:
    start = _instant(entry.date, entry.time or NOON, season)
    if entry.kind != "spell" or entry.until is None:
        return _Stretch(start=start, end=None, on=on)
    end = _instant(entry.until + dt.timedelta(days=1), NOON, season)
    return _Stretch(start=start, end=end, on=on)


def _instant(day: dt.date, time: dt.time, season: Season) -> pd.Timestamp:
    local = pd.Timestamp.combine(day, time)
    return local.tz_localize(season.zone, ambiguous=True, nonexistent="shift_forward")
