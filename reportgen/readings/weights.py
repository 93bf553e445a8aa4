"""Weights of pickings as they are written: 0.25, 250 g, 1 lb 4 oz; a count of bunches is none."""

from __future__ import annotations

import re
from types import MappingProxyType

WEIGHTS = ("kg", "g", "lb", "oz")
# What they are called besides; English and the languages of the sample's neighbours, from memory.
_CALLED = MappingProxyType(
    dict.fromkeys(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogramme"), "kg")
    | dict.fromkeys(("g", "gr", "gm", "gms", "gram", "grams", "gramm", "gramme", "grammes"), "g")
    | dict.fromkeys(("lb", "lbs", "pound", "pounds"), "lb")
    | dict.fromkeys(("oz", "ozs", "ounce", "ounces"), "oz")
)
_WITH_UNIT = re.compile(r"(?P<number>[+-]?[\d.,]*\d)\s*(?P<unit>[^\W\d_]+)\.?")
_POUNDS_OUNCES = re.compile(
    r"(?P<lb>\d+)\s*(?:lbs?|pounds?)\.?,?\s*(?P<oz>\d+(?:[.,]\d+)?)\s*(?:ozs?|ounces?)\.?", re.I
)
OUNCES_A_POUND = 16.0  # exact; NIST Handbook 44, Appendix C


def unit_called(word: str) -> str | None:
    """The unit of weight that a word means, whatever its case; None for one that means none."""
    return _CALLED.get(word.casefold().strip().removesuffix("."))


def split_weight(cell: str) -> tuple[str, str | None]:
    """A cell parted into its number and the unit written behind; the unit None where it has none of its own."""
    both = _POUNDS_OUNCES.fullmatch(cell.strip())
    if both is not None:
        return f"{float(both['lb']) + float(both['oz'].replace(',', '.')) / OUNCES_A_POUND!r}", "lb"
    found = _WITH_UNIT.fullmatch(cell.strip())
    if found is None or (unit := unit_called(found["unit"])) is None:
        return cell, None
    return found["number"], unit
