"""Of a winter that still runs: what has a date. Stock, looks, changes that need quiet nights, trials to be switched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from reportgen.counsel import cautions
from reportgen.counsel.brief import heater, short
from reportgen.counsel.grounds import Event, Grounds
from reportgen.counsel.next_season import QUIET_NIGHTS, outdoor_nights, quiet_until, still_quiet
from reportgen.counsel.results import Results
from reportgen.measures.places import outdoor
from reportgen.measures.stock_left import StockLeft, stock_left
from reportgen.measures.there import There
from reportgen.readings.diary_lines import TICK_LINES, normal
from reportgen.readings.types import DiaryEntry
from reportgen.wording import NBSP, count, day, number

SWITCH_H = 12  # a trial is switched at noon
LOOK_NIGHTS = 3  # nights without a look before it is said; our own line


@dataclass(frozen=True, kw_only=True, slots=True)
class Deadline:
    """One line: what, and why. `until`: the day it ends with; None where it has no day. `kind` for programs."""

    kind: str  # stock | look | quiet | trial
    what: str
    why: str
    until: date | None = None
    caution: str | None = None


def deadlines(r: Results, on: Grounds) -> tuple[Deadline, ...]:
    """What must be minded from the last crop reading on; nothing of a winter that is over."""
    now = r.season.so_far
    if now is None:
        return ()
    return (*_stock(r, on), *_trials(r, now), *_quiet(r, on, now), *_looks(r, now))


def _stock(r: Results, on: Grounds) -> Iterator[Deadline]:
    nights = outdoor_nights(r) if outdoor(r.readings, "air_temperature") is not None else None
    if nights is None:
        return
    cold = list(nights.index[nights < r.season.aims.frost_c])
    fumes = {event.source: event for event in on.events if event.kind == "safety"}
    season = There.of(r.readings).season
    for store in stock_left(r.readings, cold):
        if store.name in fumes:  # how far it would last is no help where it must not burn
            yield Deadline(
                kind="stock",
                what=f"Do not count on the {_amount(store)} left for the {heater(store.name, 2)}",
                why=_why_not(fumes[store.name]),
                caution=cautions.heating({store.fuel}) or None,
            )
            continue
        yield Deadline(
            kind="stock",
            what=f"{_amount(store)} left for the {heater(store.name, 2)}: {_nights(store)}",
            why=f"by what the hardest and the mildest of {count(store.nights, 'night')} of frost took this {season}",
            caution=cautions.heating({store.fuel}) or None,
        )


def _why_not(event: Event) -> str:
    if event.flue_unsaid:
        return "whether it has a flue is not told: not to be lit in a house made tight"
    return "not to be lit in a house made tight"


def _amount(store: StockLeft) -> str:
    return f"{number(store.left, 0 if store.left >= 10 else 1)}{NBSP}{store.unit.replace('gal_us', 'US gal')}"


def _nights(store: StockLeft) -> str:
    """Whole nights; a part of one does not carry a night."""
    low, high = int(store.low), int(store.high)
    if high == 0:
        return "not one more night of frost"
    if low == high:
        return f"about {count(high, 'night')} of frost"
    return f"{number(low)} to {number(high)} nights of frost"


def _trials(r: Results, now: date) -> Iterator[Deadline]:
    """Trials whose ticks reach the last reading or go on after it, each with its next switch."""
    here = now if r.season.end.hour >= SWITCH_H else now - timedelta(days=1)  # the night of the last reading
    ticked = [e for e in r.readings.diary if e.line > TICK_LINES]
    ticked += [e for e in r.readings.ahead if e not in ticked]
    names = dict.fromkeys(normal(e.what) for e in ticked)
    for name in names:
        spells = sorted((e for e in ticked if normal(e.what) == name), key=lambda e: e.date)
        if _end(spells[-1]) < now - timedelta(days=1):
            continue
        on = any(e.date <= here <= _end(e) for e in spells)
        turns = [e.date for e in spells] + [_end(e) + timedelta(days=1) for e in spells]
        turn = min((at for at in turns if at > here), default=None)
        thing = f"“{short(spells[0].thing or spells[0].what)}”"
        if turn is None:
            yield Deadline(kind="trial", what=f"{thing} is on trial: tick every night", why="its nights go on")
        else:
            state = "off" if on else "on"
            what = f"{thing} is on trial: switch it {state} at noon on {day(turn)}"
            yield Deadline(kind="trial", what=what, why="and tick every night", until=turn)


def _end(entry: DiaryEntry) -> date:
    return entry.until or entry.date


def _quiet(r: Results, on: Grounds, now: date) -> Iterator[Deadline]:
    """Changes that a logger can judge whose quiet nights are still running: one line, to the last of them."""
    open_ = still_quiet(r)
    if not open_:
        return
    last = max(open_, key=quiet_until)
    things = [f"“{short(e.thing or e.what, 3)}”" for e in open_]
    names = things[0] if len(things) == 1 else f"{', '.join(things[:-1])} and {things[-1]}"
    left = (quiet_until(last) - now).days
    unsafe = any(event.kind == "safety" for event in on.events)
    yield Deadline(
        kind="quiet",
        what=f"Alter nothing until {day(quiet_until(last))}",
        why=f"{count(left, 'quiet night')} of {QUIET_NIGHTS} still to run for {names}"
        + ("; what is unsafe does not wait" if unsafe else ""),
        until=quiet_until(last),
    )


def _looks(r: Results, now: date) -> Iterator[Deadline]:
    """Only where looks are written down at all."""
    days = [look.date for look in r.readings.inspections if look.date <= now]
    if not days or (now - max(days)).days < LOOK_NIGHTS:
        return
    nights = count((now - max(days)).days, "night")
    yield Deadline(
        kind="look",
        what=f"{nights} since a look at the plants was written down",
        why=f"the last line of the inspections is of {day(max(days))}",
    )
