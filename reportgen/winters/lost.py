"""Which crops lost how much, so that what failed two winters running is told."""

from __future__ import annotations

from collections import defaultdict

from reportgen.readings.types import Readings

MUCH_LOST = 1 / 3  # of a crop's plants; twice running it is not sown so again


def lost_shares(readings: Readings) -> dict[str, float]:
    """Share of its plants (0 … 1) that each crop lost in its worst planting; without both numbers it is left out."""
    found: dict[str, float] = defaultdict(float)
    for planting in readings.plantings:
        if planting.plants and planting.lost is not None:
            found[planting.crop] = max(found[planting.crop], planting.lost / planting.plants)
    return dict(found)
