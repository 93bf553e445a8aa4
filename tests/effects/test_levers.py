"""Levers from their switches: which stand together, which nights are on, what they spared; by hand on made causes."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.in_memory import entry
from made_season import ZONE, readings, season
from scipy import stats

from reportgen.effects.by_state import ByState
from reportgen.effects.causes import Cause
from reportgen.effects.estimate import DayArrays, outcome_of
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.levers import (
    Known,
    _clusters,
    _evening_before,
    _joint,
    _lever,
    _nights_on,
    lever_effects,
    puts_on,
)
from reportgen.effects.outcomes import OUTCOMES
from reportgen.effects.spared import HeatHours
from reportgen.effects.types import Outcome
from reportgen.readings.lever_types import Lever, State
from reportgen.readings.types import DiaryEntry, Readings

OF = season("2026-01-01", "2026-04-30")
FIRST = dt.date(2026, 1, 1).toordinal()


def at(text: str) -> pd.Timestamp:
    return pd.Timestamp(f"2026-{text}", tz=ZONE)


def lever(*knots: str, lines: tuple[int, ...] = (2,), undone: Any = None, touches: Any = ("envelope",)) -> Lever:
    """Off from the first knot on, then on, off, … to the last."""
    stamps = [at(knot) for knot in knots]
    states = tuple(State(from_=a, to=b, on=n % 2 == 1) for n, (a, b) in enumerate(pairwise(stamps)))
    return Lever(
        name="film", thing=None, touches=touches, entries=(), states=states, hours_on=0.0, hours_off=0.0,
        reasons=MappingProxyType({}), lines=lines, undone=MappingProxyType(undone or {}),
    )  # fmt: skip


def test_what_takes_back_what_took_off_puts_on() -> None:
    """Line 2 puts on, 3 takes it back, 4 takes 3 back, 5 takes 4 back."""
    one = lever("01-01", undone={3: 2, 4: 3, 5: 4})
    assert [puts_on(one, line) for line in (2, 3, 4, 5)] == [True, False, True, False]


def step(first: int, last: int | None = None, *entries: DiaryEntry) -> Cause:
    return Cause(entries=entries, first=FIRST + first, last=FIRST + (first if last is None else last))


def test_switches_within_six_weeks_stand_together() -> None:
    """41 days from the last spoiled day to the first: together, 42: apart, whatever their order; a long one counts to
    its end."""
    near, far = [step(0, 1), step(42)], [step(0, 1), step(43)]
    assert _clusters(near) == [near] and _clusters(near[::-1]) == [near]
    assert _clusters(far) == [[far[0]], [far[1]]]
    long = [step(0, 50), step(10, 12), step(90)]
    assert _clusters(long) == [long]
    chain = [step(0), step(40), step(80)]
    assert _clusters(chain) == [chain]


@pytest.mark.parametrize(
    ("instant", "day"), [("01-10 12:00", 10), ("01-10 00:00", 9), ("01-10 00:01", 10), ("01-10 23:00", 10)]
)
def test_the_evening_before_the_first_midnight(instant: str, day: int) -> None:
    """From noon of the tenth the next midnight is that of the night of the tenth; a midnight is its own."""
    assert _evening_before(at(instant)) == dt.date(2026, 1, day).toordinal()


def test_nights_on_are_those_whose_midnight_lies_in_the_state() -> None:
    """On from noon of the tenth to noon of the thirteenth: nights 10, 11 and 12; for an afternoon: none; over one
    midnight: one."""
    one = lever(
        "01-01", "01-10 12:00", "01-13 12:00", "01-15 12:00", "01-15 18:00", "01-20 22:00", "01-21 02:00", "04-30"
    )
    days = [(dt.date.fromordinal(a).day, dt.date.fromordinal(b).day) for a, b in _nights_on(one)]
    assert days == [(10, 12), (20, 20)]


def test_joined_switches_are_one_cause() -> None:
    """From the first day of the earlier to the last of the later, on in the nights on, spoiled where they are."""
    a, b = step(5, 6, entry(dt.date(2026, 1, 7), "film")), step(20, 22, entry(dt.date(2026, 1, 22), "off", line=3))
    found = _joint([a, b], lever("01-01", "01-07 12:00", "01-22 12:00", "04-30", lines=(2, 3)))
    assert (found.first, found.last) == (FIRST + 5, FIRST + 22)
    assert found.blocks == ((FIRST + 6, FIRST + 20),)
    assert found.spoiled("lift") == {FIRST + n for n in (5, 6, 20, 21, 22)}
    assert [e.line for e in found.entries] == [2, 3]


def outcome(name: str, effect: float, **more: Any) -> Outcome:
    half = float(stats.t.ppf(0.975, 30))
    usual = {"days_before": 20, "days_after": 18, "se": 1.0, "dof": 30, "before_mean": 100.0}
    return Outcome(
        outcome=name, unit="u", declared=False, effect=effect, low=effect - half, high=effect + half, **(usual | more)
    )


def measured(effect: float, **more: Any) -> dict[str, Outcome]:
    return {name: outcome(name, effect, **more) for name in OUTCOMES}


def hours(on: float) -> HeatHours:
    """1 kWh in each hour from that share of the season on."""
    n = len(pd.date_range(OF.start, OF.end, freq="1h", inclusive="left"))
    heated = np.arange(n) >= on * n
    return HeatHours(
        kwh=np.ones(n), room=np.full(n, np.inf), money=None, dark=np.ones(n, dtype=bool),
        flat_out=np.zeros(n, dtype=bool), heated=heated,
    )  # fmt: skip


def known(causes: Any, results: Any, diary: Any, heat: HeatHours | None = None, heated: bool = True) -> Known:
    book: Readings = readings(OF, diary=diary, heating=("heater",) if heated else ())
    arrays = DayArrays(
        days=np.arange(float(FIRST), FIRST + 120.0),
        outcomes={}, weather={}, heated=np.ones(120), units=dict.fromkeys(OUTCOMES, "u"), missing={},
        causes=tuple(causes), lost=frozenset(),
    )  # fmt: skip
    return Known(readings=book, arrays=arrays, measured=results, heat=heat, by_state=ByState(book, heat))


FILM = entry(dt.date(2026, 1, 20), "film", hoped_for=("less heating",), touches=("envelope",))
ALONE = lever("01-01", "01-20 12:00", "05-01")
CAUSE = step(19, 19, FILM)


def of(
    one: Lever = ALONE, *, causes: Any = (CAUSE,), results: Any = None, diary: Any = (FILM,), **more: Any
) -> LeverEffect:
    results = [measured(-20.0)] * len(causes) if results is None else results
    return _lever(one, known(causes, results, diary, **more))


def test_a_lever_of_one_switch_is_that_switch() -> None:
    """Put on: as it is; taken off: turned. The hope, its verdict and what matters (a tenth of 100)."""
    found = of(heat=hours(0.5))
    hoped = found.declared
    assert hoped is not None and (hoped.outcome, hoped.effect) == ("watts_per_kelvin", -20.0)
    assert (found.hope, found.verdict, found.care, found.without) == ("less heating", "helped", 10.0, "")
    assert [o.outcome for o in found.outcomes if o.declared] == ["watts_per_kelvin"]
    assert len(found.outcomes) == len(OUTCOMES) and found.outcome("lift") is not None
    off = of(replace(ALONE, lines=(2, 3), undone=MappingProxyType({2: 3})))
    turned = off.declared
    assert turned is not None and turned.effect == 20.0 and off.verdict == "hurt"
    assert (turned.days_before, turned.days_after) == (18, 20)


def test_switches_far_apart_are_averaged_and_near_ones_fitted() -> None:
    """Day 19 and day 100: −20 turned and −10: the mean of 20 and … of their own signs. Day 19 and 40: one fit of the
    arrays, here refused since it has no outcome."""
    off = entry(dt.date(2026, 4, 11), "film off", line=3)
    far = (CAUSE, step(100, 100, off))
    both = replace(ALONE, lines=(2, 3), undone=MappingProxyType({3: 2}))
    found = of(both, causes=far, results=[measured(-20.0), measured(10.0)], diary=(FILM, off)).outcome("lift")
    assert found is not None and found.effect == pytest.approx(-15.0)
    near = (CAUSE, step(40, 40, off))
    joint = of(both, causes=near, results=[measured(-20.0), measured(10.0)], diary=(FILM, off))
    assert {o.refused for o in joint.outcomes} == {"it was not logged"}


def test_the_joint_fit_leaves_its_own_switches_out() -> None:
    """With the joint cause in the place of its two switches, and with the others beside it: as fitted by hand."""
    rng = np.random.default_rng(4)
    off = entry(dt.date(2026, 2, 10), "film off", line=3)
    vents = entry(dt.date(2026, 2, 25), "vents", line=4)
    causes = (CAUSE, step(40, 40, off), step(55, 55, vents))
    both = replace(lever("01-01", "01-20 12:00", "02-10 12:00", "05-01"), lines=(2, 3), undone=MappingProxyType({3: 2}))
    base = known(causes, [measured(0.0)] * 3, (FILM, off, vents))
    outdoor = rng.standard_normal(120)
    lift = 5.0 + 0.5 * outdoor + rng.standard_normal(120)
    arrays = replace(base.arrays, outcomes={"lift": lift}, weather={"ton": outdoor})
    found = next(o for o in _lever(both, replace(base, arrays=arrays)).outcomes if o.outcome == "lift")
    joint = _joint(causes[:2], both)
    by_hand = outcome_of(joint, "lift", replace(arrays, causes=(causes[2], joint)))
    assert by_hand.refused is None and found.effect == by_hand.effect and found.days_after == by_hand.days_after


def test_the_first_hope_of_the_first_line_that_has_one() -> None:
    """The lines of the lever alone, whatever all of them touch together; nothing hoped: not judged."""
    bare = entry(dt.date(2026, 1, 20), "film", touches=("air",))
    later = entry(
        dt.date(2026, 1, 21), "film", line=3, hoped_for=("warmer nights", "less heating"), touches=("envelope",)
    )
    foreign = entry(dt.date(2026, 1, 19), "x", line=9, hoped_for=("more light",))
    two = replace(ALONE, lines=(2, 3))
    cause = step(19, 20, bare, later)
    found = of(two, causes=(cause,), diary=(foreign, bare, later))
    assert found.hope == "warmer nights" and found.declared is not None
    assert found.declared.outcome == "watts_per_kelvin"
    unheated = of(two, causes=(cause,), diary=(foreign, bare, later), heated=False)
    assert unheated.declared is not None and unheated.declared.outcome == "lift"
    assert of(two, causes=(cause,), diary=(bare,)).verdict == "not judged"
    song = replace(FILM, hoped_for=("better growth",))
    assert (of(diary=(song,)).hope, of(diary=(song,)).verdict) == ("better growth", "not judged")


def test_what_was_changed_together_is_told_together() -> None:
    """Another thing in the same cause; put on and taken off again within three days."""
    other = entry(dt.date(2026, 1, 21), "vents", line=7)
    found = of(causes=(step(19, 20, FILM, other),))
    assert found.without == "“vents” was changed within three days of it: only both together can be told"
    off = entry(dt.date(2026, 1, 22), "off", line=3)
    both = replace(ALONE, lines=(2, 3), undone=MappingProxyType({3: 2}))
    assert of(both, causes=(step(19, 21, FILM, off),)).without == "it was put on and taken off again within three days"
    again = replace(both, undone=MappingProxyType({}))
    assert of(again, causes=(step(19, 21, FILM, off),)).without == ""
    spell = replace(step(19, 21, FILM, off), blocks=((FIRST + 19, FIRST + 21), (FIRST + 30, FIRST + 31)))
    assert of(both, causes=(spell,)).without == ""


def test_a_lever_without_a_cause_has_no_outcome() -> None:
    """Its lines lie outside the season."""
    found = of(replace(ALONE, lines=(8,)))
    assert found.outcomes == () and found.verdict == "not judged" and np.isnan(found.care)
    assert lever_effects(readings(OF), known((), [], ()).arrays, []) == ()


def test_what_it_spared_by_the_heat_for_each_degree() -> None:
    """−20 ± t of 100 W/K: of each kWh given while on p/(1 − p), p from (20 − t)/100 to (20 + t)/100."""
    found = of(heat=hours(0.5))
    t = float(stats.t.ppf(0.975, 30))
    begin = pd.Timestamp("2026-01-20 12:00", tz=ZONE)
    on = (OF.end - begin) / pd.Timedelta(hours=1)
    assert found.spared is not None and found.spared_reason == ""
    for told, share in ((found.spared.since_kwh.low, (20 - t) / 100), (found.spared.since_kwh.high, (20 + t) / 100)):
        assert told == pytest.approx(share / (1 - share) * on)


def test_why_no_spared_heat_is_told() -> None:
    """Neither cover nor air, no heater, not alone; without watts per kelvin it is asked of the weeks, which here have
    no heat; so also where there was no level."""
    mat = of(replace(ALONE, touches=("bed",)), heat=hours(0.5))
    assert mat.spared is None and mat.spared_reason.startswith("only of what is done to the cover or the air")
    assert of(replace(ALONE, touches=("bed", "air")), heat=hours(0.5)).spared is not None
    assert of().spared_reason == "no heater is listed"
    other = entry(dt.date(2026, 1, 21), "vents", line=7)
    assert "only both together" in of(causes=(step(19, 20, FILM, other),), heat=hours(0.5)).spared_reason
    refused = measured(-20.0) | {"watts_per_kelvin": replace(outcome("watts_per_kelvin", 0.0), refused="no")}
    level = measured(-20.0) | {"watts_per_kelvin": outcome("watts_per_kelvin", 0.0, before_mean=0.0)}
    for results in (refused, level):
        base = known((CAUSE,), [results], (FILM,), hours(0.5), heated=False)
        found = _lever(ALONE, base)
        assert found.spared is None and "too seldom" in found.spared_reason


def test_whether_it_was_on_before_the_first_heat() -> None:
    """On from 20 January (hour 468 of 2879): before heat that began in the middle, not before heat of the first hour;
    on in the very hour: before. Without any heat, yes; never on: no."""
    assert of(heat=hours(0.5)).before_heat and not of(heat=hours(0.0)).before_heat
    first = hours(1.0)
    assert of(heat=first).before_heat  # no hour was heated
    for hour, told in ((467, False), (468, True)):
        heat = replace(first, heated=np.arange(len(first.heated)) == hour)
        assert of(heat=heat).before_heat is told
    assert not of(lever("01-01", "05-01"), heat=hours(0.5)).before_heat
    assert of().before_heat


def test_an_outcome_is_found_by_its_name_where_it_was_told() -> None:
    """The declared one is the hope's; a refused one is none."""
    parts = (outcome("lift", 1.0), replace(outcome("heat", 1.0), refused="no", declared=True))
    found = LeverEffect(lines=(2,), hope=None, outcomes=parts, verdict="cannot tell")
    assert found.declared is parts[1] and found.outcome("lift") is parts[0] and found.outcome("heat") is None
    assert not found.before_heat and found.outcome("soil_mean") is None
