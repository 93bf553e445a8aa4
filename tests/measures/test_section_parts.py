"""What the sections put together and why something is missing; by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from heated_house import hours, supply
from heated_house import house as heated
from made_season import ZONE, channel, heater, logger, picking, planting, readings, season
from measures.house.bare import plain_balance, plain_hours, plain_house
from scipy.optimize import minimize

from reportgen.measures.damp_air import inside
from reportgen.measures.damp_tables import by_night
from reportgen.measures.exposure import Band
from reportgen.measures.frost_ahead import ahead
from reportgen.measures.frost_failure import hold_by_hour
from reportgen.measures.frost_reasons import (
    _ahead_reasons,
    _crop_reasons,
    _no_failure,
    _state_reasons,
    _why_no_guess,
)
from reportgen.measures.frost_states import _flat
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import _unknown, heat
from reportgen.measures.heat_needed import heat_needed, needed_by_week
from reportgen.measures.heat_reasons import null_reasons
from reportgen.measures.heat_sums import Sum
from reportgen.measures.house.balance import _Column, _most_likely
from reportgen.measures.house.season import HouseModel
from reportgen.measures.house.states import HouseState
from reportgen.readings.types import DiaryEntry

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
NAN = float("nan")


def entry(day: int, kind: str, until: int | None = None, **more: Any) -> DiaryEntry:
    """A line of the diary in January."""
    usual: dict[str, Any] = {
        "line": 2, "date": JAN[day - 1], "time": None, "kind": kind, "what": "", "touches": (), "reversible": None,
        "hoped_for": (), "until": JAN[until - 1] if until else None, "cost": None, "years": None, "written": None,
        "note": "",
    }  # fmt: skip
    return DiaryEntry(**(usual | more))


class TestBalance:
    def test_the_fit_makes_least_what_the_head_of_the_module_says(self) -> None:
        """N/2 · ln Σe² − Σ ln K over the hours without command, K the grips of the hour's own state; made least by
        another method (Nelder–Mead, which asks for no gradient) on two states and a mass."""
        rng = np.random.default_rng(11)
        n = 600
        state = (np.arange(n) >= 250).astype(np.int64)
        lift, mass = 5.0 + rng.standard_normal(n), rng.standard_normal(n)
        free = rng.uniform(size=n) < np.where(state == 0, 0.05, 0.5)
        design = np.column_stack([np.where(state == 0, lift, 0.0), np.where(state == 1, lift, 0.0), mass])
        heat = design @ np.array([20.0, 12.0, 8.0]) + 15.0 + 25.0 * rng.standard_normal(n)
        columns = [
            _Column(name="U0", values=design[:, 0], grip=1.0, state=0),
            _Column(name="U1", values=design[:, 1], grip=1.0, state=1),
            _Column(name="g0", values=mass, grip=0.7),
        ]
        found, constant = _most_likely(design, heat, free, state, columns)

        def cost(q: np.ndarray) -> float:
            misfit = heat - design @ q[:3] - q[3]
            held = np.where(state == 0, q[0], q[1]) + 0.7 * q[2]
            if (q[:3] <= 0).any():
                return 1e12
            return 0.5 * n * float(np.log((misfit**2).sum())) - float(np.log(held[free]).sum())

        options = {"xatol": 1e-7, "fatol": 1e-10, "maxiter": 20_000, "maxfev": 20_000}
        other = minimize(cost, np.array([18.0, 14.0, 6.0, 10.0]), method="Nelder-Mead", options=options).x
        assert [*found, constant] == pytest.approx(other.tolist(), rel=2e-3)


class TestHeat:
    def test_without_a_heater_what_the_cover_lets_expect(self) -> None:
        """20 m² of 5 W/m²K: 100 W/K; holds around 5 K over the frost line of 1 °C, or around the aim: 0 to 12 °C, 3 to
        15. At 8 °C over an outdoor air of 0 °C all along: 100 · 8 · 24 · 28 / 1000 kWh."""
        out = channel(
            pd.Series(0.0, index=pd.date_range(ZERO, periods=28 * 24 + 1, freq="1h")), logger="yard", where="outdoor"
        )
        usual: dict[str, Any] = {
            "loggers": (logger("yard", where="outdoor"),), "house": {"u_value_w_m2k": 5.0, "glazing_area_m2": 20.0},
        }  # fmt: skip
        for aims, first in (({"frost_c": 1.0}, 0.0), ({"hold_c": 9.0}, 3.0)):
            found = heat(readings(season(aims=aims, **usual), channels=(out,)))
            assert [row.hold_c for row in found.price_of_hold] == [first + n for n in range(13)]
            kwh = next(row.kwh for row in found.price_of_hold if row.hold_c == 8.0)
            assert kwh == pytest.approx(100 * 8 * 24 * 28 / 1000, rel=1e-6)
            assert found.basis is not None
            assert (found.basis.kind, found.basis.kwh_per_kh, found.basis.periods) == ("expectation", 0.1, 0)
            assert found.reasons["hold_found_c"] == "no heater is listed in season.toml"
        assert _unknown(Sum(value=80.0, low=80.0, high=100.0)) == 1.25 and _unknown(Sum(value=80.0)) == 1.0
        assert _unknown(Sum(value=0.0, low=0.0, high=9.0)) == 1.0

    def test_one_aim_is_read_off_the_table_of_holds(self) -> None:
        """A house of weekly readings, held at 8 °C, has no balance; an aim of 7 °C is told by its rows all the same.
        Two aims by date are not; none at all says so."""
        made = heated(every=168)
        one = made.season.aims.model_copy(update={"hold_c": 7.0})
        found = heat(replace(made, season=made.season.model_copy(update={"aims": one})))
        at_seven = next(row.kwh for row in found.price_of_hold if row.hold_c == 7.0)
        assert found.kwh is not None
        assert found.above_target_kwh == pytest.approx(found.kwh - at_seven) and found.hold_c == 7.0
        two = season(aims={"hold": ({"from": JAN[4], "c": 7.0}, {"from": JAN[9], "c": 6.0})}).aims
        dated = heat(replace(made, season=made.season.model_copy(update={"aims": two})))
        assert (dated.hold_c, dated.above_target_kwh) == (None, None) and len(dated.holds) == 2
        assert dated.reasons["hold_c"] == "several holds by date"
        none = heat(replace(made, season=made.season.model_copy(update={"aims": season().aims})))
        assert none.reasons["above_target_kwh"] == none.reasons["hold_c"] == "no hold is named in season.toml"
        assert none.holds == ()

    def test_why_a_row_of_the_books_has_nulls(self) -> None:
        """No rated power; a rated power and a sum alone; a price without a band or money."""
        at = hours(days=3)
        sums = heater([("2026-01-05", "2026-01-08", 9.0, 1.0)], name="stove", rated_power_w=1000.0)
        fine = supply(at, np.full(72, 100.0))
        of = replace(readings(season("2026-01-05", "2026-01-07")), heating=(fine, sums))
        from reportgen.measures.heat_books import sources
        from reportgen.measures.heat_types import HoldPrice
        from reportgen.measures.heating_hours import heat_by_hour

        table = heat_by_hour(of)
        row = HoldPrice(hold_c=8.0, kwh=1.0, low=None, high=None, cost=None, tested=False)
        told = null_reasons(of, table, sources(of, table), (row,))
        assert told["sources.0.hours_flat_out"] == "no rated_power_w for fan heater"
        assert told["sources.1.hours_flat_out"] == "the heat was not logged by the hour"
        assert told["price_of_hold.0.cost"] == "the price of the heat is not known"
        assert "no interval" in told["price_of_hold.0.low"] and told["sources.0.kwh_low"] == "all of it is known"
        assert "sources.0.kwh" not in told and "sources.1.cost" not in told

    def test_nights_by_what_they_were_heated_for(self) -> None:
        """Lettuce (damage from −2 °C) from the 5th on. Nights told −3 ± 0.5 °C need the heat, −2 ± 0.5 perhaps, 1 ± 0.5
        not; a night without a forecast is open. 10 kWh and 3 of money each day of the first week: by garden days 15,
        then 10."""
        rows = [(f"2026-01-{d:02d}", f"2026-01-{d + 1:02d}", 10.0, 3.0) for d in range(5, 12)]
        at = pd.date_range(ZERO, periods=7 * 24 + 1, freq="1h")
        of = season("2026-01-05", "2026-01-11", loggers=(logger("bench"),))
        made = replace(
            readings(
                of,
                channels=(channel(pd.Series(6.0, index=at)),),
                plantings=(planting("lettuce", "a", "2026-01-05"),),
            ),
            heating=(heater(rows),),
        )  # fmt: skip
        middle = np.array([-3.0, -2.0, 1.0, NAN, 1.0, 1.0, 1.0])
        table = pd.DataFrame(
            {
                "without_heat_c": middle, "without_heat_low_c": middle - 0.5, "without_heat_high_c": middle + 0.5,
                "outdoor_min": -5.0,
            },
            index=pd.Index(JAN[4:11]),
        )  # fmt: skip
        found = heat_needed(made, table)
        needs = ["needed", "perhaps", "not needed", "not judged", "not needed", "not needed", "not needed"]
        assert [night.need for night in found.nights] == needs
        assert [night.kwh for night in found.nights] == pytest.approx([15.0, 10, 10, 10, 10, 10, 5.0])
        assert (found.heated.nights, found.judged.nights, found.no_forecast.nights) == (7, 6, 1)
        assert (found.spared_low.kwh, found.spared_high.kwh) == (pytest.approx(35.0), pytest.approx(45.0))
        assert found.spared_low.money == pytest.approx(10.5) and found.tender == ("lettuce",) and not found.assumed
        assert needed_by_week(found) == {JAN[4]: pytest.approx(1 - 35 / 60)}


class TestFrost:
    def test_a_failure_is_told_from_the_mildest_heated_night_down(self) -> None:
        """Nights of −5 °C outdoors: of 0, −5, −10 and −15 °C the last three; and of −12, where that is the rare
        cold."""
        n = 24 * 16
        hours_ = plain_hours(n, temp_outdoor_c=np.full(n, -5.0), heaters_w=np.full(n, 1300.0))
        model = HouseModel(
            house=plain_house(hours_, plain_balance(n)), why="", first=JAN[4], whole=np.ones(15, dtype=bool), states=()
        )
        table = pd.DataFrame(
            {"inside_min": 8.0, "outdoor_min": -5.0, "share": 1.0, "outdoor_share": 1.0, "heated_h": 15.0},
            index=pd.Index([JAN[4] + dt.timedelta(k) for k in range(16)]),
        )
        assert [row.outdoor_c for row in ahead(model, table, 8.0, 0.0, None).after] == [-5.0, -10.0, -15.0]
        assert [row.outdoor_c for row in ahead(model, table, 8.0, 0.0, -12.0).after] == [-5.0, -10.0, -12.0, -15.0]

    def test_a_spell_ends_with_the_evening_of_its_last_day(self) -> None:
        """The thermostat turned up from the 7th to the 8th: 6 °C before, 8 °C in its two nights, 6 °C from the evening
        of the 9th on."""
        n = np.arange(24 * 7)
        evening = np.array([(ZERO + pd.Timedelta(hours=int(h) - 12)).date() for h in n])
        up = (evening >= JAN[6]) & (evening <= JAN[7])
        table = pd.DataFrame(
            {"inside": np.where(up, 8.0, np.where(evening > JAN[7], 5.0, 6.0)), "clock_h": n % 24, "heated": 1.0,
             "night": evening},
            index=pd.date_range(ZERO, periods=len(n), freq="1h"),
        )  # fmt: skip
        made = readings(diary=(entry(7, "spell", 8, touches=("thermostat",)),))
        found = hold_by_hour(made, table)
        assert found.tolist() == table["inside"].tolist()
        for other in (entry(7, "event", 8, touches=("thermostat",)), entry(7, "spell", 8, touches=("air",))):
            assert len(set(hold_by_hour(readings(diary=(other,)), table))) == 1

    def model(self) -> HouseModel:
        """A plain house in two states."""
        house = plain_house(plain_hours(240), plain_balance(240, loss_w_k=np.array([100.0, 50.0])))
        states = tuple(HouseState(number=n, on=(), hours=120) for n in (0, 1))
        return HouseModel(house=house, why="", first=JAN[4], whole=np.ones(9, dtype=bool), states=states)

    def test_why_a_state_has_no_flat_out_temperature(self) -> None:
        """Seven heated nights are too few, eight are not; then its loss, the hold and the rated power must be known."""
        band, model = Band(estimate=98.0), self.model()
        for nights, loss, hold, words in (
            (7, (band, 7), 8.0, "only 7 heated nights in this state; 8 are needed"),
            (1, (band, 1), 8.0, "only 1 heated night in this state; 8 are needed"),
            (8, (None, 6), 8.0, "6 nights in this state with heat for 7 of 10 hours: too few"),
            (8, (None, 1), 8.0, "1 night in this state with heat for 7 of 10 hours: too few"),
            (8, (band, 8), None, "too few heated night hours to tell what was held"),
            (8, (band, 8), 8.0, "needs rated_power_w of every heater that is logged by the hour"),
        ):
            assert _flat(model, 0, nights, loss, hold) == (None, words)

    def test_reasons_of_the_frost_page(self) -> None:
        """One for each way in which a figure can be missing."""

        def found(**more: Any) -> Any:
            return SimpleNamespace(**more)

        assert "too few nights" in _why_no_guess(found(unrecorded_cold_hours=5.0), "no outdoors")
        none = found(unrecorded_cold_hours=0.0, unrecorded_unknown_hours=0.9)
        assert _why_no_guess(none, "no outdoors") == "no cold hour without a reading"
        none.unrecorded_unknown_hours = 1.0
        assert "either" in _why_no_guess(none, "no outdoors")
        assert (
            _why_no_guess(found(unrecorded_cold_hours=None, unrecorded_unknown_hours=5.0), "no outdoors")
            == "no outdoors"
        )

        at = hours(days=2)
        fine, summed = supply(at, np.full(48, 100.0)), heater([("2026-01-05", "2026-01-07", 9.0, 1.0)])
        made = readings(season("2026-01-05", "2026-01-06"))
        assert _no_failure(made, False) == "no heater in season.toml"
        assert _no_failure(replace(made, heating=(summed, fine)), True) == "none in the record"
        assert _no_failure(replace(made, heating=(summed,)), True) == "heat is not known by the hour"

        crop = found(damage_high_c=None, coldest_c=None, bed=None, source="no band known for this crop")
        told = _crop_reasons(found(crops=(crop,)))
        assert told["crops.0.margin_k"] == "no crop air logged while it stood" and told["crops.0.bed"] == "no bed given"
        assert told["crops.0.damage_low_c"] == "no band known for this crop"
        fine_crop = found(damage_high_c=-2.0, coldest_c=1.0, bed="a", source="")
        assert _crop_reasons(found(crops=(fine_crop,))) == {} and "crops" in _crop_reasons(found(crops=()))

        empty = found(limit_by_state=(), model=found(why="no balance"))
        assert _state_reasons(empty, True) == {"limit_by_state": "no balance"}
        assert _state_reasons(empty, False) == {"limit_by_state": "no heater in season.toml"}
        state = found(why_no_limit="few", why_no_flat_out="")
        assert _state_reasons(found(limit_by_state=(state,)), True) == {"limit_by_state.0.holding_limit_c": "few"}

        bare = found(
            ahead=found(reasons={"without_heat": "w", "after_failure": "a"}), after_failure=(), without_heat_nights=(),
            without_heat_minimum_c=found(estimate=NAN),
        )  # fmt: skip
        told = _ahead_reasons(bare, True)
        assert told["without_heat_minimum_c.low"] == told["without_heat_nights"] == "w" and told["after_failure"] == "a"
        assert "no heater" in _ahead_reasons(bare, False)["after_failure"]
        full = found(
            ahead=found(reasons={}), after_failure=(1,), without_heat_nights=(1,),
            without_heat_minimum_c=found(estimate=1.0),
        )  # fmt: skip
        assert _ahead_reasons(full, True) == {}


class TestOthers:
    def test_reasons_of_the_harvest(self) -> None:
        """A book with a picking has a gap of none and no reason for it; an empty book has had none; no book, no
        weight."""
        one = harvest(readings(harvest=(picking("2026-01-06", 1.0), picking("2026-01-27", 1.0))))
        assert one.longest_gap_weeks == 2 and "longest_gap_weeks" not in one.reasons
        assert one.gap == (JAN[11], JAN[18])
        empty = harvest(readings(harvest=()))
        assert (empty.kg, empty.longest_gap_weeks) == (0.0, None)
        assert empty.reasons["longest_gap_weeks"] == "nothing was picked"
        none = harvest(readings())
        assert none.kg is None and none.reasons["longest_gap_weeks"] == none.reasons["kg"]

    def test_dawn_needs_the_whole_place(self) -> None:
        """With a latitude alone it is 7 h by the clock, as without a place."""
        at = pd.date_range(ZERO, periods=49, freq="1h")
        rh = pd.Series(np.where(np.arange(49) == 31, 90.0, 70.0), index=at)
        channels = (channel(rh, "relative_humidity"), channel(rh * 0 + 15.0))
        told = []
        for place in ({}, {"latitude": 50.0}):
            of = readings(
                season("2026-01-05", "2026-01-06", loggers=(logger("bench"),), place=place), channels=channels
            )
            moist = inside(of)
            assert moist is not None
            told.append(by_night(moist, of, 80.0, 90.0, ())["dawn_spread_k"].iloc[0])
        assert told[0] == pytest.approx(told[1]) and told[0] < 2.0  # the spread of 90 % at 15 °C, 1.6 K
