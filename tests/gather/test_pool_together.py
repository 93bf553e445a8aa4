"""What a group may try together: nothing dangerous, nothing lasting, opposite turns, and no switch at Christmas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from gather.test_pool import stratum

from reportgen.gather.together import Row, calendar, reversible, still_open, switch_days
from reportgen.gather.types import Band, Headlines, House, Line, Thing, Winter

FIRST, LAST = date(2026, 10, 15), date(2027, 4, 15)
FILM_DAY = date(2025, 12, 1)


def line(what: str, when: date = FILM_DAY, **more: object) -> Line:
    """One line of a diary."""
    usual: dict[str, object] = {
        "kind": "change", "thing": None, "touches": (), "hoped_for": (), "undoes": None, "grouped_with": (),
        "verdict": "cannot tell", "outcomes": (),
    }  # fmt: skip
    return Line(when=when, what=what, **(usual | more))  # type: ignore[arg-type]


def house(label: str, lines: Sequence[Line] = (), *, burner: bool = False, sealed: bool = False) -> House:
    """A house of one winter whose review knew nothing but its diary."""
    bands = {"nights_below_line", "loss_w_per_k", "hours_above_high", "hours_above_extreme"}
    nothing = {f.name: Band() if f.name in bands else None for f in fields(Headlines)} | {"failures": 0, "reasons": ()}
    winter = Winter(
        source=f"{label}.zip", house_id=None, label=label, title=label, first_day=date(2025, 10, 15),
        last_day=date(2026, 4, 15), so_far=None, currency=None, kind=None, heated=None, floor_area_m2=None,
        glazing_area_m2=None, glazing=None, sealed_burner=sealed, burner=burner, last_winter=None,
        headlines=Headlines(**nothing), lines=tuple(lines), against_last=(),  # type: ignore[arg-type]
    )  # fmt: skip
    return House(label=label, winters=(winter,))


def thing(name: str, of: House, *, seals: bool = False) -> Thing:
    """A thing whose only line is the first of that house."""
    first = of.winters[0].lines[0]
    lines = ((of.label, "2025–26", first.when, first.what),)
    return Thing(name=name, is_kind=False, seals=seals, lines=lines, strata=())


def group(count: int, burners: Sequence[int] = ()) -> tuple[list[House], Thing]:
    """Houses, the first of which hung a film and took it down again; the film closes a house."""
    taken_back = [line("hung the film"), line("film down", date(2026, 2, 1), undoes="hung the film")]
    houses = [house(f"Plot {n}", taken_back if n == 0 else (), burner=n in burners) for n in range(count)]
    return houses, thing("bubble film", houses[0], seals=True)


def on_days(row: Row) -> set[date]:
    """All days on which a house has its thing on."""
    return {
        turn.first_day + timedelta(days=n)
        for turn in row.turns
        if turn.on
        for n in range((turn.last_day - turn.first_day).days + 1)
    }


def switches(row: Row) -> list[date]:
    """Days on which a house puts its thing on or takes it off."""
    first = [row.turns[0].first_day] if row.turns[0].on else []
    return first + [later.first_day for turn, later in pairwise(row.turns) if turn.on != later.on]


def test_nobody_closes_a_house_in_which_a_fuel_burns() -> None:
    """Neither where a burner is among its heaters nor where it was sealed with one burning; the reason is said."""
    houses, film = group(6, burners=(2,))
    houses[4] = house("Plot 4", sealed=True)
    rows = calendar(houses, [film], FIRST, LAST)
    assert [row.house for row in rows if not row.turns] == ["Plot 2", "Plot 4"]
    assert all("burns fuel" in (row.reason or "") and row.thing is None for row in rows if not row.turns)
    open_vent = replace(film, seals=False)
    assert all(row.turns for row in calendar(houses, [open_vent], FIRST, LAST))


def test_only_what_was_taken_back_is_proposed() -> None:
    """New glass that stays is no thing to switch; a spell, and what was undone by words or by its day, are."""
    glass = house("A", [line("new glass")])
    assert not reversible(thing("glass", glass), [glass])
    assert calendar([glass], [thing("glass", glass)], FIRST, LAST)[0].reason is not None
    spell = house("A", [line("fan at night", kind="spell")])
    by_day = house("A", [line("film"), line("film off", date(2026, 2, 1), undoes=FILM_DAY.isoformat())])
    by_words = house("A", [line("film"), line("film off", date(2026, 2, 1), undoes="film")])
    for of in (spell, by_day, by_words):
        assert reversible(thing("x", of), [of])
    other = house("B", [line("mat"), line("mat off", date(2026, 2, 1), undoes="mat")])
    assert not reversible(thing("film", by_day), [other])  # another house's other thing


@pytest.mark.parametrize("start", range(0, 40, 3))
@pytest.mark.parametrize("days", [40, 75, 120, 182])
def test_switches_are_weeks_apart_and_never_at_christmas(start: int, days: int) -> None:
    """Whatever the winter: in it, 14 days and more apart, none from 20 December to 2 January."""
    first = date(2026, 10, 15) + timedelta(days=2 * start)
    last = first + timedelta(days=days)
    marks = switch_days(first, last)
    assert len(marks) >= (days - 33) // 21
    assert all(first <= day <= last - timedelta(days=13) for day in marks)
    assert all((later - day).days == 21 for day, later in pairwise(marks))
    assert not any(date(2026, 12, 20) <= day <= date(2027, 1, 2) for day in marks)


def test_houses_stand_in_opposite_turns() -> None:
    """Half have it on while half have it off, once all have begun; first changes lie three weeks apart."""
    houses, film = group(12)
    rows = calendar(houses, [film], FIRST, LAST)
    assert rows == calendar(houses, [film], FIRST, LAST)
    for row in rows:
        assert all(14 <= (turn.last_day - turn.first_day).days + 1 <= 21 for turn in row.turns)
        assert all((later - day).days >= 14 for day, later in pairwise(switches(row)))
        assert [turn.last_day + timedelta(days=1) for turn in row.turns[:-1]] == [t.first_day for t in row.turns[1:]]
    begun = max(switches(row)[0] for row in rows)
    day = begun
    while day <= rows[0].turns[-1].last_day:
        assert sum(day in on_days(row) for row in rows) == 6
        day += timedelta(days=1)
    assert sorted({(switches(row)[0] - switches(rows[0])[0]).days for row in rows}) == [0, 21, 42, 63]


def test_things_share_out_the_houses() -> None:
    """Twelve houses try two things, six each; eleven try one."""
    houses, film = group(12)
    fan = replace(film, name="fan", seals=False)
    assert [row.thing for row in calendar(houses, [film, fan], FIRST, LAST)].count("fan") == 6
    assert {row.thing for row in calendar(houses[:11], [film, fan], FIRST, LAST)} == {"bubble film"}


def test_a_short_winter_has_no_calendar() -> None:
    """Four weeks hold no two turns after each other's first Saturday."""
    houses, film = group(6)
    rows = calendar(houses, [film], date(2027, 1, 10), date(2027, 2, 1))
    assert not any(row.turns for row in rows)
    assert "too short" in (rows[0].reason or "")


def test_open_things_say_how_many_houses_more() -> None:
    """Settled ones are left out; what shares its error in one fortnight says so; two houses take the rule's spread."""
    _, film = group(2)
    settled = stratum([1.0, 1.1, 0.9, 1.0, 1.0])
    heat = stratum([-0.14, -0.2, -0.1, -0.12], se=0.08, outcome="heat")
    two = stratum([0.5, 0.6], se=0.2)
    found = still_open([replace(film, strata=(settled, heat, two))])
    assert [(o.outcome, o.k) for o in found] == [("lift", 2), ("heat", 4)]
    lift, warmth = found
    assert lift.spread is not None and lift.one_weather is not None and lift.one_weather >= lift.spread
    assert "three tenths" in lift.why
    assert warmth.spread is not None and warmth.one_weather is None
    assert "share the weather's error" in warmth.why
    (nothing,) = still_open([replace(film, strata=(stratum([0.01, -0.02, 0.0, 0.02]),))])
    assert (nothing.spread, nothing.one_weather) == (None, None) and "too small" in nothing.why
