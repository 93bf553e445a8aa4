"""Pickings so heavy, and plantings so wide, that another unit must be meant: asked about, never altered."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.problems import Problem
from reportgen.readings.types import Picking, Planting
from reportgen.wording import count

HUGE_M2 = 500.0  # no one crop of a small house has so much room; common practice, no source
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


def area_doubts(plantings: Sequence[Planting], floor_m2: float | None, file: str) -> list[Problem]:
    """A warning for the first planting that takes more room than the whole house, or than any small house has."""
    most = HUGE_M2 if floor_m2 is None else floor_m2
    wide = [planting for planting in plantings if (planting.area_m2 or 0.0) > most]
    if not wide:
        return []
    first = min(wide, key=lambda planting: planting.line)
    more = f" (and {count(len(wide) - 1, 'row')} more like it)" if len(wide) > 1 else ""
    return [
        Problem(
            slug="wide-planting",
            file=file,
            line=first.line,
            column="area_m2",
            found=f"{first.area_m2:g} m² of {first.crop}{more}",
            expected=f"at most the {most:g} m² of the house's floor" if floor_m2 else f"less than {most:g} m²",
            todo="write the area in square metres (21 000 cm² are 2.1), or correct floor_area_m2 of season.toml",
            level="warning",
        )
    ]
