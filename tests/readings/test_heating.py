"""Heating: what each form of record gives, its cost, and what is told where it gives none."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel
from made_season import season as made

from reportgen.measures.heat_books import unlooked
from reportgen.problems import Problem
from reportgen.readings.degree_hours import pull
from reportgen.readings.fuels import heat_value
from reportgen.readings.heating import read_heating
from reportgen.readings.logged_use import of_counter, of_power, of_switch
from reportgen.readings.prices import Tariff, mean_price, price_at
from reportgen.readings.types import Channel, HeatSupply
from reportgen.season.models import HeatSource, Price

PLUG = {
    "name": "plug",
    "where": "elsewhere",
    "files": ("plug.csv",),
    "time": "t",
    "measures": {"heater_power": {"column": "W"}, "heater_energy": {"column": "kWh"}, "heater_on": {"column": "on"}},
}


def stamps(start: str, count: int, step: str) -> pd.DatetimeIndex:
    """Local stamps."""
    return pd.date_range(start, periods=count, freq=step, tz=ZONE)


def supply(source: dict[str, Any], *channels: Channel, folder: Path | None = None) -> tuple[HeatSupply, list[Problem]]:
    """The one heater of a made-up January."""
    season = made(heating=({"name": "heater", "fuel": "electricity"} | source,), logger=(PLUG,))
    if folder is not None:
        season = season.model_copy(update={"folder": folder})
    heaters, _, problems = read_heating(season, channels)
    return heaters[0], problems


@pytest.mark.parametrize("step", ["1min", "10min", "15min"])
def test_a_steady_power_integrates_to_power_times_hours(step: str) -> None:
    """1500 W for 24 h is 36 kWh by definition, whatever the step; a float sum over 96 quarter hours: 1e-9."""
    count = int(pd.Timedelta("24h") / pd.Timedelta(step)) + 1
    use = of_power(pd.Series(1500.0, index=stamps("2026-01-10", count, step)))
    assert use.stretches["kwh"].sum() == pytest.approx(36.0, rel=1e-9)
    assert len(use.stretches) == 96
    assert use.stretches["kwh"].max() == pytest.approx(0.375, rel=1e-9)


def test_no_power_counts_in_a_gap() -> None:
    """Two hours of 1 kW, a six-hour gap, two hours of 1 kW are 4 kWh."""
    index = stamps("2026-01-10", 13, "10min").append(stamps("2026-01-10 08:00", 13, "10min"))
    use = of_power(pd.Series(1000.0, index=index))
    assert use.stretches["kwh"].sum() == pytest.approx(4.0, rel=1e-9)
    assert not use.stretches["sparse"].any()


def test_a_counter_keeps_its_sum_across_gaps_and_resets() -> None:
    """0.5 kWh a step, one reset to zero, one gap: all that was counted is there, and the gap is one sparse sum."""
    index = stamps("2026-01-10", 5, "10min").append(stamps("2026-01-10 06:40", 3, "10min"))
    use = of_counter(pd.Series([10.0, 10.5, 0.5, 1.0, 1.5, 4.5, 5.0, 5.5], index=index))
    assert use.resets == 1
    assert use.stretches["kwh"].sum() == pytest.approx(0.5 + 0.5 + 0.5 + 0.5 + 3.0 + 0.5 + 0.5)
    gap = use.stretches[use.stretches["sparse"]]
    assert gap["kwh"].tolist() == [3.0]
    assert gap["start"].tolist() == [index[4]] and gap["end"].tolist() == [index[5]]


def test_one_low_reading_of_a_counter_is_a_slip_not_a_reset() -> None:
    """412 → 0 → 412.1 within twenty minutes would be 2472 kW; it is left out and 0.1 kWh remain."""
    use = of_counter(pd.Series([412.0, 0.0, 412.1], index=stamps("2026-01-10", 3, "10min")))
    assert use.resets == 0
    assert use.stretches["kwh"].sum() == pytest.approx(0.1)


def test_a_switch_log_holds_at_most_a_day() -> None:
    """On for 2 h, off for 1 h, then on and silent for three days: 2 h + 24 h at 2 kW."""
    times = ["2026-01-10 00:00", "2026-01-10 02:00", "2026-01-10 03:00", "2026-01-13 03:00"]
    on = pd.Series([1.0, 0.0, 1.0, 0.0], index=pd.DatetimeIndex(times).tz_localize(ZONE))
    assert of_switch(on, 2000.0).stretches["kwh"].sum() == pytest.approx(52.0)


def test_a_steady_on_off_log_counts_nothing_in_a_gap() -> None:
    """Ten-minute values of 1 for two hours, six hours of nothing, two hours more: 4 h at 1 kW."""
    index = stamps("2026-01-10", 13, "10min").append(stamps("2026-01-10 08:00", 13, "10min"))
    assert of_switch(pd.Series(1.0, index=index), 1000.0).stretches["kwh"].sum() == pytest.approx(4.0)


def test_a_logger_form_prices_every_hour() -> None:
    """1 kW from 20 to 24 h at 0.30, from 22 h at 0.20: 2 × 0.30 + 2 × 0.20."""
    power = channel(pd.Series(1000.0, index=stamps("2026-01-10 20:00", 25, "10min")), "heater_power", "plug")
    prices = (
        {"from": dt.date(2025, 10, 1), "price": 0.30},
        {"from": dt.date(2025, 10, 1), "price": 0.20, "hours": "22-06"},
    )
    found, problems = supply({"logger": "plug", "prices": prices}, power)
    assert not problems and found.form == "logger"
    assert found.intervals["cost"].sum() == pytest.approx(1.0)
    assert found.intervals["heat_kwh"].sum() == pytest.approx(4.0)


def test_a_heat_pump_gives_its_cop_times_what_it_draws() -> None:
    """Heat is bought × efficiency, cost is of what was bought."""
    power = channel(pd.Series(1000.0, index=stamps("2026-01-10", 7, "10min")), "heater_power", "plug")
    found, _ = supply({"logger": "plug", "efficiency": 3.0, "price": 0.5}, power)
    assert found.intervals[["bought", "heat_kwh", "cost"]].sum().tolist() == pytest.approx([1.0, 3.0, 0.5])


def test_what_lies_outside_the_season_does_not_count() -> None:
    """The season begins on 5 January at midnight: of 4 h around it 2 h count."""
    power = channel(pd.Series(1000.0, index=stamps("2026-01-04 22:00", 25, "10min")), "heater_power", "plug")
    assert supply({"logger": "plug"}, power)[0].intervals["bought"].sum() == pytest.approx(2.0)


def test_a_meter_gives_sparse_sums_between_readings(tmp_path: Path) -> None:
    """Differences of the readings, noon to noon, the estimated ones marked; prices are means over the days."""
    (tmp_path / "meter.csv").write_text(
        "date,reading,estimated\n2026-01-05,100,\n2026-01-12,170,yes\n2026-01-19,200,\n2026-02-01,265,\n"
    )
    prices = ({"from": dt.date(2025, 10, 1), "price": 0.30}, {"from": dt.date(2026, 1, 19), "price": 0.40})
    found, problems = supply({"meter": "meter.csv", "prices": prices}, folder=tmp_path)
    assert not problems and found.form == "meter"
    table = found.intervals
    assert table["bought"].tolist() == [70.0, 30.0, 65.0]
    assert table["estimated"].tolist() == [True, True, False]
    assert table["sparse"].all()
    assert table["start"].tolist()[0] == pd.Timestamp("2026-01-05 12:00", tz=ZONE)
    middle = 0.30 * 6.5 / 7 + 0.40 * 0.5 / 7  # the new price holds from the midnight before the last half day
    assert table["cost"].tolist() == pytest.approx([70 * 0.30, 30 * middle, 65 * 0.40], rel=1e-9)


def test_a_meter_that_runs_back_is_refused(tmp_path: Path) -> None:
    """Its exact words name line, column and both readings."""
    (tmp_path / "meter.csv").write_text("date,reading\n2026-01-05,100\n2026-01-12,90\n")
    _, problems = supply({"meter": "meter.csv"}, folder=tmp_path)
    assert problems[0].text() == (
        "meter.csv:3, reading  [meter-runs-back]\n"
        "  found     90 after 100\n"
        "  expected  at or above 100\n"
        "  to do     correct the reading; give a new meter a [[heating]] table of its own"
    )


def test_a_meter_past_its_last_digit_says_what_to_add(tmp_path: Path) -> None:
    """99 990 and then 120: a hundred thousand begun anew."""
    (tmp_path / "meter.csv").write_text("date,reading\n2026-01-05,99990\n2026-01-12,120\n")
    _, problems = supply({"meter": "meter.csv"}, folder=tmp_path)
    assert problems[0].todo.endswith("add 100000 to this and all later readings")


def test_a_meter_written_with_points_between_thousands_is_asked_about(tmp_path: Path) -> None:
    """12.345 to 13.402 in three weeks is a kilowatt-hour or a thousand; with decimals elsewhere the file settles it."""
    days = ("2026-01-06", "2026-01-15", "2026-01-30")
    rows = [f"{day};{reading}" for day, reading in zip(days, ("12.345", "12.601", "13.402"), strict=True)]
    (tmp_path / "meter.csv").write_text("\n".join(["date;reading", *rows]))
    _, problems = supply({"meter": "meter.csv"}, folder=tmp_path)
    assert [(p.slug, p.line, p.todo) for p in problems] == [("point-or-comma", 2, "write 12345 or 12.3450")]
    (tmp_path / "meter.csv").write_text("\n".join(["date;reading", *rows[:2], f"{days[2]};13.402,5"]))
    found, problems = supply({"meter": "meter.csv"}, folder=tmp_path)
    assert not [p for p in problems if p.level == "problem"]
    assert float(found.intervals["bought"].sum()) == pytest.approx(1057.5)


def test_readings_across_the_first_day_are_shared_by_time_and_missing_days_told(tmp_path: Path) -> None:
    """Of 40 kWh in four days, two of them before the season, 20 count; the uncovered end is a warning."""
    (tmp_path / "meter.csv").write_text(
        "date,time,reading\n2026-01-03,00:00,0\n2026-01-07,00:00,40\n2026-01-12,00:00,80\n"
    )
    found, problems = supply({"meter": "meter.csv"}, folder=tmp_path)
    assert found.intervals["bought"].tolist() == pytest.approx([20.0, 40.0])
    assert [(p.slug, p.level) for p in problems] == [("heat-not-covered", "warning")]
    assert problems[0].found == "it ends 21 days before the season ends"


def test_deliveries_run_to_the_next_and_the_last_to_the_end_less_what_was_left(tmp_path: Path) -> None:
    """Propane by the litre is tabled: 25.5 MJ/L gross is 7.083 kWh (EIA 91 333 Btu/gal; 1 % for the rounding)."""
    (tmp_path / "bottles.csv").write_text(
        "date,amount,cost,left\n2026-01-05,26,40,\n2026-01-15,26,44,13\n", encoding="utf-8"
    )
    source = {"fuel": "propane", "unit": "L", "deliveries": "bottles.csv", "efficiency": 0.9}
    found, problems = supply(source, folder=tmp_path)
    table = found.intervals
    assert not problems
    assert table["bought"].tolist() == [26.0, 13.0]
    assert table["cost"].tolist() == [40.0, 22.0]
    assert table["heat_kwh"].sum() == pytest.approx(39 * 7.083 * 0.9, rel=0.01)
    assert table["end"].tolist()[-1] == pd.Timestamp("2026-02-02", tz=ZONE)
    assert found.heating_value == "gross"
    assert found.reasons["co2"] == "no co2_kg_per_unit given; published: 5.76 kg per US gallon (EIA 2016)"


def test_more_left_than_the_last_delivery_comes_off_the_one_before(tmp_path: Path) -> None:
    """Two lots of five, seven left: three were burnt, all of the first lot. When the second came nobody looked at the
    stock, so what is known is one sum to the season's end."""
    (tmp_path / "sacks.csv").write_text("date,amount,left\n2026-01-05,5,\n2026-01-15,5,7\n")
    source = {"fuel": "wood", "unit": "kg", "deliveries": "sacks.csv"}
    found = supply(source, folder=tmp_path)[0]
    assert found.intervals["bought"].tolist() == [3.0]
    assert found.intervals["end"].tolist() == [pd.Timestamp("2026-02-02", tz=ZONE)]
    assert found.stock is not None and found.stock.left == pytest.approx(7.0)


def test_a_stock_that_is_not_said_is_a_warning(tmp_path: Path) -> None:
    """Without `left` everything counts as used, and that is told."""
    (tmp_path / "sacks.csv").write_text("date,amount\n2026-01-05,5\n")
    _, problems = supply({"fuel": "wood", "unit": "kg", "deliveries": "sacks.csv"}, folder=tmp_path)
    assert [(p.slug, p.level) for p in problems] == [("left-unsaid", "warning")]


def test_what_nobody_looked_for_is_marked_as_such(tmp_path: Path) -> None:
    """Two of five left on the 15th, five more on the 20th, nothing written after: three were burnt, seven count as
    burnt since the 15th. Written as nothing left they are known, and so is a look after the last day."""
    wood = {"fuel": "wood", "unit": "kg", "deliveries": "sacks.csv"}
    book = "date,amount,left\n2026-01-05,5,\n2026-01-15,0,2\n2026-01-20,5,"
    (tmp_path / "sacks.csv").write_text(f"{book}\n")
    found, _ = supply(wood, folder=tmp_path)
    assert found.stock is not None and found.stock.unlooked_since == pd.Timestamp("2026-01-15 12:00", tz=ZONE)
    assert unlooked(found, "bought") == pytest.approx(7.0)
    assert found.intervals["bought"].sum() == pytest.approx(10.0)
    for looked in (f"{book}0\n", f"{book}\n2026-02-04,0,0\n"):
        (tmp_path / "sacks.csv").write_text(looked)
        found, problems = supply(wood, folder=tmp_path)
        assert found.stock is not None and found.stock.unlooked_since is None
        assert unlooked(found, "bought") == 0.0 and "left-unsaid" not in [p.slug for p in problems]


def source(**more: Any) -> HeatSource:
    """A source by meter."""
    return HeatSource.model_validate({"name": "x", "meter": "m.csv"} | more)


@pytest.mark.parametrize(
    ("fuel", "unit", "kwh", "tolerance"),
    [
        ("propane", "L", 7.071, 0.01),  # EIA 2018: 91 333 Btu/gal
        ("propane", "gal_us", 7.071 * 3.785411784, 0.01),  # the same; NIST SP 811: litres in a US gallon, exact
        ("wood", "kg", 4.333, 0.03),  # IPCC 2006 vol. 2 Table 1.2: 15.6 TJ/Gg; 3 % between woods
        ("wood", "lb", 4.333 * 0.45359237, 0.03),
        ("natural_gas", "therm", 29.3, 0.001),  # a US therm is 1.054804e8 J (NIST SP 811) = 29.300 kWh
        ("electricity", "kWh", 1.0, 0.0),
    ],
)
def test_tabled_heat_values(fuel: str, unit: str, kwh: float, tolerance: float) -> None:
    """Only what a published table confirms is tabled."""
    found = heat_value(source(fuel=fuel, unit=unit))
    assert found is not None and found.kwh == pytest.approx(kwh, rel=tolerance)


@pytest.mark.parametrize(("fuel", "unit"), [("propane", "kg"), ("propane", "m3"), ("kerosene", "L"), ("wood", "m3")])
def test_what_is_not_tabled_is_asked_for(fuel: str, unit: str, tmp_path: Path) -> None:
    """No heat value is made up; the problem names the key."""
    assert heat_value(source(fuel=fuel, unit=unit)) is None
    (tmp_path / "m.csv").write_text("date,reading\n2026-01-05,0\n2026-02-01,9\n")
    _, problems = supply({"fuel": fuel, "unit": unit, "meter": "m.csv"}, folder=tmp_path)
    assert [p.slug for p in problems] == ["heat-value-missing"]
    assert problems[0].column == "[[heating]] 1 · heat_kwh_per_unit"


def test_no_price_leaves_the_cost_open_with_its_reason() -> None:
    """NaN and a reason, never a zero."""
    power = channel(pd.Series(1000.0, index=stamps("2026-01-10", 7, "10min")), "heater_power", "plug")
    found, _ = supply({"logger": "plug"}, power)
    assert found.intervals["cost"].isna().all()
    assert found.reasons["cost"] == "no price given"


def test_on_off_without_a_rated_power_is_a_problem() -> None:
    """The plate of the heater is asked for."""
    on = channel(pd.Series(1.0, index=stamps("2026-01-10", 7, "10min")), "heater_on", "plug")
    assert [p.slug for p in supply({"logger": "plug"}, on)[1]] == ["rated-power-missing"]
    found, problems = supply({"logger": "plug", "rated_power_w": 2000.0}, on)
    assert not problems and found.intervals["heat_kwh"].sum() == pytest.approx(2.0)


def test_prices_of_hours_pass_midnight_and_go_before_others() -> None:
    """22–06 holds at 23 h and 5 h, not at 6 h or 21 h; before the first price there is none."""
    prices = (
        Price.model_validate({"from": dt.date(2026, 1, 10), "price": 0.3}),
        Price.model_validate({"from": dt.date(2026, 1, 10), "price": 0.1, "hours": "22-06"}),
    )
    times = pd.DatetimeIndex([f"2026-01-{d} {h}:00" for d, h in ((9, 12), (10, 5), (10, 6), (10, 21), (10, 23))])
    found = price_at(times.tz_localize(ZONE), None, prices)
    assert np.isnan(found[0]) and found[1:].tolist() == [0.1, 0.3, 0.3, 0.1]


def test_a_price_over_days_is_the_mean_over_its_hours() -> None:
    """A whole day with eight hours at 0.1 and sixteen at 0.4 costs 0.3 a unit."""
    prices = (
        Price.model_validate({"from": dt.date(2026, 1, 1), "price": 0.4}),
        Price.model_validate({"from": dt.date(2026, 1, 1), "price": 0.1, "hours": "22-06"}),
    )
    day = pd.DatetimeIndex(["2026-01-10", "2026-01-11"]).tz_localize(ZONE)
    by_time = pull(made(), ())
    assert mean_price(day[:1], day[1:], Tariff(price=None, prices=prices), by_time)[0] == pytest.approx(0.3)


def test_an_appliance_of_rated_hours_draws_the_same_every_day() -> None:
    """250 W × 6 h × 28 days is 42 kWh, each day a sum that no hour can be read from."""
    season = made(appliance=({"name": "drier", "kind": "dehumidifier", "rated_power_w": 250.0, "hours_per_day": 6.0},))
    _, (found,), problems = read_heating(season, ())
    assert not problems
    assert found.intervals["heat_kwh"].sum() == pytest.approx(42.0)
    assert len(found.intervals) == 28 and found.intervals["sparse"].all() and found.form == "rated hours"


PROPANE = {"fuel": "propane", "deliveries": "b.csv", "heat_kwh_per_unit": 12.8}


@pytest.mark.parametrize(
    ("amounts", "unit", "asked"),
    [("2 1 1", "kg", True), ("2 1 1", "lb", True), ("11 11 22", "kg", False), ("2.5 1 1", "kg", False)],
)
def test_bottles_that_were_counted_are_asked_about(tmp_path: Path, amounts: str, unit: str, asked: bool) -> None:
    """One to four whole kilograms each time are bottles; what is in them is what counts."""
    rows = [f"2026-01-{5 + 7 * n:02d},{amount},0" for n, amount in enumerate(amounts.split())]
    (tmp_path / "b.csv").write_text("\n".join(["date,amount,left", *rows]))
    _, problems = supply(PROPANE | {"unit": unit}, folder=tmp_path)
    assert [(p.line, p.column) for p in problems if p.slug == "bottles-counted"] == ([(2, "amount")] if asked else [])


@pytest.mark.parametrize(("amount", "cost", "asked"), [(96.1, 310, True), (310, 96.1, False)])
def test_amount_and_cost_of_bills_exchanged(tmp_path: Path, amount: float, cost: float, asked: bool) -> None:
    """310 euros for 96 kWh: no kilowatt-hour costs three euros."""
    (tmp_path / "b.csv").write_text(f"date,amount,cost,from\n2026-01-31,{amount},{cost},2026-01-05\n")
    _, problems = supply({"bills": "b.csv"}, folder=tmp_path)
    assert [(p.line, p.column) for p in problems if p.slug == "price-in-cents"] == ([(2, "cost")] if asked else [])
