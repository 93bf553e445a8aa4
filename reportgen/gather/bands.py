"""Of the sensors' bands of many houses the usual one, where a picture has room for one bar only."""

from __future__ import annotations

from collections.abc import Iterable
from statistics import median


def usual_half_width(ends: Iterable[tuple[float, float]]) -> float | None:
    """Half of the middle width of bands given by their ends, in the unit of the ends; None without any."""
    widths = [high - low for low, high in ends]
    return median(widths) / 2 if widths else None
