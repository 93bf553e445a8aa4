"""The rows of the comparison: which headline, in which unit, read from each winter's own measures."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

from reportgen.measures.damp import damp
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.house.season import house_model
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.plain import plain
from reportgen.readings.types import Readings

Sections = dict[str, dict[str, Any]]


@dataclass(frozen=True, kw_only=True, slots=True)
class Headline:
    """One row: dotted path into the sections as in review.json."""

    key: str
    what: str
    unit: str
    path: str
    better: Literal["more", "less", ""] = ""
    headline: bool = False


HEADLINES = (
    Headline(
        key="minimum",
        what="coldest crop air",
        unit="°C",
        path="frost.minimum.temperature_c",
        better="more",
        headline=True,
    ),
    Headline(
        key="frost_nights",
        what="nights below the frost line",
        unit="nights",
        path="frost.nights_below.0.estimate",
        better="less",
        headline=True,
    ),
    Headline(
        key="frost_hours",
        what="hours below the frost line",
        unit="h",
        path="frost.hours_below.0.estimate",
        better="less",
    ),
    Headline(
        key="held",
        what="share of time at or above the hold",
        unit="share",
        path="heat.share_at_or_above_hold.estimate",
        better="more",
    ),
    Headline(key="kwh", what="heat used", unit="kWh", path="heat.kwh", better="less", headline=True),
    Headline(key="cost", what="cost of the heat", unit="money", path="heat.cost", better="less", headline=True),
    Headline(key="loss", what="heat loss of the house", unit="W/K", path="heat.loss_w_per_k.estimate", better="less"),
    Headline(
        key="damp_total",
        what="hours above the high humidity line",
        unit="h",
        path="damp.hours_above_high.estimate",
        better="less",
    ),
    Headline(
        key="extreme",
        what="hours above the extreme humidity line",
        unit="h",
        path="damp.hours_above_extreme.estimate",
        better="less",
    ),
    Headline(
        key="dew",
        what="hours with dew on the glazing",
        unit="h",
        path="damp.glazing_dew_hours.estimate",
        better="less",
    ),
    Headline(
        key="mould",
        what="spells of high grey-mould weather",
        unit="spells",
        path="damp.grey_mould_spells.high",
        better="less",
    ),
    Headline(key="soil", what="mean soil temperature", unit="°C", path="soil.mean_c", better="more"),
    Headline(
        key="roots",
        what="hours too cold for roots",
        unit="h",
        path="soil.hours_below_aim.estimate",
        better="less",
    ),
    Headline(key="light", what="mean daily light", unit="mol/m²", path="light.mean_daily_light_mol", better="more"),
    Headline(key="kg", what="harvest", unit="kg", path="harvest.kg", better="more", headline=True),
    Headline(key="kwh_per_kg", what="heat for each kilogram", unit="kWh/kg", path="harvest.kwh_per_kg", better="less"),
    Headline(
        key="cost_per_kg",
        what="cost of heat for each kilogram",
        unit="money/kg",
        path="harvest.cost_per_kg",
        better="less",
        headline=True,
    ),
    Headline(
        key="gap",
        what="longest run of weeks without a picking",
        unit="weeks",
        path="harvest.longest_gap_weeks",
        better="less",
    ),
)


def sections(readings: Readings) -> Sections:
    """The plain sections of one winter, as in review.json."""
    model = house_model(readings)
    rest = {"damp": damp, "soil": soil, "light": light, "harvest": harvest}
    return {"frost": plain(frost(readings, model)), "heat": plain(heat(readings, model))} | {
        name: plain(measure(readings)) for name, measure in rest.items()
    }


def value_at(found: Sections, path: str) -> float | None:
    """A number at a dotted path of the sections; None where it is null or not there."""
    here: Any = found
    for part in path.split("."):
        here = here.get(part) if isinstance(here, dict) else None
    if isinstance(here, bool) or not isinstance(here, int | float) or not math.isfinite(here):
        return None
    return float(here)


def reason_at(found: Sections, path: str) -> str:
    """Why a path is null: the words of the section's `reasons` for it or for the key above it."""
    section, _, rest = path.partition(".")
    reasons = found.get(section, {}).get("reasons", {})
    while rest:
        if rest in reasons:
            return str(reasons[rest])
        rest = rest.rpartition(".")[0]
    return "not known"
