"""Heat of a meter made hourly, and what the hours of a season are made of; each by hand on a small case."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from heated_house import hours as clock_hours
from heated_house import house as logged_house
from heated_house import supply
from made_season import ZONE, channel, heater, logger, readings, season
from measures.house.bare import plain_balance, plain_hours, plain_house
from measures.house.made_house import Made, hours_of, stepped, weather

from reportgen.measures.house.meter import _scaled, _sun_gain, _usual_night_c, by_the_hour
from reportgen.measures.house.season import (
    HouseModel,
    _bridged,
    _dark,
    _little_sums,
    _metered,
    _mostly,
    _present,
    _rated,
    _sun,
    house_hours,
    house_model,
    no_house,
)
from reportgen.measures.house.states import states_of
from reportgen.problems import NotEnoughData
from reportgen.readings.lever_types import Lever, State
from reportgen.season.models import Place


class TestMeter:
    def test_the_shape_is_scaled_to_every_reading_and_held_at_the_rated_power(self) -> None:
        """1, 1, 2 W at 400 Wh are 100, 100, 200 W. 1, 1, 8 at 600 Wh, at most 250 W: 60, 60, 480 → 250; then × 600 /
        370 twice, the large one held: 60 · 1.6216 = 97.3, ×600/444.6: 131.3. Outside all readings nothing."""
        may = np.ones(8, dtype=bool)
        found = _scaled(np.array([1.0, 1, 2, 1, 1, 8, 7, 7]), may, [(0, 3, 400.0), (3, 6, 600.0)], 250.0)
        second = 60 * (600 / 370)
        third = second * 600 / (2 * second + 250)
        assert found == pytest.approx([100.0, 100.0, 200.0, third, third, 250.0, 0.0, 0.0])

    def test_a_reading_over_hours_that_ask_for_nothing_is_spread_over_the_cool_ones(self) -> None:
        """90 Wh over three hours, the third too warm: 30, 30 and a hundredth of that; scaled to 90 the next time."""
        found = _scaled(np.zeros(3), np.array([True, True, False]), [(0, 3, 90.0)], 1000.0)
        assert found == pytest.approx(np.array([1.0, 1.0, 0.01]) * 90 / 2.01)

    def test_the_usual_night_air_is_where_cold_nights_stand_most_often(self) -> None:
        """Of 40 dark hours the colder 20 stood at 6.2 (12 hours), 6.7 (2) and 9.2 °C (6): of bins of half a kelvin,
        taken by threes, the first of the fullest three (6.0 to 6.5 within 5.5 … 7.0): its middle, 6.25."""
        air = np.concatenate([np.full(12, 6.2), np.full(2, 6.7), np.full(6, 9.2), np.full(20, 15.2), np.full(30, 12.2)])
        out = np.concatenate([np.full(20, -3.0), np.full(20, 5.0), np.full(30, -9.0)])
        dark, logged = np.arange(70) < 40, np.ones(70, dtype=bool)
        hours = plain_hours(70, temp_air_c=air, temp_outdoor_c=out, dark=dark, logged=logged)
        assert _usual_night_c(hours) == pytest.approx(6.25)

    def test_the_suns_gain_is_what_sunny_unheated_hours_seem_to_ask(self) -> None:
        """21 such hours with 200 W/m² ask for 300 W: 1.5 W for each W/m², by day alone. With 20 hours, or without
        light, there is none; a negative share is none."""
        n = 60
        dark = np.arange(n) >= 40
        sun, may = np.where(np.arange(n) < 21, 200.0, 40.0), np.arange(n) >= 21
        hours = plain_hours(n, sun_w_m2=sun, dark=dark, temp_air_c=np.full(n, 19.0))
        asked = np.where(np.arange(n) < 21, 300.0, 5000.0)
        found = _sun_gain(hours, plain_balance(n, asked_w=asked), may)
        assert found == pytest.approx(np.where(dark, 0.0, 1.5 * sun))
        assert not _sun_gain(hours, plain_balance(n, asked_w=-asked), may).any()
        for other in (
            replace(hours, sun_w_m2=np.where(np.arange(n) < 20, 200.0, 50.0)),
            replace(hours, sun_w_m2=None),
            replace(hours, temp_air_c=np.full(n, 20.0)),
        ):
            assert not _sun_gain(other, plain_balance(n, asked_w=asked), may).any()

    def weekly(self, made: Made, **more: Any) -> Any:
        """Hours of a made house with their weekly sums [Wh]."""
        out = weather(days=49)
        air, heat = stepped(made, out)
        hours = hours_of(made, out, air, np.zeros(len(out)), **more)
        return hours, heat, [(n, n + 168, float(heat[n : n + 168].sum())) for n in range(0, len(out), 168)]

    def watched(self, monkeypatch: pytest.MonkeyPatch, second_w: float) -> tuple[Any, list[Any]]:
        """Two weeks of 300 W and of `second_w` of 1000, in a house whose balance always asks for 400 W; the hours made,
        and those of each fit."""
        n, fits = 336, []
        air = np.where(np.arange(n) % 24 == 13, 15.0, 8.0)
        outdoors = np.where(np.arange(n) < 168, 0.0, 4.0)
        outdoors[np.arange(n) % 24 == 2] = 10.0
        dark = (np.arange(n) % 24 < 6) | (np.arange(n) % 24 >= 18)
        hours = plain_hours(n, temp_air_c=air, temp_outdoor_c=outdoors, dark=dark, rated_w=1000.0)

        def fit(one: Any) -> Any:
            fits.append(one)
            return plain_balance(n, asked_w=np.full(n, 400.0))

        monkeypatch.setattr("reportgen.measures.house.meter.fit_balance", fit)
        return by_the_hour(hours, [(0, 168, 168 * 300.0), (168, 336, 168 * second_w)]), fits

    def test_the_first_guess_follows_the_cold_by_night_and_half_of_it_by_day(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """The usual night air is 7.75 °C (bins of half a kelvin by threes, the first of the fullest): in proportion to
        what the outdoors lacks of it, by day to half of that; nothing where outdoors is warmer or the air stands over
        8.75 °C. Then eight fits, each of the balance's 400 W scaled to the sums, where the air allows it."""
        made, fits = self.watched(monkeypatch, 590.0)
        first = fits[0]
        shape = np.where(first.temp_air_c < 8.75, np.maximum(7.75 - first.temp_outdoor_c, 0.0), 0.0)
        shape = shape * np.where(first.dark, 1.0, 0.5)
        for part, mean in ((slice(0, 168), 300.0), (slice(168, 336), 590.0)):
            assert first.heaters_w[part] == pytest.approx(shape[part] * 168 * mean / shape[part].sum())
            even = np.where(first.temp_air_c[part] < 8.75, 168 * mean / 161, 0.0)
            assert made.heaters_w[part] == pytest.approx(even)
        assert len(fits) == 8 and all(one.by_meter for one in fits)

    def test_one_reading_over_six_tenths_of_the_rated_power_is_near_its_limit(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """610 of 1000 W through the second week; 590 W are fine (above)."""
        with pytest.raises(NotEnoughData, match="near its limit"):
            self.watched(monkeypatch, 610.0)

    def test_hours_made_from_weekly_sums_are_near_the_true_ones(self) -> None:
        """Every week's sum comes back, no hour is over the rated power, and hour by hour they go with what the made
        house really took (correlation over 0.9; spread evenly over the week it is the weather's alone)."""
        hours, heat, sums = self.weekly(Made(rated_w=4000.0))
        made = by_the_hour(hours, sums)
        assert made.by_meter and float(made.heaters_w.max()) <= 4000.0
        for first, end, wh in sums:
            assert float(made.heaters_w[first:end].sum()) == pytest.approx(wh, rel=1e-3)
        assert float(np.corrcoef(made.heaters_w, heat)[0, 1]) > 0.9

    @pytest.mark.parametrize(
        ("rated", "factor", "words"),
        [
            (None, 1.0, "only with the heater's rated_power_w"),
            (4000.0, 0.001, "too little heat went in"),
            (1200.0, 1.0, "near its limit"),
        ],
    )
    def test_what_a_meter_cannot_tell(self, rated: float | None, factor: float, words: str) -> None:
        """No rated power; under 100 hours of it in all; a week with over six tenths of it."""
        hours, _, sums = self.weekly(Made(rated_w=4000.0))
        sums = [(a, b, wh * factor) for a, b, wh in sums]
        with pytest.raises(NotEnoughData, match=words):
            by_the_hour(replace(hours, rated_w=rated), sums)

    def test_a_hundred_hours_of_rated_power_are_enough_heat(self) -> None:
        """99 990 of 100 000 Wh are refused as too little; 100 000 are refused later, for another reason or none."""
        hours, _, _ = self.weekly(Made(rated_w=1000.0))
        hours = replace(hours, rated_w=1000.0)
        with pytest.raises(NotEnoughData, match="too little heat"):
            by_the_hour(hours, [(0, 1176, 99_990.0)])
        try:
            by_the_hour(hours, [(0, 1176, 100_000.0)])
        except NotEnoughData as why:
            assert "too little heat" not in str(why)


class TestSeasonParts:
    def test_gaps_are_bridged_by_straight_lines(self) -> None:
        """2, –, –, 8: 4 and 6; before the first and after the last it stays."""
        nan = np.nan
        assert _bridged(np.array([nan, 2.0, nan, nan, 8.0, nan])) == pytest.approx([2, 2, 4, 6, 8, 8])

    def test_a_measure_counts_with_four_fifths_of_the_hours(self) -> None:
        """Eight of ten do, seven do not."""
        values = np.where(np.arange(10) < 8, 1.0, np.nan)
        assert _mostly(values) is not None
        assert _mostly(np.where(np.arange(10) < 7, 1.0, np.nan)) is None

    def test_a_mat_on_a_little_meter_counts_with_its_mean(self) -> None:
        """Heated hours of 1000 W, sums of 40 and 60 W: at most a twentieth of 1000 in the mean, so 50 W where they are;
        60 and 61 W stay unsure."""
        heaters, other = np.array([0.0, 1000.0, 1000.0, 1000.0]), np.array([5.0, 5.0, 5.0, 5.0])
        same, beside, spread = _little_sums(heaters, other, np.array([40.0, 60.0, 0.0, 0.0]))
        assert (same.tolist(), beside.tolist(), spread.tolist()) == (
            heaters.tolist(),
            [55.0, 55.0, 5.0, 5.0],
            [0.0] * 4,
        )
        large = np.array([60.0, 61.0, 0.0, 0.0])
        _, beside, spread = _little_sums(heaters, other, large)
        assert (beside.tolist(), spread.tolist()) == (other.tolist(), large.tolist())
        _, beside, spread = _little_sums(heaters, other, np.array([0.4, 0.6, 0.0, 0.0]))  # half a watt is one too
        assert beside == pytest.approx([5.5, 5.5, 5.0, 5.0]) and not spread.any()
        _, beside, _ = _little_sums(heaters * 0.0008, other, np.array([0.02, 0.04, 0.0, 0.0]))
        assert beside == pytest.approx([5.03, 5.03, 5.0, 5.0])
        _, beside, spread = _little_sums(np.zeros(4), other, np.array([0.4, 0.6, 0.0, 0.0]))  # nothing to be little of
        assert (beside.tolist(), spread.tolist()) == (other.tolist(), [0.4, 0.6, 0.0, 0.0])
        strong = np.concatenate([np.full(90, 100.0), np.full(11, 1000.0)])  # the ninth decile is 1000 W
        _, beside, _ = _little_sums(strong, np.zeros(101), np.full(101, 50.0))
        assert beside[0] == 50.0

    def test_the_rated_power_is_of_the_heaters_known_by_the_hour(self) -> None:
        """2000 and 500 W by the hour beside a meter's 900: 2500. One unknown: none. Only sums: theirs."""
        at = clock_hours(days=2)
        fine = [supply(at, np.full(len(at), 100.0), rated_power_w=w) for w in (2000.0, 500.0)]
        weekly = heater([("2026-01-05", "2026-01-12", 10.0, 3.0)], rated_power_w=900.0)
        base = readings()
        assert _rated(replace(base, heating=(*fine, weekly))) == 2500.0
        assert _rated(replace(base, heating=(fine[0], replace(fine[1], rated_power_w=None)))) is None
        assert _rated(replace(base, heating=(weekly,))) == 900.0
        assert _rated(base) is None

    def test_dark_is_the_sun_three_degrees_down(self) -> None:
        """50° N, 15° E, 1 February: the sun rises at 7.6 and sets at 16.87 h (almanac, from memory), and is 3° down a
        quarter of an hour away from that: the middles of the hours from 7 and from 16 h on, 7.5 and 16.5, lie in the
        light. Without a longitude noon is taken at 12 h, which moves nothing at 15° E."""
        index = pd.date_range("2026-01-31 23:00", periods=24, freq="1h", tz="UTC")  # midnight in Prague
        wanted = [n < 7 or n >= 17 for n in range(24)]
        for place in (Place(latitude=50.0, longitude=15.0), Place(latitude=50.0)):
            assert _dark(readings(season(place=place)), index, 24).tolist() == wanted

    def test_light_by_the_hour_in_watts(self) -> None:
        """100 µmol/m²s are 47.4 W/m² of daylight (2.11 a watt: see `light_daily`); radiation comes first; without a
        place there is none."""
        at = pd.date_range("2026-01-05", periods=288, freq="10min", tz=ZONE)
        quanta = channel(pd.Series(100.0, index=at), "ppfd")
        watts = channel(pd.Series(30.0, index=at), "solar_radiation", "garden", where="outdoor")
        loggers = (logger("bench"), logger("garden", where="outdoor"))
        index = pd.DatetimeIndex(at[:-6:6])
        there = season(place={"latitude": 50.0}, loggers=loggers)
        assert _sun(readings(there, channels=(quanta,)), index) == pytest.approx(np.full(len(index), 100 / 2.11))
        assert _sun(readings(there, channels=(quanta, watts)), index) == pytest.approx(np.full(len(index), 30.0))
        assert _sun(readings(season(loggers=loggers), channels=(quanta,)), index) is None
        assert _sun(readings(there), index) is None

    def test_the_present_state_is_the_last_with_eight_heated_nights(self) -> None:
        """Nine nights of 0, eight of 1, three of 2: 1; with seven of 1 it is 0; with none that long, the last."""

        def of(*nights: int) -> int:
            state = np.concatenate([np.full(24 * n, k) for k, n in enumerate(nights)])
            return _present(plain_house(plain_hours(len(state) + 7, state=np.append(state, [len(nights) - 1] * 7))))

        assert (of(9, 8, 3), of(9, 7, 3), of(4, 3, 2)) == (1, 0, 2)
        cold = plain_hours(24 * 12, heaters_w=np.zeros(24 * 12), state=(np.arange(288) >= 100).astype(np.int64))
        assert _present(plain_house(cold)) == 1
        assert _present(plain_house(plain_hours(12, state=np.full(12, 3)))) == 3

    def test_the_dial_where_known_else_the_hold_found(self) -> None:
        """9 °C written down for some hours; the hold of 7.5 in the others, and everywhere without any dial."""
        whole = np.zeros(2, dtype=bool)
        model = HouseModel(house=None, why="", first=dt.date(2026, 1, 5), whole=whole, states=())
        assert model.dial_c(7.5) == 7.5
        assert replace(model, dial=np.array([9.0, np.nan])).dial_c(7.5) == pytest.approx([9.0, 7.5])
        assert model.evenings() == [dt.date(2026, 1, 5), dt.date(2026, 1, 6)]
        bare = no_house("nobody asked")
        assert (bare.house, bare.why, len(bare.whole), bare.states) == (None, "nobody asked", 0, ())
        assert (bare.present, model.present, bare.dial) == (0, 0, None)

    def test_the_dial_of_a_season_is_written_by_the_hour(self) -> None:
        """No thermostat is noted: the hold aimed for, 24 hours a day; NaN on days before any aim."""
        made = logged_house()
        aimed = replace(made, season=made.season.model_copy(update={"aims": season(aims={"hold_c": 8.0}).aims}))
        found = house_model(aimed)
        assert found.dial is not None and found.house is not None
        assert found.dial == pytest.approx(np.full(found.house.hours.count, 8.0))
        later = season(aims={"hold": ({"from": dt.date(2026, 1, 7), "c": 9.0},)})
        late = house_model(replace(made, season=made.season.model_copy(update={"aims": later.aims})))
        assert late.dial is not None and np.isnan(late.dial[:48]).all() and (late.dial[48:] == 9.0).all()

    @pytest.mark.parametrize(
        ("lost", "words"), [("bench", "crop air and outdoor air"), ("garden", "crop air and outdoor air")]
    )
    def test_a_house_needs_both_airs(self, lost: str, words: str) -> None:
        """Without either there is none, and the reason says what it needs."""
        made = logged_house()
        kept = tuple(c for c in made.channels if c.logger != lost)
        assert words in house_model(replace(made, channels=kept)).why

    def test_an_air_that_was_read_once_a_day_is_named(self) -> None:
        """The crop's or the garden's: the reason is its step."""
        made = logged_house()
        for n, name in ((0, "bench"), (1, "garden")):
            rare = replace(made.channels[n], values=made.channels[n].values.iloc[::96], step_s=86_400.0)
            channels = (rare, made.channels[1]) if n == 0 else (made.channels[0], rare)
            why = house_model(replace(made, channels=channels)).why
            assert f"“{name}” was read about once a day" in why

    def test_two_airs_that_never_meet_make_no_house(self) -> None:
        """The crop's in the first weeks, the garden's in the last."""
        made = logged_house()
        crop, garden = made.channels
        middle = crop.values.index[len(crop.values) // 2]
        one = replace(crop, values=crop.values[crop.values.index < middle])
        other = replace(garden, values=garden.values[garden.values.index >= middle + pd.Timedelta("1h")])
        assert "together" in house_model(replace(made, channels=(one, other))).why

    def test_the_hours_begin_with_the_first_day_that_has_both(self) -> None:
        """Three days without the crop's air and two at the end: 51 days from the fourth on."""
        made = logged_house()
        crop = made.channels[0]
        at = crop.values.index
        kept = crop.values[(at >= pd.Timestamp("2026-01-08", tz=ZONE)) & (at < pd.Timestamp("2026-02-28", tz=ZONE))]
        found, first, whole, _ = house_hours(replace(made, channels=(replace(crop, values=kept), made.channels[1])))
        assert (first, found.count, len(whole)) == (dt.date(2026, 1, 8), 51 * 24, 50)

    def test_a_meters_readings_become_sums_of_their_hours(self) -> None:
        """Weekly readings of the made house: each week has its heat. What no reading covers is not logged, and without
        heat."""
        made = logged_house(every=168)
        made = replace(made, heating=(replace(made.heating[0], form="meter"),))
        hours, first, *_ = house_hours(made)
        rated = replace(hours, rated_w=4000.0)
        found = _metered(rated, made, first)
        table = made.heating[0].intervals
        for n, kwh in enumerate(table["heat_kwh"]):
            got = float(found.heaters_w[168 * n : 168 * (n + 1)].sum())
            assert got == pytest.approx(1000.0 * kwh, rel=1e-3)
        short = table.iloc[1:].reset_index(drop=True)
        part = _metered(rated, replace(made, heating=(replace(made.heating[0], intervals=short),)), first)
        assert not part.logged[:168].any() and part.logged[168:].all()
        assert not part.heaters_w[:168].any()

    def test_only_one_heater_with_a_meter_is_made_hourly(self) -> None:
        """Two heaters, a store, or readings outside the season are refused in words."""
        made = logged_house(every=168)
        hours, first, *_ = house_hours(made)
        one = replace(made.heating[0], form="meter")
        refused = (((one, one), "a single heater"), ((replace(one, form="deliveries"),), "only by what was bought"))
        for heating, why in refused:
            with pytest.raises(NotEnoughData, match=why):
                _metered(replace(hours, rated_w=4000.0), replace(made, heating=heating), first)
        summer = one.intervals.assign(
            start=one.intervals["start"] + pd.Timedelta(days=200), end=one.intervals["end"] + pd.Timedelta(days=200)
        )
        away = replace(made, heating=(replace(one, intervals=summer),))
        with pytest.raises(NotEnoughData, match="no reading of the meter"):
            _metered(replace(hours, rated_w=4000.0), away, first)


def lever(name: str, *spells: tuple[str, str], touches: tuple[str, ...] = ("air",)) -> Lever:
    """A lever that was on over these stretches, local midnight to midnight."""
    states = tuple(State(from_=pd.Timestamp(a, tz=ZONE), to=pd.Timestamp(b, tz=ZONE), on=True) for a, b in spells)
    return Lever(
        name=name, thing=None, touches=touches, entries=(), states=states, hours_on=0.0, hours_off=0.0,
        reasons=MappingProxyType({}), lines=(), undone=MappingProxyType({}),
    )  # fmt: skip


class TestStates:
    SECONDS = pd.Timestamp("2026-01-05", tz=ZONE).timestamp() + 3600.0 * np.arange(24 * 50)

    def told(self, *levers: Lever) -> list[tuple[tuple[str, ...], int]]:
        _, states = states_of(replace(readings(), levers=levers), self.SECONDS)
        return [(state.on, state.hours) for state in states]

    def test_ten_days_in_all_make_a_state(self) -> None:
        """On for six and four days: 240 hours, a state; six and three: told with the one before."""
        film = lever("film", ("2026-01-10", "2026-01-16"), ("2026-02-01", "2026-02-05"))
        assert self.told(film) == [((), 40 * 24), (("film",), 240)]
        short = lever("film", ("2026-01-10", "2026-01-16"), ("2026-02-01", "2026-02-04"))
        assert self.told(short) == [((), 50 * 24)]

    def test_a_short_beginning_belongs_to_the_first_state_that_counts(self) -> None:
        """Three days with the film, then without it: one state, all hours."""
        assert self.told(lever("film", ("2026-01-05", "2026-01-08"))) == [((), 50 * 24)]

    def test_two_levers_make_up_to_four_states(self) -> None:
        """Film from the 20th day, fan from the 35th."""
        film, fan = lever("film", ("2026-01-25", "2026-03-01")), lever("fan", ("2026-02-09", "2026-03-01"))
        assert self.told(film, fan) == [((), 480), (("film",), 360), (("film", "fan"), 360)]

    def test_a_season_shorter_than_ten_days_has_the_state_that_lasted_longest(self) -> None:
        """Five days, three of them with the film."""
        film = lever("film", ("2026-01-07", "2026-01-10"))
        number, states = states_of(replace(readings(), levers=(film,)), self.SECONDS[: 24 * 5])
        assert [state.on for state in states] == [("film",)] and set(number.tolist()) == {0}
