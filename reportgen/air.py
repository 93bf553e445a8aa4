"""Moist air. The only user of psychrolib, whose unit system is global and is set once, here.

Sensors report humidity over liquid water at every temperature (WMO-No. 8, Guide to Instruments, vol. I ch. 4), so
the vapour pressure e = RH/100 · e_w(T) always comes first; dew point then over water, frost point over ice. Above
the triple point e_w is ASHRAE's (Hyland and Wexler 1983, by psychrolib); psychrolib switches to ice below it, so
there e_w is Murphy and Koop 2005 eq. 10. e_i is ASHRAE's over ice.

Speed: both curves are tabled once every 0.05 K as ln e and joined by straight lines; within 0.0002 K of the direct
call. All functions take arrays of any shape (or plain numbers) and keep NaN.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import psychrolib
from numpy.typing import ArrayLike, NDArray

from reportgen.units import CELSIUS_ZERO_K, GAS_CONSTANT_WATER_VAPOUR

Floats = NDArray[np.float64]

TRIPLE_POINT_C = 0.01  # [°C] of water; ITS-90
LOWEST_C, HIGHEST_C, STEP_K = -90.0, 70.0, 0.05  # the tables' range, wider than any reading kept
R_SI_UP = 0.10  # [m² K/W] inside surface, heat flow upward; ISO 6946 table 7
R_SI_SIDE = 0.13  # [m² K/W] inside surface, heat flow sideways; ISO 6946 table 7

psychrolib.SetUnitSystem(psychrolib.SI)


def saturation_pressure_direct(temp_c: float, *, ice: bool = False) -> float:
    """Saturation vapour pressure [Pa] by the equations themselves, one value; `ice` only up to 0.01 °C.

    Source: ASHRAE Fundamentals 2017 ch. 1 eq. 5 and 6; over supercooled water Murphy and Koop 2005,
    Q. J. R. Meteorol. Soc. 131, 1539, eq. 10 (123–332 K).
    """
    if ice or temp_c > TRIPLE_POINT_C:
        return float(psychrolib.GetSatVapPres(temp_c))
    t = temp_c + CELSIUS_ZERO_K
    ln_e = 54.842763 - 6763.22 / t - 4.210 * np.log(t) + 0.000367 * t
    ln_e += np.tanh(0.0415 * (t - 218.8)) * (53.878 - 1331.22 / t - 9.44523 * np.log(t) + 0.014025 * t)
    return float(np.exp(ln_e))


@lru_cache(maxsize=2)
def _table(ice: bool) -> tuple[Floats, Floats]:
    """Temperatures [°C] and ln of the saturation pressure [Pa]."""
    top = TRIPLE_POINT_C if ice else HIGHEST_C
    temps = np.arange(LOWEST_C, top, STEP_K)
    temps = np.union1d(temps, [TRIPLE_POINT_C])
    return temps, np.log([saturation_pressure_direct(float(t), ice=ice) for t in temps])


def _floats(values: ArrayLike) -> Floats:
    return np.asarray(values, dtype=np.float64)


def saturation_pressure_pa(temp_c: ArrayLike) -> Floats:
    """Saturation vapour pressure over liquid water, below 0 °C too [Pa]; NaN outside −90…70 °C; any shape, kept."""
    return np.asarray(np.exp(np.interp(_floats(temp_c), *_table(False), left=np.nan, right=np.nan)))


def saturation_pressure_ice_pa(temp_c: ArrayLike) -> Floats:
    """Saturation vapour pressure over ice [Pa]; NaN above 0.01 °C; any shape, kept."""
    return np.asarray(np.exp(np.interp(_floats(temp_c), *_table(True), left=np.nan, right=np.nan)))


def vapour_pressure_pa(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """Vapour pressure of air at a humidity over water of 0…100 % [Pa]; any shapes that broadcast.

    Source: WMO-No. 8 vol. I annex 4.B.
    """
    return np.asarray(_floats(rh_pct) / 100.0 * saturation_pressure_pa(temp_c))


def _temperature_of(pressure_pa: Floats, ice: bool) -> Floats:
    temps, ln_e = _table(ice)
    with np.errstate(divide="ignore"):
        wanted = np.log(np.where(pressure_pa > 0, pressure_pa, np.nan))
    return np.asarray(np.interp(wanted, ln_e, temps, left=np.nan, right=np.nan))


def dew_point_of_pressure_c(pressure_pa: ArrayLike) -> Floats:
    """Temperature at which this vapour pressure saturates over water [°C]; NaN for no vapour; any shape, kept."""
    return _temperature_of(_floats(pressure_pa), ice=False)


def frost_point_of_pressure_c(pressure_pa: ArrayLike) -> Floats:
    """Temperature at which this vapour pressure saturates over ice [°C]; any shape, kept.

    NaN where that lies above 0.01 °C.
    """
    return _temperature_of(_floats(pressure_pa), ice=True)


def dew_point_c(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """Dew point over water, below 0 °C too [°C]; any shapes that broadcast."""
    return dew_point_of_pressure_c(vapour_pressure_pa(temp_c, rh_pct))


def frost_point_c(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """Frost point over ice [°C]; NaN where it lies above 0.01 °C; any shapes that broadcast."""
    return frost_point_of_pressure_c(vapour_pressure_pa(temp_c, rh_pct))


def deposit_point_c(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """What a cold pane must fall below to be wetted: the frost point where it exists, else the dew point [°C].

    Any shapes that broadcast.
    """
    pressure = vapour_pressure_pa(temp_c, rh_pct)
    frost = frost_point_of_pressure_c(pressure)
    return np.asarray(np.where(np.isnan(frost), dew_point_of_pressure_c(pressure), frost))


def absolute_humidity_gm3(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """Water in the air, e / (461.5 · T_K) [g/m³]; any shapes that broadcast.

    Source: ideal gas law for vapour; FAO-56 annex 3.
    """
    kelvin = _floats(temp_c) + CELSIUS_ZERO_K
    return np.asarray(1000.0 * vapour_pressure_pa(temp_c, rh_pct) / (GAS_CONSTANT_WATER_VAPOUR * kelvin))


def vpd_kpa(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """Vapour pressure deficit e_w − e [kPa]; any shapes that broadcast. Source: FAO-56 (1998) ch. 3."""
    return np.asarray((saturation_pressure_pa(temp_c) - vapour_pressure_pa(temp_c, rh_pct)) / 1000.0)


def pressure_at_altitude_pa(altitude_m: float) -> float:
    """Pressure of the standard atmosphere [Pa]. Source: ASHRAE Fundamentals 2017 ch. 1 eq. 3."""
    return float(psychrolib.GetStandardAtmPressure(altitude_m))


def glazing_inside_c(inside_c: ArrayLike, outdoor_c: ArrayLike, u_w_m2k: float, r_si: float = R_SI_UP) -> Floats:
    """Inside surface of the glazing, T_in − U · R_si · (T_in − T_out) [°C]; steady state, no radiation to the sky.

    Args:
        inside_c, outdoor_c: Air temperatures [°C], same shape.
        u_w_m2k: U value of the glazing [W m⁻² K⁻¹].
        r_si: Inside surface resistance [m² K/W]: 0.10 roof, 0.13 wall (ISO 6946).
    """
    inside = _floats(inside_c)
    return np.asarray(inside - u_w_m2k * r_si * (inside - _floats(outdoor_c)))
