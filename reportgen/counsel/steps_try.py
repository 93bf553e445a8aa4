"""Row Try: at most two trials a winter, where their outcome matters and nothing speaks against them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import pandas as pd

from reportgen.counsel.brief import begun, cut, fitted, short
from reportgen.counsel.events_tight import shuts
from reportgen.counsel.grounds import BY_TICKS, Grounds, JudgedLever, PlanStep
from reportgen.counsel.next_season import NextSeason, a_year_on, next_season, outdoor_nights, rest_of_season
from reportgen.counsel.results import Results
from reportgen.counsel.sides import hoped_words
from reportgen.counsel.steps_levers import DAMP
from reportgen.counsel.touched import NEVER_SWITCHED, caution_of, caution_of_lever, unvented
from reportgen.effects import Trial, Tryable
from reportgen.effects.outcomes import HEAT, LARGER_IS_BETTER
from reportgen.effects.trial import best_start, dated, free_starts
from reportgen.wording import count

MOST_TRIALS = 2
FREE_NIGHTS = 10  # between two trials
CALM = 3 * 7  # quiet nights on either side of what is changed once
WHAT_WORDS, WHY_WORDS = 8, 12

Planned = tuple[Trial, Tryable, JudgedLever | None]


def tried(r: Results, on: Grounds, ahead: NextSeason) -> list[PlanStep]:
    """The trials, and where there is room for it one lever that is changed once; in what is left of a winter that still
    runs, if they fit there."""
    rest = rest_of_season(r)
    return (_tried(r, on, rest) if rest is not None else []) or _tried(r, on, ahead)


def _tried(r: Results, on: Grounds, ahead: NextSeason) -> list[PlanStep]:
    planned = _planned(r, on, ahead)
    rows = [_row(r, *one) for one in planned]
    if len(rows) < MOST_TRIALS:
        rows += _once(r, on, ahead, [one[0] for one in planned])[: MOST_TRIALS - len(rows)]
    return sorted(rows, key=lambda row: row.from_)


def trials(r: Results, on: Grounds) -> tuple[Trial, ...]:
    """The dated plans of the row Try, in order of date."""
    rest, ahead = rest_of_season(r), next_season(r)
    where = rest if rest is not None and _tried(r, on, rest) else ahead
    planned = [trial for trial, _, _ in _planned(r, on, where)]
    return tuple(sorted(planned, key=lambda trial: trial.nights[0].night))


def _planned(r: Results, on: Grounds, ahead: NextSeason) -> list[Planned]:
    """Levers to be tried first, as they are ranked, then ideas; each in the best weeks that are left."""
    found: list[Planned] = []
    for one, lever in _candidates(r, on):
        taken = set(_closed(r, on, ahead, one.outcome)) | {d for t, _, _ in found for d in _around(t)}
        start = best_start(free_starts(ahead.first, ahead.last, taken), _need(r, one.outcome))
        if start is not None:
            found.append((dated(one, start), one, lever))
        if len(found) == MOST_TRIALS:
            break
    return found


def _candidates(r: Results, on: Grounds) -> Iterable[tuple[Tryable, JudgedLever | None]]:
    could = [one for one in r.effects.could_try if not NEVER_SWITCHED & set(one.touches)]
    for lever in on.levers:
        if lever.verdict == "try on and off" and not lever.unsafe_with and not _too_little(r, lever):
            yield from ((one, lever) for one in could[:] if one.line in lever.lines[:1] and not _forbidden(r, one))
    things = {_thing(lever.thing or lever.name) for lever in on.levers}
    for one in could:
        if (
            one.idea
            and _thing(one.thing or one.what) not in things
            and not _forbidden(r, one)
            and not _answered(on, one)
        ):
            yield one, None


def _thing(name: str) -> str:
    return " ".join(name.casefold().split())


def _forbidden(r: Results, one: Tryable) -> bool:
    """A house in which fumes stay is not made tighter; nor are the vents of what burns in it switched."""
    tight = shuts(one.what, one.touches, one.hopes) or ("air" in one.touches and _is_opening(one))
    return bool(unvented(r)) and tight


def _is_opening(one: Tryable) -> bool:
    words = f"{one.what} {one.thing or ''}".casefold()
    return any(word in words for word in ("vent", "gap", "seal", "tape", "shut", "close"))


def _answered(on: Grounds, one: Tryable) -> bool:
    """A lever of the same kind that has its verdict answers for it: a second film says what the first said."""
    judged = ("keep", "keep with a condition", "not worth it", "leave undone", "not again", "not while that burns here")
    return any(lever.verdict in judged and _same_kind(lever, one) for lever in on.levers)


def _same_kind(lever: JudgedLever, one: Tryable) -> bool:
    alike = {lever.outcome, one.outcome} <= HEAT or lever.outcome == one.outcome
    shared = set(lever.touches) & set(one.touches)
    last_words = {_thing(name).split()[-1] for name in (lever.thing or lever.name, one.thing or one.what)}
    return alike and bool(shared) and len(last_words) == 1


def _too_little(r: Results, lever: JudgedLever) -> bool:
    """Even its favourable end is less than the grower said would matter."""
    if lever.low is None or lever.high is None:
        return False
    best = lever.high if lever.outcome in LARGER_IS_BETTER else -lever.low
    care = (change.care for change in r.effects.changes if change.line in lever.lines and change.declared is not None)
    return any(best <= limit for limit in care)


def _around(trial: Trial) -> list[date]:
    first, last = trial.nights[0].night, trial.nights[-1].night
    days = (last - first).days + 1 + 2 * FREE_NIGHTS
    return [first - timedelta(days=FREE_NIGHTS) + timedelta(days=n) for n in range(days)]


def _closed(r: Results, on: Grounds, ahead: NextSeason, outcome: str) -> Iterable[date]:
    """Nights on which nothing is tried."""
    for start, end in ahead.away:
        yield from _days(start, end)
    if ahead.coldest is not None and _limit_unknown(r, on):
        yield from _days(*ahead.coldest)
    if outcome in HEAT:
        yield from ahead.unlogged
        if ahead.heated is not None:
            yield from _days(ahead.first, ahead.heated[0] - timedelta(days=1))
            yield from _days(ahead.heated[1] + timedelta(days=1), ahead.last)


def _days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def _limit_unknown(r: Results, on: Grounds) -> bool:
    """A crop without a band, or a house of which nobody knows how cold it may get outside."""
    limit = getattr(getattr(r.frost, "holding_limit", None), "outdoor_c", None)
    return bool(on.hold_advice.unknown_crops) or limit is None


def _need(r: Results, outcome: str) -> pd.Series | None:
    """How much each night asks for an answer, by next season's date: damp where damp is judged, cold else."""
    if outcome in DAMP:
        table = getattr(r.damp, "table", None)
        damp = table["above_high"].dropna() if isinstance(table, pd.DataFrame) and "above_high" in table else None
        return None if damp is None else _a_year_on(damp)
    cold = outdoor_nights(r)
    return None if cold is None or outcome == "daily_light" else _a_year_on(-cold)


def _a_year_on(nights: pd.Series) -> pd.Series:
    moved = pd.Series(nights.to_numpy(), index=pd.Index([a_year_on(day) for day in nights.index]))
    return moved[~moved.index.duplicated()]


def _row(r: Results, trial: Trial, one: Tryable, lever: JudgedLever | None) -> PlanStep:
    nights = trial.nights
    switches = sum(night.switch for night in nights)
    known = "" if lever is None else hoped_words(r, lever)
    parts = (f"so far {known}" if known else "never measured here", f"{count(switches, 'switch', 'switches')} at noon")
    caution = caution_of(r, one.touches, one.what, one.thing) if lever is None else caution_of_lever(r, lever)
    return PlanStep(
        row="Try",
        from_=nights[0].night,
        to=nights[-1].night,
        what=f"{begun(short(one.thing or one.what))}{BY_TICKS}",
        why=cut(fitted(parts, WHY_WORDS), WHY_WORDS),
        lever=None if lever is None else lever.name,
        caution=caution,
        nights=tuple((night.night, night.on) for night in nights),
    )


def _once(r: Results, on: Grounds, ahead: NextSeason, others: list[Trial]) -> list[PlanStep]:
    """What carries over is changed on one day, with three quiet weeks on either side."""
    rows = []
    for lever in on.levers:
        if lever.verdict != "change once" or lever.unsafe_with or _too_little(r, lever):
            continue
        taken = {*_closed(r, on, ahead, lever.outcome or ""), *(d for trial in others for d in _around(trial))}
        starts = free_starts(ahead.first, ahead.last, taken, 2 * CALM)
        start = best_start(starts, _need(r, lever.outcome or ""), 2 * CALM)
        if start is not None:
            rows.append(_once_row(r, lever, start))
    return rows


def _once_row(r: Results, lever: JudgedLever, start: date) -> PlanStep:
    known = hoped_words(r, lever)
    parts = ("three quiet weeks on either side", f"so far {known}" if known else "not told yet")
    return PlanStep(
        row="Try",
        from_=start,
        to=start + timedelta(days=2 * CALM - 1),
        what=f"{begun(short(lever.thing or lever.name))} changed once, midway",
        why=cut(fitted(parts, WHY_WORDS), WHY_WORDS),
        lever=lever.name,
        caution=caution_of_lever(r, lever),
    )
