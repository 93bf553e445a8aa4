"""On and off of one lever as one estimate: against a meta-analysis package, and each night counted once."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pandas as pd
import pytest
from effects.in_memory import ZONE, readings_of
from scipy import stats
from simulator import Change, Climate, HouseParams, simulate, synthetic
from statsmodels.stats.meta_analysis import combine_effects

from reportgen.effects.judge import judge
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.pooled import pooled, turned
from reportgen.effects.types import Outcome
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of


def outcome(effect: float, se: float, dof: int, **more: object) -> Outcome:
    """An outcome with its interval."""
    half = float(stats.t.ppf(0.975, dof)) * se
    usual = {"outcome": "night_humidity", "unit": "%", "declared": True, "days_before": 20, "days_after": 18}
    numbers = {"effect": effect, "low": effect - half, "high": effect + half, "se": se, "dof": dof, "before_mean": 80.0}
    return Outcome(**(usual | numbers | more))  # type: ignore[arg-type]


def test_pooled_as_a_meta_analysis_does() -> None:
    """Mean and standard error of the fixed effect as statsmodels' `combine_effects` gives them."""
    parts = [outcome(1.9, 1.5, 30), outcome(5.2, 3.7, 22), outcome(2.4, 0.9, 25)]
    found = pooled(parts)
    variances = np.array([part.se**2 for part in parts])
    reference = combine_effects(np.array([part.effect for part in parts]), variances, method_re="iterated")
    assert found.effect == pytest.approx(reference.mean_effect_fe, rel=1e-10)
    assert found.se == pytest.approx(reference.sd_eff_w_fe, rel=1e-10)


def test_two_alike_by_hand() -> None:
    """Two of standard error 2 with 20 degrees of freedom each: se 2/√2, 1/(¼/20 + ¼/20) = 40 degrees."""
    found = pooled([outcome(1.0, 2.0, 20), outcome(3.0, 2.0, 20)])
    assert (found.effect, found.dof) == (pytest.approx(2.0), 40)
    assert found.se == pytest.approx(2.0 / 2**0.5)
    assert found.high == pytest.approx(2.0 + stats.t.ppf(0.975, 40) * 2.0 / 2**0.5)
    assert (found.days_before, found.days_after) == (40, 36)


def test_switches_that_disagree_widen_it() -> None:
    """Standard error as statsmodels scales it by Q/(k − 1) (`sd_eff_w_fe_hksj`), with 1 and 9 points, 1.5 and 2.0."""
    parts = [outcome(1.0, 1.5, 30), outcome(9.0, 2.0, 22), outcome(2.0, 1.2, 25)]
    found = pooled(parts)
    variances = np.array([part.se**2 for part in parts])
    reference = combine_effects(np.array([part.effect for part in parts]), variances)
    assert reference.q > 2  # they do disagree
    assert found.effect == pytest.approx(reference.mean_effect_fe, rel=1e-10)
    assert found.se == pytest.approx(reference.sd_eff_w_fe_hksj, rel=1e-10)
    assert found.widened == pytest.approx(np.sqrt(reference.q / 2), rel=1e-10)


def test_two_that_disagree_by_hand() -> None:
    """1 and 9 with standard errors of 2: mean 5, Q = 2·(4/2)² = 8, S = √8; se = √8·2/√2 = 4, half of what lies between
    them, as the mean of two readings without errors of their own has it."""
    found = pooled([outcome(1.0, 2.0, 20), outcome(9.0, 2.0, 20)])
    assert (found.effect, found.se, found.widened) == (pytest.approx(5.0), pytest.approx(4.0), pytest.approx(8**0.5))
    assert found.low == pytest.approx(5.0 - stats.t.ppf(0.975, 40) * 4.0)


def test_switches_that_agree_too_well_do_not_narrow_it() -> None:
    """Q under m − 1 is luck: the common error stays as it is."""
    found = pooled([outcome(2.0, 2.0, 20), outcome(2.0, 2.0, 20)])
    assert (found.se, found.widened) == (pytest.approx(2.0 / 2**0.5), 1.0)


def test_taken_off_is_turned() -> None:
    """Off made it 5 drier (2 to 8) from 90: on makes it 5 damper from 85; the sides change places."""
    off = replace(outcome(-5.0, 1.0, 30), low=-8.0, high=-2.0, before_mean=90.0)
    found = turned(off, on=False)
    assert (found.effect, found.low, found.high, found.before_mean) == (5.0, 2.0, 8.0, 85.0)
    assert (found.days_before, found.days_after) == (18, 20)
    assert turned(off, on=True) is off


def test_a_refused_switch_leaves_the_other() -> None:
    """One told, one refused: the told one stands; both refused: the reason of the one that came nearest."""
    told = outcome(1.0, 1.0, 20)
    none = Outcome(outcome="night_humidity", unit="%", declared=True, days_before=3, days_after=9, refused="three")
    least = replace(none, days_before=0, refused="none")
    assert pooled([none, told]) is told
    assert pooled([least, none]).refused == "three"


def test_what_the_bed_may_give_back_is_pooled_too() -> None:
    """Two of standard error 2: one reaches 3 K further up by way of the bed, the other as far as its error. By hand:
    weights of a half each, so the pooled upper end lies 1.5 K further out; the lower one stays."""
    plain = [outcome(1.0, 2.0, 20), outcome(3.0, 2.0, 20)]
    by_bed = [replace(plain[0], high=plain[0].high + 3.0, through_bed=True), plain[1]]
    found, usual = pooled(by_bed), pooled(plain)
    assert (found.low, found.se) == (pytest.approx(usual.low), usual.se)
    assert found.high == pytest.approx(usual.high + 1.5)
    assert found.through_bed and not usual.through_bed


def at(day: str) -> pd.Timestamp:
    return pd.Timestamp(f"{day} 12:00", tz=ZONE)


@lru_cache(maxsize=2)
def skin(first: str, off: str) -> LeverEffect:
    """A second skin put on at noon and taken off again."""
    told = {"touches": ("envelope",), "timed": True, "reversible": True}
    end = at(off)
    alters = {"u_w_m2k": 2.0}
    on = Change(at=at(first), until=end, alters=alters, what="skin", hoped_for=("less heating",), **told)  # type: ignore[arg-type]
    away = Change(at=end, what="skin off", undoes="skin", **told)  # type: ignore[arg-type]
    weather = synthetic(Climate(mean_c=7.0), "2025-11-14T23:00", "2026-03-31T22:00", 3, 900)
    made = simulate(weather, HouseParams(heater_w=3500.0, hold_c=6.0), (on, away), 3)
    of = readings_of(made)
    diary = tuple(replace(e, undoes="skin" if e.what == "skin off" else "") for e in of.diary)
    levers = levers_of(chains(diary, "diary.csv")[0], of.season)
    (effect,) = judge(replace(of, diary=diary, levers=levers)).levers
    return effect


def test_shared_nights_count_once() -> None:
    """On for 21 nights, 10 to 31 January: one estimate over the 21 nights before, on and after, none twice; the truth
    (1.3 W/m²K × 46 m² of glazing, − 60 W/K at 2 m/s of wind; 44 to 69 W/K between calm and 6 m/s, as in test_truth)
    meets its interval."""
    found = skin("2026-01-10", "2026-01-31").outcome("watts_per_kelvin")
    assert found is not None
    assert found.days_after <= 21
    assert found.days_before <= 42
    assert found.high < 0
    assert found.low < -44.0 and found.high > -69.0


def test_far_apart_both_are_averaged() -> None:
    """On for 52 nights: the two windows share no night, the nights of both switches are counted: more
    than 30 on, more than 30 off, where one switch has 28 at most."""
    effect = skin("2025-12-10", "2026-01-31")
    warmth = effect.outcome("lift")
    assert warmth is not None
    assert min(warmth.days_before, warmth.days_after) > 30
    heat = effect.outcome("watts_per_kelvin")
    assert heat is not None
    assert heat.low < -44.0 and heat.high > -69.0


def test_all_that_is_told_of_two_switches() -> None:
    """Of 1 ± 1 (10 degrees, level 60) and 4 ± 2 (5 degrees, level 90), weights 4/5 and 1/5: effect 1.6, level 66,
    1/(0.64/10 + 0.04/5) = 13.9 degrees; Q = 0.36 + 5.76/4 = 1.8, so the error 1/√1.25 is √1.8 times as wide."""
    found = pooled([outcome(1.0, 1.0, 10, before_mean=60.0), outcome(4.0, 2.0, 5, before_mean=90.0)])
    dof = 1 / (0.64 / 10 + 0.04 / 5)
    se = (1.8 / 1.25) ** 0.5
    assert (found.effect, found.before_mean) == (pytest.approx(1.6), pytest.approx(66.0))
    assert (found.se, found.dof, found.widened) == (pytest.approx(se), 14, pytest.approx(1.8**0.5))
    t, power = stats.t.ppf(0.975, dof), stats.t.ppf(0.8, dof)
    assert (found.low, found.high) == (pytest.approx(1.6 - t * se), pytest.approx(1.6 + t * se))
    assert found.smallest_visible == pytest.approx((t + power) * se)
    assert np.isnan(found.effective_days) and found.nights is None
    assert pooled([outcome(1.0, 1.0, 10)]).widened == 1.0


def test_a_refused_switch_that_takes_off_changes_its_sides() -> None:
    """Its days change places, and nothing else; put on, it stays."""
    none = Outcome(outcome="lift", unit="K", declared=True, days_before=3, days_after=9, refused="three")
    found = turned(none, on=False)
    assert (found.days_before, found.days_after, found.refused) == (9, 3, "three") and np.isnan(found.effect)
    assert turned(none, on=True) is none
    nights = pd.DataFrame({"day": [1]})
    assert turned(replace(outcome(1.0, 1.0, 9), nights=nights), on=False).nights is None
