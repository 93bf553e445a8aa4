"""What the house loses for each kelvin over outdoors: cover and changed air, as a whole and by state.

0.98 · Σ(U·lift + c + e) / Σ lift on nights heated at least 7 of 10 hours, with a lift above 3 K. The factor and the
bands (true ÷ told, about nine in ten) come from simulated houses (methods page, *The house as a balance*).
"""

from __future__ import annotations

import numpy as np

from reportgen.measures.exposure import Band
from reportgen.measures.house.hours import NIGHT_END_H, NIGHT_H, Bools
from reportgen.measures.house.response import Response
from reportgen.problems import NotEnoughData

SCALE = 0.98  # the fitted loss lay between 0.95 and 1.06 of the truth, by simulator
BANDS = {"probe": (0.84, 1.16), "no probe": (0.82, 1.44), "meter": (0.82, 1.14)}  # true ÷ told
HEATED_H, LIFT_K = 7, 3.0
FEWEST_NIGHTS, FEWEST_HOURS = 7, 70


def counted_nights(house: Response) -> Bools:
    """Evenings whose night N is logged, heated 7 of 10 h and over 3 K warmer than outdoors; shape (nights,)."""
    hours = house.hours
    spans = hours.nights(NIGHT_H, NIGHT_END_H)
    warm = (hours.heated[spans].sum(axis=1) >= HEATED_H) & (hours.lift_k[spans].mean(axis=1) > LIFT_K)
    return np.asarray(warm & hours.logged[spans].all(axis=1))


def loss_w_per_k(house: Response) -> tuple[Band, int]:
    """The loss of all counted nights [W/K], and how many they are.

    Raises:
        NotEnoughData: Fewer than seven nights count.
    """
    kept = counted_nights(house)
    if kept.sum() < FEWEST_NIGHTS:
        raise NotEnoughData(f"only {int(kept.sum())} nights were heated for 7 of 10 hours, 3 K (5 °F) above outdoors")
    return _of(house, house.hours.nights(NIGHT_H, NIGHT_END_H)[kept].ravel()), int(kept.sum())


def loss_by_state(house: Response) -> dict[int, tuple[Band | None, int]]:
    """For every state its loss [W/K] (None under 70 counted night hours) and its counted nights."""
    spans = house.hours.nights(NIGHT_H, NIGHT_END_H)[counted_nights(house)]
    at = spans.ravel()
    out: dict[int, tuple[Band | None, int]] = {}
    for state in range(int(house.hours.state.max()) + 1):
        own = at[house.hours.state[at] == state]
        nights = int((house.hours.state[spans] == state).all(axis=1).sum()) if len(spans) else 0
        out[state] = (_of(house, own) if len(own) >= FEWEST_HOURS else None, nights)
    return out


def _of(house: Response, at: np.ndarray) -> Band:
    lift = house.hours.lift_k[at]
    misfit = np.nan_to_num(house.balance.misfit_w[at])
    gone = house.fitted_loss_w_k[at] * lift + house.balance.constant_w + misfit
    middle = SCALE * float(gone.sum() / lift.sum())
    low, high = BANDS[house.balance.kind]
    return Band(estimate=middle, low=middle * low, high=middle * high)
