"""season.toml → one frozen Season."""

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
