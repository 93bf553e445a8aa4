"""What a heater drew by its logger's own step, and how far a store still reaches; by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, heater, logger, readings, season, store

from reportgen.measures.draw import Draw, draw_of, drawn, idle_runs
from reportgen.measures.stock_left import stock_left
from reportgen.season import Appliance

H = 3600.0
ZERO = pd.Timestamp("2026-01-06", tz=ZONE)


def log(values: list[float], measure: str, minutes: list[float] | None = None, name: str = "plug") -> Any:
    """Readings every ten minutes, or at these minutes."""
    at = [10.0 * n for n in range(len(values))] if minutes is None else minutes
    index = ZERO + pd.to_timedelta(at, unit="min")
    return channel(pd.Series(values, index=index, dtype=float), measure, name, where="elsewhere")


def hours(runs: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Runs in hours after that midnight."""
    return [(round((a - ZERO.timestamp()) / H, 4), round((b - ZERO.timestamp()) / H, 4)) for a, b in runs]


def pieces(amounts: list[float], **more: Any) -> Draw:
    """Hourly stretches with these amounts, all known."""
    at = ZERO.timestamp() + H * np.arange(len(amounts) + 1)
    usual: dict[str, Any] = {"known": np.ones(len(amounts), dtype=bool), "counter": False}
    return Draw(starts=at[:-1], ends=at[1:], amount=np.array(amounts, float), **(usual | more))


class TestDrawn:
    def test_a_counter_rises_by_its_power(self) -> None:
        """0.1 kWh in ten minutes are 600 W; a fall tells nothing of its stretch; the least step is 0.05."""
        found = drawn(log([5.0, 5.1, 5.1, 1.0, 1.05], "heater_energy"))
        assert found.amount == pytest.approx([600.0, 0.0, 0.0, 300.0])
        assert found.known.tolist() == [True, True, False, True]
        assert (found.counter, found.switch, found.least_kwh) == (True, False, pytest.approx(0.05))
        assert found.hours == pytest.approx([1 / 6] * 4)
        assert drawn(log([5.0, 5.0, 5.0], "heater_energy")).least_kwh == 0.0

    def test_a_power_log_is_the_mean_of_its_two_ends(self) -> None:
        """100 and 300 W: 200; over a gap of a day nothing is known."""
        found = drawn(log([100.0, 300.0, 300.0, 500.0], "heater_power", [0, 10, 20, 1460]))
        assert found.amount == pytest.approx([200.0, 300.0, 400.0])
        assert found.known.tolist() == [True, True, False] and not found.counter

    def test_a_switch_that_is_written_when_it_turns_holds_for_a_day(self) -> None:
        """On for two hours, off for 30: known for 24 of them. At a steady step it holds to the next reading, and not
        over a gap."""
        found = drawn(log([1.0, 0.0, 1.0, 0.0], "heater_on", [0, 120, 120 + 1800, 2000]))
        assert found.hours == pytest.approx([2.0, 24.0, 80 / 60]) and found.known.all() and found.switch
        assert found.amount.tolist() == [1.0, 0.0, 1.0]
        steady = drawn(log([1.0, 1.0, 0.0, 0.0, 0.0], "heater_on", [0, 10, 20, 30, 2000]))
        assert steady.hours == pytest.approx([1 / 6] * 3 + [1970 / 60])
        assert steady.known.tolist() == [True, True, True, False]
        even = drawn(
            log([1.0, 0.0, 0.0], "heater_on", [0, 10, 2000])
        )  # one of two neighbours differs: no more than half
        assert even.known.tolist() == [True, False]

    def test_a_log_that_turns_at_more_than_half_of_its_readings_writes_at_a_switch(self) -> None:
        """22 readings ten minutes apart, the last a day and a half later: with 11 changes of 21 it holds for a day (the
        last stretch is known for 24 h), with 10 it has a gap there."""
        minutes = [*(10.0 * n for n in range(21)), 200.0 + 36 * 60.0]
        for changes, held in ((11, True), (10, False)):
            values = [float(min(n, changes) % 2) for n in range(22)]
            found = drawn(log(values, "heater_on", minutes))
            assert found.known.tolist() == [True] * 20 + [held]
            assert found.hours[-1] == pytest.approx(24.0 if held else 36.0)

    def test_draw_is_over_two_percent_of_the_largest_known(self) -> None:
        """Of 1000 W: 20 is standby, 21 is draw; the 9000 of a stretch that is not known counts for nothing."""
        known = np.array([True, True, True, True, False])
        one = pieces([0.0, 20.0, 21.0, 1000.0, 9000.0], known=known)
        assert one.drew.tolist() == [False, False, True, True, False]
        assert one.idle.tolist() == [True, True, False, False, False]
        assert not pieces([0.0, 0.0]).drew.any()

    def test_whose_logger_tells_it(self) -> None:
        """A heater's or an appliance's, a counter first; none without a logger or with one reading."""
        fan = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug"}
        dryer = Appliance(name="dryer", kind="dehumidifier", logger="socket", rated_power_w=200.0)
        of = season(heating=(fan,), appliances=(dryer,), loggers=(logger("plug"), logger("socket")))
        power, counter = log([100.0, 100.0], "heater_power"), log([1.0, 1.1], "heater_energy")
        made = readings(of, channels=(power, counter, log([1.0, 0.0], "heater_on", name="socket")))
        assert (found := draw_of(made, "fan heater")) is not None and found.counter
        assert (found := draw_of(made, "dryer")) is not None and found.switch
        assert draw_of(made, "stove") is None
        assert draw_of(replace(made, channels=()), "dryer") is None
        assert draw_of(replace(made, channels=(log([1.0], "heater_on", name="socket"),)), "dryer") is None


class TestIdle:
    def test_pauses_between_the_first_and_the_last_draw(self) -> None:
        """Off, on, off, off, on, off, on, off: two hours from 2 and one from 5; before the first and after the last
        draw nothing is a pause."""
        one = pieces([0, 9, 0, 0, 9, 0, 9, 0])
        assert hours(idle_runs([one])) == [(2, 4), (5, 6)]
        assert hours(idle_runs([one], 2.0)) == [(2, 4)] and idle_runs([one], 2.1) == []
        assert idle_runs([]) == [] and idle_runs([pieces([0, 0, 0])]) == []
        assert idle_runs([pieces([9, 9])]) == []

    def test_two_that_heat_together_pause_together(self) -> None:
        """The second runs in the third hour and from the sixth on: what is left is the fourth hour, up to its end; the
        last draw of either ends it."""
        first, second = pieces([0, 9, 0, 0, 9, 0, 0, 0]), pieces([0, 0, 9, 0, 0, 9, 0, 9])
        assert hours(idle_runs([first, second])) == [(3, 4), (6, 7)]

    def test_what_is_not_known_is_no_pause(self) -> None:
        """Of four hours without draw the second is not known: one and two."""
        known = np.array([True, True, False, True, True, True])
        assert hours(idle_runs([pieces([9, 0, 0, 0, 0, 9], known=known)])) == [(1, 2), (3, 5)]

    def test_a_counter_must_have_had_time_for_two_of_its_steps(self) -> None:
        """A step of 0.1 kWh at a usual 100 W takes an hour, two of them two: of pauses of one and of two hours the
        second counts."""
        one = pieces([100, 0, 100, 0, 0, 100], counter=True, least_kwh=0.1)
        assert hours(idle_runs([one])) == [(3, 5)]
        uneven = Draw(
            starts=one.starts, ends=one.ends, amount=np.array([40.0, 0, 40, 0, 0, 220]), known=one.known, counter=True,
            least_kwh=0.05,
        )  # fmt: skip
        assert hours(idle_runs([uneven])) == [(1, 2), (3, 5)]  # 100 W in the mean: one hour is just enough


class TestStockLeft:
    """Propane in kg; 28 days of even cold, so that a stretch is shared by time."""

    def made(self, rows: list[tuple[str, str, float]], left: float, weights: bool = False) -> Any:
        bottle = heater(
            [(a, b, amount, 1.0) for a, b, amount in rows],
            name="burner", fuel="propane", unit="kg", form="deliveries", stock=store(99.0, left=left),
        )  # fmt: skip
        at = pd.date_range("2026-01-05", periods=28 * 24 + 1, freq="1h", tz=ZONE)
        outside = pd.Series(-2.0, index=at)
        if weights:
            outside[at >= pd.Timestamp("2026-01-12 12:00", tz=ZONE)] = 4.0
        of = season(aims={"hold_c": 8.0}, loggers=(logger("garden", where="outdoor"),))
        air = channel(outside, logger="garden", where="outdoor")
        return readings(of, channels=(air,), heating=(bottle,))

    def test_nights_at_what_the_hardest_and_the_mildest_took(self) -> None:
        """14 kg over 7 days, then 7 over 7: noon to noon of 6 and 8 January 2 kg each, of 14 January 1 kg; on the night
        of the 11th half of each, 1.5. 12 kg left: 6 to 12 nights, of four."""
        made = self.made([("2026-01-05", "2026-01-12", 14.0), ("2026-01-12", "2026-01-19", 7.0)], 12.0)
        cold = [dt.date(2026, 1, n) for n in (6, 8, 11, 14)]
        (found,) = stock_left(made, cold)
        assert (found.name, found.fuel, found.unit, found.left) == ("burner", "propane", "kg", 12.0)
        assert (found.low, found.high, found.nights) == (pytest.approx(6.0), pytest.approx(12.0), 4)

    def test_a_colder_night_takes_more_of_its_stretch(self) -> None:
        """Held 8: 10 K under it up to noon of the 12th, 4 K after. 14 days of 7.5 · 10 + 6.5 · 4 = 101 K days share 101
        kg: a night before takes 10, one after 4. 40 kg left: 4 to 10 nights."""
        made = self.made([("2026-01-05", "2026-01-19", 101.0)], 40.0, weights=True)
        (found,) = stock_left(made, [dt.date(2026, 1, n) for n in (6, 8, 14)])
        assert (found.low, found.high) == (pytest.approx(4.0, rel=0.01), pytest.approx(10.0, rel=0.01))

    def test_nights_not_wholly_in_use_are_left_out_and_three_are_needed(self) -> None:
        """Of the nights of the 6th, 8th, 10th and 12th the last lies half in a week of which nothing is known."""
        made = self.made([("2026-01-05", "2026-01-12", 14.0)], 12.0)
        days = [dt.date(2026, 1, n) for n in (6, 8, 10, 12)]
        (found,) = stock_left(made, days)
        assert found.nights == 3
        assert stock_left(made, days[1:]) == ()

    def test_no_store_nothing_left_nothing_told(self) -> None:
        """An empty bottle, and a heater without a store."""
        rows = [("2026-01-05", "2026-01-12", 14.0)]
        days = [dt.date(2026, 1, n) for n in (6, 8, 10)]
        assert stock_left(self.made(rows, 0.0), days) == ()
        made = self.made(rows, 12.0)
        assert stock_left(replace(made, heating=(replace(made.heating[0], stock=None),)), days) == ()
