"""Spared heat: the arithmetic by hand, its laws, darkness, and the estimate from weeks against a known truth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm
from made_season import season

from reportgen.effects.by_state import WEEK_GRID, Averaged, Columns, _fit, _told, averaged, too_few
from reportgen.effects.lever_types import Range, Spared
from reportgen.effects.spared import HeatHours, much_flat_out, share_spared, spared
from reportgen.effects.spared_hours import dark_hours, room
from reportgen.effects.state_periods import Periods
from reportgen.effects.types import Outcome
from reportgen.measures.heating_hours import HeatCurve
from reportgen.season.models import Place

# W/K fell by 20 (10 to 30) of 100: a share of a tenth to three tenths.
HOPED = Outcome(outcome="watts_per_kelvin", unit="W/K", declared=True, effect=-20, low=-30, high=-10, before_mean=100.0)
ON = np.arange(1500) >= 500  # 500 h off, then 1000 h on


def heat(**more: object) -> HeatHours:
    """1 kWh in each of 1500 hours, all of them dark, none flat out, 0.30 a kWh."""
    one = np.ones(1500)
    usual = {
        "kwh": one,
        "room": np.inf * one,
        "money": 0.3 * one,
        "dark": one > 0,
        "flat_out": one < 0,
        "heated": one > 0,
    }
    return HeatHours(**(usual | more))  # type: ignore[arg-type]


def test_a_share_by_hand() -> None:
    """A tenth taken off leaves nine tenths: 1000 kWh given while on stand for 1000/0.9, so 111.1 were spared; of 500
    kWh given while off a tenth, 50. Three tenths: 1000 · 0.3/0.7 = 428.6, and 150."""
    found = spared(HOPED, heat(), ON)
    assert (found.since_kwh.low, found.since_kwh.high) == pytest.approx((111.111, 428.571), abs=1e-3)
    assert (found.winter_kwh.low, found.winter_kwh.high) == pytest.approx((161.111, 578.571), abs=1e-3)
    assert found.since_money is not None and found.winter_money is not None
    assert (found.since_money.low, found.winter_money.high) == pytest.approx((33.333, 173.571), abs=1e-3)
    assert found.relative == Range(low=0.1, high=0.3)


def test_the_low_end_counts_dark_hours_with_heat_to_spare_alone() -> None:
    """Of 1000 h on, 600 dark, 100 of those flat out: 500 · 0.1/0.9 = 55.6; of 500 h off none is dark: nothing more."""
    hours = np.arange(1500)
    dark, flat = hours >= 900, hours >= 1400
    found = spared(HOPED, heat(dark=dark, flat_out=flat), ON)
    assert found.since_kwh.low == pytest.approx(500 / 9)
    assert found.winter_kwh.low == pytest.approx(500 / 9)
    assert found.since_kwh.high == pytest.approx(1000 * 3 / 7)  # the high end counts every hour


def test_money_is_counted_at_the_price_of_its_hour() -> None:
    """0.20 while off, 0.40 while on: a tenth of 100 and a ninth of 400."""
    money = np.where(ON, 0.4, 0.2)
    found = spared(HOPED, heat(money=money), ON)
    assert found.winter_money is not None
    assert found.winter_money.low == pytest.approx(400 / 9 + 10)


def test_no_price_no_money() -> None:
    """Kilowatt-hours are told, money is not."""
    found = spared(HOPED, heat(money=None), ON)
    assert found.since_money is None and found.winter_money is None and found.since_kwh.high > 0


def test_a_cost_is_told_whole() -> None:
    """W/K between 10 less and 25 more of 100: the low end is −0.25/1.25 of all 1000 kWh, dark or not."""
    hoped = replace(HOPED, effect=7.5, low=-10.0, high=25.0)
    found = spared(hoped, heat(dark=np.zeros(1500, dtype=bool)), ON)
    assert found.since_kwh.low == pytest.approx(-200.0)
    assert found.winter_kwh.low == pytest.approx(-200.0 - 125.0)
    assert found.since_kwh.high == pytest.approx(1000 / 9)


def test_nothing_spares_more_than_nine_tenths() -> None:
    """An interval beyond the level itself is cut: nine times what was given while on, at most."""
    assert share_spared(-180.0, 100.0) == 0.9
    assert spared(replace(HOPED, low=-400.0), heat(), ON).since_kwh.high == pytest.approx(9000.0)


def test_nothing_spares_more_than_the_heaters_could_have_given_on_top() -> None:
    """Heaters of 1.2 kW gave 1 kWh in each of 1000 h on: without the lever 200 more at most, not 3/7 of 1000, and at
    0.30 a kWh 60. At the low end a ninth is less than that and stands. Of 500 kWh off three tenths, 150, need less."""
    found = spared(HOPED, heat(room=np.full(1500, 0.2)), ON)
    assert (found.since_kwh.low, found.since_kwh.high) == pytest.approx((1000 / 9, 200.0))
    assert found.since_money is not None and found.since_money.high == pytest.approx(60.0)
    wide = spared(replace(HOPED, low=-15.0), heat(room=np.full(1500, 0.2)), ON)
    assert wide.winter_kwh.high == pytest.approx(0.15 / 0.85 * 1000 + 0.15 * 500)  # within the room: as it is


def test_room_is_counted_over_all_hours_together() -> None:
    """Half of the hours on had no room and half had room for 1 kWh: together 500 kWh, so that 3/7 of 1000 stand."""
    room_h = np.where(np.arange(1500) % 2 == 0, 0.0, 1.0)
    assert spared(HOPED, heat(room=room_h), ON).since_kwh.high == pytest.approx(1000 * 3 / 7)


def test_a_cost_too_needs_room_in_the_hours_without_it() -> None:
    """A quarter more of 1 kWh in each of 500 h off would be 125 kWh; with room for 0.1 an hour it is 50."""
    found = spared(replace(HOPED, effect=7.5, low=-10.0, high=25.0), heat(room=np.full(1500, 0.1)), ON)
    assert found.winter_kwh.low - found.since_kwh.low == pytest.approx(-50.0)


def test_the_room_of_the_heaters_is_what_their_plates_promise_less_what_they_gave() -> None:
    """2 kW and 0.5 kW, 0.75 kWh given: 1.75 on top; an hour that gave 2.6 shows that they can; the dehumidifier is no
    heater; a heater without a rated power leaves no bound."""
    two, half, dryer = (curve("fan", 2000.0), curve("tube", 500.0), curve("dryer", 300.0, "appliance"))
    assert room(np.array([0.75, 2.5]), [two, half, dryer]) == pytest.approx([1.75, 0.0])
    assert room(np.array([0.75, 2.6]), [two, half]) == pytest.approx([1.85, 0.0])
    assert np.isinf(room(np.array([0.75]), [two, curve("stove", None)])).all()


def curve(name: str, most_w: float | None, role: str = "main") -> HeatCurve:
    """A heater of which only its power is asked."""
    none = np.array([])
    return HeatCurve(
        name=name,
        role=role,
        by_hour=True,
        most_w=most_w,
        knots=none,
        kwh=none,
        cost=none,
        known=none,
        spread=none,
        sums=(),
    )


@pytest.mark.parametrize(("limit", "told"), [(500.0, 140.0), (120.0, 120.0), (50.0, None)])
def test_weeks_too_spare_no_more_than_the_room(limit: float, told: float | None) -> None:
    """100 ± 40 kWh since: the high end is cut at the room there was; a low end beyond it is refused."""
    found = _told(Averaged(since=(100.0, 40.0), winter=(150.0, 60.0)), heat(room=np.full(1500, limit / 1000)), ON, 20)
    assert (found.since_kwh.high if isinstance(found, Spared) else None) == (pytest.approx(told) if told else None)


def test_twice_the_heat_twice_the_saving() -> None:
    """kWh and money scale with the heat."""
    one, two = spared(HOPED, heat(), ON), spared(HOPED, heat(kwh=2 * np.ones(1500)), ON)
    assert two.winter_kwh.high == pytest.approx(2 * one.winter_kwh.high)


@pytest.mark.parametrize(("flat", "told"), [(150, False), (151, True)])
def test_flat_out_is_told_above_a_tenth_of_the_heated_hours(flat: int, told: bool) -> None:
    """150 of 1500 heated hours are a tenth; one more is more."""
    assert much_flat_out(heat(flat_out=np.arange(1500) < flat)) is told


def test_darkness_by_the_almanac_and_by_the_clock() -> None:
    """At 50° N 5 January has 8.1 h of sun (almanac), 15.9 h without: 16 whole hours, ± 1 for their middles. Without a
    latitude 21 to 5 h, the eight hours that are dark in any winter."""
    hours = pd.date_range("2026-01-05", periods=24, freq="1h", tz="Europe/Prague")
    placed = dark_hours(hours, season(place=Place(latitude=50.0, longitude=15.0)))
    assert abs(int(placed.sum()) - 16) <= 1
    assert not placed[12] and placed[0]
    clock = dark_hours(hours, season())
    assert int(clock.sum()) == 8 and clock[21] and clock[4] and not clock[5]


def weeks(noise: float = 0.0, off: int = 12, on: int = 12) -> tuple[Columns, np.ndarray, np.ndarray]:
    """Weeks whose heat is 0.2 kWh a kelvin-hour, a quarter less while the lever is on."""
    rng = np.random.default_rng(5)
    n = off + on
    cold = 1200.0 + 500.0 * rng.random(n)
    share_on = (np.arange(n) >= off).astype(float)
    kwh = 0.2 * cold * (1 - 0.25 * share_on) + noise * rng.standard_normal(n)
    x = np.column_stack([cold, cold * share_on])
    spread = np.sqrt(cold / cold.max())
    return Columns(x=x, spread=spread, on_kh=float(x[:, 1].sum()), all_kh=float(cold.sum())), kwh, np.arange(n) + 0.5


def test_by_weeks_a_known_share_comes_back() -> None:
    """A quarter of 0.2 kWh for each kelvin-hour of the weeks on, and of all weeks; the truth within the ends, which
    are narrow where the weeks hardly miss."""
    columns, kwh, middle = weeks(noise=2.0)
    found = averaged([columns], kwh, middle, WEEK_GRID)
    assert found is not None
    for (told, half), kelvin_hours in ((found.since, columns.on_kh), (found.winter, columns.all_kh)):
        truth = 0.05 * kelvin_hours
        assert abs(told - truth) < half < 0.2 * truth


def test_one_cell_is_the_textbook_estimator() -> None:
    """Coefficient and variance as statsmodels.GLS gives them, its residual variance over n − p − 1 instead of n − p."""
    columns, kwh, middle = weeks(noise=8.0)
    noise = 0.6 ** np.abs(middle[:, None] - middle[None, :]) + 0.03 * np.minimum(middle[:, None], middle[None, :])
    _, share, variance = _fit(columns, noise, kwh)
    reference = sm.GLS(kwh, columns.x, sigma=noise * np.outer(columns.spread, columns.spread)).fit()
    n, p = columns.x.shape
    assert share == pytest.approx(reference.params[1], rel=1e-8)
    assert variance == pytest.approx(reference.bse[1] ** 2 * (n - p) / (n - p - 1), rel=1e-8)


def periods(n: int) -> Periods:
    """Weeks of 10 kWh each."""
    edges = np.arange(n + 1) * 168.0
    return Periods(
        kwh=np.full(n, 10.0),
        middle=np.arange(n) + 0.5,
        first=edges[:-1],
        end=edges[1:],
        inside=np.ones(n * 168, dtype=bool),
        days=7.0,
    )


def test_under_four_heated_weeks_a_side_it_is_refused() -> None:
    """Three weeks on: too few, with their count and side; four: enough."""
    outdoor = np.zeros(12 * 168)
    for weeks_on, words in ((3, "only 3 heated weeks with it on"), (4, "")):
        on = np.arange(12 * 168) >= (12 - weeks_on) * 168
        assert too_few(periods(12), on, outdoor, daily=False).startswith(words)


def test_a_cost_at_both_ends_counts_sure_hours_at_the_better_one() -> None:
    """10 to 25 more of 100: at the worse end all hours, at the better one only dark ones with heat to spare: of 1000 on
    500, of 500 off none: −0.1/1.1 of 500."""
    hoped = replace(HOPED, effect=17.5, low=10.0, high=25.0)
    hours = np.arange(1500)
    found = spared(hoped, heat(dark=hours >= 900, flat_out=hours >= 1400), ON)
    assert found.since_kwh.high == found.winter_kwh.high == pytest.approx(-500 * 0.1 / 1.1)
    assert found.since_kwh.low == pytest.approx(-1000 * 0.25 / 1.25)
    assert found.relative == Range(low=-0.25, high=-0.1)


def test_an_end_at_nothing_counts_sure_hours_below_and_above() -> None:
    """Nothing spared at the low end is nothing, however many hours."""
    found = spared(replace(HOPED, effect=-10.0, low=-20.0, high=0.0), heat(), ON)
    assert found.since_kwh.low == found.winter_kwh.low == 0.0
    assert found.since_kwh.high == pytest.approx(250.0) and not found.flat_out


def test_heaters_that_gave_nothing_bound_nothing() -> None:
    """No heat in the hours on: nothing was spared; a tenth of those off as before."""
    kwh = np.where(ON, 0.0, 1.0)
    found = spared(HOPED, heat(kwh=kwh, room=np.zeros(1500)), ON)
    assert found.since_kwh.low == found.since_kwh.high == 0.0
    assert found.winter_kwh.low == pytest.approx(50.0)
    assert not much_flat_out(heat(heated=np.zeros(1500, dtype=bool), flat_out=np.ones(1500, dtype=bool)))
    idle = heat(heated=np.arange(1500) < 100, flat_out=np.arange(1500) >= 100)
    assert not much_flat_out(idle)  # at full power in hours that are not heated


def test_the_least_share_of_what_it_is() -> None:
    """−20 of 100 is a fifth; +20 costs a fifth; a lever takes nine tenths at most."""
    assert share_spared(-20.0, 100.0) == 0.2 and share_spared(20.0, 100.0) == -0.2
    assert share_spared(-89.0, 100.0) == pytest.approx(0.89) and share_spared(-91.0, 100.0) == 0.9
