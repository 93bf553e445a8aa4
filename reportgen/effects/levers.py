"""Levers: what each did while it was on, its switches pooled, and what it spared.

A lever is judged on its first hope that a logger can judge. Its switches that lie within six weeks of each other are
fitted as one cause that goes on and off; others share no night and are averaged (`pooled`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
import pandas as pd

from reportgen.effects.by_state import ByState, spared_by_state
from reportgen.effects.causes import Cause
from reportgen.effects.estimate import WINDOW_DAYS, DayArrays, outcome_of
from reportgen.effects.lever_types import LeverEffect, Spared
from reportgen.effects.outcomes import OUTCOMES
from reportgen.effects.pooled import pooled, turned
from reportgen.effects.spared import HeatHours, spared
from reportgen.effects.spared_hours import heat_hours, on_hours
from reportgen.effects.types import NAN, Outcome
from reportgen.effects.verdict import care_for, judged_outcome, verdict_of
from reportgen.measures.heating_hours import hours_of
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import DiaryEntry, Readings

SPARES = frozenset({"envelope", "air"})  # what a lever must touch for its spared heat to be told
Measured = Mapping[str, Outcome]


@dataclass(frozen=True, kw_only=True, slots=True)
class Known:
    """What every lever is judged with. `measured`: the outcomes of each of the season's causes, in their order."""

    readings: Readings
    arrays: DayArrays
    measured: Sequence[Measured]
    heat: HeatHours | None
    by_state: ByState


def lever_effects(readings: Readings, arrays: DayArrays, measured: Sequence[Measured]) -> tuple[LeverEffect, ...]:
    """Every lever of the diary, in its order.

    Args:
        arrays: The season's days and causes.
        measured: Outcomes of each of those causes.
    """
    if not readings.levers:
        return ()
    heat = heat_hours(readings)
    known = Known(readings=readings, arrays=arrays, measured=measured, heat=heat, by_state=ByState(readings, heat))
    return tuple(_lever(lever, known) for lever in readings.levers)


def puts_on(lever: Lever, line: int) -> bool:
    """Whether a line puts the lever on: it takes nothing back, or takes back what put it off."""
    return line not in lever.undone or not puts_on(lever, lever.undone[line])


def _lever(lever: Lever, known: Known) -> LeverEffect:
    entries = [e for e in known.readings.diary if e.line in lever.lines]
    hope, declared = _hoped(entries, known)
    outcomes = _outcomes(lever, declared, known)
    hoped = next((o for o in outcomes if o.declared), None)
    care = care_for(hoped, known.readings.season.aims.care) if hoped is not None else NAN
    amount, reason = _spared(lever, outcomes, known)
    return LeverEffect(
        lines=lever.lines,
        hope=hope,
        outcomes=outcomes,
        verdict="not judged" if hoped is None else verdict_of(hoped, care)[0],
        care=care,
        spared=amount,
        spared_reason=reason,
        without=_not_alone(lever, known),
        before_heat=_before_heat(lever, known),
    )


def _hoped(entries: Sequence[DiaryEntry], known: Known) -> tuple[str | None, str | None]:
    """The first hope of its first line that has one, and the outcome it is judged on."""
    heated = bool(known.readings.heating)
    for entry in entries:
        if entry.hoped_for:
            touches = tuple(dict.fromkeys(word for e in entries for word in e.touches))
            return entry.hoped_for[0], judged_outcome(entry.hoped_for[0], touches, heated)
    return None, None


def _causes(lever: Lever, known: Known) -> list[int]:
    """Numbers of the season's causes that hold a line of the lever."""
    return [n for n, cause in enumerate(known.arrays.causes) if any(e.line in lever.lines for e in cause.entries)]


def _not_alone(lever: Lever, known: Known) -> str:
    """Why nothing can be told of it alone: something else was changed within three days of it."""
    for n in _causes(lever, known):
        cause = known.arrays.causes[n]
        others = [e.what for e in cause.entries if e.line not in lever.lines]
        if others:
            return f"“{others[0]}” was changed within three days of it: only both together can be told"
        if not cause.alternates and len({puts_on(lever, e.line) for e in cause.entries}) > 1:
            return "it was put on and taken off again within three days"
    return ""


def _outcomes(lever: Lever, declared: str | None, known: Known) -> tuple[Outcome, ...]:
    own = _causes(lever, known)
    if not own:
        return ()
    clusters = _clusters([known.arrays.causes[n] for n in own])
    found = []
    for name in OUTCOMES:
        parts = [_part(cluster, name, lever, known) for cluster in clusters]
        found.append(replace(pooled(parts), declared=name == declared))
    return tuple(found)


def _clusters(causes: Iterable[Cause]) -> list[list[Cause]]:
    """Switches whose windows share nights stand together."""
    clusters: list[list[Cause]] = []
    for cause in sorted(causes, key=lambda c: c.first):
        if clusters and cause.first - max(c.last for c in clusters[-1]) < 2 * WINDOW_DAYS:
            clusters[-1].append(cause)
        else:
            clusters.append([cause])
    return clusters


def _part(cluster: Sequence[Cause], name: str, lever: Lever, known: Known) -> Outcome:
    if len(cluster) == 1:
        number = next(n for n, cause in enumerate(known.arrays.causes) if cause is cluster[0])
        on = puts_on(lever, next(e.line for e in cluster[0].entries if e.line in lever.lines))
        return turned(known.measured[number][name], on)
    joint = _joint(cluster, lever)
    others = tuple(cause for cause in known.arrays.causes if cause not in cluster)
    return outcome_of(joint, name, replace(known.arrays, causes=(*others, joint)))


def _joint(cluster: Sequence[Cause], lever: Lever) -> Cause:
    """Switches that share nights as one cause, on while the lever is on."""
    return Cause(
        entries=tuple(entry for cause in cluster for entry in cause.entries),
        first=min(cause.first for cause in cluster),
        last=max(cause.last for cause in cluster),
        blocks=_nights_on(lever),
        switched=tuple(cluster),
    )


def _nights_on(lever: Lever) -> tuple[tuple[int, int], ...]:
    """First and last garden day of every state on: those whose midnight lies in it."""
    blocks = []
    for state in lever.states:
        if state.on:
            first, last = _evening_before(state.from_), _evening_before(state.to) - 1
            if last >= first:
                blocks.append((first, last))
    return tuple(blocks)


def _evening_before(instant: pd.Timestamp) -> int:
    """The garden day whose midnight is the first at or after an instant (ordinal of its date)."""
    following: date = instant.tz_localize(None).ceil("D").date()
    return following.toordinal() - 1


def _spared(lever: Lever, outcomes: Sequence[Outcome], known: Known) -> tuple[Spared | None, str]:
    """What it spared, by the heat for each degree where that is told, else by the heat of weeks or days."""
    if not SPARES & set(lever.touches):
        return None, "only of what is done to the cover or the air is the spared heat told"
    if known.heat is None:
        return None, "no heater is listed"
    if why := _not_alone(lever, known):
        return None, why
    hoped = next((o for o in outcomes if o.outcome == "watts_per_kelvin"), None)
    if hoped is not None and hoped.refused is None and hoped.before_mean > 0:
        return spared(hoped, known.heat, on_hours(lever, hours_of(known.readings))), ""
    found = spared_by_state(lever, known.by_state)
    return (found, "") if isinstance(found, Spared) else (None, found)


def _before_heat(lever: Lever, known: Known) -> bool:
    """It was on before the first heated hour of the season, or none was heated."""
    if known.heat is None or not known.heat.heated.any():
        return True
    on = on_hours(lever, hours_of(known.readings))
    return bool(on.any()) and int(np.argmax(on)) <= int(np.argmax(known.heat.heated))
