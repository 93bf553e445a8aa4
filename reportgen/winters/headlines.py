"""The rows of the comparison: which headline, in which unit, read from each winter's own measures."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any, Literal

from reportgen import dotted
from reportgen.measures.damp import damp
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.house.season import no_house
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.plain import plain
from reportgen.readings.types import Readings
from reportgen.winters.types import Ends

Sections = dict[str, dict[str, Any]]


@dataclass(frozen=True, kw_only=True, slots=True)
class Headline:
    """One row: dotted path into the sections as in review.json.

    `band`: dotted path of its band, whose ends are found by `.low` and `.high` or by `_low` and `_high`; else `no_band`
    says why it has none. `margin`: it is told of the crop air, so of the same loggers in both winters only.
    """

    key: str
    what: str
    unit: str
    path: str
    better: Literal["more", "less", ""] = ""
    headline: bool = False
    band: str = ""
    no_band: str = ""
    margin: bool = False


AS_LOGGED = "two winters are set side by side by what was logged"
WEIGHED = "it was weighed"
METERED = "all of it was metered or bought"
HEADLINES = (
    Headline(
        key="minimum",
        what="coldest crop air",
        unit="°C",
        path="frost.minimum.temperature_c",
        better="more",
        headline=True,
        band="frost.minimum.temperature_c",
        margin=True,
    ),
    Headline(
        key="frost_nights",
        what="nights below the frost line",
        unit="nights",
        path="frost.nights_below.0.estimate",
        better="less",
        headline=True,
        band="frost.nights_below.0",
        margin=True,
    ),
    Headline(
        key="frost_hours",
        what="hours below the frost line",
        unit="h",
        path="frost.hours_below.0.estimate",
        better="less",
        band="frost.hours_below.0",
        margin=True,
    ),
    Headline(
        key="held",
        what="share of time at or above the hold",
        unit="share",
        path="heat.share_at_or_above_hold.estimate",
        better="more",
        band="heat.share_at_or_above_hold",
        margin=True,
    ),
    Headline(
        key="kwh",
        what="heat used",
        unit="kWh",
        path="heat.kwh",
        better="less",
        headline=True,
        band="heat.kwh",
        no_band=METERED,
    ),
    Headline(
        key="cost",
        what="cost of the heat",
        unit="money",
        path="heat.cost",
        better="less",
        headline=True,
        band="heat.cost",
        no_band=METERED,
    ),
    Headline(
        key="loss",
        what="heat loss of the house",
        unit="W/K",
        path="heat.loss_w_per_k.estimate",
        better="less",
        band="heat.loss_w_per_k",
    ),
    Headline(
        key="damp_total",
        what="hours above the high humidity line",
        unit="h",
        path="damp.hours_above_high.estimate",
        better="less",
        band="damp.hours_above_high",
    ),
    Headline(
        key="extreme",
        what="hours above the extreme humidity line",
        unit="h",
        path="damp.hours_above_extreme.estimate",
        better="less",
        band="damp.hours_above_extreme",
    ),
    Headline(
        key="dew",
        what="hours with dew on the glazing",
        unit="h",
        path="damp.glazing_dew_hours.estimate",
        better="less",
        band="damp.glazing_dew_hours",
    ),
    Headline(
        key="mould",
        what="spells of high grey-mould weather",
        unit="spells",
        path="damp.grey_mould_spells.high",
        better="less",
        no_band="spells are classed by the readings as they stand",
    ),
    Headline(
        key="soil",
        what="mean soil temperature",
        unit="°C",
        path="soil.mean_c",
        better="more",
        no_band="a mean of one sensor, whose accuracy shifts all of it",
    ),
    Headline(
        key="roots",
        what="hours too cold for roots",
        unit="h",
        path="soil.hours_below_aim.estimate",
        better="less",
        band="soil.hours_below_aim",
    ),
    Headline(
        key="light",
        what="mean daily light",
        unit="mol/m²",
        path="light.mean_daily_light_mol",
        better="more",
        no_band="how well the light is known is not given",
    ),
    Headline(
        key="kg",
        what="harvest of what both winters sowed at the same time",
        unit="kg",
        path="harvest.kg",
        better="more",
        headline=True,
        no_band=WEIGHED,
    ),
    Headline(
        key="kwh_per_kg",
        what="heat for each kilogram",
        unit="kWh/kg",
        path="harvest.kwh_per_kg",
        better="less",
        band="harvest.kwh_per_kg",
        no_band=METERED,
    ),
    Headline(
        key="cost_per_kg",
        what="cost of heat for each kilogram",
        unit="money/kg",
        path="harvest.cost_per_kg",
        better="less",
        headline=True,
        band="harvest.cost_per_kg",
        no_band=METERED,
    ),
    Headline(
        key="gap",
        what="longest run of weeks without a picking",
        unit="weeks",
        path="harvest.longest_gap_weeks",
        better="less",
        no_band="counted from the harvest book",
    ),
)


def sections(readings: Readings, known: Mapping[str, Any]) -> Sections:
    """The plain sections of one winter, as in review.json but for what frost and heat foretell: no headline asks for
    it.

    Args:
        known: Sections of these very readings that are measured already, by their names; but for harvest, which here
            knows of no winter before it.
    """
    measures: Mapping[str, Callable[[Readings], Any]] = {
        "frost": partial(frost, model=no_house(AS_LOGGED)),
        "heat": partial(heat, untold=AS_LOGGED),
        "damp": damp,
        "soil": soil,
        "light": light,
        "harvest": harvest,
    }
    taken = known.keys() - {"harvest"}
    found = {name: plain(known[name] if name in taken else measure(readings)) for name, measure in measures.items()}
    _coldest_band(readings, found["frost"])
    return found


def _coldest_band(readings: Readings, cold: dict[str, Any]) -> None:
    """Adds the coldest reading ± its logger's accuracy, or why there is none."""
    minimum = cold["minimum"]
    channel = readings.channel(minimum["logger"] or "", "air_temperature")
    if channel is None or minimum["temperature_c"] is None:
        return
    if channel.accuracy is None:
        cold["reasons"]["minimum.temperature_c.low"] = f"no accuracy given for {channel.logger}"
        return
    for end, sign in (("low", -1.0), ("high", 1.0)):
        minimum[f"temperature_c_{end}"] = minimum["temperature_c"] + sign * channel.accuracy


def value_at(found: Sections, path: str) -> float | None:
    """A number at a dotted path of the sections, in the unit of its field; None where it is null or not there."""
    try:
        here = dotted.value_at(found, path)
    except KeyError:
        return None
    if isinstance(here, bool) or not isinstance(here, int | float) or not math.isfinite(here):
        return None
    return float(here)


def band_at(found: Sections, headline: Headline) -> Ends | None:
    """The band of a row's figure; None where it has none."""
    if not headline.band:
        return None
    for mark in (".", "_"):
        ends = [value_at(found, f"{headline.band}{mark}{end}") for end in ("low", "high")]
        if ends[0] is not None and ends[1] is not None:
            return ends[0], ends[1]
    return None


def why_no_band(found: Sections, headline: Headline) -> str:
    """Why a row's figure has no band."""
    return headline.no_band or reason_at(found, f"{headline.band}.low") if headline.band else headline.no_band


def reason_at(found: Sections, path: str) -> str:
    """Why a path is null: the words of the section's `reasons` for it or for the key above it."""
    return dotted.why_null(found, path) or "not known"
