"""The grey-mould index against values of Broome et al. 1995 (Phytopathology 85, 97–102) as extension pages quote it."""

from __future__ import annotations

import math

import pytest

from reportgen.measures.damp_mould import class_of, logit


# W [h], T [°C], logit; 1e-4 is the rounding of the printed values.
@pytest.mark.parametrize(
    ("wet_h", "temp_c", "index"),
    [(12, 20, 0.38445), (24, 15, 2.37085), (24, 20, 3.41677), (12, 12, -0.88745)],
)
def test_index(wet_h: float, temp_c: float, index: float) -> None:
    """The logit itself."""
    assert logit(wet_h, temp_c) == pytest.approx(index, abs=1e-4)


# The share infected, exp(l)/(1 + exp(l)); 1e-4 as above.
@pytest.mark.parametrize(
    ("wet_h", "temp_c", "share"),
    [(4, 20, 0.16286), (12, 20, 0.59495), (24, 20, 0.96822), (12, 12, 0.29164), (12, 25, 0.5002)],
)
def test_share_infected(wet_h: float, temp_c: float, share: float) -> None:
    """The proportion that goes with it."""
    assert 1 / (1 + math.exp(-logit(wet_h, temp_c))) == pytest.approx(share, abs=1e-4)


def test_classes_stand_on_the_logit() -> None:
    """At 20 °C low ends at 12.457 h (0.5) and high begins at 14.436 h (1.0), to 0.002 h; applied to the proportion
    instead, nothing could ever be high."""
    assert class_of(logit(12.455, 20)) == "low"
    assert class_of(logit(12.459, 20)) == "moderate"
    assert class_of(logit(14.434, 20)) == "moderate"
    assert class_of(logit(14.438, 20)) == "high"
    assert class_of(logit(4, 20)) == "none"
