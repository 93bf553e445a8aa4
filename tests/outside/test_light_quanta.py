"""Daily light against published definitions and factors."""

from __future__ import annotations

import numpy as np
import pytest

from reportgen.measures.light import LEAFY_NEED_MOL
from reportgen.measures.light_daily import (
    QUANTA_HIGH,
    QUANTA_LOW,
    QUANTA_PER_JOULE,
    daily_integral_mol,
    quanta_of_radiation_mol,
)


def test_daily_integral_of_steady_light() -> None:
    """200 µmol/m²s for 14 h is 10.08 mol/m² (the definition, as Purdue Extension HO-238-W works it)."""
    assert daily_integral_mol(np.array([200.0]), 14.0)[0] == pytest.approx(10.08, abs=0.001)


def test_quanta_of_a_joule() -> None:
    """Our factor is Britton and Dodd's measured mean, 2.114 µmol/J (Agric. Meteorol. 17, 1976), rounded to 2.11."""
    assert pytest.approx(2.114, abs=0.005) == QUANTA_PER_JOULE


def test_factor_against_the_energy_share() -> None:
    """0.45 of the energy at 4.57 µmol/J (McCree 1972) makes 20.6 mol of 10 MJ; skies differ by 12 %."""
    found = float(quanta_of_radiation_mol(np.array([10.0]))[0])
    assert found == pytest.approx(20.565, rel=0.12)
    assert QUANTA_LOW < 0.45 * 4.57 < QUANTA_HIGH


def test_need_of_leafy_crops() -> None:
    """12 mol/m² a day, the recommended least of leafy greens and herbs (Jayalath et al. 2024, Plants 13:652)."""
    assert LEAFY_NEED_MOL == 12.0
