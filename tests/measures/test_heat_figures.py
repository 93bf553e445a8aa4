"""What the heat page's figures rest on: nights, the base, running sums, the tariff, the span of a change, a duct."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pandas as pd
import pytest
from heated_house import BALANCE_C, HOLD_C, LOSS_W_PER_K, heat_w, hours, house, outdoor_c, supply
from made_season import channel, heater, readings, season

from reportgen.measures import hold_base, hold_fit
from reportgen.measures.exposure import line
from reportgen.measures.heat import heat
from reportgen.measures.heating_hours import heat_by_hour, heat_curves
from reportgen.measures.hold import stretches
from reportgen.measures.house.season import house_hours
from reportgen.measures.soil_store import DuctLines, duct

AT = hours()
OUT = outdoor_c(AT)


def test_the_loss_rests_on_the_nights_that_were_heated_and_warm() -> None:
    """Counted by hand on the closed forms: evenings with heat in 7 of the 10 hours from 20 to 6 h and a mean lift over
    3 K (methods page, *The house as a balance*), in a house held at 2 °C, which mild nights leave unheated."""
    watts = heat_w(OUT, 2.0)
    inside = np.where(watts > 0, 2.0, OUT + 3.0)
    counted = 0
    for evening in range(len(AT) // 24 - 1):
        night = slice(24 * evening + 20, 24 * evening + 30)
        on = int((watts[night] > 0.02 * watts.max()).sum())
        counted += on >= 7 and float((inside[night] - OUT[night]).mean()) > 3.0
    assert 7 < counted < len(AT) // 24 - 1
    assert heat(house(hold_c=2.0)).loss_nights == counted
    assert heat(replace(house(), heating=())).loss_nights == 0


def test_the_base_lies_as_far_from_the_hold_as_it_was_made() -> None:
    """Heat begins 3 K under the hold (heated_house.heat_w) and is 80 W a kelvin; the scan has steps of a quarter."""
    made = house()
    found = stretches(made, heat_by_hour(made))
    air = hold_base.weather(made, heat_by_hour(made), found)
    base = hold_fit.base(hold_base.periods(made, heat_curves(made)), air)
    assert base.above_hold_k == pytest.approx(BALANCE_C - HOLD_C, abs=0.25)
    assert base.kwh_per_kh == pytest.approx(LOSS_W_PER_K / 1000.0, rel=0.03)  # a quarter kelvin of some ten


def test_a_curve_rises_between_its_knots_and_stands_between_two_stretches() -> None:
    """1 kWh from 0 to 1 h, 2 kWh from 2 to 3 h: knots at 0, 1, 2, 3 h with 0, 1, 1, 3 kWh; half of the second is 1."""
    at = hours(days=1)
    made = supply(at[:3], np.array([1000.0, 0.0, 2000.0]))
    made = replace(made, intervals=made.intervals.iloc[[0, 2]].reset_index(drop=True))
    (curve,) = heat_curves(readings(season("2026-01-05", "2026-01-06"), heating=(made,)))
    begun = at[0].timestamp()
    assert (curve.knots - begun).tolist() == [0.0, 3600.0, 7200.0, 10_800.0]
    assert curve.kwh.tolist() == pytest.approx([0.0, 1.0, 1.0, 3.0])
    half = curve.between("kwh", curve.knots[:1], curve.knots[2:3] + 1800.0)
    assert half == pytest.approx([2.0])


@pytest.mark.parametrize(
    ("reasons", "dearest", "told"),
    [({"hours": "why"}, 50.0, True), ({"hours": "why"}, 30.0, False), ({}, 50.0, False)],
)
def test_a_price_by_the_hour_of_a_sum_is_told_as_such(reasons: dict[str, str], dearest: float, told: bool) -> None:
    """100 kWh that cost 30: between 20 and 50 by the hours of the tariff, or all the same price, or bounded for
    another reason."""
    made = heater([("2026-01-05", "2026-02-02", 100.0, 30.0)], reasons=reasons)
    cheapest = 20.0 if dearest > 30.0 else 30.0
    made = replace(made, intervals=made.intervals.assign(cost_low=cheapest, cost_high=dearest))
    (source,) = heat(readings(heating=(made,))).sources
    assert source.by_tariff is told
    assert (source.cost_low, source.cost_high) == ((20.0, 50.0) if dearest > 30.0 else (None, None))


def test_the_band_of_another_hold_is_so_much_of_the_change() -> None:
    """By the house run again: less heat 0.86 to 1.20 of what is told, more 0.86 to 1.30 (HOLD_PRICES.md). Without a
    heater no run counts."""
    found = heat(house())
    assert found.priced_by_run
    assert found.kwh is not None and len(found.price_of_hold) > 3
    for row in found.price_of_hold:
        change, most = row.kwh - found.kwh, 1.30 if row.kwh > found.kwh else 1.20
        ends = sorted(max(found.kwh + change * share, 0.0) for share in (0.86, most))
        assert (row.low, row.high) == pytest.approx(ends)
    assert not heat(replace(house(), heating=())).priced_by_run


def test_the_house_takes_the_wind_of_its_hours_where_it_is_logged() -> None:
    """2 m/s by day and 5 by night: hourly means. No wind logger, or one silent for half of the winter: none."""
    made = house(place={"latitude": 50.0, "longitude": 15.0})
    wind = np.where((np.arange(len(AT)) % 24 >= 8) & (np.arange(len(AT)) % 24 < 18), 2.0, 5.0)
    at = pd.date_range(AT[0], periods=len(AT) * 6, freq="10min")
    blown = channel(pd.Series(np.repeat(wind, 6), index=at), "wind_speed", "garden", where="outdoor", step_s=600.0)
    found, *_ = house_hours(replace(made, channels=(*made.channels, blown)))
    assert found.wind_m_s is not None
    steady = np.flatnonzero(np.diff(wind, prepend=wind[0]) == 0)[:-1]
    steady = steady[np.isin(steady + 1, steady)]  # the joined line leads from one hour's wind into the next
    assert found.wind_m_s[steady] == pytest.approx(wind[steady])
    silent = replace(blown, values=blown.values.iloc[: len(at) // 2])
    for channels in (made.channels, (*made.channels, silent)):
        assert house_hours(replace(made, channels=channels))[0].wind_m_s is None


def test_a_ducts_fall_is_where_the_air_goes_in_less_where_it_comes_out() -> None:
    """22 °C in and 16 °C out at 0.05 m³/s: 6 K, and 0.05 · 1.2 · 1006 · 6 = 362.2 W into the bed for 28 days of 24 h:
    243.4 kWh. The other way round as much is drawn; with one end alone there is no figure."""
    at = pd.date_range("2026-01-05", "2026-02-02", freq="10min", tz=season().zone)

    def steady(value: float) -> pd.Series:
        return pd.Series(value, index=at)

    ends = {"inlet": line(steady(22.0)), "outlet": line(steady(16.0)), "flow": line(steady(0.05))}
    fan = channel(steady(1.0), "fan_on", step_s=600.0)

    def told(**lines: object):  # type: ignore[no-untyped-def]
        return duct(fan, line(steady(25.0)), line(steady(12.0)), season(), DuctLines(**(ends | lines)))  # type: ignore[arg-type]

    found = told()
    assert (found.drop_k, found.drawn_kwh) == (pytest.approx(6.0), 0.0)
    assert found.stored_kwh == pytest.approx(243.4, rel=1e-3)
    turned = told(inlet=ends["outlet"], outlet=ends["inlet"])
    assert (turned.drop_k, turned.stored_kwh) == (pytest.approx(-6.0), 0.0)
    assert turned.drawn_kwh == pytest.approx(243.4, rel=1e-3)
    for end in ("inlet", "outlet"):
        assert told(**{end: None}).drop_k is None
