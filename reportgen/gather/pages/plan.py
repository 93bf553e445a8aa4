"""What the group may try together: what is still open, who switches when in opposite turns, and the usual cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import pandas as pd

from reportgen.charts.timeline import brief_day
from reportgen.charts.types import Table
from reportgen.counsel.brief import begun
from reportgen.counsel.cautions import ALONE, MAINS, SEAL
from reportgen.gather.pages import effect_words as say
from reportgen.gather.pages.told import Told, held_back, touched
from reportgen.gather.pages.words import houses, name_of, named, thing_of, whole
from reportgen.gather.together import Row, StillOpen, Turn, calendar, reversible, still_open
from reportgen.gather.types import Thing
from reportgen.measures.diary_words import words_of
from reportgen.wording import NBSP, count, listed, number

SAME_WINTER = timedelta(days=200)
LEAST = timedelta(days=60)
MOST_OPEN = 4
MOST_TRIALS = 2  # things a winter, as for one house
SWITCH = "Switch at noon of the Saturday, then leave it alone."
APART = "Houses in different rows have it on in different weeks, so that the weather falls on both sides."
NEVER = frozenset({"heater", "thermostat", "water", "bed"})  # touched: not to be switched on and off to try it
POWERED = frozenset(
    {"fan", "fans", "lamp", "lamps", "dehumidifier", "mat", "mats", "cable", "pump", "plug", "electric"}
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Turns:
    """Houses that have one thing on and off in the same turns."""

    thing: str
    houses: tuple[str, ...]
    turns: tuple[Turn, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """What to try: open things in words, who switches when, who does not and why, cautions."""

    open_: tuple[StillOpen, ...]
    turns: tuple[Turns, ...]
    apart: tuple[Row, ...]  # houses without a turn
    cautions: tuple[str, ...]
    things: tuple[str, ...]  # that are on the calendar


def plan_of(told: Told) -> Plan:
    """The plan of a group for the winter to come."""
    hoped = {(one.thing.name, one.stratum.outcome, one.stratum.heated) for one in told.mains if one.mark == "open"}
    kept_back = {thing.name for thing in told.group.things if thing.is_kind or held_back(thing, told.burning)}
    open_ = tuple(
        one
        for one in still_open(told.group.things)
        if (one.thing, one.outcome, one.heated) in hoped and one.thing not in kept_back
    )
    by_name = {thing.name: thing for thing in told.group.things}
    order = [by_name[name] for name in dict.fromkeys(one.thing for one in open_)]
    able = {one.thing for one in open_ if one.spread is not None}
    can = [thing for thing in order if thing.name in able and _may_switch(thing, told)][:MOST_TRIALS]
    first, last = next_winter(told)
    rows = calendar(told.group.houses, can, first, last) if can else ()
    turns: dict[tuple[str, tuple[Turn, ...]], list[str]] = {}
    for row in rows:
        if row.thing is not None and row.turns:
            turns.setdefault((row.thing, row.turns), []).append(row.house)
    found = tuple(Turns(thing=t, houses=tuple(h), turns=days) for (t, days), h in turns.items())
    names = tuple(dict.fromkeys(one.thing for one in found))
    found = tuple(sorted(found, key=lambda one: names.index(one.thing)))
    return Plan(
        open_=open_,
        turns=found,
        apart=tuple(row for row in rows if row.thing is None),
        cautions=_cautions([by_name[name] for name in names]),
        things=names,
    )


def _may_switch(thing: Thing, told: Told) -> bool:
    """Whether it can be taken back, and is no heat, dial, water or bed, which carry over or must not be missed."""
    if not reversible(thing, told.group.houses):
        return False
    return not touched(thing, told.lines) & NEVER


def _cautions(things: Sequence[Thing]) -> tuple[str, ...]:
    said = [SEAL] if any(thing.seals for thing in things) else []
    words = {
        word for thing in things for text in (thing.name, *(line[3] for line in thing.lines)) for word in words_of(text)
    }
    if words & POWERED:
        said += [MAINS, ALONE]
    return tuple(said)


def next_winter(told: Told) -> tuple[date, date]:
    """The days that the newest winters share, a year later; those of the newest alone where they share too few."""
    newest = [house.newest for house in told.group.houses]
    last = max(newest, key=lambda w: w.last_day)
    same = [w for w in newest if last.last_day - w.last_day < SAME_WINTER]
    first_day, last_day = max(w.first_day for w in same), min(w.last_day for w in same)
    if last_day - first_day < LEAST:
        first_day, last_day = last.first_day, last.last_day
    return _year_later(first_day), _year_later(last_day)


def _year_later(day: date) -> date:
    return date(day.year + 1, day.month, min(day.day, 28) if day.month == 2 else day.day)


def open_lines(plan: Plan, told: Told, most: int = MOST_OPEN) -> tuple[str, ...]:
    """What is still open, and how many more houses would settle it, the nearest first; one line a thing."""
    out: dict[str, str] = {}
    for one in plan.open_:
        out.setdefault(one.thing, _open_words(one))
    return tuple(list(out.values())[:most])


def _open_words(one: StillOpen) -> str:
    kind = {True: ", heated houses", False: ", unheated houses", None: ""}[one.heated]
    name = f"{begun(thing_of(one.thing))} ({say.on(one.outcome)}{kind})"
    so_far = f"{count(one.k, 'house')} so far"
    if one.spread is None:
        return f"{name}: {so_far}; what they saw is too small to be told even with 40 more."
    each = "each " if one.spread > 1 else ""
    more = f"{count(one.spread, 'more house', 'more houses')}, {each}in a fortnight of its own,"
    if one.one_weather is None:
        return f"{name}: {so_far}; {more} would settle it, all in one fortnight would not."
    if one.one_weather > one.spread:
        return f"{name}: {so_far}; {more} would settle it, or {number(one.one_weather)} in one."
    return f"{name}: {so_far}; {more} would settle it."


def title(plan: Plan) -> str:
    """What to try together, as a heading."""
    if not plan.things:
        if plan.open_ and all(one.spread is None for one in plan.open_):
            return "What is still open"
        return "What to try together"
    names = " and ".join(thing_of(name) for name in plan.things[:2])
    return f"Try together: {names}, on and off by turns"


def table(plan: Plan, told: Told) -> Table | None:
    """Who has what on and off from which Saturday; houses with the same turns in one row."""
    if not plan.turns:
        return None
    days = plan.turns[0].turns
    one_thing = len(plan.things) == 1
    columns = (*(() if one_thing else ("thing",)), "houses", *(brief_day(turn.first_day) for turn in days))
    rows = tuple(
        (
            *(() if one_thing else (begun(thing_of(one.thing)),)),
            names(one, told),
            *("● on" if turn.on else "○ off" for turn in one.turns),
        )
        for one in plan.turns
    )
    last = days[-1].last_day
    rows_apart = f" {APART}" if len(plan.turns) > 1 else ""
    return Table(
        uid="together",
        title="Who switches when",
        subtitle=f"{SWITCH} The last turn ends on {brief_day(last)}{NBSP}{last.year}.{rows_apart}",
        columns=columns,
        rows=rows,
        data=frame(plan),
        notes=(*_long_road(plan, told), *_apart(plan)),
    )


def _long_road(plan: Plan, told: Told) -> tuple[str, ...]:
    """Things on the calendar that take more houses than the group has."""
    n = len(told.group.houses)
    needed = {one.thing: one.spread for one in reversed(plan.open_) if one.spread is not None}
    far = [thing_of(name) for name in plan.things if needed.get(name, 0) > n]
    if not far:
        return ()
    alone = f"our {houses(n)} alone" if n > 1 else "our house alone"
    return (f"{begun(listed(far))}: {alone} will hardly settle it; ask other gardens to join.",)


def names(one: Turns, told: Told, most: int = 6, sign: str = "◆ ") -> str:
    """The houses of a row; the marked one first, with its word."""
    ours = [h for h in one.houses if told.ours(h)]
    rest = [h for h in one.houses if not told.ours(h)]
    first = [f"{sign}{name_of(h)} (your house)" for h in ours]
    return ", ".join([*first, *([named(rest, most)] if rest else [])])


def _apart(plan: Plan) -> tuple[str, ...]:
    """Houses without a turn, by reason."""
    reasons: dict[str, list[str]] = {}
    for row in plan.apart:
        reasons.setdefault(row.reason or "no turn", []).append(row.house)
    return tuple(f"{begun(named(houses))}: {whole(reason)}" for reason, houses in reasons.items())


def frame(plan: Plan) -> pd.DataFrame:
    """A row a house and turn."""
    rows = [
        [whole(house), whole(one.thing), turn.first_day, turn.last_day, "on" if turn.on else "off"]
        for one in plan.turns
        for house in one.houses
        for turn in one.turns
    ]
    return pd.DataFrame(rows, columns=["house", "thing", "from", "to", "state"])
