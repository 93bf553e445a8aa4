"""Labels pushed apart: moved as little as need be, in their order, between two ends."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate


def apart(tops: Sequence[float], heights: Sequence[float], low: float, high: float, air: float = 0.0) -> list[float]:
    """Tops of labels (rising wishes) so that none overlaps and the squares of their ways add up to the least.

    Pool adjacent violators (R. E. Barlow and others, Statistical Inference under Order Restrictions, 1972, § 1.2) on
    the wishes less the room that the labels above take. Where the room is too small they run over its end.
    """
    above = [0.0, *accumulate(height + air for height in heights)]
    room = max(0.0, high - low - (above[-1] - air)) if heights else 0.0
    pools: list[tuple[float, int]] = []  # mean wish, labels
    for top, before in zip(tops, above, strict=False):
        mean, many = top - before, 1
        while pools and pools[-1][0] > mean:
            other, more = pools.pop()
            mean, many = (mean * many + other * more) / (many + more), many + more
        pools.append((mean, many))
    settled = [min(max(mean, low), low + room) for mean, many in pools for _ in range(many)]
    return [top + before for top, before in zip(settled, above, strict=False)]
