"""Rows Before the frost and Sow: what must stand ready, and what must be in the ground."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta

from reportgen.counsel import cautions
from reportgen.counsel.alarms import SHORT_H, told_alarm, worth_ringing
from reportgen.counsel.brief import cut, fitted, heater, short, words_in
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import HEAT_FAILED, HEAT_OUT, Event, Grounds, PlanStep
from reportgen.counsel.next_season import NextSeason, a_year_on
from reportgen.counsel.results import Results
from reportgen.counsel.said_events import lag_words
from reportgen.counsel.touched import flue_words, joined, unvented
from reportgen.measures.beds import Strip, beds, midwinter
from reportgen.measures.heat_books import dark_days
from reportgen.readings.types import Planting
from reportgen.season.sources import HeatSource
from reportgen.winters.lost import MUCH_LOST, lost_shares
from reportgen.wording import Wording, count, day, number

WHAT_WORDS, WHY_WORDS = 8, 12
READY_DAYS = 21  # before the first heated night or the first frost
SOW_DAYS = 14  # the fortnight that ends with the latest sowing


def before_the_frost(r: Results, on: Grounds, ahead: NextSeason) -> list[PlanStep]:
    """The heater clear and checked, the switch, the alarms, the guard: what this house has, the graver first."""
    rows = [*_fumes(r, on), *_heaters(r, on, ahead), *_alarms(r, on), *_unheated(r, on)]
    start = ahead.within(ahead.begins - timedelta(days=READY_DAYS))
    end = max(ahead.within(ahead.begins - timedelta(days=1)), start)
    return [
        PlanStep(
            row="Before the frost",
            from_=start,
            to=end,
            what=cut(what, WHAT_WORDS),
            why=cut(why, WHY_WORDS),
            lever=None,
            caution=caution,
        )
        for what, why, caution in rows
    ]


Row = tuple[str, str, str | None]


def _fumes(r: Results, on: Grounds) -> Iterator[Row]:
    open_ = unvented(r)
    if not open_:
        return
    first = next((source for source in open_ if source.vented is False), open_[0])
    name = heater(first.name, 2)
    days = max((e.days for e in on.events if e.kind == "safety" and e.source in (None, first.name)), default=0)
    burnt = f"for {count(days, 'day')} " if days else ""
    why = f"fumes of the {name} stayed inside {burnt}this {Facts.of(r).there.season}"
    if first.vented is None:
        why = flue_words(name)
    elif not days and not _gave_heat(r, first):
        why = f"the {name} has no flue: its fumes would stay inside"
    yield "Carbon monoxide alarm hung and tested; inlet open", why, cautions.FUEL


def _gave_heat(r: Results, of: HeatSource) -> bool:
    own = (supply.intervals["bought"] for supply in r.readings.heating if supply.name == of.name)
    return any(bool((used > 0).any()) for used in own)


def _heaters(r: Results, on: Grounds, ahead: NextSeason) -> Iterator[Row]:
    if not r.season.heating:
        return
    source = next((s for s in r.season.heating if s.role == "main"), r.season.heating[0])
    failed = _failure(on)
    electric = source.fuel == "electricity"
    part = "residual-current switch" if electric else "flue and flame" if source.vented else "flame"
    what = _clear(source.name, part)
    why = (
        _first_heat(ahead) if ahead.heated else f"it must run on the {'next' if ahead.running else 'first'} cold night"
    )
    if failed is not None:
        low = "" if failed.minimum_c is None else f": {Wording.of(r.season).temp(failed.minimum_c)} inside"
        why = f"it stood still on {day(failed.start)}{low}"
    yield what, why, joined([cautions.heating({source.fuel}), cautions.ALONE])


def _first_heat(ahead: NextSeason) -> str:
    """When it was first needed; of heat known as sums over days only from when on."""
    first = ahead.heated[0] if ahead.heated else ahead.first
    if first in ahead.unlogged:
        return f"it gave heat some time from {day(first)} on"
    return f"the first heated night was {day(first)}"


def _clear(name: str, part: str) -> str:
    """Room round the heater and the part to test, within eight words: the name is shortened last."""
    parts = (f"its {part}", part, part.replace(" and ", ", "))
    round_it = (f"Clear round the {heater(name, most)}; test {each}" for most in (2, 1) for each in parts)
    return min(round_it, key=lambda text: words_in(text) > WHAT_WORDS)


def _alarms(r: Results, on: Grounds) -> Iterator[Row]:
    failed, w = _failure(on), Wording.of(r.season)
    minutes = None if failed is None else failed.line_crossed_after_min
    if minutes is not None:
        why = f"the line was crossed {lag_words(minutes)} after the heat failed"
        mains = bool(r.season.heating) and all(s.fuel == "electricity" for s in r.season.heating)
        what = "Alarm on the heater's power; fleece at dusk" if mains else "Alarm at the crop; fleece at dusk"
        yield what, why, joined([cautions.ALONE])
        return
    best = told_alarm(getattr(r.frost, "alarms", ()), on.hold_advice, r.season.aims.alarm_c)
    if best is not None and r.season.heating and worth_ringing(best) and (best.warning_h or 0.0) >= SHORT_H:
        why = f"it would have warned {w.hours(best.warning_h or 0.0)} ahead, in {count(best.rings, 'ring')}"
        yield f"Alarm at the crop set to {w.temp(best.alarm_c)}", why, None


def _unheated(r: Results, on: Grounds) -> Iterator[Row]:
    cold = [e for e in on.events if e.minimum_c is not None and e.kind in ("frost", "failure")]
    if r.season.heating:
        return
    if not cold:
        yield from _by_the_coldest(r)
        return
    worst = min(cold, key=lambda e: e.minimum_c or 0.0)
    why = f"{Wording.of(r.season).temp(worst.minimum_c or 0.0)} inside on {day(worst.at or worst.start)}"
    yield "Have fleece ready to draw at dusk", why, None


def _by_the_coldest(r: Results) -> Iterator[Row]:
    """Of frosts that are no event of their own: as many nights of a house without heat are."""
    low = getattr(r.frost, "minimum", None)
    if low is None or low.temperature_c is None or low.at is None or low.temperature_c >= r.frost.line_c:
        return
    why = f"{Wording.of(r.season).temp(low.temperature_c)} inside on {day(low.at)}"
    yield "Have fleece ready to draw at dusk", why, None


def _failure(on: Grounds) -> Event | None:
    """The worst of the nights on which the heat failed."""
    failed = [event for event in on.events if event.cause in (HEAT_FAILED, HEAT_OUT) or event.kind == "failure"]
    return min(failed, key=lambda e: (e.rank, e.start), default=None)


def sow(r: Results, ahead: NextSeason) -> list[PlanStep]:
    """The latest sowing of each crop that was picked before the dark weeks, and the crops that were lost twice."""
    twice = {crop.casefold(): shares for crop, shares in _lost_twice(r).items()}
    rows = [_lost_row(r, crop, shares) for crop, shares in _lost_twice(r).items()][:1]
    dark = dark_from(r)
    fed = [s for s in beds(r.readings).strips if _fed(s, dark) and s.crop.casefold() not in twice]
    latest: dict[str, Strip] = {}
    for strip in sorted(fed, key=lambda s: s.sown or date.min):
        latest[strip.crop.casefold()] = strip
    best = sorted(latest.values(), key=lambda s: (-(s.kg or 0.0), s.crop))
    return [*(_sow_row(r, strip) for strip in best[: 3 - len(rows)]), *rows]


def dark_from(r: Results) -> date | None:
    """The first day under ten hours; without a latitude the solstice."""
    dark, season = dark_days(r.readings), r.season
    if dark is None:
        return midwinter(season.first_day, season.last_day, None)
    return min(dark, default=None)


def _fed(strip: Strip, dark: date | None) -> bool:
    return strip.sown is not None and strip.first_picked is not None and dark is not None and strip.first_picked < dark


def _sow_row(r: Results, strip: Strip) -> PlanStep:
    sown, w = strip.sown or strip.start, Wording.of(r.season)
    picked = "" if strip.first_picked is None else f"first picked {day(strip.first_picked)}"
    weight = "" if strip.kg is None else f"{w.mass(strip.kg)} in all"
    until = a_year_on(sown)
    return PlanStep(
        row="Sow",
        from_=until - timedelta(days=SOW_DAYS),
        to=until,
        what=cut(f"Sow {short(strip.crop)} by {day(sown)}", WHAT_WORDS),
        why=cut(fitted((picked, "before the dark weeks", weight), WHY_WORDS), WHY_WORDS),
        lever=None,
        caution=None,
    )


def _lost_twice(r: Results) -> dict[str, tuple[float, float, Planting]]:
    """Crops of which over a third was lost in both winters: share lost this winter, last winter, its sowing."""
    last = {crop.casefold(): share for crop, share in r.winters.lost_last.items()}
    found: dict[str, list[Planting]] = defaultdict(list)
    for planting in r.readings.plantings:
        found[planting.crop].append(planting)
    shares = lost_shares(r.readings)
    return {
        crop: (shares[crop], last[crop.casefold()], max(rows, key=lambda p: p.lost or 0.0))
        for crop, rows in found.items()
        if shares.get(crop, 0.0) > MUCH_LOST and last.get(crop.casefold(), 0.0) > MUCH_LOST
    }


def _lost_row(r: Results, crop: str, lost: tuple[float, float, Planting]) -> PlanStep:
    this, last, planting = lost
    until = a_year_on(planting.sown or planting.planted or r.season.first_day)
    cause = f", to {short(planting.cause)}" if planting.cause else ""
    return PlanStep(
        row="Sow",
        from_=until - timedelta(days=SOW_DAYS),
        to=until,
        what=cut(f"No {short(crop, 2)}, or another kind, wider apart", WHAT_WORDS),
        why=cut(f"lost {number(100 * this)}, last time {number(100 * last)}\u00a0%{cause}", WHY_WORDS),
        lever=None,
        caution=None,
    )
