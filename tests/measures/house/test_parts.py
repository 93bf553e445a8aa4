"""The parts of the house's balance, each on a case that can be worked out by hand (shown beside it)."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from measures.house.bare import plain_balance, plain_hours, plain_house
from scipy.optimize import lsq_linear
from scipy.stats import linregress

from reportgen.measures.house.balance import (
    _columns,
    _refuse_impossible,
    _refuse_too_little,
    _tells,
    fit_balance,
    refuse_unseen_cooling,
    usable,
)
from reportgen.measures.house.bed import fit_bed
from reportgen.measures.house.failure import Stops, air_after, stops
from reportgen.measures.house.hold import change_span, changes_by_part, ratios, share_of_run, usual_target
from reportgen.measures.house.hours import EVENING_H, MORNING_H, NIGHT_END_H, NIGHT_H, lagged
from reportgen.measures.house.loss import counted_nights, loss_by_state, loss_w_per_k
from reportgen.measures.house.response import Response, _loss_by_hour, after_stop, in_state, respond, run
from reportgen.measures.house.size import flat_out, size_w
from reportgen.measures.house.without_heat import NightLine, _nearer_the_line, without_heat
from reportgen.problems import NotEnoughData


class TestHours:
    def test_heated_is_over_two_percent_of_the_largest_logged_hour(self) -> None:
        """Of 1000 W that is 20 W; the 9000 W of an hour that is not logged do not count."""
        logged = np.array([True, True, True, True, False])
        hours = plain_hours(5, heaters_w=np.array([0.0, 20.0, 20.1, 1000.0, 9000.0]), logged=logged)
        assert hours.heated.tolist() == [False, False, True, True, True]

    def test_an_unheated_season_has_no_heated_hour(self) -> None:
        """Under 2 % of a watt is nothing at all."""
        assert not plain_hours(3, heaters_w=np.array([0.0, 0.01, 0.02])).heated.any()
        assert not plain_hours(2, logged=np.zeros(2, dtype=bool), heaters_w=np.zeros(2)).heated.any()

    def test_flat_out_is_95_percent_of_the_rated_power(self) -> None:
        """950 of 1000 W; none where the rated power is not known. In command: heated and not flat out."""
        watts = np.array([0.0, 500.0, 949.0, 950.0, 1000.0])
        hours = plain_hours(5, heaters_w=watts, rated_w=1000.0)
        assert hours.flat_out.tolist() == [False, False, False, True, True]
        assert hours.commanded.tolist() == [False, True, True, False, False]
        assert not plain_hours(5, heaters_w=watts).flat_out.any()

    @pytest.mark.parametrize(("count", "nights"), [(32, 0), (33, 1), (56, 1), (57, 2)])
    def test_an_evening_counts_where_the_season_holds_its_whole_night(self, count: int, nights: int) -> None:
        """18 to 33 h: the first ends with hour 33, the second with hour 57."""
        spans = plain_hours(count).nights(18, 33)
        assert spans.shape == (nights, 15)
        assert [row[0] for row in spans] == [18, 42][:nights] and [row[-1] for row in spans] == [32, 56][:nights]

    def test_the_nights_of_the_house_are_those_of_the_pages(self) -> None:
        """The long night is 18 to 9 h, night N 20 to 6 h (methods page, *Words*), in hours of the evening's day."""
        assert (EVENING_H, MORNING_H - 24, NIGHT_H, NIGHT_END_H - 24) == (18, 9, 20, 6)

    def test_a_lag_follows_a_step_by_its_exponential(self) -> None:
        """72 hours at 2, then 5: 5 − 3·e^(−n/4) after n hours (first-order lag, any textbook)."""
        found = lagged(np.concatenate([np.full(72, 2.0), np.full(20, 5.0)]), 4.0)
        assert found[:72] == pytest.approx(np.full(72, 2.0))
        assert found[72:] == pytest.approx(5.0 - 3.0 * np.exp(-np.arange(1.0, 21.0) / 4.0))

    def test_a_lag_begins_at_the_mean_of_the_first_three_days(self) -> None:
        """36 hours at 0 and 36 at 10 are 5 at the beginning; its first hour, at 0, is 5·e^(−1/4)."""
        values = np.concatenate([np.zeros(36), np.full(36, 10.0), np.full(100, 90.0)])
        assert lagged(values, 4.0)[0] == pytest.approx(5.0 * np.exp(-0.25))


class TestBalance:
    def test_which_terms_a_house_has(self) -> None:
        """With a probe and light: U of each state, W, C, G, three masses, one sun. Without a probe D and four masses;
        three suns where there is light. What each is worth is the equation at the head of the module."""
        n, rng = 200, np.random.default_rng(1)
        air, out = 8.0 + rng.standard_normal(n), rng.standard_normal(n)
        state = (np.arange(n) >= 100).astype(np.int64)
        sun, wind, probe = np.abs(rng.standard_normal(n)), np.abs(rng.standard_normal(n)), 9.0 + rng.standard_normal(n)
        hours = plain_hours(
            n, temp_air_c=air, temp_outdoor_c=out, state=state, sun_w_m2=sun, wind_m_s=wind, temp_soil_c=probe
        )
        columns = {c.name: c for c in _columns(hours)}
        assert list(columns) == ["U0", "U1", "W", "C", "G", "g0", "g1", "g2", "s0"]
        assert columns["U0"].values[99:101] == pytest.approx([air[99] - out[99], 0.0])
        assert columns["U1"].values[99:101] == pytest.approx([0.0, air[100] - out[100]])
        assert columns["W"].values == pytest.approx(wind * (air - out))
        assert columns["C"].values[50] == pytest.approx((air[51] - air[49]) / 2)
        assert columns["G"].values == pytest.approx(air - probe)
        assert columns["g1"].values == pytest.approx(air - lagged(air, 16.0))
        assert columns["s0"].values == pytest.approx(-lagged(sun, 4.0))
        grips = {"U0": 1.0, "U1": 1.0, "W": 3.0, "C": 0.0, "G": 1.0, "g2": np.exp(-1 / 64), "s0": 0.0}
        assert {name: columns[name].grip for name in grips} == pytest.approx(grips)
        without = {c.name: c for c in _columns(replace(hours, temp_soil_c=None, wind_m_s=None))}
        assert list(without) == ["U0", "U1", "C", "D", "g0", "g1", "g2", "g3", "s0", "s1", "s2"]
        assert without["D"].values == pytest.approx(air - out.mean())
        assert without["D"].grip == 1.0
        for n, lag in enumerate((4.0, 16.0, 64.0)):
            assert without[f"s{n}"].values == pytest.approx(-lagged(sun, lag))
        for n, lag in enumerate((4.0, 16.0, 64.0, 300.0)):
            assert without[f"g{n}"].values == pytest.approx(air - lagged(air, lag))
            assert without[f"g{n}"].grip == pytest.approx(np.exp(-1.0 / lag))
        assert without["g3"].values == pytest.approx(air - lagged(air, 300.0))

    def test_a_term_without_a_change_of_its_own_is_left_to_the_constant(self) -> None:
        """10 ± 0.4 varies by 4 % of its size, 10 ± 0.6 by 6 %; a loss always stays."""
        swing = np.where(np.arange(100) % 2, 1.0, -1.0)
        hours = plain_hours(100)
        used = np.ones(100, dtype=bool)
        loss, _, mass = _columns(hours)[0], *_columns(hours)[1:3]
        assert _tells(replace(loss, values=np.full(100, 10.0)), used)
        assert not _tells(replace(mass, values=10.0 + 0.4 * swing), used)
        assert _tells(replace(mass, values=10.0 + 0.6 * swing), used)

    @pytest.mark.parametrize(("term", "constant", "fine"), [(9.9, 9.9, True), (10.1, 0.0, False), (0.0, -10.1, False)])
    def test_terms_of_ten_times_the_heat_are_no_house(self, term: float, constant: float, fine: bool) -> None:
        """Heat of 300 and 400 W: root mean square √(250 000 / 2) = 353.6 W; ten times that is the most."""
        unit = np.sqrt(125_000.0)
        terms = np.array([[term * unit, 0.0], [-term * unit, 1.0]])
        heat = np.array([300.0, 400.0])
        if fine:
            return _refuse_impossible(terms, constant * unit, heat)
        with pytest.raises(NotEnoughData, match="too much alike"):
            _refuse_impossible(terms, constant * unit, heat)
        return None

    def test_hours_that_are_fitted(self) -> None:
        """Dark and logged, from the fourth day on, but for the last hour."""
        dark, logged = np.ones(100, dtype=bool), np.ones(100, dtype=bool)
        dark[80], logged[81] = False, False
        assert np.flatnonzero(usable(plain_hours(100, dark=dark, logged=logged))).tolist() == [
            *range(72, 80),
            *range(82, 99),
        ]

    def test_at_its_limit_is_over_five_percent_of_the_dark_hours(self) -> None:
        """5 % is not, 5.1 % is."""
        assert not plain_balance(1, limit_share=0.05).at_limit
        assert plain_balance(1, limit_share=0.051).at_limit

    def test_a_house_must_have_been_seen_to_cool_for_a_hundred_hours(self) -> None:
        """99 are too few, and the words say how many."""
        refuse_unseen_cooling(plain_balance(1, free_hours=100))
        with pytest.raises(NotEnoughData, match="all but 99 dark hours"):
            refuse_unseen_cooling(plain_balance(1, free_hours=99))

    @pytest.mark.parametrize(
        ("spread", "heated", "words"), [(2.05, 150, ""), (1.95, 150, "alike"), (2.05, 149, "only 149")]
    )
    def test_what_a_season_must_have(self, spread: float, heated: int, words: str) -> None:
        """150 dark heated hours of which the outdoor air varies by 2 K (standard deviation)."""
        n = 400
        out = np.where(np.arange(n) % 2, spread, -spread)
        watts = np.where((np.arange(n) >= 100) & (np.arange(n) < 100 + heated), 800.0 - 100.0 * out, 0.0)
        hours = plain_hours(n, temp_outdoor_c=out, heaters_w=watts)
        if not words:
            return _refuse_too_little(hours, usable(hours))
        with pytest.raises(NotEnoughData, match=words):
            _refuse_too_little(hours, usable(hours))
        return None


class TestBed:
    def lags(self, n: int) -> tuple[Any, list[np.ndarray]]:
        """Hours of a lively winter and the nine lagged curves of the module's head."""
        rng = np.random.default_rng(n)
        air, out = 10 + np.cumsum(rng.standard_normal(n)) * 0.3, np.cumsum(rng.standard_normal(n)) * 0.3
        sun = 100 * np.abs(rng.standard_normal(n)) * (np.arange(n) % 24 > 11)
        hours = plain_hours(n, temp_air_c=air, temp_outdoor_c=out, sun_w_m2=sun)
        curves = [lagged(air, lag) for lag in (6.0, 24.0, 96.0, 400.0)]
        curves += [lagged(out, lag) for lag in (24.0, 400.0)] + [lagged(sun, lag) for lag in (6.0, 24.0, 96.0)]
        return hours, curves

    def test_a_bed_made_by_its_equation_is_found(self) -> None:
        """Shares that agree with both priors (0.76 and 0.90 in all) leave nothing over, so they come back."""
        hours, curves = self.lags(3000)
        true = [0.20, 0.26, 0.20, 0.10, 0.09, 0.05, 0.003, 0.002, 0.001]
        made = replace(hours, temp_soil_c=4.0 + sum(part * curve for part, curve in zip(true, curves, strict=True)))
        found = fit_bed(made)
        assert found is not None
        assert found.to_air == pytest.approx(true[:4], abs=1e-4) and found.to_outdoors == pytest.approx(0.09, abs=1e-4)

    def test_a_bed_against_the_priors_is_weighed_as_the_head_of_the_module_says(self) -> None:
        """Shares of 0.30 in all on the air and 0.02 on the outdoors. The reference is scipy's bounded least squares on
        misfits in units of their own: readings ÷ (0.3 K · √(n / 60)), the two sums ÷ 0.05."""
        hours, curves = self.lags(600)
        true = [0.1, 0.1, 0.06, 0.04, 0.02, 0.0, 0.0, 0.0, 0.0]
        soil = sum(part * curve for part, curve in zip(true, curves, strict=True))
        soil = soil + 0.3 * np.random.default_rng(4).standard_normal(600)
        x, y = np.column_stack(curves)[72:], soil[72:]
        x, y = x - x.mean(axis=0), y - y.mean()
        unit = 0.3 * np.sqrt(len(y) / 60)
        rows = np.vstack([x / unit, np.r_[np.ones(4), np.zeros(5)] / 0.05, np.r_[np.ones(6), np.zeros(3)] / 0.05])
        wanted = lsq_linear(rows, np.r_[y / unit, 0.76 / 0.05, 0.90 / 0.05], (0, np.inf), tol=1e-14).x
        found = fit_bed(replace(hours, temp_soil_c=soil))
        assert found is not None
        assert 0.31 < sum(found.to_air) < 0.75  # between what the readings say alone and the prior alone
        assert found.to_air == pytest.approx(wanted[:4], abs=1e-4)
        assert found.to_outdoors == pytest.approx(wanted[4], abs=1e-4)

    def test_no_probe_no_bed(self) -> None:
        """And without light the sun takes no part."""
        assert fit_bed(plain_hours(200)) is None
        hours, curves = self.lags(1500)
        soil = 0.26 * (curves[0] + curves[1]) + 0.24 * curves[2] + 0.14 * curves[4]
        found = fit_bed(replace(hours, sun_w_m2=None, temp_soil_c=soil))
        assert found is not None and sum(found.to_air) == pytest.approx(0.76, abs=1e-4)


def linked(count: int = 60) -> Response:
    """A house with capacity, a mass of 16 h, a bed of 24 h that takes over six tenths, deep ground and lively hours."""
    local = np.random.default_rng(3)
    hours = plain_hours(
        count,
        temp_air_c=8.0 + local.standard_normal(count),
        heaters_w=800.0 + 300.0 * local.standard_normal(count),
        spread_w=20.0 * np.abs(local.standard_normal(count)),
    )
    return plain_house(
        hours,
        plain_balance(count, air_wh_k=250.0, deep_w_k=7.0, bed_w_k=30.0, masses=((90.0, 16.0),)),
        loss_w_k=100.0 + 20.0 * local.standard_normal(count),
        otherwise_w=15.0 * local.standard_normal(count),
        links_w_k=np.array([90.0, 18.0]),
        lags_h=np.array([16.0, 24.0]),
        held_w_k=7.0 + 30.0 + 90.0,
        bed_outdoors_w_k=4.0,
    )


def matrix(house: Response) -> np.ndarray:
    """The balance of a change of the air, as it stands before anything is rearranged: U·x + C·Δx + D·x + g·(x − L(x)) +
    G·(x − 0.6·L(x)); the lag as a matrix of its exponential weights."""
    n = house.hours.count
    step = np.arange(n)[:, None] - np.arange(n)[None, :]

    def lag(hours: float) -> np.ndarray:
        keep = np.exp(-1.0 / hours)
        return np.where(step >= 0, (1.0 - keep) * keep ** np.maximum(step, 0), 0.0)

    same = np.eye(n)
    rise = same - np.eye(n, k=-1)
    whole = np.diag(house.loss_w_k) + 250.0 * rise + 7.0 * same + 90.0 * (same - lag(16.0))
    return whole + 30.0 * (same - 0.6 * lag(24.0))


class TestResponse:
    def test_the_winter_without_heat_solves_the_balance(self) -> None:
        """All heat taken away, the hours solved one after the other, against numpy's dense solver of the whole."""
        house = linked()
        air, heat = run(house)
        gone = house.hours.heaters_w + house.hours.spread_w + house.otherwise_w
        assert not heat.any()
        assert air - house.hours.temp_air_c == pytest.approx(np.linalg.solve(matrix(house), -gone), abs=1e-9)

    def test_a_colder_winter_takes_the_loss_and_what_goes_through_the_ground(self) -> None:
        """5 K colder: 5 · (U + 4 · (1 − e^(−t/100 h))) more."""
        house = linked()
        gone = house.hours.heaters_w + house.hours.spread_w + house.otherwise_w
        gone = gone + 5.0 * (house.loss_w_k + 4.0 * (1.0 - np.exp(-np.arange(60) / 100.0)))
        air, _ = run(house, colder_k=5.0)
        assert air - house.hours.temp_air_c == pytest.approx(np.linalg.solve(matrix(house), -gone), abs=1e-9)

    def test_a_thermostat_gives_just_what_keeps_its_target(self) -> None:
        """Every hour: no heat and at least the target, or the target met exactly, or the limit and under it; and the
        balance holds with that heat."""
        house = linked()
        target = np.where(np.arange(60) % 12 < 6, 8.0, 4.0)
        air, heat = run(house, target, 950.0)
        gone = house.hours.heaters_w + house.hours.spread_w + house.otherwise_w
        assert matrix(house) @ (air - house.hours.temp_air_c) == pytest.approx(heat - gone, abs=1e-7)
        idle, full = heat == 0, heat == 950.0
        assert (air[idle] >= target[idle]).all() and (air[full] <= target[full]).all()
        assert air[~idle & ~full] == pytest.approx(target[~idle & ~full])
        assert idle.any() and full.any() and (~idle & ~full).any()

    def test_after_a_stop_the_same_balance_begins_anew_each_night(self) -> None:
        """The matrix from the hour of the stop on, for eight hours, at two starts."""
        house = linked()
        found = after_stop(house, np.array([10, 30]), 8)
        whole = matrix(house)
        gone = house.hours.heaters_w + house.hours.spread_w + house.otherwise_w
        for column, start in enumerate((10, 30)):
            part = slice(start, start + 8)
            fall = np.linalg.solve(whole[part, part], -gone[part])
            assert found[:, column] - house.hours.temp_air_c[part] == pytest.approx(fall, abs=1e-9)

    def test_what_holds_the_air_at_once_and_what_still_does_later(self) -> None:
        """At once: U + C + K₀ less what the links take back in the hour; after h hours K₀ − Σ w·(1 − e^(−h/lag))."""
        house = linked()
        eased = 90.0 * (1 - np.exp(-1 / 16)) + 18.0 * (1 - np.exp(-1 / 24))
        assert house.stiffness_w_k() == pytest.approx(house.loss_w_k + 250.0 + 127.0 - eased)
        later = 90.0 * (1 - np.exp(-8 / 16)) + 18.0 * (1 - np.exp(-8 / 24))
        assert house.eased_w_k(8) == pytest.approx(127.0 - later)

    def test_the_house_in_another_state_all_along(self) -> None:
        """200 W/K in the first state, 150 in the second: its hours of the first lose a quarter less."""
        n = 4
        hours = plain_hours(n, state=np.array([0, 0, 1, 1]))
        loss = np.array([220.0, 200.0, 150.0, 120.0])
        both = plain_balance(n, loss_w_k=np.array([200.0, 150.0]))
        tight = in_state(plain_house(hours, both, loss_w_k=loss, fitted_loss_w_k=loss + 1.0), 1)
        assert tight.loss_w_k == pytest.approx([165.0, 150.0, 150.0, 120.0])
        assert tight.fitted_loss_w_k == pytest.approx([221 * 0.75, 201 * 0.75, 151.0, 121.0])
        assert tight.otherwise_w == pytest.approx([-55.0 * 8.0, -50.0 * 8.0, 0.0, 0.0])

    def test_an_hours_misfit_is_mostly_more_or_less_loss(self) -> None:
        """80 W in one hour are 16 in the mean of five, 2 W/K at a lift of 8 K; between known hours alone. At a lift of
        1 K it counts as at 2 K."""
        misfit = np.zeros(12)
        misfit[5] = 80.0
        hours, usual = plain_hours(12), np.full(12, 100.0)
        found = _loss_by_hour(hours, plain_balance(12, misfit_w=misfit), usual)
        assert found == pytest.approx([100.0] * 3 + [102.0] * 5 + [100.0] * 4)
        misfit[3] = np.nan
        found = _loss_by_hour(hours, plain_balance(12, misfit_w=misfit), usual)
        assert found[3:6] == pytest.approx([100.0, 102.5, 102.5])
        near = plain_hours(12, temp_outdoor_c=np.full(12, 7.0))
        misfit[3] = 0.0
        assert _loss_by_hour(near, plain_balance(12, misfit_w=misfit), usual)[5] == pytest.approx(108.0)

    def test_an_hours_loss_stays_within_two_fifths_and_two_and_a_half(self) -> None:
        """Whatever its misfit."""
        hours, usual = plain_hours(9), np.full(9, 100.0)
        for watts, bound in ((9000.0, 250.0), (-9000.0, 40.0)):
            found = _loss_by_hour(hours, plain_balance(9, misfit_w=np.full(9, watts)), usual)
            assert found == pytest.approx(np.full(9, bound))

    def test_a_fitted_house_has_the_links_of_its_masses_and_of_its_bed(self) -> None:
        """Masses at their own lags, the bed's G · share at 6, 24, 96, 400 h; K₀ = D + G + Σg; wind adds to the loss."""
        from measures.house.made_house import Made, hours_of, stepped, weather

        out = weather(days=60)
        air, heat = stepped(Made(), out)
        rng = np.random.default_rng(5)
        more = {"temp_soil_c": lagged(air, 30.0) + 1.0, "wind_m_s": np.abs(rng.standard_normal(len(out)))}
        house = respond(hours_of(Made(), out, air, heat, **more))
        fitted, bed = house.balance, house.bed
        assert bed is not None and fitted.kind == "probe"
        masses = [g for g, _ in fitted.masses]
        assert house.links_w_k == pytest.approx([*masses, *(fitted.bed_w_k * share for share in bed.to_air)])
        assert house.lags_h.tolist() == [*(lag for _, lag in fitted.masses), 6.0, 24.0, 96.0, 400.0]
        assert house.held_w_k == pytest.approx(fitted.deep_w_k + fitted.bed_w_k + sum(masses))
        assert house.bed_outdoors_w_k == pytest.approx(fitted.bed_w_k * bed.to_outdoors)
        assert house.fitted_loss_w_k == pytest.approx(fitted.loss_w_k[0] + fitted.wind_w_k * more["wind_m_s"])
        assert not house.otherwise_w.any()


class TestFailure:
    STOPPED = Stops(
        air_c={3: np.array([6.0, 6.0]), 8: np.array([5.0, 5.0])},
        outdoor_c={3: np.array([0.0, 2.0]), 8: np.array([0.0, 4.0])},
        slope={3: 0.2, 8: 0.5},
        kind="no probe",
    )

    def test_stopped_nights_are_moved_and_weighed(self) -> None:
        """8 h, at 0 °C: 5 and 5 + 0.5 · (0 − 4) = 3, weights 1 and e^(−½) = 0.60653: 7.81959 / 1.60653 = 4.2449; sd
        √(0.62246 · 0.7551² + 0.37754 · 1.2449²) = 0.96955. Under a hold of 8: √(1² + (0.22 · 3.7551)² +
        (1.645 · 0.96955)²)."""
        told_c, half = air_after(self.STOPPED, 0.0, 8, 8.0)
        assert told_c == pytest.approx(4.2449, abs=1e-4)
        assert half == pytest.approx(np.sqrt(1 + (0.22 * 3.7551) ** 2 + (1.645 * 0.96955) ** 2), abs=1e-3)

    def test_nights_as_far_to_either_side_weigh_the_same(self) -> None:
        """8 h, at 2 °C, between the nights of 0 and 4 °C: 5 + 0.5 · 2 = 6 and 5 − 0.5 · 2 = 4, in the mean 5, 1 K to
        either side: √(1² + (0.22 · 3)² + 1.645²)."""
        told_c, half = air_after(self.STOPPED, 2.0, 8, 8.0)
        assert (told_c, half) == (pytest.approx(5.0), pytest.approx(np.sqrt(1 + 0.66**2 + 1.645**2)))

    def test_beyond_the_coldest_night_the_band_widens_by_015_for_each_kelvin(self) -> None:
        """10 K under the coldest of two nights, both told alike there (slope 0)."""
        one = replace(self.STOPPED, slope={3: 0.0, 8: 0.0})
        told_c, half = air_after(one, -10.0, 8, 8.0)
        assert (told_c, half) == (pytest.approx(5.0), pytest.approx(np.sqrt(1 + 0.66**2 + 1.5**2)))
        assert air_after(one, 0.0, 8, 8.0)[1] == pytest.approx(np.hypot(1.0, 0.66))

    def test_never_over_the_hold(self) -> None:
        """A mild evening: told is the hold, and no drop widens the band."""
        one = replace(self.STOPPED, slope={3: 0.0, 8: 0.0})
        assert air_after(one, 4.0, 8, 4.0) == (4.0, pytest.approx(1.0))

    @pytest.mark.parametrize(
        ("kind", "hours", "least", "share"),
        [
            ("probe", 3, 1.2, 0.20), ("probe", 8, 2.0, 0.14), ("no probe", 3, 2.2, 0.25), ("no probe", 8, 1.0, 0.22),
            ("meter", 3, 1.2, 0.20), ("meter", 8, 2.2, 0.15),
        ],
    )  # fmt: skip
    def test_the_bands_of_the_study(self, kind: str, hours: int, least: float, share: float) -> None:
        """√(a² + (b · drop)²) with the study's a and b: 2 K under the hold, all nights alike."""
        air, out = {3: np.full(2, 6.0), 8: np.full(2, 6.0)}, {3: np.zeros(2), 8: np.zeros(2)}
        stopped = Stops(air_c=air, outdoor_c=out, slope={3: 0.1, 8: 0.1}, kind=kind)
        assert air_after(stopped, 0.0, hours, 8.0)[1] == pytest.approx(np.hypot(least, share * 2.0))

    def test_the_mildest_night_is_the_mildest_after_eight_hours(self) -> None:
        """4 °C."""
        assert self.STOPPED.mildest_c == 4.0

    def house(self, **more: Any) -> Response:
        """12 nights of a house that holds 50 W/K by a mass of 16 h, a degree warmer outdoors every hour of the day."""
        n = 13 * 24
        hours = plain_hours(n, temp_outdoor_c=np.arange(n) % 24.0, **more)
        links = {"links_w_k": np.array([50.0]), "lags_h": np.array([16.0]), "held_w_k": 50.0}
        return plain_house(hours, plain_balance(n, kind="meter"), **links)

    def test_every_heated_night_is_stopped_at_20_h(self) -> None:
        """After 3 h the outdoor air of 20 to 23 h is meant (21 °C by this house's clock), after 8 h that of 1 to 4 h
        (2); the slope is U / (U + what still holds)."""
        found = stops(self.house())
        assert found.kind == "meter" and len(found.air_c[3]) == 12
        assert (found.outdoor_c[3][0], found.outdoor_c[8][0]) == (21.0, 2.0)
        for h in (3, 8):
            assert found.slope[h] == pytest.approx(100.0 / (150.0 - 50.0 * (1.0 - np.exp(-h / 16.0))))
        first = -800.0 / (150.0 - 50.0 * (1.0 - np.exp(-1.0 / 16.0)))
        assert after_stop(self.house(), np.array([20]), 1)[0, 0] == pytest.approx(8.0 + first)
        whole = after_stop(self.house(), np.array([20]), 8)[:, 0]
        assert (found.air_c[3][0], found.air_c[8][0]) == (pytest.approx(whole[2]), pytest.approx(whole[7]))

    def test_a_night_with_a_tenth_of_the_usual_heat_or_a_gap_is_none(self) -> None:
        """800 W at the ninth decile: nights of 80 W in the mean are left out, those of 81 are not; ten are needed."""
        watts, logged = np.full(13 * 24, 800.0), np.ones(13 * 24, dtype=bool)
        watts[20:28], watts[44:52], logged[68 + 7] = 80.0, 81.0, False
        assert len(stops(self.house(heaters_w=watts, logged=logged)).air_c[3]) == 10
        noon = np.where(np.arange(13 * 24) % 24 == 12, 5000.0, watts)  # an hour of 24 is no decile
        assert len(stops(self.house(heaters_w=noon, logged=logged)).air_c[3]) == 10
        logged[92] = False
        with pytest.raises(NotEnoughData, match="only 9 nights were heated and fully logged; 10 are needed"):
            stops(self.house(heaters_w=watts, logged=logged))


class TestHold:
    def test_heat_at_another_hold_in_a_house_of_one_loss(self) -> None:
        """100 W/K from 0 °C to 8 °C takes 800 W; to 9 and 7 °C nine and seven eighths. With a rated power of 850 W,
        9 °C takes all of it: 850 / 800."""
        house, target = plain_house(plain_hours(48)), np.full(48, 8.0)
        assert ratios(house, target, (0.0, 1.0, -1.0)) == pytest.approx([1.0, 9 / 8, 7 / 8])
        small = plain_house(plain_hours(48, rated_w=850.0))
        assert ratios(small, target, (1.0,)) == pytest.approx([850 / 800])
        logged_more = plain_house(plain_hours(48, rated_w=700.0))  # what was logged counts, whatever the plate says
        assert ratios(logged_more, target, (0.0, 1.0)) == pytest.approx([1.0, 1.0])
        assert ratios(house, np.full(48, -5.0), (1.0, 2.0)) == [1.0, 1.0]

    def test_the_usual_target(self) -> None:
        """In command, the logged air; elsewhere the colder tenth of the dark, logged air in command: of 5.0, 5.1 … 9.0
        (41 hours) that is 5.4. With 20 such hours or fewer it is the hold."""
        air = np.concatenate([np.linspace(5.0, 9.0, 41), [15.0, 2.0, 1.0]])
        watts, dark, logged = np.full(44, 500.0), np.ones(44, dtype=bool), np.ones(44, dtype=bool)
        watts[41], dark[42], logged[43] = 0.0, False, False
        hours = plain_hours(44, temp_air_c=air, heaters_w=watts, dark=dark, logged=logged)
        found = usual_target(plain_house(hours), 6.5)
        assert found == pytest.approx([*air[:41], 5.4, 2.0, 1.0])
        logged[20:] = False
        assert usual_target(plain_house(replace(hours, logged=logged)), 6.5)[41] == 6.5
        logged[20] = True
        assert usual_target(plain_house(replace(hours, logged=logged)), 6.5)[41] == pytest.approx(5.2)

    @pytest.mark.parametrize(
        ("kind", "low", "high"), [("probe", 0.86, 1.20), ("no probe", 0.80, 1.20), ("meter", 0.82, 1.40)]
    )
    def test_the_change_has_the_band_of_the_study(self, kind: str, low: float, high: float) -> None:
        """True ÷ told change of heat by the run."""
        assert change_span(plain_house(plain_hours(2), plain_balance(2, kind=kind))) == (low, high)

    def test_a_heater_at_its_limit_has_a_band_and_a_share_of_its_own(self) -> None:
        """0.75 to 1.20, by the run alone; else half of it, and none where a meter tells the heat."""
        house = plain_house(plain_hours(2), plain_balance(2, limit_share=0.2))
        assert (change_span(house), share_of_run(house)) == ((0.75, 1.20), 1.0)
        assert share_of_run(plain_house(plain_hours(2))) == 0.5
        assert share_of_run(plain_house(plain_hours(2, by_meter=True))) == 0.0

    def test_changes_by_part_of_the_winter(self) -> None:
        """100 W/K from 0 °C to 8 °C in four days; a kelvin more in the first day is an eighth of a quarter of the
        whole; hours in no part count in none. With a rated power of 850 W no more than 50 W are added."""
        part = np.repeat([0, 1, 1, -1], 24)
        moves = [np.repeat([1.0, 0.0, -2.0, 4.0], 24)]
        house, target = plain_house(plain_hours(96)), np.full(96, 8.0)
        assert changes_by_part(house, target, moves, part).tolist() == [pytest.approx([1 / 32, -2 / 32])]
        small = plain_house(plain_hours(96, rated_w=850.0))
        assert changes_by_part(small, target, moves, part).tolist() == [pytest.approx([50 / 3200, -2 / 32])]
        assert changes_by_part(house, np.full(96, -50.0), moves, part).tolist() == [[0.0, 0.0]]


class TestLoss:
    def house(self, days: int = 12, kind: str = "probe", **more: Any) -> Response:
        """100 W/K and a constant of 40 W, a misfit of 40 W, at a lift of 8 K."""
        n = 24 * days
        misfit = np.full(n, 40.0)
        misfit[20] = np.nan  # an hour that was not fitted has none
        return plain_house(plain_hours(n, **more), plain_balance(n, constant_w=40.0, misfit_w=misfit, kind=kind))

    @pytest.mark.parametrize(
        ("kind", "low", "high"), [("probe", 0.84, 1.16), ("no probe", 0.82, 1.44), ("meter", 0.82, 1.14)]
    )
    def test_the_loss_of_the_counted_nights(self, kind: str, low: float, high: float) -> None:
        """11 whole nights of ten hours: 0.98 · (100 · 8 + 40 + 40 · 109 / 110) / 8 W/K."""
        found, nights = loss_w_per_k(self.house(kind=kind))
        middle = 0.98 * (840.0 + 40.0 * 109 / 110) / 8.0
        assert nights == 11
        assert (found.estimate, found.low, found.high) == pytest.approx((middle, middle * low, middle * high))

    def test_which_nights_count(self) -> None:
        """Heated seven hours of ten, 3.1 K over outdoors, all logged. Six hours, 3 K or one hour lost do not."""
        n = 24 * 6
        watts, out, logged = np.full(n, 800.0), np.zeros(n), np.ones(n, dtype=bool)
        watts[20:23], watts[44:48] = 0.0, 0.0
        out[68:78], out[92:102], logged[125] = 5.0, 4.9, False
        hours = plain_hours(n, heaters_w=watts, temp_outdoor_c=out, logged=logged)
        assert counted_nights(plain_house(hours)).tolist() == [True, False, False, True, False]

    def test_seven_nights_and_by_state_seventy_hours(self) -> None:
        """Six nights are too few; of two states the second has seven nights, the first four and part of another."""
        with pytest.raises(NotEnoughData, match="only 6 nights"):
            loss_w_per_k(self.house(days=7))
        assert loss_w_per_k(self.house(days=8))[1] == 7
        change = 4 * 24 + 25
        two = self.house(state=(np.arange(12 * 24) >= change).astype(np.int64))
        two = replace(two, fitted_loss_w_k=np.where(np.arange(12 * 24) < change, 100.0, 50.0))
        found = loss_by_state(two)
        assert (found[0][0], found[0][1], found[1][1]) == (None, 4, 6)
        assert found[1][0] is None  # 6 nights and five hours: 65
        early = replace(two, hours=replace(two.hours, state=(np.arange(12 * 24) >= 4 * 24).astype(np.int64)))
        early = replace(early, fitted_loss_w_k=np.where(np.arange(12 * 24) < 4 * 24, 100.0, 50.0))
        loss, nights = loss_by_state(early)[1]
        assert loss is not None and nights == 7
        # 76 hours: seven nights, and the morning of the one that began in the first state
        assert loss.estimate == pytest.approx(0.98 * (50.0 * 8.0 + 40.0 + 40.0) / 8.0)

    def test_every_state_has_its_loss_and_no_other_is_told(self) -> None:
        """Two states have two losses."""
        two = self.house(state=(np.arange(12 * 24) >= 4 * 24).astype(np.int64))
        assert list(loss_by_state(two)) == [0, 1]
        assert list(loss_by_state(self.house())) == [0]


class TestSize:
    def test_the_hardest_three_hours_count(self) -> None:
        """100 W/K to 8 °C: 800 W, and 1400, 2000, 1100 W in three hours on end: 1500 W in the mean. The study's shares
        0.89, 0.97, 1.07; a heater at its limit 0.83, 1.03, 1.25; 5 K colder, 2000 W, 0.88, 0.98, 1.16."""
        air = np.full(72, 8.0)
        air[30:33] = [2.0, -4.0, 5.0]
        hours = plain_hours(72, temp_air_c=air, temp_outdoor_c=air - 8.0)
        for share, colder, wanted in (
            (0.0, 0.0, (1335.0, 1455.0, 1605.0)),
            (0.2, 0.0, (1245.0, 1545.0, 1875.0)),
            (0.0, 5.0, (1760.0, 1960.0, 2320.0)),
            (0.2, 5.0, (1660.0, 2060.0, 2500.0)),
        ):
            found = size_w(plain_house(hours, plain_balance(72, limit_share=share)), 8.0, colder)
            assert (found.low, found.estimate, found.high) == pytest.approx(wanted)

    def test_sums_of_a_meter_tell_no_size(self) -> None:
        """Neither the heater needed nor where it runs flat out."""
        house = plain_house(plain_hours(72, rated_w=900.0), plain_balance(72, kind="meter"))
        for ask in (size_w, flat_out):
            with pytest.raises(NotEnoughData, match="not a meter's sums"):
                ask(house, 8.0)

    def frosty(self, rated_w: float | None, share: float = 0.0, days: int = 60) -> Response:
        """100 W/K that stands 8 K over the outdoors with 800 W: to keep 8 °C it takes 800 W − 100 W/K · T_out. Nights
        go from −4 °C to +4 °C and back."""
        out = np.repeat(4.0 * np.cos(np.arange(days) * 2 * np.pi / 20), 24)
        hours = plain_hours(24 * days, temp_air_c=out + 8.0, temp_outdoor_c=out, rated_w=rated_w)
        return plain_house(hours, plain_balance(24 * days, limit_share=share))

    def test_flat_out_is_where_the_need_meets_the_rated_power(self) -> None:
        """0.97 · (800 − 100 T) = 1000 at −2.309 °C, within the winter: half-width 2.5 K. 1400 W: −6.433 °C, beyond the
        coldest night by what lies under the coldest settled one: a tenth warmer, 0.15 K wider for each kelvin."""
        found = flat_out(self.frosty(1000.0), 8.0)
        assert (found.outdoor_c, found.half_k) == (pytest.approx(-2.3093, abs=1e-3), pytest.approx(2.5))
        found = flat_out(self.frosty(1400.0), 8.0)
        nights = np.repeat(4.0 * np.cos(np.arange(60) * 2 * np.pi / 20), 24)[20:][: 59 * 24]
        coldest = nights.reshape(-1, 24)[9:-9, :10].mean(axis=1).min()
        beyond = coldest + 6.43299
        assert found.outdoor_c == pytest.approx(-6.43299 - 0.10 * beyond, abs=1e-3)
        assert found.half_k == pytest.approx(2.5 + 0.15 * beyond, abs=1e-3)
        tired = flat_out(self.frosty(1000.0, share=0.2), 8.0)
        assert tired.outdoor_c == pytest.approx(8.0 - 1000.0 / 103.0, abs=1e-3)

    @pytest.mark.parametrize(
        ("rated", "words"),
        [(None, "needs rated_power_w"), (9000.0, "beyond anything"), (2100.0, "more than 8 K")],
    )
    def test_what_flat_out_cannot_tell(self, rated: float | None, words: str) -> None:
        """No rated power; one that no copy of this winter needs; one that is met over 8 K under the coldest night:
        0.97 · (800 − 100 T) = 2100 at −13.6 °C."""
        with pytest.raises(NotEnoughData, match=words):
            flat_out(self.frosty(rated), 8.0)

    def test_only_nights_that_needed_the_rated_power_within_three_tenths_are_joined(self) -> None:
        """Nights that stand 0 to 1.5 K off, by turns, so that the need scatters: 0.97 · (800 − 100 · (T + off) + 100 ·
        colder). The line is scipy's regression through what lies between 700 and 1300 W."""
        days = 60
        off = np.repeat(np.random.default_rng(8).uniform(0.0, 1.5, days), 24)
        out = np.repeat(4.0 * np.cos(np.arange(days) * 2 * np.pi / 20), 24)
        off, out = np.roll(off, 18), np.roll(out, 18)  # steady through every night of 20 to 6 h
        hours = plain_hours(24 * days, temp_air_c=out + 8.0 + off, temp_outdoor_c=out, rated_w=1000.0)
        nights = slice((days - 1) // 6, days - 1 - (days - 1) // 6)
        x, wiggle = (one[20:][: 24 * (days - 1)].reshape(-1, 24)[:, :10].mean(axis=1)[nights] for one in (out, off))
        colder = np.arange(0.0, 25.0, 4.0)[:, None]
        need = (0.97 * (800.0 - 100.0 * (x + wiggle) + 100.0 * colder)).ravel()
        near = np.abs(need - 1000.0) < 300.0
        fit = linregress((x - colder).ravel()[near], need[near])
        found = flat_out(plain_house(hours, plain_balance(24 * days)), 8.0)
        assert found.outdoor_c == pytest.approx((1000.0 - fit.intercept) / fit.slope)

    def test_fifteen_nights_must_have_needed_nearly_the_rated_power(self) -> None:
        """Within 12 % of 1000 W, over the winter and its six colder copies, the first and last sixth of the nights left
        out: counted here by 0.97 · (800 − 100 · (T − colder)) for winters of 12 to 40 days."""
        seen = set()
        for days in range(12, 41):
            nights = self.frosty(1000.0, days=days).hours.temp_outdoor_c[20:][: 24 * (days - 1)].reshape(-1, 24)
            mean = nights[:, :10].mean(axis=1)
            mean = mean[len(mean) // 6 : len(mean) - len(mean) // 6]
            need = 0.97 * (800.0 - 100.0 * (mean[:, None] - np.arange(0.0, 25.0, 4.0)[None, :]))
            near = int((np.abs(need - 1000.0) < 120.0).sum())
            seen.add(near)
            if near < 15:
                with pytest.raises(NotEnoughData, match="beyond anything"):
                    flat_out(self.frosty(1000.0, days=days), 8.0)
            else:
                assert flat_out(self.frosty(1000.0, days=days), 8.0).outdoor_c == pytest.approx(-2.3093, abs=1e-3)
        assert {14, 15} <= seen

    def test_a_need_that_does_not_follow_the_cold_tells_nothing(self) -> None:
        """Told of a house whose fitted loss is four times as large as what its need shows."""
        house = self.frosty(1000.0)
        steep = replace(house, fitted_loss_w_k=np.full(house.hours.count, 320.0))
        assert flat_out(steep, 8.0).half_k == pytest.approx(2.5)  # 97 W/K is 30.3 % of 320
        steep = replace(house, fitted_loss_w_k=np.full(house.hours.count, 330.0))
        with pytest.raises(NotEnoughData, match="closely enough"):
            flat_out(steep, 8.0)


class TestWithoutHeat:
    def test_the_line_has_a_knee_and_a_floor(self) -> None:
        """1 + 0.5 · floor + 0.2 · min(floor, −2) + 0.1 · 3 at 4 °C: floor 3: 1 + 1.5 − 0.4 + 0.3 = 2.4, held at the
        floor of 3; at −4 °C: floor −5: 1 − 2.5 − 1 + 0.3 = −2.2."""
        line = NightLine(weights=np.array([1.0, 0.5, 0.2, 0.1]), knee_c=-2.0, week_c=3.0, half_k=1.0)
        assert line.at(4.0) == pytest.approx(3.0)
        assert line.at(-4.0) == pytest.approx(-2.2)

    def test_a_night_is_moved_by_two_fifths_towards_the_line(self) -> None:
        """The line by numpy's polynomial fit where the week does not vary by more than the floor does."""
        rng = np.random.default_rng(2)
        floor, week = rng.uniform(-8, 4, 40), rng.uniform(-2, 2, 40)
        low = 2.0 + 0.6 * floor + 0.1 * np.minimum(floor, np.median(floor)) + 0.2 * week + rng.standard_normal(40)
        found, line = _nearer_the_line(low, floor, week, np.ones(40, dtype=bool))
        assert line is not None
        x = np.column_stack([np.ones(40), floor, np.minimum(floor, np.median(floor)), week])
        fitted = x @ np.linalg.solve(x.T @ x, x.T @ low)  # the normal equations
        assert found == pytest.approx(0.6 * low + 0.4 * fitted)
        assert (line.knee_c, line.week_c) == (pytest.approx(np.median(floor)), pytest.approx(np.median(week)))
        assert line.half_k == pytest.approx(np.quantile(np.abs(low - fitted), 0.95))
        few = np.arange(40) < 7
        assert _nearer_the_line(low, floor, week, few)[1] is None
        assert _nearer_the_line(low, floor, week, np.arange(40) < 8)[1] is not None

    @pytest.mark.parametrize(
        ("kind", "share", "least", "part"),
        [("probe", 0, 1.1, 0.17), ("no probe", 0, 1.0, 0.22), ("meter", 0, 1.0, 0.17), ("probe", 0.2, 1.65, 0.17)],
    )
    def test_nights_of_a_house_without_any_capacity(self, kind: str, share: float, least: float, part: float) -> None:
        """8 °C by 800 W and 100 W/K: 0 °C without heat. The coldest hour of the night is the outdoor air's own: 2 K
        colder at 3 h, −2 °C. Taken: 8 K; the season's band 0.8 K more in squares."""
        n = 24 * 4
        dip = np.where(np.arange(n) % 24 == 3, -2.0, 0.0)
        hours = plain_hours(n, temp_air_c=8.0 + dip, temp_outdoor_c=dip)
        balance = plain_balance(n, kind=kind, limit_share=share)
        told_ = without_heat(plain_house(hours, balance), np.array([True, False, True]))
        half = np.hypot(least, part * 8.0)
        assert told_.estimate_c.tolist() == pytest.approx([-2.0, np.nan, -2.0], nan_ok=True)
        assert told_.half_k.tolist() == pytest.approx([half, np.nan, half], nan_ok=True)
        assert told_.season_c == pytest.approx(-2.0) and told_.season_half_k == pytest.approx(np.hypot(half, 0.8))
        assert told_.line is None  # two nights carry none

    def test_a_night_from_which_no_heat_is_taken_has_the_least_band(self) -> None:
        """Air as warm as outdoors, no heat: nothing changes, and ± 1.1 K is all."""
        hours = plain_hours(48, temp_outdoor_c=np.full(48, 8.0), heaters_w=np.zeros(48))
        told_ = without_heat(plain_house(hours), np.array([True]))
        assert (told_.estimate_c[0], told_.half_k[0]) == (pytest.approx(8.0), pytest.approx(1.1))

    def test_never_more_than_a_kelvin_under_the_outdoor_air(self) -> None:
        """A balance that would have it 8 K under: 1 K."""
        hours = plain_hours(48, temp_air_c=np.zeros(48))
        told_ = without_heat(plain_house(hours), np.array([True]))
        assert told_.estimate_c == pytest.approx([-1.0])
        assert told_.half_k == pytest.approx([np.hypot(1.1, 0.17)])


def test_a_house_whose_air_never_moves_has_only_its_loss() -> None:
    """8 °C all along, 150 W/K · lift: neither capacity, masses nor deep ground show, and each is 0."""
    from measures.house.made_house import weather

    out = weather(days=60)
    n = len(out)
    hours = plain_hours(
        n, temp_air_c=np.full(n, 8.0), temp_outdoor_c=out, heaters_w=np.maximum(150.0 * (8.0 - out), 0.0)
    )
    found = fit_balance(replace(hours, dark=hours.heaters_w > 0))
    assert found.loss_w_k[0] == pytest.approx(150.0, rel=1e-3) and found.constant_w == pytest.approx(0.0, abs=5.0)
    assert (found.wind_w_k, found.air_wh_k, found.bed_w_k, found.deep_w_k, found.masses) == (0.0, 0.0, 0.0, 0.0, ())
    heat = hours.heaters_w[72:-1]
    barely = int(((heat > 0) & (heat <= 0.02 * hours.heaters_w.max())).sum())  # not heated: the air is left to itself
    assert (found.limit_share, found.free_hours, found.kind) == (0.0, barely, "no probe")
