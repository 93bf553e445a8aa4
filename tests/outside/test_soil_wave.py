"""The soil wave against its closed form, published examples, and a numerical solution of the heat equation."""

from __future__ import annotations

import numpy as np
import pytest

from reportgen.ground import DAY_S, OMEGA_DAY, damping_depth_m, wave_at
from reportgen.measures.soil_store import stored_kwh
from reportgen.measures.soil_wave import harmonic

# D = √(κP/π): Hillel 1982; Campbell and Norman 1998. κ [10⁻⁶ m² s⁻¹]: sandy soil, clay, peat of de Vries 1963
DEPTHS = [(0.5e-6, 0.11726), (0.99e-6, 0.16501), (0.4e-6, 0.10488), (0.13e-6, 0.05979)]


@pytest.mark.parametrize(("diffusivity", "depth_m"), DEPTHS)
def test_damping_depth(diffusivity: float, depth_m: float) -> None:
    """The daily damping depth within 0.1 % of the published form; ω is 2π a day, not 1."""
    assert damping_depth_m(diffusivity) == pytest.approx(depth_m, rel=0.001)


@pytest.mark.parametrize(("depth_m", "share"), [(0.1, 0.42623), (0.3, 0.07743)])
def test_share_left_at_depth(depth_m: float, share: float) -> None:
    """exp(−z/D) at κ = 0.5·10⁻⁶ m²/s; last digit of the table."""
    assert wave_at(depth_m, 0.5e-6)[0] == pytest.approx(share, abs=0.0002)


def test_lag_at_depth() -> None:
    """(z/D)·24/2π at 10 cm and κ = 0.5·10⁻⁶ m²/s is 3.257 h."""
    assert wave_at(0.1, 0.5e-6)[1] == pytest.approx(3.2574, abs=0.002)


def test_stored_heat() -> None:
    """2.1 MJ/m³K × 0.3 m³ × 1 K is 0.175 kWh (FAO-56's default capacity)."""
    assert stored_kwh(1.0, 0.3, 2.1) == pytest.approx(0.175, abs=0.0005)


def test_fit_finds_the_wave_of_a_numerical_soil() -> None:
    """Heat equation solved by finite differences under a sine surface: the fit's damping and lag agree with theory.

    Tolerances: 1 % of amplitude and 0.1 h, what the methods page promises of the fit.
    """
    from scipy.integrate import solve_ivp

    kappa, cells, deep = 0.5e-6, 120, 1.2
    dz = deep / cells
    depth = (np.arange(cells) + 0.5) * dz

    def slope(t: float, temp: np.ndarray) -> np.ndarray:
        surface = 4.0 * np.cos(OMEGA_DAY * t)
        above = np.concatenate([[2 * surface - temp[0]], temp[:-1]])
        below = np.concatenate([temp[1:], [temp[-1]]])
        return np.asarray(kappa * (above - 2 * temp + below) / dz**2)

    hours = np.arange(0, 13 * 24 + 1) * 3600.0
    solved = solve_ivp(slope, (0, hours[-1]), np.zeros(cells), method="LSODA", t_eval=hours, rtol=1e-7, atol=1e-9)
    last = hours >= 10 * DAY_S
    at = int(np.argmin(np.abs(depth - 0.105)))
    found = harmonic(hours[last][:-1], solved.y[at][last][:-1])
    share, lag = wave_at(float(depth[at]), kappa)
    assert abs(found) == pytest.approx(4.0 * share, rel=0.01)
    assert -np.angle(found) / OMEGA_DAY / 3600.0 == pytest.approx(lag, abs=0.1)
