"""How a daily wave of temperature dies out with depth in the ground, and comes later: the closed forms.

Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, § 2.6; D. A. de Vries 1963, in W. R. van
Wijk (ed.), Physics of Plant Environment; G. S. Campbell and J. M. Norman 1998, Introduction to Environmental
Biophysics, ch. 2.
"""

from __future__ import annotations

import numpy as np

from reportgen.units import DAY_S

OMEGA_DAY = 2 * np.pi / DAY_S  # [s⁻¹] one turn a day, 2π and not 1 (a known slip)
# [m² s⁻¹] largest thermal diffusivity of a garden soil, moist sand; de Vries 1963, as tabled by Moene and van Dam 2014,
# Table 2.2 (0.99·10⁻⁶). The least is wet peat's, 0.12·10⁻⁶.
LARGEST_DIFFUSIVITY_M2_S = 1.0e-6


def damping_depth_m(diffusivity_m2_s: float, period_s: float = DAY_S) -> float:
    """Depth at which a wave has shrunk to 1/e [m]: √(2κ/ω) with ω = 2π/period."""
    return float(np.sqrt(2.0 * diffusivity_m2_s / (2.0 * np.pi / period_s)))


def wave_at(depth_m: float, diffusivity_m2_s: float) -> tuple[float, float]:
    """Share of the surface's daily wave left at a depth, and how many hours behind it comes."""
    deep = depth_m / damping_depth_m(diffusivity_m2_s)
    return float(np.exp(-deep)), float(deep / OMEGA_DAY / 3600.0)
