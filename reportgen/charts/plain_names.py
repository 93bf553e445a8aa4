"""Books and settings by the words a gardener has for them: the one list of pages, handout and shared words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

PLAIN: Mapping[str, str] = MappingProxyType(
    {
        "season.toml": "season file",
        "diary.csv": "diary",
        "harvest.csv": "harvest book",
        "plantings.csv": "planting book",
        "costs.csv": "costs book",
        "watering.csv": "watering book",
        "inspections.csv": "inspection book",
        "rated_power_w": "rated power",
        "u_value_w_m2k": "U-value",
        "glazing_area_m2": "glazing area",
        "floor_area_m2": "floor area",
        "light_transmission": "share of light that passes",
        "soil_bed_volume_m3": "volume of the bed",
        "setpoint_pct": "humidity it is set to",
        "vegetables_kg_per_week": "vegetables eaten in a week",
        "hold_c": "temperature to be held",
        "next_price": "next price",
        "damage_below_c": "temperatures that harm it",
    }
)
DETERMINED = r"(?P<whose>\b(?:the|a|an|no|your|our|its|each|every|of both)\s|’s\s|'s\s)?"
NAMED = re.compile(DETERMINED + rf"\b(?P<name>{'|'.join(map(re.escape, PLAIN))})(?![\w])", re.I)


def plain(text: str) -> str:
    """The words with every file and key by its plain name: "Write it into diary.csv" → "Write it into the diary"."""
    return NAMED.sub(_named, text)


def _named(found: re.Match[str]) -> str:
    begins = found.string[: found.start()].rstrip().endswith((".", "?", "!"))
    return f"{found['whose'] or ('The ' if begins else 'the ')}{PLAIN[found['name'].lower()]}"
