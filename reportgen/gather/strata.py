"""One thing's members by outcome: each house's own before and after, once a winter, and those that could not tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from reportgen.gather.houses import winter_word
from reportgen.gather.naming import Named
from reportgen.gather.texts import folded
from reportgen.gather.types import BY_WARMTH, POOLED, RELATIVE, Line, Member, Outcome, Refusal, Stratum, Winter

OUTCOMES = (*POOLED, "night_minimum", "moisture", "damp_hours", "soil_swing", "daily_light")  # in this order
UNITS = {"night_humidity": "points"}  # a difference of percentages
FORTNIGHT_DAYS = 14  # what was changed within it stood under one weather (levers.md's measure of shared errors)
BY_THE_DEGREE = "a thermostat turned down spares by its degrees, which the price of a degree tells, not by a share"
HARDLY_HEATED = "without it the days were hardly heated, so that a share of their heat says nothing"
MILD_WEEKS = (
    "these weeks were mild: without it a day took less than seven tenths of the winter's mean heat a day, and any "
    "saving would be a large share of so little"
)
LEAST_OF_WINTER = 0.7  # of the winter's mean heat a day (tests/studies/POOLING.md)
TAKEN_AWAY = "it reads as taken away, and its diary does not say which line it takes back (`undoes`)"
FUMES = "a fuel burns in this house, and nothing that closes such a house is put together"
NO_ERROR = "its review is of an older release, which does not tell the standard error"


@dataclass(frozen=True, kw_only=True, slots=True)
class _Case:
    """One house's one line, or one lever of lines that took each other back, with what it did to one outcome."""

    named: Named
    outcome: Outcome
    beside: str | None  # another thing that was changed within three days of it


def strata_of(lines: Sequence[Named]) -> tuple[Stratum, ...]:
    """Every outcome that any house told, or that any hoped for; those whose shared error is known (POOLED) first.

    Args:
        lines: All lines of one thing.
    """
    found: list[Stratum] = []
    by_winter = _by_winter(lines)
    for outcome in OUTCOMES:
        cases = [case for group in by_winter if (case := _case(group, outcome)) is not None]
        if outcome in BY_WARMTH:
            for heated in (True, False):
                own = [case for case in cases if is_heated(case.named.winter) is heated]
                found += _stratum(outcome, heated, own)
        else:
            found += _stratum(outcome, None, cases)
    return tuple(found)


def is_heated(winter: Winter) -> bool:
    """Whether a heater is listed; of an older review, which does not say so, whether any heat was."""
    return winter.heated if winter.heated is not None else bool(winter.headlines.heat_kwh)


def burns(winter: Winter) -> bool:
    """Whether a fuel burns in the house, with a flue or without: reviews do not say which."""
    return winter.burner or winter.sealed_burner


def closes(line: Line) -> bool:
    """Whether what the line says closes the house, by the rule of the reviews themselves."""
    from reportgen.counsel.events_tight import shuts  # late: it brings all that judges

    return shuts(line.what, line.touches, line.hoped_for)


def _by_winter(lines: Iterable[Named]) -> list[list[Named]]:
    groups: dict[tuple[str, str], list[Named]] = {}
    for named in lines:
        groups.setdefault((named.house.label, named.winter.source), []).append(named)
    return list(groups.values())


def _case(group: Sequence[Named], outcome: str) -> _Case | None:
    """What counts for one house and winter: a lever that was taken back on against off; else the first line that could
    be told, by its day, so that no house counts twice and none is chosen by what it showed."""
    if outcome in RELATIVE and not is_heated(group[0].winter):
        return None  # there is no heat to spare
    own = frozenset(folded(named.line.what) for named in group)
    on = [named for named in sorted(group, key=lambda named: named.line.when) if named.line.undoes is None]
    cases = [case for named in on if (case := _of_line(named, outcome, own)) is not None]
    return next((case for case in cases if _refusal(case) is None), cases[0] if cases else None)


def _of_line(named: Named, outcome: str, own: frozenset[str]) -> _Case | None:
    line = named.line
    beside = next((what for what in line.grouped_with if folded(what) not in own), None)
    found = _find(line.outcomes if named.lever is None else named.lever.outcomes, outcome)
    return None if found is None else _Case(named=named, outcome=found, beside=beside)


def _find(outcomes: Iterable[Outcome], name: str) -> Outcome | None:
    return next((one for one in outcomes if one.outcome == name), None)


def _refusal(case: _Case) -> str | None:
    """Why it counts only in words."""
    line, one = case.named.line, case.outcome
    if case.beside is not None:
        return f"“{case.beside}” was changed within three days of it: only both together can be told"
    if taken_away(line.what):
        return TAKEN_AWAY
    if burns(case.named.winter) and closes(line):
        return FUMES
    if one.refused is not None:
        return one.refused
    if "thermostat" in line.touches and one.outcome == "heat":
        return BY_THE_DEGREE
    if None in (one.effect, one.low, one.high, one.se, one.dof):
        return NO_ERROR
    if one.outcome in RELATIVE and (one.before_mean is None or one.before_mean <= (one.se or 0.0)):
        return HARDLY_HEATED
    if one.outcome == "heat" and _mild(one, case.named.winter):
        return MILD_WEEKS
    return None


def _mild(one: Outcome, winter: Winter) -> bool:
    """Whether a day without it took much less heat than the winter's days did in the mean, where both are known.

    Reviews tell what the days after would have taken; older ones what the days before took.
    """
    if one.before_mean is None or winter.headlines.heat_kwh is None:
        return False
    days = ((winter.so_far or winter.last_day) - winter.first_day).days + 1
    return one.before_mean < LEAST_OF_WINTER * winter.headlines.heat_kwh / days


def _stratum(outcome: str, heated: bool | None, cases: Sequence[_Case]) -> Iterator[Stratum]:
    members = [_member(case) for case in cases if _refusal(case) is None]
    if not members and not any(case.outcome.declared for case in cases):
        return
    unit = "%" if outcome in RELATIVE else UNITS.get(outcome, next((c.outcome.unit for c in cases), ""))
    refused = tuple(_refused(case, why) for case in cases if (why := _refusal(case)) is not None)
    yield Stratum(outcome=outcome, unit=unit, heated=heated, members=under_one_weather(members), refused=refused)


def _member(case: _Case) -> Member:
    one, winter = case.outcome, case.named.winter
    by = (one.before_mean or 1.0) if one.outcome in RELATIVE else 1.0
    return Member(
        house=case.named.house.label,
        winter=winter_word(winter),
        when=case.named.line.when,
        what=case.named.line.what,
        heated=is_heated(winter),
        effect=(one.effect or 0.0) / by,
        se=(one.se or 0.0) / by,
        dof=one.dof or 1.0,
        low=(one.low or 0.0) / by,
        high=(one.high or 0.0) / by,
        weather="",
    )


def _refused(case: _Case, why: str) -> Refusal:
    line = case.named.line
    word = winter_word(case.named.winter)
    return Refusal(house=case.named.house.label, winter=word, when=line.when, what=line.what, reason=why)


def under_one_weather(members: Sequence[Member]) -> tuple[Member, ...]:
    """The members in order of their days, each with the word of its weather: days that follow each other within a
    fortnight are one, since no review tells of which region it is."""
    ordered = sorted(members, key=lambda member: (member.when, member.house))
    found: list[Member] = []
    for member in ordered:
        begins = not found or (member.when - found[-1].when).days > FORTNIGHT_DAYS
        found.append(replace(member, weather=f"from {member.when}" if begins else found[-1].weather))
    return tuple(found)


@lru_cache(maxsize=10_000)  # asked for every outcome of a line
def taken_away(what: str) -> bool:
    """Whether the words of a line say that something was taken off again, by the rule of the reviews themselves."""
    from reportgen.counsel.events_tight import TAKEN_AWAY, UNCOVERED  # late: it brings all that judges
    from reportgen.measures.diary_words import says

    return any(says(what, phrase) for phrase in (*TAKEN_AWAY, *UNCOVERED))
