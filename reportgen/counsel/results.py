"""Everything that was measured of one season, as the findings, charts and pages read it."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.effects import Changes
from reportgen.measures.damp import Damp
from reportgen.measures.frost import Frost
from reportgen.measures.harvest import Harvest
from reportgen.measures.heat_types import Heat
from reportgen.measures.identity import Identity
from reportgen.measures.light import Light
from reportgen.measures.record import Record
from reportgen.measures.soil import Soil
from reportgen.measures.weather import Weather
from reportgen.readings.types import Readings
from reportgen.season import Season
from reportgen.winters import Winters


@dataclass(frozen=True, kw_only=True, slots=True)
class Results:
    """One result a subject; the names are those of the pages."""

    season: Season
    readings: Readings
    house: Identity
    weather: Weather
    record: Record
    frost: Frost
    heat: Heat
    damp: Damp
    soil: Soil
    light: Light
    effects: Changes
    harvest: Harvest
    winters: Winters
