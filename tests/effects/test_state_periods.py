"""Weeks and days with their heat, on meters and logs of a few rows."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.heaters import hourly, meter
from made_season import ZONE, heater, readings, season

from reportgen.effects.state_periods import RARELY, Periods, _known_sums, _trimmed, periods_of
from reportgen.measures.heating_hours import hours_of
from reportgen.readings.types import HeatSupply

OF = season("2026-01-05", "2026-02-01")  # four weeks
MONDAYS = [f"2026-{d}" for d in ("01-05", "01-12", "01-19", "01-26", "02-02")]
HOURS = pd.date_range("2026-01-05", "2026-02-02", freq="1h", tz=ZONE, inclusive="left")
ZERO = HOURS[0].timestamp()


def found(*supplies: HeatSupply, **more: Any) -> Periods | str:
    book = readings(OF, heating=supplies, **more)
    return periods_of(book, hours_of(book))


def of(*supplies: HeatSupply) -> Periods:
    told = found(*supplies)
    assert isinstance(told, Periods)
    return told


def test_the_weeks_of_a_meter() -> None:
    """Four weeks of 10, 20, 30 and 40 kWh: their middles half a week after the first start and on, their hours from 0
    by 168, seven days long."""
    told = of(meter(MONDAYS, [10.0, 20.0, 30.0, 40.0]))
    assert told.kwh.tolist() == [10.0, 20.0, 30.0, 40.0]
    assert told.middle.tolist() == pytest.approx([0.5, 1.5, 2.5, 3.5])
    assert told.first.tolist() == [0.0, 168.0, 336.0, 504.0] and told.end.tolist() == [168.0, 336.0, 504.0, 672.0]
    assert told.days == 7.0 and told.inside.all() and len(told.inside) == 672


def test_sums_of_a_period_count_parts_of_hours() -> None:
    """A figure of 0, 1, 2, 3 by the hour; from half past the first hour to the end of the third: ½·0 + 1 + 2; from 1.5
    to 3.25 h: ½·1 + 2 + ¼·3."""
    told = Periods(
        kwh=np.ones(2), middle=np.arange(2.0), first=np.array([0.5, 1.5]), end=np.array([3.0, 3.25]),
        inside=np.ones(4, dtype=bool), days=7.0,
    )  # fmt: skip
    assert told.sums(np.arange(4.0)).tolist() == pytest.approx([3.0, 3.25])


def trimmed(
    kwh: list[float], known: list[bool] | None = None, days: float = 7.0, shift_h: float = 0.0
) -> Periods | str:
    n = len(kwh)
    edges = ZERO + 3600.0 * shift_h + 86_400.0 * days * np.arange(n + 1)
    there = np.ones(n, dtype=bool) if known is None else np.array(known)
    return _trimmed(np.array(kwh), edges[:-1], edges[1:], there, HOURS)


def test_from_the_first_heated_period_to_the_last() -> None:
    """Heated is more than 3 % of the largest known one: of 100, 3.0 is not, 3.1 is. Cold ones between stay, unknown
    ones go, those before and after too; the middle counts from the first that is kept."""
    told = trimmed([0.0, 3.0, 3.1, 0.0, 50.0, 100.0, 3.0, 0.0], [True] * 4 + [False] + [True] * 3, days=1.0)
    assert isinstance(told, Periods)
    assert told.kwh.tolist() == [3.1, 0.0, 100.0]
    assert told.middle.tolist() == pytest.approx([0.5, 1.5, 3.5])
    assert told.first.tolist() == [48.0, 72.0, 120.0] and told.end.tolist() == [72.0, 96.0, 144.0]
    assert told.inside.tolist() == [48 <= h < 144 for h in range(672)]
    assert told.days == 1.0


def test_an_unknown_period_sets_no_measure() -> None:
    """1000 kWh of a week that is not known do not make 10 kWh little; nothing known or nothing given is refused."""
    told = trimmed([10.0, 1000.0, 10.0], [True, False, True])
    assert isinstance(told, Periods) and told.kwh.tolist() == [10.0, 10.0]
    assert trimmed([0.0, 0.0]) == trimmed([5.0], [False]) == "no day or week is known to have been heated"


def test_periods_beyond_the_season_are_cut_to_its_hours() -> None:
    """A week from 24 h before the season's first hour to six days into it, and one that reaches out at the end: hours 0
    to 144 and 648 to 672; the length stays a week."""
    early, late = trimmed([5.0], shift_h=-24.0), trimmed([5.0], shift_h=648.0)
    assert isinstance(early, Periods) and isinstance(late, Periods)
    assert (early.first.tolist(), early.end.tolist()) == ([0.0], [144.0])
    assert (late.first.tolist(), late.end.tolist()) == ([648.0], [672.0])
    assert early.inside.tolist() == [h < 144 for h in range(672)]
    assert early.days == 7.0


def test_an_hour_lies_inside_by_its_middle() -> None:
    """From half past an hour on: that hour's middle is the first instant inside; to half past: it is out."""
    told = trimmed([5.0], days=1.0, shift_h=10.5)
    assert isinstance(told, Periods)
    assert np.flatnonzero(told.inside)[[0, -1]].tolist() == [10, 33]


def test_parts_of_one_sum_are_put_together_again() -> None:
    """Rows 1 and 2 share sum 7, the others stand by themselves: 10, 20 + 30, 40."""
    plain = meter(MONDAYS, [10.0, 20.0, 30.0, 40.0])
    kwh, start, end = _known_sums(replace(plain, intervals=plain.intervals.assign(known_sum=[-1, 7, 7, -1])))
    week = 7 * 86_400.0
    assert kwh.tolist() == [10.0, 50.0, 40.0]
    assert ((start - ZERO) / week).tolist() == [0.0, 1.0, 3.0] and ((end - ZERO) / week).tolist() == [1.0, 3.0, 4.0]
    zero = _known_sums(replace(plain, intervals=plain.intervals.assign(known_sum=[0, 0, -1, -1])))
    assert zero[0].tolist() == [30.0, 30.0, 40.0]
    assert _known_sums(plain)[0].tolist() == [10.0, 20.0, 30.0, 40.0]


@pytest.mark.parametrize(("other", "told"), [(11.0, True), (12.0, False)])
def test_one_meter_must_tell_nine_tenths(other: float, told: bool) -> None:
    """100 kWh of one meter: beside 11 of another they are 90.1 %, beside 12 they are 89.3 %."""
    tens = meter(MONDAYS, [25.0] * 4)
    whole = found(tens, meter(["2026-01-05", "2026-02-02"], [other], name="tube"))
    if told:
        assert isinstance(whole, Periods) and whole.kwh.tolist() == [25.0] * 4
    else:
        assert whole == "the heat of several heaters is known only as sums over different days"


def test_the_larger_meter_speaks() -> None:
    """Whichever stands first in season.toml."""
    large, small = meter(MONDAYS, [25.0] * 4), meter(MONDAYS, [1.0] * 4, name="tube")
    for pair in ((large, small), (small, large)):
        assert of(*pair).kwh.tolist() == [25.0] * 4


@pytest.mark.parametrize(("day", "told"), [("15", True), ("16", False)])
def test_a_reading_in_ten_days_is_the_rarest(day: str, told: bool) -> None:
    """Read every ten days: told; every eleven: too seldom."""
    whole = found(meter(["2026-01-05", f"2026-01-{day}"], [20.0]))
    assert isinstance(whole, Periods) if told else whole == RARELY


def test_deliveries_tell_nothing_and_bills_do() -> None:
    """A tank filled: too seldom however often; a bill a week counts like a meter; an empty book: too seldom."""
    rows = [(a, b, 10.0, 5.0) for a, b in pairwise(MONDAYS)]
    assert found(heater(rows, form="deliveries")) == RARELY
    assert of(heater(rows, form="bills")).kwh.tolist() == [10.0] * 4
    assert found(heater([])) == RARELY


def test_days_where_heat_was_logged_by_the_hour() -> None:
    """Three days of 24, 48 and 12 kWh from the first midnight on; a dehumidifier by the hour beside a meter makes no
    days."""
    log = hourly("2026-01-05", [1.0] * 24 + [2.0] * 24 + [0.5] * 24)
    told = of(log)
    assert told.kwh.tolist() == pytest.approx([24.0, 48.0, 12.0])
    assert told.days == 1.0 and told.first.tolist() == [0.0, 24.0, 48.0]
    aside = replace(log, name="dryer", role="appliance")
    weekly = found(meter(MONDAYS, [10.0, 20.0, 30.0, 40.0]), appliances=(aside,))
    assert isinstance(weekly, Periods) and weekly.days == 7.0


def test_a_day_counts_when_four_fifths_of_it_are_known_and_hardly_any_of_it_was_spread() -> None:
    """Logged for 19 of 24 hours: not known; for 20: known. A meter's sum beside 24 logged kWh: 2 of the 26 of
    the largest day are less than a tenth and let it be, 3 of 27 are more and take the day out."""
    hours = [1.0] * 24 + [1.0] * 19 + [np.nan] * 5 + [1.0] * 20 + [np.nan] * 4 + [1.0] * 24
    assert of(hourly("2026-01-05", hours)).first.tolist() == [0.0, 48.0, 72.0]
    log = hourly("2026-01-05", [1.0] * 96)
    for spread, kept in ((2.0, 4), (3.0, 3)):
        beside = meter(["2026-01-06", "2026-01-07"], [spread], name="stove")
        told = of(log, _known_elsewhere(beside))
        assert len(told.kwh) == kept


def _known_elsewhere(supply: HeatSupply) -> HeatSupply:
    """With rows of nothing on the days before and after, so that it is known of them."""
    before, after = meter(["2026-01-05", "2026-01-06"], [0.0]), meter(["2026-01-07", "2026-01-09"], [0.0])
    parts = [before.intervals, supply.intervals, after.intervals]
    return replace(supply, intervals=pd.concat(parts, ignore_index=True))
