"""The whole chain against physics that knows the truth: a simulated winter and its twin without the change."""

from __future__ import annotations

from datetime import timedelta
from functools import lru_cache

import numpy as np
import pandas as pd
import pytest
from effects.in_memory import ZONE, readings_of
from scipy import stats
from simulator import Change, Climate, HouseParams, Simulated, simulate, synthetic

from reportgen.effects import Changes, Outcome, effects
from reportgen.effects.causes import Cause
from reportgen.effects.estimate import day_arrays, outcome_of
from reportgen.effects.outcomes import OUTCOMES, day_table

WHEN = pd.Timestamp("2026-01-10 12:00", tz=ZONE)
HOUSE = HouseParams(heater_w=4000.0, hold_c=9.0)
FILM = Change(
    at=WHEN,
    alters={"u_w_m2k": 2.2},
    what="second skin",
    touches=("envelope",),
    hoped_for=("less heating",),
    reversible=True,
    cost=90.0,
    years=5.0,
    written="2026-01-02",
)


@lru_cache(maxsize=1)
def weather() -> pd.DataFrame:
    return synthetic(Climate(mean_c=7.0), "2025-12-05", "2026-02-12", seed=8, step_s=900)


@lru_cache(maxsize=4)
def winter(*changes: str) -> Simulated:
    return simulate(weather(), HOUSE, [FILM] if changes else [], seed=8)


@lru_cache(maxsize=4)
def judged(light: bool = True) -> Changes:
    return effects(readings_of(winter("film"), light=light, moist=light))


def truth(outcome: str) -> float:
    """Mean difference of the twins over the 21 days after the change, from the two logs."""
    days = [WHEN.date() + timedelta(days=n) for n in range(1, 22)]
    with_it, without = (day_table(readings_of(made)).outcomes[outcome] for made in (winter("film"), winter()))
    return float((with_it - without).reindex(days).mean())


def found(outcome: str, light: bool = True) -> Outcome:
    (change,) = judged(light).changes
    return next(o for o in change.outcomes if o.outcome == outcome)


@pytest.mark.parametrize("outcome", ["watts_per_kelvin", "heat", "lift", "night_humidity"])
def test_the_interval_holds_the_twins_truth(outcome: str) -> None:
    """A winter simulated with and without a second skin: the truth lies inside the interval of every outcome."""
    estimate = found(outcome)
    assert estimate.refused is None
    assert estimate.low < truth(outcome) < estimate.high


def test_the_insulation_is_bracketed_by_the_physics() -> None:
    """W/K fall by ΔU·A of the glazing: 1.1 W/m²K × 46 m² at 2 m/s of wind.

    The simulator's U rises and falls with wind by McAdams' film (h = 5.7 + 3.8 v): over 0 to 6 m/s, with the inside
    and the skin unaltered, the difference of the two U lies between the two bounds computed here by hand.
    """

    def u(at_two: float, wind: float) -> float:
        return 1 / (1 / at_two - 1 / 13.3 + 1 / (5.7 + 3.8 * wind))

    least, most = (46.0 * (u(3.3, wind) - u(2.2, wind)) for wind in (0.0, 6.0))
    estimate = found("watts_per_kelvin")
    assert estimate.low < -least
    assert estimate.high > -most
    assert estimate.high < 0


def test_the_verdict_leads_to_a_bound() -> None:
    """It helped; at most that share of the season's heat is saved."""
    (change,) = judged().changes
    assert change.verdict == "helped"
    assert change.hope_written_before is True
    hoped = change.declared
    assert hoped is not None
    assert hoped.outcome == "watts_per_kelvin"
    heat_cost = judged().heat_cost
    assert heat_cost is not None
    assert change.saves_at_most == pytest.approx(-hoped.low / hoped.before_mean * heat_cost)


def test_without_a_light_sensor_the_next_set_of_weather_is_taken_and_said() -> None:
    """No light, no outdoor humidity: the second set for lift (with the bed's probe), the first is not pretended."""
    assert found("lift").covariate_set == 1
    assert "sol" in found("lift").columns
    assert found("lift", light=False).covariate_set == 2
    assert "sol" not in found("lift", light=False).columns


def test_every_outcome_is_told_or_says_why_not() -> None:
    """Ten outcomes; a number has a unit, a count on both sides and an interval; else words."""
    (change,) = judged().changes
    assert tuple(o.outcome for o in change.outcomes) == OUTCOMES
    for n, o in enumerate(change.outcomes):
        assert o.unit
        if o.refused is None:
            assert o.low <= o.effect <= o.high
            assert min(o.days_before, o.days_after) >= 7
            assert o.smallest_visible > 0
        else:
            assert change.reasons[f"outcomes.{n}.effect"] == o.refused
            assert np.isnan(o.effect)


def test_plain_before_and_after_lies_where_the_estimator_does_not() -> None:
    """A whole winter in which nothing was done, cut at every fifth date: signs by plain means against signs here.

    The plain comparison (two means of 21 nights, t interval for independent nights) calls at least one date in four a
    change; the estimator at most one in ten.
    """
    made = simulate(synthetic(Climate(), "2025-10-20", "2026-03-20", seed=4, step_s=900), HouseParams(), seed=4)
    arrays = day_arrays(day_table(readings_of(made)), (), frozenset())
    plain = ours = dates = 0
    for day in arrays.days[25:-25:5].astype(int):
        for outcome in ("lift", "night_humidity", "soil_swing"):
            found = outcome_of(Cause(entries=(), first=day - 1, last=day), outcome, arrays, declared=True)
            if found.nights is None:
                continue
            sides = [group["value"].to_numpy() for _, group in found.nights.groupby("after")]
            plain += bool(stats.ttest_ind(*sides).pvalue < 0.05)
            ours += not found.low < 0 < found.high
            dates += 1
    assert dates > 30
    assert plain / dates > 0.25
    assert ours / dates < 0.1
