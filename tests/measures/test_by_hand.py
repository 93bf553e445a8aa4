"""Figures of the pages that are one step away from the books and the readings: each is worked out by hand beside it."""

from __future__ import annotations

import datetime as dt
import itertools
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pvlib
import pytest
from heated_house import LOSS_W_PER_K, house, outdoor_c, steps, supply
from heated_house import hours as clock_hours
from made_season import ZONE, channel, heater, logger, picking, planting, readings, season

from reportgen.measures.beds import Strip, beds
from reportgen.measures.damp import damp
from reportgen.measures.damp_airing import Shift
from reportgen.measures.degree import degree
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.harvest_co2 import FACTORS
from reportgen.measures.heat import heat
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import DiaryEntry, Readings
from reportgen.season import Appliance
from reportgen.season.models import Aims, Place

DAY_S = 86_400.0
DIP = {"2026-01-05": 5.0, "2026-01-20": 5.0, "2026-01-20 03:00": -1.0, "2026-01-20 06:00": 5.0, "2026-02-02": 5.0}
HOT = {
    "2026-01-05": 20.0,
    "2026-01-14 12:00": 20.0,
    "2026-01-14 14:00": 30.0,
    "2026-01-14 16:00": 20.0,
    "2026-02-02": 20.0,
}
TEN_MINUTES = pd.date_range("2026-01-05", "2026-02-02", freq="10min", tz=ZONE)


def noon(day: str, hour: int = 12) -> pd.Timestamp:
    """An hour of a day in the season's zone."""
    return pd.Timestamp(f"{day} {hour:02d}:00", tz=ZONE)


def lit(per_day: list[float], measure: str = "ppfd", name: str = "bench", where: str = "crop") -> Any:
    """Steady light from 6 to 18 h, a value a day, by ten minutes."""
    day = np.minimum(np.arange(len(TEN_MINUTES)) // 144, len(per_day) - 1)
    by_day = (TEN_MINUTES.hour >= 6) & (TEN_MINUTES.hour < 18)
    values = pd.Series(np.where(by_day, np.asarray(per_day)[day], 0.0), index=TEN_MINUTES)
    return channel(values, measure, name, where=where)


def hung(day: str, what: str = "film", touches: tuple[str, ...] = ("envelope",)) -> DiaryEntry:
    """A change of the diary at the midnight before that day."""
    return DiaryEntry(
        line=2, date=dt.date.fromisoformat(day), time=dt.time(), kind="change", what=what, touches=touches,
        reversible=True, hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


def turned_house(
    hold: np.ndarray, every: int, out: np.ndarray | None = None, watts: np.ndarray | None = None
) -> Readings:
    """The heated house with a hold for every hour, its aims by date; outdoors and heat as told, else its own."""
    at = clock_hours()
    out = outdoor_c(at) if out is None else out
    watts = LOSS_W_PER_K * np.maximum(hold - 3.0 - out, 0.0) if watts is None else watts
    made = house(every=every)
    turns = [0, *(np.flatnonzero(np.diff(hold)) + 1)]
    aims = Aims.model_validate({"hold": tuple({"from": at[n].date(), "c": float(hold[n])} for n in turns)})
    inside, outdoors = (steps(values, at) for values in (np.where(watts > 0, hold, out + 3.0), out))
    channels = tuple(replace(c, values=v) for c, v in zip(made.channels, (inside, outdoors), strict=True))
    of = made.season.model_copy(update={"aims": aims})
    return replace(made, season=of, channels=channels, heating=(supply(at, watts, every=every),))


class TestLight:
    def test_the_darkest_day_what_was_lacking_and_on_how_many_days(self) -> None:
        """400 µmol/m²s for twelve hours are 17.28 mol, 20 are 0.864: four days lack 12 − 0.864 = 11.136 mol each, and
        the mean of the 28 days, all under ten hours at 50° N, is (24 · 17.28 + 4 · 0.864) / 28 = 14.935 mol.

        12 mol m⁻² d⁻¹: Jayalath et al. 2024, Plants 13:652. 0.5 %: the log's edges take ten minutes of twelve hours.
        """
        days = [400.0] * 10 + [20.0] * 4 + [400.0] * 14
        found = light(readings(season(place={"latitude": 50.0}, loggers=(logger("bench"),)), channels=(lit(days),)))
        assert found.need_mol == 12.0
        assert found.days_measured == 28
        assert found.lack_mol == pytest.approx(11.136, rel=0.005)
        assert found.dark_mean_mol == pytest.approx(14.935, rel=0.005)
        assert found.darkest is not None
        assert dt.date(2026, 1, 15) <= found.darkest[0] <= dt.date(2026, 1, 18)
        assert found.darkest[1] == pytest.approx(0.864, rel=0.005)

    def test_the_lamp_has_hours_only_on_the_days_that_need_it(self) -> None:
        """Four days lack 11.136 mol: at 180 µmol/m²s 17.19 hours each, and 68.7 in all."""
        days = [400.0] * 10 + [20.0] * 4 + [400.0] * 14
        lamp = Appliance(name="lamp", kind="lamp", rated_power_w=200.0, hours_per_day=4.0, ppfd=180.0, price=0.3)
        found = light(readings(season(loggers=(logger("bench"),), appliances=(lamp,)), channels=(lit(days),))).lamp
        assert found is not None
        assert (found.days, found.hours_a_day) == (4, pytest.approx(11.136e6 / (180 * 3600), rel=0.005))
        assert found.hours == pytest.approx(4 * found.hours_a_day)

    def test_the_cover_lets_through_what_the_two_sensors_say(self) -> None:
        """60 inside and 100 outdoors: six tenths."""
        both = (lit([60.0]), lit([100.0], name="garden", where="outdoor"))
        of = season(place={"latitude": 50.0}, loggers=(logger("bench"), logger("garden", where="outdoor")))
        assert light(readings(of, channels=both)).daily.transmission_seen == pytest.approx(0.6, rel=0.001)

    def test_the_dark_weeks_begin_and_end_as_the_nrel_algorithm_has_it(self) -> None:
        """pvlib's SPA at 50° N, 15° E: first and last date with under ten hours from sunrise to sunset; ± 1 day, a
        minute or two of day length there (the two use other refraction)."""
        days = pd.date_range("2025-10-01", "2026-03-31", tz="UTC")
        sun = pvlib.solarposition.sun_rise_set_transit_spa(days, 50.0, 15.0)
        short = days[((sun["sunset"] - sun["sunrise"]) / pd.Timedelta("1h")).to_numpy() < 10.0]
        found = light(readings(season("2025-10-01", "2026-03-31", place={"latitude": 50.0, "longitude": 15.0})))
        assert found.ten_from is not None and abs(found.ten_from - short[0].date()) <= dt.timedelta(days=1)
        assert found.ten_to is not None and abs(found.ten_to - short[-1].date()) <= dt.timedelta(days=1)


class TestFrost:
    """Crop air at 5 °C but for one dip to −1 °C at 03:00 on 20 January, or one hot noon."""

    def made(self, knots: dict[str, float], lost: tuple[str, str] | None = None, **more: Any) -> Readings:
        points = pd.Series(list(knots.values()), index=pd.DatetimeIndex(list(knots)).tz_localize(ZONE))
        values = points.reindex(TEN_MINUTES.union(points.index)).interpolate("time").reindex(TEN_MINUTES)
        if lost is not None:
            begin, end = (pd.Timestamp(at, tz=ZONE) for at in lost)
            values = values[(values.index <= begin) | (values.index >= end)]
        books = {"plantings": more.pop("plantings", ())}
        return readings(season(loggers=(logger("bench", main=True),), **more), channels=(channel(values),), **books)

    def test_when_a_crop_was_coldest(self) -> None:
        """Kale stood through the dip: at 03:00."""
        stood = (planting("kale", "east", "2026-01-06"),)
        (kale,) = frost(self.made(DIP, plantings=stood)).crops
        assert (kale.coldest_at, kale.coldest_c) == (noon("2026-01-20", 3), pytest.approx(-1.0))

    def test_hours_without_crop_air(self) -> None:
        """Six hours lost, and no more: the season's last step apart, which the whole record lacks too."""
        edge = frost(self.made(DIP)).hours_unrecorded
        lost = frost(self.made(DIP, ("2026-01-12 00:00", "2026-01-12 06:00"))).hours_unrecorded
        assert edge <= 1 / 6 and lost - edge == pytest.approx(6.0)

    def test_hot_hours_lie_in_their_week(self) -> None:
        """20 to 30 °C and back in four hours: two of them over 25 °C, on Wednesday the 14th, the week of Monday 12."""
        weeks = frost(self.made(HOT)).hot_weeks.set_index("week")["hours"]
        assert weeks[weeks > 0].to_dict() == {dt.date(2026, 1, 12): pytest.approx(2.0)}


class TestHarvest:
    PICKS = (
        picking("2026-01-06", 2.0),
        picking("2026-01-07", 1.0, use="stored"),
        picking("2026-01-08", 0.5, use="given"),
        picking("2026-01-09", 4.0, use="lost"),
        picking("2026-01-13", 1.5, price_per_kg=6.0),
    )

    def test_what_a_week_fed_the_household(self) -> None:
        """2 eaten and 1 stored; what was given away or lost fed nobody here. The next week 1.5."""
        weeks = harvest(readings(harvest=self.PICKS)).weeks
        assert [week.eaten_kg for week in weeks] == [3.0, 1.5, 0.0, 0.0]

    def test_sums_from_the_first_day_on(self) -> None:
        """2, 3, 3.5 and from the 13th 5 kg (lost pickings are none); 1.5 kg at 6 are 9; 40 kWh and 12 of money over
        the first ten days."""
        supply_of_ten_days = heater([("2026-01-05", "2026-01-15", 40.0, 12.0)])
        table = harvest(readings(harvest=self.PICKS, heating=(supply_of_ten_days,))).cumulative
        at = {day: table.loc[dt.date(2026, 1, day)] for day in (6, 7, 8, 12, 13, 31)}
        assert [at[day]["kg"] for day in (6, 7, 8, 12, 13, 31)] == pytest.approx([2.0, 3.0, 3.5, 3.5, 5.0, 5.0])
        assert (at[12]["value"], at[13]["value"]) == (0.0, pytest.approx(9.0))
        assert (at[31]["kwh"], at[31]["cost"]) == (pytest.approx(40.0), pytest.approx(12.0))

    def test_wood_took_its_carbon_up_before(self) -> None:
        """IPCC 2006 vol. 2 ch. 2: CO₂ of biomass is told apart, no fossil fuel is biogenic."""
        assert {fuel for (fuel, _), factor in FACTORS.items() if factor.biogenic} == {"wood"}

    def strips(self) -> dict[str, Strip]:
        """Three sowings at 49° N, where days are under ten hours from about 28 October on (almanac)."""
        sown = {"rocket": "2025-08-20", "chard": "2025-09-20", "peas": "2025-10-02"}
        plantings = tuple(planting(c, c, d, sown=dt.date.fromisoformat(d), area_m2=1.0) for c, d in sown.items())
        picks = (
            picking("2025-10-20", 1.0, "rocket", bed="rocket"),
            picking("2025-12-02", 1.0, "rocket", bed="rocket"),
            picking("2026-02-01", 1.0, "chard", bed="chard"),
        )
        of = season("2025-10-01", "2026-03-01", place=Place(latitude=49.0))
        return {strip.crop: strip for strip in beds(readings(of, plantings=plantings, harvest=picks)).strips}

    def test_first_and_last_picking_of_a_planting(self) -> None:
        """Rocket from 20 October, before the dark weeks, to 2 December; chard on 1 February only, after they began;
        peas never, of which nothing is told."""
        of = self.strips()
        days = {crop: (strip.first_picked, strip.last_picked) for crop, strip in of.items()}
        assert days["rocket"] == (dt.date(2025, 10, 20), dt.date(2025, 12, 2))
        assert days["chard"] == (dt.date(2026, 2, 1), dt.date(2026, 2, 1))
        assert days["peas"] == (None, None)
        assert (of["rocket"].before_dark, of["chard"].before_dark) == (True, False)


class TestHeat:
    @pytest.mark.parametrize("every", [1, 24 * 7])
    @pytest.mark.parametrize("turned", [False, True])
    def test_a_degree_more_and_a_degree_less(self, every: int, turned: bool) -> None:
        """heat = 80 W/K · max(0, hold − 3 − T) in every hour, so every date's hold a degree (and a degree Fahrenheit)
        away is the same sum with the hold moved; held 8 °C, or 8 and from the fifth week on 5 °C. The scan's quarter
        kelvin, and the means of five hours in the run, leave up to 4 % of a change that is a tenth of the heat."""
        at = clock_hours()
        out = outdoor_c(at)
        hold = np.where(np.arange(len(at)) < 28 * 24, 8.0, 5.0 if turned else 8.0)
        made = turned_house(hold, every)
        for show, step in (("metric", 1.0), ("us", 5 / 9)):
            of = replace(made, season=made.season.model_copy(update={"show": show}))
            told = degree(heat(of), show == "us")
            true = [LOSS_W_PER_K * np.maximum(hold + away - 3.0 - out, 0).sum() / 1000 for away in (-step, 0.0, step)]
            assert told is not None and told.step_k == pytest.approx(step)
            assert (told.kwh_more, told.kwh_less) == pytest.approx((true[2] - true[1], true[1] - true[0]), rel=0.04)
            assert (told.cost_more, told.cost_less) == pytest.approx((0.3 * told.kwh_more, 0.3 * told.kwh_less))

    def test_a_degree_in_a_house_that_was_altered_in_mid_winter(self) -> None:
        """The same house, 80 W/K for four weeks and 40 from then on, which are 4 K colder; weekly readings. Where the
        diary is silent, one slope for both halves fits no base well, and nothing is told."""
        at = clock_hours()
        later = np.arange(len(at)) >= 28 * 24
        out = outdoor_c(at) - 4.0 * later
        loss = np.where(later, 40.0, 80.0)
        need = [(loss * np.maximum(8.0 + away - 3.0 - out, 0.0)) / 1000.0 for away in (-1.0, 0.0, 1.0)]
        made = turned_house(np.full(len(at), 8.0), 24 * 7, out=out, watts=1000.0 * need[1])
        film = hung(str(at[28 * 24].date()))
        levers = levers_of(chains((film,), "diary.csv")[0], made.season)
        told = degree(heat(replace(made, diary=(film,), levers=levers)), False)
        assert told is not None
        more, less = (need[2] - need[1]).sum(), (need[1] - need[0]).sum()
        assert (told.kwh_more, told.kwh_less) == pytest.approx((more, less), rel=1e-3)
        blind = heat(made)
        assert degree(blind, False) is None and "too few readings" in blind.reasons["price_of_degree"]

    @pytest.mark.parametrize(("every", "days", "apart"), [(1, 56, 1.0), (24 * 7, 8, 7.0)])
    def test_what_the_price_of_a_degree_rests_on(self, every: int, days: int, apart: float) -> None:
        """56 days by the hour, or 8 weekly readings, of a house that loses 80 W/K: 0.08 kWh for each kelvin-hour."""
        found = heat(house(every=every)).basis
        assert found is not None and found.periods == days
        assert found.mean_days == pytest.approx(apart, rel=0.01)
        assert found.kwh_per_kh == pytest.approx(LOSS_W_PER_K / 1000, rel=0.02)

    def test_the_loss_of_the_houses_only_state_holds_the_true_one(self) -> None:
        """80 W/K, in one state all winter."""
        (state,) = heat(house()).loss_by_state
        assert state.w_per_k.low < LOSS_W_PER_K < state.w_per_k.high

    def test_water_of_an_unvented_burner_and_none_of_a_flued_one(self) -> None:
        """56 days of 1 kW are 1344 kWh of propane; C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O at 50.35 MJ/kg gross frees 0.117 kg a
        kWh: 157 kg. 2 %: heating values differ by source."""
        at = clock_hours()
        for vented, expected in ((False, 157.0), (True, None)):
            burner = supply(at, np.full(len(at), 1000.0), fuel="propane", vented=vented, heating_value="gross")
            (found,) = heat(replace(house(), heating=(burner,))).sources
            assert found.water_kg == (None if expected is None else pytest.approx(expected, rel=0.02))

    def test_what_was_only_estimated(self) -> None:
        """Of four weeks of 25 kWh the bill marks one as estimated."""
        weeks = pd.date_range("2026-01-05", periods=5, freq="7D").strftime("%Y-%m-%d")
        one = heater([(a, b, 25.0, 8.0) for a, b in itertools.pairwise(weeks)])
        marked = replace(one, intervals=one.intervals.assign(estimated=[False, True, False, False]))
        (found,) = heat(readings(heating=(marked,))).sources
        assert (found.estimated_kwh, found.kwh) == (pytest.approx(25.0), pytest.approx(100.0))


class TestSoil:
    def test_the_wave_and_the_seasons_change(self) -> None:
        """A cosine of 1.5 K on a trend of −0.1 K a day: amplitude 1.5 K, and −2.1 K from first to last week."""
        seconds = (TEN_MINUTES - TEN_MINUTES[0]) / pd.Timedelta("1s")
        ground = 12.0 - 0.1 * seconds / DAY_S + 1.5 * np.cos(2 * np.pi * (seconds / DAY_S - 17 / 24))
        probe = channel(pd.Series(ground, index=TEN_MINUTES), "soil_temperature")
        found = soil(readings(season(loggers=(logger("bench"),), aims={"soil_c": 9.0}), channels=(probe,)))
        assert found.waves is not None and found.waves.amplitude_k == pytest.approx(1.5, rel=0.01)
        assert found.season_change_k == pytest.approx(-2.1, abs=0.02)
        assert found.aim_c == 9.0


class TestDamp:
    def test_a_dehumidifier_is_told_with_its_own_setting(self) -> None:
        """Set to 75 %, on for the first of four days in 85 %: 24 h, all of them over its setting."""
        at = pd.date_range("2026-01-05", periods=4 * 288 + 1, freq="5min", tz=ZONE)
        on = pd.Series((np.arange(len(at)) < 288).astype(float), index=at)
        one = Appliance(name="dryer", kind="dehumidifier", logger="plug", rated_power_w=200.0, setpoint_pct=75.0)
        loggers = (logger("bench", "relative_humidity"), logger("plug", "heater_on", where="elsewhere"))
        channels = (
            channel(pd.Series(85.0, index=at), "relative_humidity", accuracy=2.0),
            channel(on, "heater_on", "plug", where="elsewhere"),
        )
        (found,) = damp(readings(season(appliance=(one,), logger=loggers), channels=channels)).dryers
        assert (found.set_pct, found.ran_h) == (75.0, pytest.approx(24.0, abs=0.1))
        assert found.still_above_h == pytest.approx(24.0, abs=0.1)

    def test_every_sensor_wrong_the_other_way(self) -> None:
        """Turned, each shift has the other sign; turned twice it is itself."""
        shift = Shift(temp_k=0.5, rh=3.0, outdoor_k=-1.0, outdoor_rh=-2.0)
        other = shift.turned()
        assert (other.temp_k, other.rh, other.outdoor_k, other.outdoor_rh) == (-0.5, -3.0, 1.0, 2.0)
        assert other.turned() == shift
