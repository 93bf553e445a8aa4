"""Twins, seeds and changes: what the tests of the review rest on."""

from __future__ import annotations

import pandas as pd
import pytest

from simulator import Change, Climate, HouseParams, Simulated, simulate, synthetic, true_effect

NOON = pd.Timestamp("2026-01-15 12:00", tz="Europe/Prague")
HEATED = HouseParams(heater_w=2000.0, hold_c=4.0)


@pytest.fixture(scope="module")
def weather() -> pd.DataFrame:
    """Six weeks of midwinter in steps of twenty minutes."""
    return synthetic(Climate(), "2025-12-20", "2026-02-10", seed=5, step_s=1200)


def with_(weather: pd.DataFrame, house: HouseParams = HEATED, **alters: float) -> tuple[Simulated, Change]:
    """A winter with one change at noon on 15 January, and that change."""
    change = Change(at=NOON, alters=alters, what="something")
    return simulate(weather, house, [change], seed=3), change


def test_the_same_seed_gives_the_same_winter(weather: pd.DataFrame) -> None:
    """Weather and house repeat exactly with a seed and differ with another."""
    again = synthetic(Climate(), "2025-12-20", "2026-02-10", seed=5, step_s=1200)
    pd.testing.assert_frame_equal(weather, again)
    other = synthetic(Climate(), "2025-12-20", "2026-02-10", seed=6, step_s=1200)
    assert not weather.equals(other)
    first, second = (simulate(weather, HEATED, seed=s).frame for s in (3, 3))
    pd.testing.assert_frame_equal(first, second)


def test_a_twin_differs_only_after_the_change(weather: pd.DataFrame) -> None:
    """Until the change its twin is the same to the last digit; afterwards it is not."""
    winter, change = with_(weather, u_w_m2k=2.0)
    twin = winter.without(change).frame
    before = winter.frame.index < NOON
    pd.testing.assert_frame_equal(winter.frame[before], twin[before])
    assert not winter.frame[~before].equals(twin[~before])


@pytest.mark.parametrize("outcome", ["lift", "heat", "night_humidity", "soil_mean", "daily_light"])
def test_a_change_that_alters_nothing_has_no_effect(weather: pd.DataFrame, outcome: str) -> None:
    """Do-nothing changes have an effect of exactly zero."""
    winter, change = with_(weather)
    assert true_effect(winter, change, outcome) == 0.0


def test_effects_have_the_signs_of_the_trade(weather: pd.DataFrame) -> None:
    """Insulation saves heat and dims the light; without a heater it warms the nights; airing dries and costs heat."""
    film, change = with_(weather, u_w_m2k=2.2, transmission=0.6)
    assert true_effect(film, change, "heat") < -1.0
    assert true_effect(film, change, "daily_light") < 0
    cold, change = with_(weather, HouseParams(), u_w_m2k=2.2)
    assert true_effect(cold, change, "lift") > 0.3
    aired, change = with_(weather, air_changes_h=4.0)
    assert true_effect(aired, change, "night_humidity") < -1.0
    assert true_effect(aired, change, "heat") > 0.3


def test_a_spell_ends(weather: pd.DataFrame) -> None:
    """What a spell altered is back as it was once it is over."""
    until = NOON + pd.Timedelta(days=4)
    spell = Change(at=NOON, until=until, alters={"air_changes_h": 5.0}, what="vents", kind="spell")
    rate = simulate(weather, HEATED, [spell], seed=3).frame["air_changes_h"]
    outside = (rate.index < NOON) | (rate.index >= until)
    plain = simulate(weather, HEATED, seed=3).frame["air_changes_h"]
    assert rate[~outside].median() > 3 * plain[~outside].median()
    assert rate[outside].median() == pytest.approx(plain[outside].median(), rel=0.02)


def test_mistakes_are_refused(weather: pd.DataFrame) -> None:
    """A change needs a zone, and may alter only what a house has."""
    with pytest.raises(ValueError, match="zone"):
        simulate(weather, HEATED, [Change(at=pd.Timestamp("2026-01-15"))])
    with pytest.raises(ValueError, match="no glass"):
        simulate(weather, HEATED, [Change(at=NOON, alters={"glass": 1.0})])
