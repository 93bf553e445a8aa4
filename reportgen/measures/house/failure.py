"""Where the air would be some hours after the heater stops, at an outdoor temperature.

Every heated night of this house is stopped at 20 h, moved to the outdoor temperature that is asked for by the house's
own slope, and weighed by how near its own outdoor temperature lies. Own method; the bands are about nine in ten of the
errors on simulated houses whose truth is known (methods page, *The house as a balance*).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.balance import refuse_unseen_cooling
from reportgen.measures.house.hours import NIGHT_H, Ints
from reportgen.measures.house.response import Response, after_stop
from reportgen.problems import NotEnoughData

AFTER_H = (3, 8)
WIDTH_K = 4.0  # of the weights: exp(−½(ΔT_out / 4 K)²)
LEAST_HEAT = 0.1  # of the ninth decile of heated hours: a night with less was hardly heated
FEWEST_NIGHTS = 10
FALLS_H = 3  # the outdoor air of a stop is the mean of its last hours
BANDS = {  # a [K], b: √(a² + (b · drop)² + (1.645 · sd of the nights)² + (0.15 · K beyond the coldest heated night)²)
    ("probe", 3): (1.2, 0.20), ("probe", 8): (2.0, 0.14), ("no probe", 3): (2.2, 0.25), ("no probe", 8): (1.0, 0.22),
    ("meter", 3): (1.2, 0.20), ("meter", 8): (2.2, 0.15),
}  # fmt: skip
BEYOND = 0.15  # of half-width for each kelvin colder than any heated night
NINE_IN_TEN = 1.645  # standard deviations, normal distribution


@dataclass(frozen=True, kw_only=True, slots=True)
class Stops:
    """The heated nights of a house stopped at 20 h. `air_c`: after 3 and 8 h, shapes (nights,); `outdoor_c` beside
    them; `slope`: how far the air follows the outdoor air after so long."""

    air_c: dict[int, Floats]
    outdoor_c: dict[int, Floats]
    slope: dict[int, float]
    kind: str

    @property
    def mildest_c(self) -> float:
        """Outdoor air of the mildest heated night [°C]: nothing is told of milder ones."""
        return float(self.outdoor_c[AFTER_H[-1]].max())


def stops(house: Response) -> Stops:
    """Every logged heated night of the season, stopped.

    Raises:
        NotEnoughData: Fewer than ten nights were heated and logged, or the house was never seen to cool by itself.
    """
    refuse_unseen_cooling(house.balance)
    hours = house.hours
    starts = hours.nights(NIGHT_H, NIGHT_H + AFTER_H[-1])
    powers = hours.heaters_w[hours.heated]
    enough = LEAST_HEAT * float(np.quantile(powers, 0.9)) if len(powers) else np.inf
    kept = hours.logged[starts].all(axis=1) & (hours.heaters_w[starts].mean(axis=1) > enough)
    if kept.sum() < FEWEST_NIGHTS:
        raise NotEnoughData(f"only {int(kept.sum())} nights were heated and fully logged; {FEWEST_NIGHTS} are needed")
    first: Ints = starts[kept, 0]
    air = after_stop(house, first, AFTER_H[-1])
    usual = float(np.median(house.fitted_loss_w_k))
    return Stops(
        air_c={h: air[h - 1] for h in AFTER_H},
        outdoor_c={h: _outdoors(house, first, h) for h in AFTER_H},
        slope={h: usual / (usual + house.eased_w_k(h)) for h in AFTER_H},
        kind=house.balance.kind,
    )


def _outdoors(house: Response, starts: Ints, hours: int) -> Floats:
    span = np.arange(max(hours - FALLS_H, 0), hours)
    return np.asarray(house.hours.temp_outdoor_c[starts[:, None] + span[None, :]].mean(axis=1))


def air_after(stopped: Stops, outdoor_c: float, hours: int, hold_c: float) -> tuple[float, float]:
    """Air [°C] 3 or 8 hours after the heater stops, and the half-width of its band [K]; never over the hold.

    Method (our own, the module's head): stopped nights weighed by exp(−½(ΔT_out / 4 K)²).
    """
    outside = stopped.outdoor_c[hours]
    moved = stopped.air_c[hours] + stopped.slope[hours] * (outdoor_c - outside)
    weight = np.exp(-0.5 * ((outdoor_c - outside) / WIDTH_K) ** 2) + 1e-6
    middle = float(np.average(moved, weights=weight))
    spread = float(np.sqrt(np.average((moved - middle) ** 2, weights=weight)))
    told = min(middle, hold_c)
    least, share = BANDS[stopped.kind, hours]
    beyond = max(float(outside.min()) - outdoor_c, 0.0)
    parts = (least, share * (hold_c - told), NINE_IN_TEN * spread, BEYOND * beyond)
    return told, float(np.sqrt(sum(part**2 for part in parts)))
