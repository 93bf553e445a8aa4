"""Heat loss against published units, a worked example of air changes, and the chemistry of burning."""

from __future__ import annotations

import pytest

from reportgen.measures.heat_books import WATER_KG_PER_KWH
from reportgen.measures.heat_loss import air_w_per_k, expected_w_per_k
from reportgen.season.models import House

BTU_FT2_F = 5.678263  # 1 Btu/(h ft² °F) in W/(m² K); NIST SP 811


def test_air_changes_of_a_worked_example() -> None:
    """A house of 33,333 ft³, one air change an hour, 60 °F warmer: 36,000 Btu/h (J. Bartok, UConn Extension).

    5 %: the example rounds the heat of air to 0.018 Btu/ft³°F, 0.3353 Wh/m³K; ours is 0.33.
    """
    house = House(air_volume_m3=33_333 * 0.3048**3, air_changes_per_h=1.0)
    watts = air_w_per_k(house) * 60 / 1.8
    assert watts * 3.412142 == pytest.approx(36_000, rel=0.05)


def test_cover_of_a_handbook_glazing() -> None:
    """10 m² of single 3 mm clear glass lose 59 W/K.

    1.04 Btu/(h ft² °F) = 5.91 W/(m² K): ASHRAE Handbook of Fundamentals 2009, ch. 15, Table 4, ± 0.05.
    """
    found = expected_w_per_k(House(u_value_w_m2k=1.04 * BTU_FT2_F, glazing_area_m2=10.0))
    assert found == pytest.approx(59.1, abs=0.5)


def test_water_of_an_unvented_burner() -> None:
    """Burning propane frees 0.117 kg of water a kWh gross (C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O, 50.35 MJ/kg)."""
    assert WATER_KG_PER_KWH["propane"] == pytest.approx(0.117, abs=0.001)
