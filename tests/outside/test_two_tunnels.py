"""Other holds against a field trial: two tunnels in one weather, each at its own hold."""

from __future__ import annotations

import numpy as np
from kept_reviews import review_of


def test_four_kelvin_more_hold_takes_about_twice_the_heat() -> None:
    """Two tunnels held at 0.6 and 4.4 °C (33 and 40 °F): the warmer burned about twice the propane (Cornell Cooperative
    Extension, ONE17-298).

    The sample's house, another one in another winter: 1.5 to 3 times. "About twice" is all that the trial says, so that
    only a range can be held.
    """
    rows = review_of("sample").heat.price_of_hold
    holds, kwh = [row.hold_c for row in rows], [row.kwh for row in rows]
    assert 1.5 < np.interp(4.4, holds, kwh) / np.interp(0.6, holds, kwh) < 3.0
