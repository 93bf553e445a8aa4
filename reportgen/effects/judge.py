"""From the diary to effects: each entry with its outcomes, its verdict and all that stands beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType

import numpy as np

from reportgen.effects.causes import Cause, acts, event_days, quiet_dates
from reportgen.effects.causes import causes as causes_of
from reportgen.effects.estimate import DayArrays, day_arrays, outcome_of, window
from reportgen.effects.levers import lever_effects
from reportgen.effects.nights import kinds_of_night
from reportgen.effects.outcomes import OUTCOMES, day_table
from reportgen.effects.placebo import do_nothing
from reportgen.effects.reasons import reasons_of, unjudged_hopes, unjudged_reasons
from reportgen.effects.trial import tryables
from reportgen.effects.types import NAN, Changes, DoNothing, Effect, Outcome, Verdict
from reportgen.effects.unwritten import odd_date
from reportgen.effects.verdict import care_for, judged_outcome, verdict_of, worth
from reportgen.measures.heat_sums import total_cost
from reportgen.readings.diary_lines import untried
from reportgen.readings.types import DiaryEntry, Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class Evidence:
    """What every judgement needs; `quiet` results are kept by outcome."""

    readings: Readings
    arrays: DayArrays
    heat_cost: float | None
    quiet: tuple[date, ...]
    kept: dict[str, tuple[DoNothing, ...]] = field(default_factory=dict)

    def do_nothing(self, outcome: str) -> tuple[DoNothing, ...]:
        """The winter's do-nothing dates for one outcome, worked out once."""
        if outcome not in self.kept:
            self.kept[outcome] = do_nothing(outcome, self.quiet, self.arrays)
        return self.kept[outcome]


def judge(readings: Readings) -> Changes:
    """Every entry of the diary, judged."""
    season, days = readings.season, day_table(readings)
    found = causes_of(readings)
    arrays = day_arrays(days, found, event_days(readings))
    quiet = tuple(quiet_dates(season, readings.diary))
    evidence = Evidence(readings=readings, arrays=arrays, heat_cost=season_heat_cost(readings), quiet=quiet)
    nights, odd = kinds_of_night(readings, days), odd_date(evidence.do_nothing)
    if not readings.diary:
        kept = readings.books.get("diary", False)
        why = "the diary has no line" if kept else "no diary was kept"
        return Changes(changes=(), reason=why, kinds_of_night=nights, odd_date=odd)
    measured = [_measured(cause, evidence) for cause in found]
    effects = [e for cause, outcomes in zip(found, measured, strict=True) for e in _of_cause(cause, outcomes, evidence)]
    effects += [_unjudged(entry) for entry in readings.diary if _is_bystander(entry, readings)]
    effects = [_taking_back(effect, readings) for effect in effects]
    effects.sort(key=lambda e: (e.when, e.line))
    judged = sum(effect.verdict in ("helped", "hurt", "no sign") or _was_tried(effect) for effect in effects)
    could, without = tryables(effects, untried(readings.diary), bool(readings.heating))
    return Changes(
        changes=tuple(effects),
        could_try=could,
        no_trial=without,
        judged=judged,
        reason="" if effects else "the diary holds no change",
        heat_cost=evidence.heat_cost,
        kinds_of_night=nights,
        odd_date=odd,
        levers=lever_effects(readings, arrays, measured),
    )


def _was_tried(effect: Effect) -> bool:
    """It had an estimate that could have given a sign."""
    return effect.verdict == "cannot tell" and effect.declared is not None and effect.declared.refused is None


def season_heat_cost(readings: Readings) -> float | None:
    """What the heaters' energy cost this season [money]; None where any of it has no price."""
    return total_cost(readings.heating).value if readings.heating else None


def _is_bystander(entry: DiaryEntry, readings: Readings) -> bool:
    return entry.kind in ("idea", "event") or (entry.kind == "upkeep" and not acts(entry, readings))


def _unjudged(entry: DiaryEntry) -> Effect:
    return _effect(entry, (), "not judged", reasons=unjudged_reasons(entry))


def _effect(entry: DiaryEntry, outcomes: tuple[Outcome, ...], verdict: Verdict, reasons: Mapping[str, str]) -> Effect:
    return Effect(
        when=entry.date,
        what=entry.what,
        kind=entry.kind,
        touches=entry.touches,
        hoped_for=entry.hoped_for,
        thing=entry.thing or None,
        hope_written_before=_written_before(entry),
        grouped_with=(),
        verdict=verdict,
        at_most=None,
        outcomes=outcomes,
        reasons=MappingProxyType(dict(reasons)),
        line=entry.line,
        until=entry.until,
        reversible=entry.reversible,
        cost=entry.cost,
        years=entry.years,
        unjudged_hopes=unjudged_hopes(entry),
    )


def _taking_back(effect: Effect, readings: Readings) -> Effect:
    """The same with the day of the line that it takes back, if it takes one back."""
    for lever in readings.levers:
        if effect.line in lever.undone:
            return replace(effect, undoes=lever.entries[lever.lines.index(lever.undone[effect.line])])
    return replace(effect, reasons=MappingProxyType({**effect.reasons, "undoes": "it takes no earlier line back"}))


def _written_before(entry: DiaryEntry) -> bool | None:
    if not entry.hoped_for or entry.written is None:
        return None
    return entry.written <= entry.date


def _told(cause: Cause) -> tuple[DiaryEntry, ...]:
    """The entries of a cause that are judged: one for all rows of a spell."""
    return cause.entries[:1] if cause.alternates else cause.entries


def _measured(cause: Cause, evidence: Evidence) -> dict[str, Outcome]:
    """Every outcome of a cause, those hoped for with their nights."""
    wanted = {_declared(entry, evidence) for entry in _told(cause)}
    return {name: outcome_of(cause, name, evidence.arrays, declared=name in wanted) for name in OUTCOMES}


def _of_cause(cause: Cause, measured: Mapping[str, Outcome], evidence: Evidence) -> list[Effect]:
    """One effect a diary entry of the cause (one for all rows of a spell)."""
    return [_judged(entry, cause, _declared(entry, evidence), measured, evidence) for entry in _told(cause)]


def _declared(entry: DiaryEntry, evidence: Evidence) -> str | None:
    """The outcome of the first-named hope."""
    if not entry.hoped_for:
        return None
    return judged_outcome(entry.hoped_for[0], entry.touches, bool(evidence.readings.heating))


def _judged(
    entry: DiaryEntry, cause: Cause, declared: str | None, measured: Mapping[str, Outcome], evidence: Evidence
) -> Effect:
    outcomes = tuple(replace(measured[name], declared=name == declared) for name in OUTCOMES)
    hoped = measured[declared] if declared is not None else None
    care = care_for(hoped, evidence.readings.season.aims.care) if hoped is not None else NAN
    verdict, small = verdict_of(hoped, care) if hoped is not None else ("not judged", False)
    valued = worth(hoped, evidence.heat_cost)
    dots = evidence.do_nothing(hoped.outcome) if hoped is not None and not cause.alternates else ()
    grouped = tuple(e.what for e in cause.entries if e is not entry) if not cause.alternates else ()
    reasons = reasons_of(entry, grouped, declared, hoped, outcomes, verdict) | dict(valued.reasons)
    return replace(
        _effect(entry, outcomes, verdict, reasons),
        grouped_with=grouped,
        at_most=valued.at_most,
        saves_at_most=valued.saves_at_most,
        small=small,
        care=care,
        switches=tuple((date.fromordinal(a), date.fromordinal(b)) for a, b in cause.blocks),
        meanwhile=_meanwhile(cause, evidence),
        do_nothing=dots,
    )


def _meanwhile(cause: Cause, evidence: Evidence) -> tuple[str, ...]:
    """What else happened in the window, in order of date."""
    days = evidence.arrays.days[window(cause, evidence.arrays.days)]
    if not len(days):
        return ()
    first, last = int(np.min(days)), int(np.max(days))
    own = {entry.line for entry in cause.entries}
    others = [e for e in evidence.readings.diary if e.line not in own and e.kind not in ("idea", "away")]
    inside = [e for e in others if e.date.toordinal() <= last and (e.until or e.date).toordinal() >= first]
    return tuple(dict.fromkeys(e.what for e in inside))
