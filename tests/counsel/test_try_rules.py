"""What is tried, and when nothing is: the rules of the row Try one by one, with their days by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FAN, GAS, grounds, hold, humid, lever, winter
from counsel.hand import change, outcome

from reportgen.counsel import steps_try
from reportgen.counsel.next_season import NextSeason
from reportgen.effects.trial import dated
from reportgen.effects.types import Changes, Tryable
from reportgen.measures.frost_types import HoldingLimit

D = dt.date


def could(what: str = "Vent fan", name: str = "night_humidity", line: int = 3, **more: Any) -> Tryable:
    usual: dict[str, Any] = {
        "thing": None,
        "idea": False,
        "touches": ("air",),
        "hopes": ("drier air",),
        "hoped_for": "drier air",
        "visible": 3.0,
        "visible_unit": "%",
        "visible_now": 6.0,
    }
    return Tryable(line=line, what=what, outcome=name, **(usual | more))


def names(*tryables: Tryable, levers: Any = (), sources: Any = (FAN,), done: Any = ()) -> list[tuple[str, str | None]]:
    """What may be tried, with the lever it is of."""
    r = winter(effects=Changes(changes=tuple(done), could_try=tryables), sources=sources)
    return [(one.what, of.name if of else None) for one, of in steps_try._candidates(r, grounds(*levers))]


TRY = lever("Vent fan", "try on and off", **humid(-6.0, 1.0))


def test_levers_come_before_ideas_each_once() -> None:
    """The lever of its own line, then ideas that no lever is; what was done and is no lever's first line is not."""
    idea = could("Curtain", line=9, idea=True, touches=("light",))
    assert names(idea, could(), levers=(TRY,)) == [("Vent fan", "Vent fan"), ("Curtain", None)]
    assert names(could(line=4), levers=(TRY,)) == [] and names(could(), levers=(lever("Vent fan"),)) == []
    assert names(could("vent  FAN", line=9, idea=True), levers=(TRY,)) == []  # the same thing
    assert names(could(line=8), levers=(lever("Vent fan", "try on and off", lines=(3, 8), **humid(-6.0, 1.0)),)) == []


@pytest.mark.parametrize("touches", ["water", "bed", "heater", "thermostat"])
def test_what_carries_over_or_is_the_last_heat_is_never_switched(touches: str) -> None:
    """Water, bed, heater and dial."""
    assert names(could(touches=("air", touches), idea=True)) == []


def test_nothing_that_shuts_a_house_with_fumes_in_it_is_tried() -> None:
    """An unsafe lever; tape, or vents, where a stove has no flue; with electric heat alone they may."""
    unsafe = lever("Vent fan", "try on and off", unsafe_with=("gas stove",), **humid(-6.0, 1.0))
    assert names(could(), levers=(unsafe,)) == []
    tape = could("Gap taped", idea=True)
    vents = could("Roof vents", idea=True, hopes=())
    fan = could("Fan", idea=True, hopes=())
    for one in (tape, vents):
        assert names(one, sources=(FAN, GAS)) == [] and len(names(one)) == 1
    assert len(names(fan, sources=(FAN, GAS))) == 1


@pytest.mark.parametrize(
    ("low", "high", "care", "told"), [(-6.0, 1.0, 6.0, False), (-6.0, 1.0, 5.9, True), (-6.0, 1.0, float("nan"), True)]
)
def test_a_lever_whose_best_is_less_than_matters_is_not_tried(low: float, high: float, care: float, told: bool) -> None:
    """At most 6 points drier, where 6 would matter."""
    done = (change("Vent fan", outcome("night_humidity", -2.5, low, high, declared=True), line=3, care=care),)
    assert bool(names(could(), levers=(lever("Vent fan", "try on and off", **humid(low, high)),), done=done)) == told
    warm: dict[str, Any] = {"outcome": "lift", "unit": "K", "relative": None, "low": -1.0, "high": 0.5}
    of = lever("Vent fan", "try on and off", **warm)
    lift = (change("Vent fan", outcome("lift", 0.2, -1.0, 0.5, declared=True), line=3, care=0.5),)
    assert names(could(name="lift"), levers=(of,), done=lift) == []  # 0.5 K at most where 0.5 matters
    open_ = lever("Vent fan", "try on and off", **(humid(-6.0, 1.0) | {"low": None}))
    assert len(names(could(), levers=(open_,), done=done)) == 1


def test_a_verdict_of_the_same_kind_answers_for_an_idea() -> None:
    """A second film says what the first said: same outcome, something touched alike, the same last word."""
    film = could("Second bubble film", "heat", line=9, idea=True, touches=("envelope",))
    assert names(film, levers=(lever("Bubble film"),)) == []  # heat, by the day or by the degree, is one outcome
    assert names(film, levers=(lever("Bubble film", "not worth it"),)) == []
    for other in (
        lever("Bubble film", "cannot tell"),
        lever("Door seal"),
        lever("Bubble film", touches=("air",)),
        lever("Bubble film", outcome="lift", relative=None),
    ):
        assert len(names(film, levers=(other,))) == 1


def ahead(**more: Any) -> NextSeason:
    usual: dict[str, Any] = {
        "first": D(2026, 10, 11),
        "last": D(2027, 4, 12),
        "heated": (D(2026, 10, 14), D(2027, 4, 10)),
        "frost": None,
        "coldest": (D(2027, 1, 5), D(2027, 1, 7)),
        "away": ((D(2026, 12, 24), D(2026, 12, 26)),),
        "unlogged": frozenset({D(2026, 11, 2)}),
    }
    return NextSeason(**(usual | more))


def closed(name: str, limit: float | None = -10.0, unknown: Any = (), **more: Any) -> set[D]:
    r = winter(frost=SimpleNamespace(holding_limit=HoldingLimit(outdoor_c=limit)))
    return set(steps_try._closed(r, grounds(hold_advice=hold(unknown_crops=unknown)), ahead(**more), name))


AWAY = {D(2026, 12, 24), D(2026, 12, 25), D(2026, 12, 26)}
COLDEST = {D(2027, 1, 5), D(2027, 1, 6), D(2027, 1, 7)}


def test_no_trial_while_away_nor_in_the_coldest_weeks_of_an_unknown_limit() -> None:
    """The limit is known: only the absence; a crop without one, or a house without one: the coldest weeks too."""
    assert closed("night_humidity") == AWAY
    assert closed("night_humidity", unknown=("rocket",)) == closed("night_humidity", None) == AWAY | COLDEST
    assert closed("night_humidity", None, coldest=None) == AWAY


def test_what_is_judged_on_heat_is_tried_only_between_heated_nights_that_are_logged() -> None:
    """From the first to the last heated night; not on days whose heat is a sum."""
    outside = {D(2026, 10, 11), D(2026, 10, 12), D(2026, 10, 13), D(2027, 4, 11), D(2027, 4, 12)}
    assert closed("watts_per_kelvin") == AWAY | {D(2026, 11, 2)} | outside
    assert closed("heat", heated=None) == AWAY | {D(2026, 11, 2)}


def test_ten_free_nights_lie_on_either_side_of_a_trial() -> None:
    """From ten nights before its first to ten after its last."""
    trial = dated(could(), D(2026, 11, 11))
    around = steps_try._around(trial)
    first, last = trial.nights[0].night, trial.nights[-1].night
    assert first == D(2026, 11, 11) and around[0] == D(2026, 11, 1) and around[-1] == last + dt.timedelta(days=10)
    assert len(around) == len(trial.nights) + 20


def test_damp_is_tried_in_damp_weeks_and_warmth_in_cold_ones() -> None:
    """The night's damp hours, or the cold turned round, a year on; of light no week is better."""
    days = [D(2026, 1, 10), D(2026, 1, 11)]
    damp = SimpleNamespace(table=pd.DataFrame({"above_high": [3.0, float("nan")]}, index=days))
    frost = SimpleNamespace(table=pd.DataFrame({"outdoor_min": [-4.0, 2.0]}, index=days))
    r = winter(damp=damp, frost=frost)
    damp_need, cold_need = steps_try._need(r, "night_humidity"), steps_try._need(r, "lift")
    assert damp_need is not None and dict(damp_need) == {D(2027, 1, 10): 3.0}
    assert cold_need is not None and dict(cold_need) == {D(2027, 1, 10): 4.0, D(2027, 1, 11): -2.0}
    assert steps_try._need(r, "daily_light") is None and steps_try._need(winter(), "lift") is None
    assert steps_try._need(winter(), "damp_hours") is None
    leap = pd.Series([1.0, 2.0], index=[D(2028, 2, 28), D(2028, 2, 29)])
    assert dict(steps_try._a_year_on(leap)) == {D(2029, 2, 28): 1.0}


def test_what_is_changed_once_has_three_quiet_weeks_on_either_side() -> None:
    """42 days from the best start; not what is unsafe, nor with another verdict; beside one trial one such row."""
    once = lever("Mulch", "change once", touches=("bed",), outcome="soil_mean", unit="K", relative=None)
    r = winter(frost=SimpleNamespace(holding_limit=HoldingLimit(outdoor_c=-10.0), table=None))
    (row,) = steps_try.tried(r, grounds(once), ahead())
    assert row.lever == "Mulch" and (row.to - row.from_).days == 41 and row.nights == ()
    unsafe = lever("Mulch", "change once", unsafe_with=("gas stove",), outcome="soil_mean", unit="K", relative=None)
    assert steps_try.tried(r, grounds(unsafe, TRY), ahead()) == []
    many = grounds(
        once, *(lever(f"m{n}", "change once", outcome="soil_mean", unit="K", relative=None) for n in range(3))
    )
    assert len(steps_try.tried(r, many, ahead())) == 2
