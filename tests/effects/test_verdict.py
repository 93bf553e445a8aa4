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
