"""Pickings so heavy that another unit must be meant: asked about, never altered."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.problems import Problem
from reportgen.readings.types import Picking
from reportgen.wording import count

HEAVY_KG = 50.0  # of one crop on one day, out of a small house in winter; common practice, no source


def weight_doubts(harvest: Sequence[Picking], file: str) -> list[Problem]:
    """A warning for the book where pickings weigh as much as a load: grams read as kilograms?"""
    heavy = [picking for picking in harvest if picking.weight_kg >= HEAVY_KG]
    if not heavy:
        return []
    first = min(heavy, key=lambda picking: picking.line)
    more = f" (and {count(len(heavy) - 1, 'picking')} more like it)" if len(heavy) > 1 else ""
    return [
        Problem(
            slug="heavy-picking",
            file=file,
            line=first.line,
            column="weight",
            found=f"{first.weight_kg:g} kg of {first.crop} on one day{more}",
            expected=f"less than {HEAVY_KG:g} kg",
            todo='if the weights are in grams, write unit = "g" under [harvest] of season.toml, or fill the column '
            "unit",
            level="warning",
        )
    ]
