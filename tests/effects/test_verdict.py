"""The verdict on the one outcome hoped for, and the bound on what it can have been worth."""

from __future__ import annotations

from typing import Any

import pytest

from reportgen.effects.types import Outcome
from reportgen.effects.verdict import care_for, chance_of_false_sign, judged_outcome, verdict_of, worth
from reportgen.season import Care


def outcome(name: str, low: float, high: float, **more: Any) -> Outcome:
    return Outcome(outcome=name, unit="K", declared=True, effect=(low + high) / 2, low=low, high=high, **more)


@pytest.mark.parametrize(
    ("name", "low", "high", "verdict"),
    [
        ("lift", 0.1, 2.0, "helped"),
        ("lift", -2.0, -0.1, "hurt"),
        ("heat", -4.0, -1.0, "helped"),  # less heat is better
        ("heat", 1.0, 4.0, "hurt"),
        ("night_humidity", -5.0, -1.0, "helped"),
        ("lift", -0.4, 0.3, "no sign"),  # all of it inside ± care
        ("lift", -0.4, 0.9, "cannot tell"),
    ],
)
def test_verdict_by_the_interval(name: str, low: float, high: float, verdict: str) -> None:
    """Excludes zero: helped or hurt; inside ± care: no sign; else cannot tell."""
    assert verdict_of(outcome(name, low, high), 0.5)[0] == verdict


def test_a_sign_smaller_than_what_matters_is_marked() -> None:
    """It helped, but by less than the grower said would matter."""
    assert verdict_of(outcome("lift", 0.1, 0.4), 0.5) == ("helped", True)


def test_refused_is_cannot_tell() -> None:
    """No estimate, no verdict."""
    refused = Outcome(outcome="lift", unit="K", declared=True, refused="no outdoor logger")
    assert verdict_of(refused, 0.5)[0] == "cannot tell"


@pytest.mark.parametrize(
    ("hope", "touches", "heated", "name"),
    [
        ("warmer nights", ("envelope",), True, "watts_per_kelvin"),
        ("warmer nights", ("envelope",), False, "lift"),
        ("warmer nights", ("air",), True, "lift"),
        ("less heating", ("thermostat",), True, "heat"),
        ("drier air", (), True, "night_humidity"),
        ("better growth", (), True, None),
    ],
)
def test_which_outcome_a_hope_is_judged_on(hope: str, touches: tuple[str, ...], heated: bool, name: str | None) -> None:
    """By the first-named hope, and by whether the change touches the envelope of a heated house."""
    assert judged_outcome(hope, touches, heated) == name


def test_care_for_heat_is_a_share_of_the_days_before() -> None:
    """Ten percent of 8 kWh a day is 0.8 kWh."""
    assert care_for(outcome("heat", -1, 1, before_mean=8.0), Care()) == pytest.approx(0.8)


def test_the_bound_and_what_it_saves_at_most() -> None:
    """At best 2 of 8 kWh a day: a quarter, 50 of 200 a season."""
    found = worth(outcome("heat", -2.0, 0.5, before_mean=8.0), 200.0)
    assert (found.at_most, found.saves_at_most) == (0.25, 50.0)


def test_nobody_saves_more_than_all_of_it() -> None:
    """An interval wider than the heat itself is cut at all of the season's cost."""
    found = worth(outcome("heat", -12.0, 3.0, before_mean=8.0), 200.0)
    assert (found.at_most, found.saves_at_most) == (1.0, 200.0)


def test_the_chance_of_one_false_sign_grows_with_the_number_judged() -> None:
    """1 − (1 − 0.024)ⁿ: none of none, 2.4 % of one, 21.6 % of ten."""
    assert [round(chance_of_false_sign(n), 3) for n in (0, 1, 10)] == [0.0, 0.024, 0.216]


@pytest.mark.parametrize(
    ("low", "high", "verdict", "small"),
    [
        (0.0, 0.4, "no sign", True), (-0.4, 0.0, "no sign", True), (-0.5, 0.5, "no sign", True),
        (-0.51, 0.5, "cannot tell", False), (-0.5, 0.51, "cannot tell", False), (-0.4, -0.1, "hurt", True),
    ],
)  # fmt: skip
def test_the_bounds_of_a_verdict(low: float, high: float, verdict: str, small: bool) -> None:
    """Zero itself is held; ± care itself lies inside."""
    assert verdict_of(outcome("lift", low, high), 0.5) == (verdict, small)


def test_without_a_care_nothing_is_small() -> None:
    """Damp hours have none: no sign can be told of them."""
    nan = care_for(outcome("damp_hours", -1, 1), Care())
    assert nan != nan and verdict_of(outcome("damp_hours", -0.1, 0.1), nan) == ("cannot tell", False)
    refused = Outcome(outcome="lift", unit="K", declared=True, refused="no outdoor logger")
    assert verdict_of(refused, 0.5) == ("cannot tell", False)


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("lift", 0.4), ("night_minimum", 0.4), ("night_humidity", 2.5), ("soil_mean", 0.7), ("soil_swing", 0.7),
        ("heat", 8.0 * 0.12), ("watts_per_kelvin", 8.0 * 0.12), ("daily_light", 8.0 * 0.07),
    ],
)  # fmt: skip
def test_what_matters_of_each_outcome(name: str, wanted: float) -> None:
    """As the aims say: in kelvin, points, or percent of the days before, whatever their sign."""
    care = Care(lift_k=0.4, heat_pct=12.0, humidity_points=2.5, soil_k=0.7, light_pct=7.0)
    for before in (8.0, -8.0):
        assert care_for(outcome(name, -1, 1, before_mean=before), care) == pytest.approx(wanted)


def test_the_favourable_end_of_each_outcome() -> None:
    """More of warmth, less of damp; in the outcome's own unit and without money."""
    assert worth(outcome("lift", -0.5, 2.0), 200.0).at_most == 2.0
    damp = worth(outcome("night_humidity", -5.0, 1.0), 200.0)
    assert (damp.at_most, damp.saves_at_most) == (5.0, None)
    per_k = worth(outcome("watts_per_kelvin", -20.0, 5.0, before_mean=80.0), 200.0)
    assert (per_k.at_most, per_k.saves_at_most) == (20.0, 50.0)
    assert worth(outcome("heat", -2.0, 0.5, before_mean=8.0), None).saves_at_most is None


def test_why_nothing_is_told_of_its_worth() -> None:
    """No outcome, one refused, no heat before."""
    assert "no outcome" in worth(None, 200.0).reasons["at_most"]
    refused = Outcome(outcome="heat", unit="kWh", declared=True, refused="no heater")
    assert (worth(refused, 1.0).at_most, worth(refused, 1.0).reasons["at_most"]) == (None, "no heater")
    for before in (0.0, -1.0):
        found = worth(outcome("heat", -2.0, 0.5, before_mean=before), 200.0)
        assert found.at_most is None and found.saves_at_most is None and "no heat before" in found.reasons["at_most"]
    little = worth(outcome("heat", -2.0, 0.5, before_mean=0.1), 200.0)
    assert (little.at_most, little.saves_at_most) == (1.0, 200.0)


def test_the_hopes_of_a_warm_and_a_cold_house() -> None:
    """Envelope of a heated house: watts per kelvin; not of an unheated one, nor of the bed of a heated one."""
    assert judged_outcome("less heating", ("bed", "envelope"), True) == "watts_per_kelvin"
    assert judged_outcome("less heating", ("envelope",), False) == "heat"
    for hope, name in (("warmer soil", "soil_mean"), ("steadier soil", "soil_swing"), ("more light", "daily_light")):
        assert judged_outcome(hope, ("envelope",), True) == name
