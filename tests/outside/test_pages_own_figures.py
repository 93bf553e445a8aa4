"""Figures that only the pages tell, each against what somebody else's steam tables, a standard or a hand say of it.

`iapws` and CoolProp work moist air out in their own way (IAPWS-IF97; ASHRAE RP-1485, a real gas).
"""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from CoolProp.CoolProp import PropsSI
from CoolProp.HumidAirProp import HAPropsSI
from heated_house import house as heated_house
from iapws.iapws97 import IAPWS97, _PSat_T, _TSat_P
from made_season import ZONE, channel, heater, logger, picking, readings, season

from reportgen.measures.damp import Damp, damp
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.readings.types import Watering
from reportgen.season.models import Crop, House, Household

MINUTES = pd.date_range("2026-01-06 00:00", periods=3 * 1440, freq="1min", tz=ZONE)
TURN = 2 * np.pi * np.arange(len(MINUTES)) / 1440
AIR_C = 17.0 + 11.0 * np.sin(TURN - 1.9) + 1.5 * np.sin(3.3 * TURN)
RH_PCT = 76.0 - 19.0 * np.sin(TURN - 1.6) + 3.0 * np.sin(2.7 * TURN)
OUT_C = 4.0 + 3.0 * np.sin(TURN - 2.4)
U_W_M2K = 3.0
# Every crossing lies within a minute of where minutes counted one by one put it; there are a dozen in three days.
COUNTED = 0.1


def damp_of(house: House | None = None) -> Damp:
    """Three days of warm, damp and dry air by the minute, with the air outdoors beside it."""
    yard = {"logger": "yard", "where": "outdoor"}
    made = season(loggers=(logger("bench", main=True), logger("yard", where="outdoor")), house=house or House())
    series = [pd.Series(values, index=MINUTES) for values in (AIR_C, RH_PCT, OUT_C, 85.0 + 0 * OUT_C)]
    channels = (
        channel(series[0]),
        channel(series[1], "relative_humidity"),
        channel(series[2], **yard),
        channel(series[3], "relative_humidity", **yard),
    )
    return damp(readings(made, channels=channels))


def vapour_mpa() -> np.ndarray:
    """Vapour pressure of every minute [MPa], by IAPWS-IF97."""
    return np.array([_PSat_T(t + 273.15) * rh / 100 for t, rh in zip(AIR_C, RH_PCT, strict=True)])


def dew_points_c() -> np.ndarray:
    """Dew point of every minute [°C], by IAPWS-IF97; all lie above freezing here, where its range begins."""
    found = np.array([_TSat_P(e) for e in vapour_mpa()]) - 273.15
    assert found.min() > 0.1
    return found


def test_dew_on_a_wall_pane() -> None:
    """Heat that flows sideways meets 0.13 m² K/W inside (ISO 6946, Table 7), upward 0.10: the wall is the colder
    pane, and has hours of dew that the roof has not."""
    dew = dew_points_c()
    wall, roof = (float((dew > AIR_C - U_W_M2K * r * (AIR_C - OUT_C)).sum()) / 60 for r in (0.13, 0.10))
    told = damp_of(House(u_value_w_m2k=U_W_M2K))
    assert wall > roof + 2.0
    assert told.wall_dew_hours == pytest.approx(wall, abs=COUNTED)
    assert told.glazing_dew_hours.estimate == pytest.approx(roof, abs=COUNTED)


def test_a_wall_that_nobody_described_has_no_dew() -> None:
    """Without a U value there is no pane to be wetted."""
    assert damp_of().wall_dew_hours is None


def test_air_within_two_kelvins_of_its_dew_point_is_near_wet() -> None:
    """Air less dew point under 2 K, minute by minute; at 10 °C that is from 87.5 % up (e(8 °C)/e(10 °C), IF97)."""
    near = float((AIR_C - dew_points_c() < 2.0).sum()) / 60
    assert 100 * _PSat_T(281.15) / _PSat_T(283.15) == pytest.approx(87.4, abs=0.2)
    assert 5.0 < near < 65.0
    assert damp_of().near_wet_hours == pytest.approx(near, abs=COUNTED)


def test_air_that_draws_more_than_1_4_kpa_is_too_dry() -> None:
    """Deficit e_w − e over 1.4 kPa, minute by minute."""
    deficit_kpa = np.array([_PSat_T(t + 273.15) for t in AIR_C]) * 1e3 - vapour_mpa() * 1e3
    dry = float((deficit_kpa > 1.4).sum()) / 60
    assert 2.0 < dry < 60.0
    assert damp_of().too_dry_hours == pytest.approx(dry, abs=COUNTED)


def airing(**house: float) -> Damp:
    """A day at 10 °C and 90 % with 5 °C and fog outdoors."""
    day = pd.date_range("2026-01-06", periods=1440, freq="1min", tz=ZONE)
    of = season(
        loggers=(logger("bench", main=True), logger("yard", where="outdoor")),
        house=House(air_changes_per_h=house.get("changes"), air_volume_m3=house.get("volume")),
    )
    yard = {"logger": "yard", "where": "outdoor"}
    channels = (
        channel(pd.Series(10.0, index=day)),
        channel(pd.Series(90.0, index=day), "relative_humidity"),
        channel(pd.Series(5.0, index=day), **yard),
        channel(pd.Series(100.0, index=day), "relative_humidity", **yard),
    )
    return damp(readings(of, channels=channels))


def test_water_that_a_houses_own_leaks_carry_out() -> None:
    """0.5 air changes of 20 m³ an hour: 240 m³ a day, each with the difference of two densities of saturated steam.

    Density of saturated steam by IAPWS-IF97: 9.41 g/m³ at 10 °C, 6.80 at 5 °C. 1 %: steam is no ideal gas.
    """
    inside, outside = (IAPWS97(T=t + 273.15, x=1).rho * 1e3 for t in (10.0, 5.0))
    told = airing(changes=0.5, volume=20.0).airing
    assert told.litres_a_day == pytest.approx(0.5 * 20.0 * 24 * (0.9 * inside - outside) / 1000, rel=0.01)


@pytest.mark.parametrize("given", [{"changes": 0.5}, {"volume": 20.0}])
def test_without_air_changes_or_volume_no_water_is_told(given: dict[str, float]) -> None:
    """Half a description carries no litres."""
    assert airing(**given).airing.litres_a_day is None


def test_heat_that_a_cubic_metre_of_fresh_air_takes() -> None:
    """A cubic metre of dry air of 20 °C warmed by 5 K takes 1.68 Wh (CoolProp: density × heat).

    2 %: EN ISO 13789 rounds it to 1200 J m⁻³ K⁻¹, 0.33 Wh. A cubic metre as cold and damp as these is denser and takes
    up to 8 % more than is told, never less.
    """

    def taken_wh(temp_c: float, humidity: float) -> float:
        names = ("cp_ha", "Vha")
        heat_j, volume = (HAPropsSI(n, "T", temp_c + 273.15, "P", 101325, "R", humidity) for n in names)
        return heat_j / volume * 5.0 / 3600

    told = airing().airing.wh_per_m3
    assert told == pytest.approx(taken_wh(20.0, 0.0), rel=0.02)
    assert all(told < taken_wh(*air) < 1.08 * told for air in ((10.0, 0.9), (5.0, 1.0)))


def test_kilograms_that_would_pay_the_heat() -> None:
    """6 kg of spinach at 8 a kilogram, 2 kg of leek at 4, 2 kg of kale without a price: what is priced brings 56 on
    8 kg, 7.00 a kilogram; heat for 63 is paid by 9 kg. By hand."""
    crops = (Crop(name="spinach", shop_price_per_kg=8.0), Crop(name="leek", shop_price_per_kg=4.0), Crop(name="kale"))
    picks = (picking("2026-01-06", 6.0), picking("2026-01-07", 2.0, "leek"), picking("2026-01-08", 2.0, "kale"))
    supply = heater([("2026-01-05", "2026-01-12", 210.0, 63.0)])
    told = harvest(readings(season(crops=crops), harvest=picks, heating=(supply,)))
    assert (told.priced_share, told.break_even_kg) == (pytest.approx(0.8), pytest.approx(9.0))
    assert harvest(readings(harvest=picks, heating=(supply,))).break_even_kg is None  # no price, nothing to weigh it by


def test_water_and_people_a_kilogram() -> None:
    """120 and 80 L in the season, 50 L the week before it: 200 L on 5 kg are 40 L a kilogram. Four people: 1.25 kg a
    head. By hand."""
    days = (("2026-01-06", 120.0), ("2026-01-20", 80.0), ("2025-12-30", 50.0))
    water = tuple(
        Watering(line=n, date=dt.date.fromisoformat(day), time=None, bed=None, litres=litres)
        for n, (day, litres) in enumerate(days, start=2)
    )
    picks = (picking("2026-01-06", 4.0), picking("2026-01-20", 1.0), picking("2026-01-21", 3.0, use="lost"))
    told = harvest(readings(season(household=Household(people=4)), harvest=picks, watering=water))
    assert told.litres_per_kg == pytest.approx(40.0)
    assert told.kg_per_head == pytest.approx(1.25)
    alone = harvest(readings(harvest=picks))
    assert (alone.litres_per_kg, alone.kg_per_head) == (None, None)


def test_the_expected_loss_says_whether_air_changes_are_in_it() -> None:
    """Cover 5.8 W/m²K × 10 m² = 58 W/K; half a change of 30 m³ an hour adds 15 m³/h of air (CoolProp at 20 °C, 0.335
    Wh m⁻³ K⁻¹; 3 %: the standard's 0.33). The flag says which of the two was told."""
    per_m3k = PropsSI("D", "T", 293.15, "P", 101325, "Air") * PropsSI("C", "T", 293.15, "P", 101325, "Air") / 3600
    for changes, extra in ((None, 0.0), (0.5, 15.0 * per_m3k)):
        shell = House(u_value_w_m2k=5.8, glazing_area_m2=10.0, air_volume_m3=30.0, air_changes_per_h=changes)
        told = heat(heated_house(house=shell))
        assert told.loss_with_air is (changes is not None)
        assert told.loss_expected_w_per_k is not None
        assert told.loss_expected_w_per_k - 58.0 == pytest.approx(extra, rel=0.03, abs=1e-9)
