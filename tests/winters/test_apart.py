"""What two winters add to an interval, outcome by outcome, as the design and the study's table have it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from reportgen.effects.gls import Estimate
from reportgen.winters.apart import APART, widened

TABLE = (Path(__file__).parents[1] / "studies" / "TWO_WINTERS.md").read_text(encoding="utf-8")
# k a kelvin, a, and whether both are shares of last winter's mean; the last three k as widened in TWO_WINTERS.md.
ADDED = {
    "lift": (0.06, 0.03, False),
    "night_minimum": (0.03, 0.0, False),
    "heat": (0.009, 0.015, True),
    "watts_per_kelvin": (0.0125, 0.015, True),
    "night_humidity": (0.25, 1.3, False),
    "damp_hours": (0.17, 0.0, False),
    "soil_mean": (0.09, 0.05, False),
    "soil_swing": (0.11, 0.03, False),
}


@pytest.mark.parametrize("outcome", [*ADDED, "daily_light"])
def test_the_interval_is_the_designs(outcome: str) -> None:
    """t · √((1.6 · se)² + (k · ΔT)² + a²) about the effect, and what would be seen four times in five; last winter's
    mean counts by its size, the distance either way."""
    estimate = Estimate(
        effect=2.0, se=0.2, low=0.0, high=0.0, smallest_visible=0.0, dof=40, coefficients=(1.0,), effective_days=9.0
    )
    k, a, of_mean = ADDED.get(outcome, (0.0, 0.0, False))
    unit = 30.0 if of_mean else 1.0
    root = float(np.sqrt((1.6 * 0.2) ** 2 + (k * unit * 3.0) ** 2 + (a * unit) ** 2))
    t, power = stats.t.ppf(0.975, 40), stats.t.ppf(0.8, 40)
    for apart_k, mean in ((3.0, 30.0), (-3.0, -30.0)):
        found = widened(estimate, outcome, apart_k, mean)
        assert found.se == pytest.approx(root)
        assert (found.low, found.high) == (pytest.approx(2.0 - t * root), pytest.approx(2.0 + t * root))
        assert found.smallest_visible == pytest.approx((t + power) * root)
        assert (found.effect, found.dof, found.effective_days) == (2.0, 40, 9.0)


def test_the_widened_ones_are_those_of_the_table() -> None:
    """1.25 %, 0.09 K and 0.11 K a kelvin: as the table of the study says."""
    assert "to 1.25 %, 0.09 K and 0.11 K" in TABLE
    assert [APART[name].per_k for name in ("watts_per_kelvin", "soil_mean", "soil_swing")] == [0.0125, 0.09, 0.11]
    assert set(APART) == set(ADDED)
