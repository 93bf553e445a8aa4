"""The winter in a dozen numbers, each with its unit and a word on where it comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import pandas as pd

from reportgen.counsel.facts import KG_PER_LB
from reportgen.counsel.heat_bounds import kwh_words, money_words
from reportgen.counsel.record import WHOLE
from reportgen.review import look_up
from reportgen.wording import NBSP, Wording, between, count, day, number


@dataclass(frozen=True, kw_only=True, slots=True)
class Figure:
    """One line: what, how much, a few words, and the page that shows it."""

    label: str
    value: str
    note: str
    page: str


def figures(document: Mapping[str, Any], w: Wording) -> tuple[Figure, ...]:
    """The lines whose number is known, in the order of the pages; `document` is review.json."""
    found = [make(document, w) for make in _MAKERS]
    return tuple(figure for figure in found if figure is not None)


def _at(document: Mapping[str, Any], path: str) -> Any:
    try:
        return look_up(document, path)
    except KeyError:
        return None


def _coldest(d: Mapping[str, Any], w: Wording) -> Figure | None:
    value, at = _at(d, "frost.minimum.temperature_c"), _at(d, "frost.minimum.at")
    if value is None:
        return None
    outdoor = _at(d, "frost.minimum.outdoor_c")
    note = (day(pd.Timestamp(at)) if at else "") + (f", {w.temp(outdoor)} outdoors" if outdoor is not None else "")
    return Figure(label="Coldest air at the crop", value=w.temp(value), note=note, page="frost")


def _nights(d: Mapping[str, Any], w: Wording) -> Figure | None:
    nights, whole = _at(d, "frost.nights_below.0.estimate"), _at(d, "frost.nights")
    line = _at(d, "frost.line_c")
    if nights is None or line is None:
        return None
    note = f"of {count(whole, 'night')} logged" if whole else ""
    return Figure(label=f"Nights below {w.temp(line)}", value=number(nights), note=note, page="frost")


def _heat(d: Mapping[str, Any], w: Wording) -> Figure | None:
    kwh, cost = _at(d, "heat.kwh"), _at(d, "heat.cost")
    if not kwh:
        return None
    heat = kwh_words(w, kwh, _at(d, "heat.kwh_low"), _at(d, "heat.kwh_high"))
    bounds = (_at(d, "heat.cost_low"), _at(d, "heat.cost_high"))
    note = f"{money_words(w, cost, *bounds, 2)} for the heaters" if cost is not None else ""
    return Figure(label="Heat given to the house", value=heat, note=note, page="heat")


def _held(d: Mapping[str, Any], w: Wording) -> Figure | None:
    share, hold = _at(d, "heat.share_at_or_above_hold.estimate"), _at(d, "heat.hold_c")
    if share is None:
        return None
    label = f"Hours at or above {w.temp(hold)}" if hold is not None else "Hours at or above the target"
    return Figure(label=label, value=w.percent(100 * share), note="of the hours recorded", page="heat")


def _damp(d: Mapping[str, Any], w: Wording) -> Figure | None:
    hours, line = _at(d, "damp.hours_above_high.estimate"), _at(d, "damp.high_pct")
    if hours is None or line is None:
        return None
    low, high = _at(d, "damp.hours_above_high.low"), _at(d, "damp.hours_above_high.high")
    band = f"{between(w.hours(low), w.hours(high))} within the sensor's accuracy" if low is not None else ""
    return Figure(label=f"Hours above {w.percent(line)} humidity", value=w.hours(hours), note=band, page="damp")


def _soil(d: Mapping[str, Any], w: Wording) -> Figure | None:
    mean = _at(d, "soil.mean_c")
    if mean is None:
        return None
    hours = _at(d, "soil.hours_below_aim.estimate")
    note = f"{w.hours(hours)} too cold for roots" if hours is not None else "from readings far apart"
    return Figure(label="Mean of the soil bed", value=w.temp(mean), note=note, page="soil")


def _light(d: Mapping[str, Any], w: Wording) -> Figure | None:
    days = _at(d, "light.days_under_ten_hours")
    if days is None:
        return None
    shortest = _at(d, "light.shortest_day_h")
    note = f"the shortest {number(shortest, 1)}{NBSP}h" if shortest is not None else ""
    return Figure(label="Days under ten hours", value=number(days), note=note, page="light")


def _harvest(d: Mapping[str, Any], w: Wording) -> Figure | None:
    kg = _at(d, "harvest.kg")
    if not kg:
        return None
    each = _at(d, "harvest.cost_per_kg")
    low, high = (_per_mass(w, _at(d, f"harvest.cost_per_kg_{end}")) for end in ("low", "high"))
    per = _per_mass(w, each)
    note = f"{money_words(w, per, low, high, 2)} of heat per{NBSP}{w.mass_unit}" if per is not None else ""
    return Figure(label="Picked", value=w.mass(kg), note=note, page="harvest")


def _per_mass(w: Wording, per_kg: float | None) -> float | None:
    return per_kg * KG_PER_LB if per_kg is not None and w.us else per_kg


def _changes(d: Mapping[str, Any], w: Wording) -> Figure | None:
    done = [
        c
        for c in d.get("changes") or []
        if c["kind"] in ("change", "spell") or (c["kind"] == "upkeep" and c["touches"])
    ]
    if not done:
        return None
    verdicts = [change["verdict"] for change in done]
    words = ("helped", "hurt", "no sign", "cannot tell", "not judged")
    told = [f"{verdicts.count(v)} {v}" for v in words if v in verdicts]
    return Figure(label="Changes in the diary", value=number(len(done)), note=", ".join(told), page="changes")


def _record(d: Mapping[str, Any], w: Wording) -> Figure | None:
    channels = _at(d, "record.channels") or []
    shares = [c["hours_recorded"] / c["hours_in_season"] for c in channels if c.get("hours_in_season")]
    if not shares:
        return None
    full = sum(share >= WHOLE for share in shares)
    note = f"had {w.percent(100 * WHOLE)} of the season or more"
    return Figure(label="Channels on record", value=f"{full} of {len(shares)}", note=note, page="record")


_MAKERS: tuple[Callable[[Mapping[str, Any], Wording], Figure | None], ...] = (
    _coldest,
    _nights,
    _held,
    _heat,
    _damp,
    _soil,
    _light,
    _changes,
    _harvest,
    _record,
)
