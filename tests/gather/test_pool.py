"""Pooling against outside arithmetic: statsmodels, covariance algebra, a handbook's interval and published trials."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats
from statsmodels.stats.meta_analysis import combine_effects

from reportgen.gather.pool import leave_one_out, not_pooled, pooled
from reportgen.gather.pool_recipe import SHARED_ERROR, gardens, half_width, interval, next_half_width, spread
from reportgen.gather.types import Member, Stratum

# Colditz et al. 1994, JAMA 271:698-702, table as in Berkey et al. 1995, Stat Med 14:395-411: cases and others among
# the vaccinated, cases and others among the rest.
BCG = np.array(
    [
        (4, 119, 11, 128), (6, 300, 29, 274), (3, 228, 11, 209), (62, 13536, 248, 12619), (33, 5036, 47, 5761),
        (180, 1361, 372, 1079), (8, 2537, 10, 619), (505, 87886, 499, 87892), (29, 7470, 45, 7232),
        (17, 1699, 65, 1600), (186, 50448, 141, 27197), (5, 2493, 3, 2338), (27, 16886, 29, 17825),
    ],
    dtype=float,
)  # fmt: skip
A, B, C, D = BCG.T
LOG_RISK = np.log(A / (A + B) / (C / (C + D)))
VARIANCE = 1 / A - 1 / (A + B) + 1 / C - 1 / (C + D)


def stratum(
    effects: Sequence[float],
    se: float = 0.1,
    weather: Sequence[str] | None = None,
    houses: Sequence[str] | None = None,
    outcome: str = "lift",
) -> Stratum:
    """A stratum of so many houses, each under a weather of its own unless told."""
    names = houses or [f"Plot {n}" for n in range(1, len(effects) + 1)]
    skies = weather or [f"w{n}" for n in range(len(effects))]
    members = tuple(
        Member(
            house=house, winter="2025–26", when=date(2026, 1, 5), what="film", heated=True, effect=effect, se=se,
            dof=30.0, low=effect - 2 * se, high=effect + 2 * se, weather=sky,
        )
        for house, effect, sky in zip(names, effects, skies, strict=True)
    )  # fmt: skip
    return Stratum(outcome=outcome, unit="K", heated=True, members=members, refused=())


def test_the_trials_are_typed_rightly() -> None:
    """Q of the 13 trials is 152.233 (Berkey 1995; printed to three decimals), by statsmodels."""
    assert combine_effects(LOG_RISK, VARIANCE, method_re="iterated").q == pytest.approx(152.233, abs=5e-4)


def test_mean_and_next_house_are_those_of_a_regression_on_a_constant() -> None:
    """Without a shared error both halves are statsmodels' OLS intervals for the mean and for a new observation.

    Both are double precision; 1e-9 leaves room for the order of sums.
    """
    k = len(LOG_RISK)
    frame = sm.OLS(LOG_RISK, np.ones(k)).fit().get_prediction(np.ones(1)).summary_frame(alpha=0.05)
    sd = spread(LOG_RISK, np.sqrt(VARIANCE))
    ends = {"mean": half_width(sd, k, 0.0), "obs": next_half_width(sd, k, 0.0)}
    for name, half in ends.items():
        expected = (frame[f"{name}_ci_upper"] - frame[f"{name}_ci_lower"]).iloc[0] / 2
        assert half == pytest.approx(expected, rel=1e-9)


def test_the_mean_s_half_is_the_handbook_s() -> None:
    """NIST/SEMATECH e-Handbook 1.3.5.2 (from memory): n 195, sd 0.022789 give 9.258242 to 9.264679 (last digits)."""
    assert half_width(0.022789, 195, 0.0) == pytest.approx((9.264679 - 9.258242) / 2, abs=1e-6)


def test_houses_of_one_precision_are_pooled_as_hartung_and_knapp_do() -> None:
    """Where all standard errors are equal, random effects with Hartung and Knapp's error give equal weights too.

    statsmodels iterates tau² to 1e-5 of it, which the weights, all equal, do not feel; 1e-6 of the half-width.
    """
    k = len(LOG_RISK)
    same = np.full(k, float(np.median(VARIANCE)))
    found = combine_effects(LOG_RISK, same, method_re="iterated", use_t=True, atol=1e-10)
    low, high = found.conf_int()[3]  # random effects, Hartung and Knapp
    ours = interval(gardens(stratum(LOG_RISK.tolist(), se=1e-9).members), "lift", True)
    shared = SHARED_ERROR["lift"] / np.sqrt(k)
    assert ours.mean == pytest.approx(found.mean_effect_re, abs=1e-9)
    assert (ours.high - ours.low) / 2 == pytest.approx(np.hypot((high - low) / 2, 1.96 * shared), rel=1e-6)


@pytest.mark.parametrize("outcome", sorted(SHARED_ERROR))
def test_shared_error_is_that_of_a_mean_of_correlated_errors(outcome: str) -> None:
    """Houses 3, 2 and 1 under three weathers: 1.96 times the sd of their mean, 1ᵀV1 / k² of their covariance matrix.

    With no spread at all the interval is that part alone (numpy; exact but for rounding).
    """
    skies = ["a", "b", "a", "c", "b", "a"]
    covariance = SHARED_ERROR[outcome] ** 2 * np.array([[float(s == t) for t in skies] for s in skies])
    sd_of_mean = float(np.sqrt(covariance.sum())) / len(skies)
    found = interval(gardens(stratum([1.0] * 6, se=0.0, weather=skies).members), outcome, True)
    assert (found.high - found.low) / 2 == pytest.approx(1.96 * sd_of_mean, rel=1e-12)
    drawn = stats.multivariate_normal(np.zeros(6), covariance, allow_singular=True).rvs(20_000, random_state=5)
    assert float(drawn.mean(axis=1).std()) == pytest.approx(sd_of_mean, rel=0.02)  # 1/√(2·20000) = 0.5 %, four of them


def test_a_house_of_two_winters_counts_once() -> None:
    """Two winters of one house: their mean, its error of the mean of two, its weight shared by both weathers."""
    of = gardens(stratum([0.2, 0.6, 1.0, 0.5], se=0.2, weather="aabc", houses=["A", "A", "B", "C"]).members)
    assert of.houses == ("A", "B", "C")
    assert of.effects.tolist() == pytest.approx([0.4, 1.0, 0.5])
    assert of.ses.tolist() == pytest.approx([0.2 / np.sqrt(2), 0.2, 0.2])
    assert of.weights == pytest.approx({"a": 1 / 3, "b": 1 / 3, "c": 1 / 3})
    shared = gardens(stratum([0.2, 0.6, 1.0], weather="abb", houses=["A", "A", "B"]).members)
    assert shared.weights == pytest.approx({"a": 0.25, "b": 0.75})


def test_the_spread_is_at_least_the_median_error() -> None:
    """Houses that agree to the last digit are not surer than one of them is; those that differ speak for themselves."""
    assert spread(np.array([0.5, 0.5, 0.5]), np.array([0.1, 0.2, 0.9])) == 0.2
    assert spread(np.array([0.0, 1.0, 2.0]), np.array([0.1, 0.2, 0.9])) == 1.0  # by hand


def test_fewer_than_three_houses_are_shown_not_pooled() -> None:
    """Two houses, or an outcome whose shared error nobody knows: no mean, and the reason."""
    two = stratum([0.5, 0.6])
    assert pooled(two) is None
    assert not_pooled(two) == "Shown, not pooled: 2\u00a0houses could tell, and it takes 3."
    twice = stratum([0.5, 0.6, 0.5, 0.6], houses=["A", "B", "A", "B"])
    assert pooled(twice) is None and not_pooled(twice) is not None
    damp = stratum([0.5] * 6, outcome="damp_hours")
    assert pooled(damp) is None and "not known" in (not_pooled(damp) or "")
    assert not_pooled(stratum([0.5] * 3)) is None


def test_four_houses_are_too_few_for_a_verdict_and_five_are_not() -> None:
    """The same effect, far beyond its error."""
    four, five = pooled(stratum([1.0, 1.1, 0.9, 1.0])), pooled(stratum([1.0, 1.1, 0.9, 1.0, 1.0]))
    assert four is not None and five is not None
    assert (four.verdict, four.k) == ("too few for a verdict", 4)
    assert (five.verdict, five.k, five.more_houses, five.survives) == ("more", 5, 0, True)
    less = pooled(stratum([-1.0, -1.1, -0.9, -1.0, -1.0]))
    assert less is not None and less.verdict == "less"


def test_one_garden_that_carries_all_is_named() -> None:
    """Five houses of one fortnight: the four high ones need each other, and the low one is no reason.

    By hand: mean 0.434, sd 0.2455, half √((2.7764 · 0.2455/√5)² + 0.2744²) = 0.4102: told. Without 0.5: mean 0.418,
    sd 0.281, half √((3.182 · 0.281/√4)² + 0.274²) = 0.525: not told. Without 0.0: mean 0.5425, sd 0.0435 under its
    floor 0.05, half √((3.182 · 0.05/√4)² + 0.274²) = 0.286: told.
    """
    of = stratum([0.55, 0.5, 0.6, 0.0, 0.52], se=0.05, weather="aaaaa")
    found = pooled(of)
    assert found is not None
    assert (found.mean, found.low) == pytest.approx((0.434, 0.0238), abs=1e-4)
    assert found.verdict == "rests on one garden" and not found.survives and found.more_houses
    assert found.why.startswith("Any one of 4 houses of 5, left out, takes the verdict with it")
    without = {part.house for part in leave_one_out(of) if not part.leaves_out_zero}
    assert without == {"Plot 1", "Plot 2", "Plot 3", "Plot 5"}


def test_leaving_one_out_counts_weathers_anew() -> None:
    """Without the only house of another weather all stand under one: its interval has the whole shared error.

    By hand: 1 ± √((4.303 · 0.1/√3)² + (1.96 · 0.14)²) with sd at its floor 0.1, and without one of the three
    1 ± √((4.303 · 0.1/√3)² + (1.96 · 0.14)² · (4 + 1)/9).
    """
    parts = leave_one_out(stratum([1.0] * 4, weather="aaab"))
    assert [part.house for part in parts] == ["Plot 1", "Plot 2", "Plot 3", "Plot 4"]
    own = 4.30265 * 0.1 / np.sqrt(3)  # t table: 4.30265 at two degrees of freedom
    whole, split = np.hypot(own, 1.96 * 0.14), np.hypot(own, 1.96 * 0.14 * np.sqrt(5) / 3)
    assert [part.high - 1.0 for part in parts] == pytest.approx([split, split, split, whole], abs=1e-5)
    assert leave_one_out(stratum([1.0] * 3)) == ()


def test_houses_of_one_fortnight_tell_less() -> None:
    """The same houses, spread over weathers or under one: the mean stays, the interval widens by the shared error."""
    effects = [0.3, 0.5, 0.4, 0.2, 0.4, 0.3, 0.5, 0.4]
    apart, together = pooled(stratum(effects)), pooled(stratum(effects, weather="aaaaaaaa"))
    assert apart is not None and together is not None
    assert (apart.houses_by_weather, together.houses_by_weather) == ((1,) * 8, (8,))
    assert together.mean == apart.mean and together.low < apart.low
    assert together.high - together.mean > 1.96 * SHARED_ERROR["lift"]
    assert apart.next_low < apart.low and apart.next_high > apart.high


def test_warmth_of_a_house_without_heat_reaches_further_out() -> None:
    """The bed's own gain is not in the mean: the far end lies out by the mean once more, the near end stays."""
    warm = stratum([0.5, 0.6, 0.4, 0.5, 0.5])
    cold = replace(warm, heated=False)
    for sign in (1.0, -1.0):
        ends = []
        for of in (warm, cold):
            found = pooled(replace(of, members=tuple(replace(m, effect=sign * m.effect) for m in of.members)))
            assert found is not None
            ends.append(found)
        by_thermostat, without_heat = ends
        assert without_heat.verdict == by_thermostat.verdict == ("more" if sign > 0 else "less")
        near, far = ("low", "high") if sign > 0 else ("high", "low")
        for end in ("", "next_"):
            assert getattr(without_heat, end + near) == getattr(by_thermostat, end + near)
            apart = getattr(without_heat, end + far) - getattr(by_thermostat, end + far)
            assert apart == pytest.approx(without_heat.mean)
        assert "on top" in without_heat.why and "on top" not in by_thermostat.why
