"""What cover and air changes let expect of the heat loss. Method: methods page, *Heat*."""

from __future__ import annotations

from reportgen.season import House
from reportgen.units import AIR_HEAT_WH_M3K


def expected_w_per_k(house: House) -> float | None:
    """Heat loss that cover and air changes let expect [W/K]: U·A + 0.33·n·V, without n U·A alone."""
    if house.u_value_w_m2k is None or house.glazing_area_m2 is None:
        return None
    return house.u_value_w_m2k * house.glazing_area_m2 + air_w_per_k(house)


def air_w_per_k(house: House) -> float:
    """Heat carried off by changed air [W/K]: 0.33 Wh m⁻³ K⁻¹ × n × V; 0 where either is not given."""
    return AIR_HEAT_WH_M3K * (house.air_changes_per_h or 0.0) * (house.air_volume_m3 or 0.0)
