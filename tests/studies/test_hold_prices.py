"""The study of the price of a degree: run by hand, its results written down in HOLD_PRICES.md."""

from __future__ import annotations

import pytest
from studies.hold_prices import report, table


@pytest.mark.study
def test_price_of_a_degree_on_simulated_houses() -> None:
    """Two kelvin away the middle half of the estimates lies within a tenth of the truth, by plug or weekly meter."""
    found = table(range(24))
    print(report(found))
    near = found.loc[found["every"] < 28, ["-2 K", "+2 K"]].stack().dropna()
    low, high = near.quantile([0.25, 0.75])
    assert 0.9 < low < high < 1.1
