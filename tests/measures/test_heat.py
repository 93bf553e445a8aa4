"""Heat of a house known by its closed forms: the hold, the loss, the price of a degree, what stays unknown and why."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pandas as pd
import pytest
from heated_house import HOLD_C, LOSS_W_PER_K, heat_w, hours, house, outdoor_c, supply
from made_season import picking, readings

from reportgen.measures.heat import heat
from reportgen.measures.heat_house import above_aim
from reportgen.measures.heat_loss import expected_w_per_k
from reportgen.measures.heat_types import HoldPrice
from reportgen.measures.hold_price import round_holds
from reportgen.measures.house.season import no_house
from reportgen.plain import plain
from reportgen.problems import NotEnoughData
from reportgen.readings.types import DiaryEntry, HeatSupply
from reportgen.season.models import House


def entry(day: str, touches: tuple[str, ...] = ("thermostat",)) -> DiaryEntry:
    """A change in the diary."""
    return DiaryEntry(
        line=2,
        date=dt.date.fromisoformat(day),
        time=None,
        kind="change",
        what="turned the thermostat",
        touches=touches,
        reversible=True,
        hoped_for=(),
        until=None,
        cost=None,
        years=None,
        written=None,
        note="",
    )


@pytest.mark.parametrize("every", [1, 24 * 7])
def test_price_of_a_degree_in_a_known_house(every: int) -> None:
    """By the hour and by weekly meter alike, every other hold costs what the house's own equation says."""
    found = heat(house(every=every))
    assert found.hold_found_c == pytest.approx(HOLD_C, abs=1e-6)
    assert found.basis is not None and found.basis.balance_c == pytest.approx(5.0, abs=0.25)  # the scan's step
    for row in found.price_of_hold:
        true = heat_w(outdoor_c(hours()), row.hold_c).sum() / 1000.0
        near = 1e-3 if every > 1 else 3e-3  # by the hour half of it is the run, whose hours' losses are means of five
        assert row.kwh == pytest.approx(true, rel=near)
        assert row.cost == pytest.approx(0.3 * true, rel=near)


def test_holds_far_from_the_one_found_are_not_tested() -> None:
    """Within 4 K a hold counts as tested, beyond it does not, and the band only grows with the distance."""
    rows = heat(house()).price_of_hold
    assert {row.hold_c for row in rows if row.tested} == {4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0}
    width = [(row.high - row.low) / row.kwh for row in rows if row.hold_c >= HOLD_C and row.high and row.low]
    assert width == sorted(width)


def test_two_holds_in_one_winter() -> None:
    """Where the thermostat was turned and the diary says so, each stretch keeps its own hold."""
    at = hours(days=56)
    out = outdoor_c(at)
    hold = np.where(np.arange(len(at)) < 28 * 24, 8.0, 5.0)
    watts = np.maximum(LOSS_W_PER_K * (hold - 3.0 - out), 0.0)
    made = house()
    inside = pd.Series(np.where(watts > 0, hold, out + 3.0), index=at).reindex(
        made.channels[0].values.index, method="ffill"
    )
    channels = (replace(made.channels[0], values=inside), made.channels[1])
    cut = str(at[28 * 24].date())
    found = heat(replace(made, channels=channels, heating=(supply(at, watts),), diary=(entry(cut),)))
    assert [round(one.hold_c or 0.0, 3) for one in found.stretches] == [8.0, 5.0]
    for row in found.price_of_hold:
        true = np.maximum(LOSS_W_PER_K * (row.hold_c - 3.0 - out), 0.0).sum() / 1000.0
        assert row.kwh == pytest.approx(true, rel=2e-2)  # half of it is the run, whose hours' losses are means of five
        assert row.low is not None and row.high is not None and row.low - 1.0 <= true <= row.high + 1.0


def test_other_entries_do_not_cut_the_season() -> None:
    """Only what touches the thermostat starts a new stretch."""
    found = heat(replace(house(), diary=(entry("2026-01-20", ("envelope",)),)))
    assert len(found.stretches) == 1


def test_heater_size_is_what_the_hardest_hours_need() -> None:
    """The loss of the hardest three hours lies in the printed band; 5 K colder it is 5 × W/K more, in its own band."""
    needed = heat(house()).heater_needed_w
    need = heat_w(outdoor_c(hours()))
    hardest = float(np.convolve(need, np.ones(3) / 3, "valid").max())
    assert needed.coldest_band is not None and needed.five_band is not None
    assert needed.coldest_band.low < hardest < needed.coldest_band.high
    assert needed.five_band.low < hardest + 5 * LOSS_W_PER_K < needed.five_band.high
    assert needed.to_buy == pytest.approx(1.4 * (needed.coldest_hour or 0.0))


def test_without_heat_by_the_hour_no_heater_size_and_no_loss() -> None:
    """A weekly meter without a rated power tells sums alone, and says so."""
    found = heat(house(every=24 * 7))
    assert found.heater_needed_w.coldest_hour is None and found.loss_by_state == ()
    assert "meter" in found.reasons["heater_needed_w.coldest_hour"]


def test_share_of_the_hold_with_the_sensors_band() -> None:
    """Readings exactly at the hold count as kept; a sensor that reads high by its accuracy would not have kept it."""
    found = heat(house())
    assert found.share_at_or_above_hold.estimate == pytest.approx(1.0)
    assert found.share_at_or_above_hold.low < 0.3 < found.share_at_or_above_hold.high
    assert found.months is not None and found.months["hours"].sum() == pytest.approx(found.hold_hours)


def test_heat_above_the_aim_is_the_table_of_holds_itself() -> None:
    """Held 8 °C for 500 kWh where the table tells 400 for 7 and 320 for 6: an aim of 6.5 leaves 500 − 360 above it."""
    row = {"low": None, "high": None, "cost": None, "tested": True}
    rows = [HoldPrice(hold_c=c, kwh=kwh, **row) for c, kwh in ((6.0, 320.0), (7.0, 400.0), (8.0, 500.0))]
    assert above_aim(rows, 500.0, 8.0, 6.5) == pytest.approx(140.0)
    assert above_aim(rows, 500.0, 8.0, 9.0) == 0.0
    with pytest.raises(NotEnoughData, match="further"):
        above_aim(rows, 500.0, 8.0, 5.0)


def test_flat_out_hours() -> None:
    """An hour at 95 % of the rated power is flat out; under it is not."""
    made = house()
    at = hours()
    watts = np.full(len(at), 1000.0)
    watts[:7] = 1950.0
    watts[7:10] = 1890.0
    found = heat(replace(made, heating=(supply(at, watts, rated_power_w=2000.0),)))
    assert found.sources[0].hours_flat_out == 7


def test_flat_out_draw_of_a_heat_pump() -> None:
    """Rated power is what a heater draws: a heat pump of COP 3 gives three times as much when flat out."""
    made = house()
    at = hours()
    one = supply(at, np.full(len(at), 3000.0), rated_power_w=1000.0)
    source = {"name": one.name, "fuel": "electricity", "logger": "bench", "efficiency": 3.0}
    of = made.season.model_copy(update={"heating": (type_of_source()(**source),)})
    found = heat(replace(made, season=of, heating=(one,)))
    assert found.sources[0].hours_flat_out == len(at)


def type_of_source() -> type:
    """The model of a heater in season.toml."""
    from reportgen.season import HeatSource

    return HeatSource


def test_dark_weeks_share() -> None:
    """Days under ten hours of daylight take their own heat, money and harvest; a lost picking is no harvest."""
    picked = (picking("2026-01-10", 2.0), picking("2026-02-26", 3.0), picking("2026-01-11", 9.0, use="lost"))
    made = house(place={"latitude": 50.0})
    made = replace(made, harvest=picked, books=made.books | {"harvest": True})
    found = heat(made)
    assert found.dark_weeks.kg == 2.0
    assert found.by_day is not None and found.dark_weeks.kwh is not None
    until = dt.date(2026, 2, 10)  # day length at 50° N reaches ten hours between 8 and 14 February
    assert found.dark_weeks.kwh == pytest.approx(float(found.by_day.loc[:until, "kwh"].sum()), rel=0.12)
    assert found.dark_weeks.cost == pytest.approx(0.3 * found.dark_weeks.kwh)


def test_expected_loss_by_hand() -> None:
    """U·A + 0.33·n·V: 54 m² at 3.3 W/m²K is 178.2 W/K; 48 m³ changed 0.8 times an hour add 12.7; no n adds nothing."""
    cover = {"u_value_w_m2k": 3.3, "glazing_area_m2": 54.0}
    assert expected_w_per_k(House(**cover)) == pytest.approx(178.2)
    assert expected_w_per_k(House(**cover, air_volume_m3=48.0, air_changes_per_h=0.8)) == pytest.approx(190.872)
    assert expected_w_per_k(House(u_value_w_m2k=3.3)) is None


def test_without_heat_logged_the_price_is_an_expectation() -> None:
    """No heater: U·A times this winter's degree-hours, without money, marked as never tested."""
    made = house(house={"u_value_w_m2k": 4.0, "glazing_area_m2": 20.0})
    found = heat(replace(made, heating=()))
    assert found.basis is not None and found.basis.kind == "expectation"
    assert not any(row.tested or row.cost is not None for row in found.price_of_hold)
    at8 = next(row for row in found.price_of_hold if row.hold_c == 8.0)
    assert at8.kwh == pytest.approx(80.0 * np.maximum(8.0 - outdoor_c(hours()), 0).sum() / 1000, rel=1e-3)


def test_nothing_logged_is_a_result_with_reasons() -> None:
    """An empty season has every key of the section, null, each with its reason in words."""
    section = plain(heat(readings()))
    keys = {"hold_c", "share_at_or_above_hold", "degree_hours_below_hold", "kwh", "appliances_kwh", "cost", "co2_kg"}
    keys |= {"loss_w_per_k", "loss_expected_w_per_k", "hold_found_c", "sources", "price_of_hold", "heater_needed_w"}
    keys |= {"price_of_degree", "loss_by_state", "known_share", "kwh_low", "kwh_high", "cost_low", "cost_high"}
    assert keys | {"above_target_kwh", "dark_weeks", "reasons"} == set(section)
    for name in ("kwh", "cost", "co2_kg", "loss_w_per_k.estimate", "price_of_hold", "dark_weeks.kg", "sources"):
        assert section["reasons"][name]


def test_heat_that_does_not_follow_the_cold_is_not_priced() -> None:
    """A heater left on at one power tells no price of a degree, and says why."""
    at = hours()
    found = heat(replace(house(), heating=(supply(at, np.full(len(at), 500.0)),)))
    assert found.price_of_hold == ()
    assert "follow" in found.reasons["price_of_hold"]


def test_holds_are_round_in_the_shown_unit() -> None:
    """Whole degrees Celsius, or every second degree Fahrenheit."""
    assert round_holds(8.3, us=False)[0] == 2.0
    assert [round(c * 9 / 5 + 32, 6) for c in round_holds(7.0, us=True)][6:8] == [44.0, 46.0]


def test_only_a_heater_that_is_known_to_have_run_flat_out_widens_a_lower_hold() -> None:
    """Without a balance of the house, 4 K under the hold: the low end is 1.27 times lower (HOLD_PRICES.md) where the
    heater had an hour at its rated power; a heater whose rated power is not given had none."""
    made = house()
    most = float(heat_w(outdoor_c(hours())).max())

    def low(*heating: HeatSupply) -> float:
        (row,) = [
            row
            for row in heat(replace(made, heating=heating), no_house("no balance")).price_of_hold
            if row.hold_c == 4.0
        ]
        assert row.low is not None
        return row.low

    unrated, large, full = (low(replace(made.heating[0], rated_power_w=w)) for w in (None, most * 2, most))
    assert large == pytest.approx(unrated) and full == pytest.approx(unrated / 1.27)
    idle = replace(made.heating[0], name="spare", role="backup", rated_power_w=most * 9)
    idle = replace(idle, intervals=idle.intervals.assign(heat_kwh=0.0, bought=0.0, cost=0.0))
    both = low(replace(made.heating[0], rated_power_w=most), idle)
    assert both == pytest.approx(unrated / 1.27)  # one of two heaters is enough


def test_the_expected_loss_says_whether_changed_air_is_in_it() -> None:
    """With volume and changes an hour it is; with one of them alone it is not."""
    cover = {"u_value_w_m2k": 4.0, "glazing_area_m2": 20.0}
    for more, told in (
        ({}, False), ({"air_volume_m3": 30.0}, False), ({"air_changes_per_h": 1.0}, False),
        ({"air_volume_m3": 30.0, "air_changes_per_h": 1.0}, True),
    ):  # fmt: skip
        assert heat(house(days=7, house=cover | more), no_house("no balance")).loss_with_air is told
