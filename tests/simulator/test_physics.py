"""The simulator's physics against handbooks, closed forms and other libraries: what it teaches must be true."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pandas as pd
import pvlib
import pytest

from simulator import Climate, HouseParams, physics, simulate
from simulator.sample.this_winter import HOUSE
from simulator.weather import clear_sky

CALM = {"rh_pct": 80.0, "wind_ms": 2.0, "ghi_wm2": 0.0, "cloud": 1.0}
# A box without bed, plants or wet soil: what it loses goes through cover and cracks alone.
BOX = HouseParams(
    soil_w_m2k=0.001, edge_w_k=0.0, wet=0.0, plants_m2=0.0, heater_w=4000.0, hold_c=10.0, hysteresis_k=0.02
)


def weather(temp_c: float | np.ndarray, days: float = 4.0, **more: float) -> pd.DataFrame:
    """Steady weather every ten minutes, dark and overcast unless told."""
    index = pd.date_range("2026-01-01", periods=int(days * 144), freq="10min", tz="UTC")
    return pd.DataFrame({"temp_c": temp_c, **CALM, **more}, index=index)


@pytest.mark.parametrize(("temp_c", "pascal"), [(0.01, 611.66), (10.0, 1228.2), (20.0, 2339.3), (30.0, 4246.9)])
def test_saturation_pressure_is_the_steam_tables(temp_c: float, pascal: float) -> None:
    """Within 0.5 %: a Magnus form, and far finer than a hygrometer's 3 points. Source: steam tables (IAPWS)."""
    assert physics.saturation(temp_c) == pytest.approx(pascal, rel=0.005)


@pytest.mark.parametrize("outdoor_c", [-10.0, 0.0])
def test_a_dry_box_needs_what_its_cover_and_cracks_lose(outdoor_c: float) -> None:
    """Steady heat = U·A·ΔT + 0.34·n·V·ΔT, the two terms of EN 12831 (air holds 0.34 Wh/m³K); 3 % for draughts."""
    run = simulate(weather(outdoor_c), BOX, seed=1).frame.iloc[144:]
    change = run["temp_in_c"] - outdoor_c
    expected = (BOX.u_w_m2k * BOX.glazing_m2 + 0.34 * run["air_changes_h"] * BOX.volume_m3) * change
    assert run["heater_w"].mean() == pytest.approx(expected.mean(), rel=0.03)


def test_wind_raises_the_loss_and_a_curtain_lowers_it() -> None:
    """Signs, and the size of a curtain: R 0.1 m²K/W on U 3.3 gives 1/(1/3.3 + 0.1) = 2.48 (ISO 6946 sums)."""
    still, windy = (physics._u_value(BOX, wind, night=True) for wind in (0.5, 8.0))
    assert still < BOX.u_w_m2k < windy
    assert physics._u_value(replace(BOX, curtain_m2kw=0.1), 2.0, night=True) == pytest.approx(2.48, abs=0.01)


def test_the_cover_of_the_sample_is_what_makers_and_the_standard_say() -> None:
    """Twin-wall sheet of 6 mm: R 1.54–1.69 h·ft²·°F/Btu, U 3.4–3.7 W/m²K (makers); ± 0.1 for the range's rounding."""
    low, high = (5.678 / r for r in (1.69, 1.54))
    assert low - 0.1 <= HOUSE.u_w_m2k <= high + 0.1


def test_no_heat_is_made_or_lost_in_the_bed() -> None:
    """First law: heat that the bed stored equals what came from the air less what went to edge and ground."""
    house = HouseParams(plants_m2=0.0, wet=0.0)
    state = physics.State.begin(house, 0.0)
    dt, gained, before = 600.0, 0.0, _stored(state, house)
    for n in range(600):
        state.air = 5.0 + 4.0 * math.sin(n / 20)
        top = house.soil_w_m2k * house.floor_m2 * (state.air - state.soil[0])
        down = house.soil_k_w_mk * house.floor_m2 * (state.soil[-1] - 9.0) / 0.38
        edge = sum(
            house.edge_w_k * thick / sum(physics.LAYERS_M) * (temp - -2.0)
            for thick, temp in zip(physics.LAYERS_M, state.soil, strict=True)
        )
        gained += (top - down - edge) * dt
        physics._soil(state, house, physics.Outside(-2.0, 80.0, 2.0, 0.0, 1.0, 1.0, 9.0), dt, 0.0)
    assert _stored(state, house) - before == pytest.approx(gained, rel=1e-9)


def _stored(state: physics.State, house: HouseParams) -> float:
    volumes = [house.floor_m2 * thick for thick in physics.LAYERS_M]
    return sum(1e6 * house.soil_mj_m3k * v * t for v, t in zip(volumes, state.soil, strict=True))


def test_a_days_wave_fades_with_depth_as_the_closed_form_says() -> None:
    """Amplitude falls as exp(−Δz/d), d = √(2α/ω) (Carslaw and Jaeger 1959); 15 %, since the layers are 4–8 cm thick."""
    house = HouseParams(edge_w_k=0.0, wet=0.0, plants_m2=0.0)
    state = physics.State.begin(house, 9.5)
    state.soil = [9.5] * len(physics.LAYERS_M)
    tops, belows = [], []
    for n in range(144 * 20):
        state.air = 9.5 + 8.0 * math.sin(2 * math.pi * n / 144)
        physics._soil(state, house, physics.Outside(9.5, 80.0, 2.0, 0.0, 1.0, 1.0, 9.5), 600.0, 0.0)
        tops.append(state.soil[0])
        belows.append(state.soil[1])
    ratio = np.ptp(belows[-144:]) / np.ptp(tops[-144:])
    alpha = house.soil_k_w_mk / (house.soil_mj_m3k * 1e6)
    depth = math.sqrt(2 * alpha / (2 * math.pi / 86400))
    assert ratio == pytest.approx(math.exp(-(physics.MIDS_M[1] - physics.MIDS_M[0]) / depth), rel=0.15)


def test_vapour_stays_between_none_and_saturation() -> None:
    """Relative humidity is 0 … 100 % in a wet house through a cold night, and the glass wets before the air does."""
    run = simulate(weather(-5.0, rh_pct=100.0), replace(HOUSE, wet=1.5), seed=2).frame
    assert run["rh_in_pct"].between(0.0, 100.0).all()
    assert (run["temp_glass_c"] <= run["temp_in_c"] + 1e-9).all()
    assert run["film_kg"].iloc[-1] > 0


def test_burnt_gas_wets_the_air() -> None:
    """Unvented propane gives water: 1.63 kg a kg burnt (C₃H₈ + 5 O₂ → 4 H₂O: 72.06/44.10), so a damper house."""
    base = replace(HOUSE, backup_c=6.0)
    dry = simulate(weather(-5.0), replace(base, heater_w=2000.0, hold_c=6.0), seed=3).frame["rh_in_pct"]
    wet = simulate(weather(-5.0), replace(base, backup_w=2000.0), seed=3).frame["rh_in_pct"]
    assert wet.iloc[-144:].mean() > dry.iloc[-144:].mean() + 2.0
    assert pytest.approx(72.06 / 44.10 / 13.98, rel=0.02) == physics.WATER_KG_KWH  # at 50.3 MJ/kg gross


def test_clear_sky_light_is_haurwitz() -> None:
    """Within 5 % of pvlib's Haurwitz at noon: the sun's place here is good to a degree only."""
    climate = Climate(latitude=48.6, longitude=18.4)
    noons = pd.date_range("2025-10-15 10:46", "2026-04-15 10:46", freq="14D", tz="UTC")
    place = pvlib.location.Location(climate.latitude, climate.longitude)
    zenith = place.get_solarposition(noons)["apparent_zenith"]
    reference = pvlib.clearsky.haurwitz(zenith)["ghi"].to_numpy()
    np.testing.assert_allclose(clear_sky(climate, noons), reference, rtol=0.05)
