"""season.toml → one frozen Season.

The names are imported on first use: a missing or broken file (opening.py) is told without waiting for the models.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from reportgen.season.base import Setpoint
    from reportgen.season.load import load_season
    from reportgen.season.models import (
        Aims,
        Appliance,
        Book,
        Care,
        Crop,
        HeatSource,
        House,
        Logger,
        MeasureColumn,
        Place,
        Question,
        Season,
        Share,
    )

__all__ = [
    "Aims",
    "Appliance",
    "Book",
    "Care",
    "Crop",
    "HeatSource",
    "House",
    "Logger",
    "MeasureColumn",
    "Place",
    "Question",
    "Season",
    "Setpoint",
    "Share",
    "load_season",
]


def __getattr__(name: str) -> Any:
    """Each name from the module that has it."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    module = {"Setpoint": "base", "load_season": "load"}.get(name, "models")
    return getattr(import_module(f"reportgen.season.{module}"), name)
