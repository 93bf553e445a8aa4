"""The simulated house keeps its books: what the heater gave in the dark is what was lost and what was stored."""

from __future__ import annotations

import numpy as np
import pandas as pd

from simulator import Climate, HouseParams, simulate, synthetic
from simulator.physics import AIR_J_M3K, _u_value


def test_heat_in_is_what_was_lost_and_stored() -> None:
    """Sums over all dark steps of a heated winter close within 2 %: glazing, changed air, bed, and warmth of the air.

    First law of thermodynamics. 2 %: a row holds the end of each ten-minute step, the fluxes are of the whole step.
    """
    house = HouseParams(heater_w=3000.0, hold_c=6.0)
    frame = simulate(synthetic(Climate(), "2025-11-15", "2026-02-15", seed=5), house, seed=5).frame
    air, out = frame["temp_in_c"], frame["temp_out_c"]
    dark = (frame["solar"] < 5.0).to_numpy()
    u = np.array([_u_value(house, wind, bool(night)) for wind, night in zip(frame["wind_ms"], dark, strict=True)])
    felt = out - house.sky_k * (1.0 - frame["cloud"])
    soil = air + (frame["temp_bed_c"] - air) / 0.30  # the air near the bed lies 0.3 of the way to its skin
    glass = u * house.glazing_m2 * (air - felt)
    changed = frame["air_changes_h"] * house.volume_m3 * AIR_J_M3K / 3600.0 * (air - out)
    bed = house.soil_w_m2k * house.floor_m2 * (air - soil)
    stored = 1000.0 * house.capacity_kj_k * air.diff().fillna(0.0) / 600.0
    taken = pd.Series(glass + changed + bed + stored, index=frame.index)[dark].sum()
    given = frame["heater_w"][dark].sum()
    assert given > 0
    assert abs(taken / given - 1.0) < 0.02
