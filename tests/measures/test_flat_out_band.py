"""The half-width that stands beside the flat-out temperature, of the house and of each of its states."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from heated_house import BALANCE_C, LOSS_W_PER_K, hours, house, outdoor_c

from reportgen.measures.frost import frost
from reportgen.measures.frost_types import Frost

NIGHTS = [slice(24 * day + 20, 24 * day + 30) for day in range(55)]
OUT = outdoor_c(hours())
MEANS = np.array([OUT[night].mean() for night in NIGHTS])
COLDEST_C = float(MEANS[9:-9].min())  # a sixth of the nights at either end is left out


@lru_cache(maxsize=4)
def told(rated_w: float) -> Frost:
    """The frost page of the heated house with a heater of that power."""
    made = house()
    return frost(replace(made, heating=(replace(made.heating[0], rated_power_w=rated_w),)))


@pytest.mark.parametrize("flat_c", [-6.0, -15.0])
def test_the_half_width_is_two_and_a_half_kelvins_and_wider_beyond_the_coldest_night(flat_c: float) -> None:
    """80 W/K below 5 °C: a heater of 880 W is flat out at −6 °C, one of 1600 W at −15 °C. ± 2.5 K, and 0.15 K more for
    each kelvin under the coldest night's mean (methods page, *The house as a balance*); the truth lies within."""
    limit = told(LOSS_W_PER_K * (BALANCE_C - flat_c)).holding_limit
    assert limit.heater_flat_out_c is not None and limit.flat_out_half_k is not None
    assert abs(limit.heater_flat_out_c - flat_c) < limit.flat_out_half_k
    # what is told lies a tenth of the distance beyond the coldest night lower than what was found
    beyond = max(COLDEST_C - limit.heater_flat_out_c, 0.0) / 1.10
    assert limit.flat_out_half_k == pytest.approx(
        2.5 + 0.15 * beyond, abs=1e-3
    )  # the last second of an hour leads to the next
    assert (beyond > 0) == (flat_c < COLDEST_C)


def test_the_one_state_of_an_unaltered_house_has_the_houses_own_band() -> None:
    """No lever, one state: the same temperature and half-width; without a rated power neither."""
    found = told(880.0)
    (state,) = found.limit_by_state
    assert (state.flat_out_c, state.flat_out_half_k) == (
        found.holding_limit.heater_flat_out_c,
        found.holding_limit.flat_out_half_k,
    )
    unrated = frost(house())
    assert unrated.holding_limit.flat_out_half_k is None
    assert [row.flat_out_half_k for row in unrated.limit_by_state] == [None]
