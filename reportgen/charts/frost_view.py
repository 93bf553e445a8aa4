"""What the picture of nights and crops is told: the nights of the season, and what each crop met and stands."""

from __future__ import annotations

from dataclasses import replace

from reportgen.charts.season_view import degrees_axis, nights_view
from reportgen.charts.timeline import days_of, divisions
from reportgen.drawing.frost import MOST_CROPS, Crop, Frost
from reportgen.measures.frost_types import CropMargin
from reportgen.review import Review
from reportgen.wording import Wording, number

LEAST_BAND_C = -30.0  # a band's colder end is drawn to here at most


def frost_view(review: Review, uid: str = "frost") -> Frost | None:
    """Nights and crops on one scale; None without a crop logger."""
    w, season = Wording.of(review.season), review.season
    nights = nights_view(review, w)
    if nights is None:
        return None
    known = tenderest(review)
    crops = tuple(_crop(margin, w) for margin in known)
    ends = [v for crop in crops for v in (crop.low, crop.high, crop.met)]
    axis = degrees_axis((*nights.inside, *nights.outdoors, *ends), w, review.frost.line_c)
    return Frost(
        uid=uid,
        label="Coldest air of every night" + (", beside the cold that harms each crop" if crops else ""),
        description=_description(known, w) or "No crop has a known line of damage.",
        days=days_of(season.first_day, season.last_day),
        divisions=divisions(season.first_day, season.last_day),
        nights=replace(nights, axis=axis),
        crops=crops,
        more=_more(review),
    )


def tenderest(review: Review) -> list[CropMargin]:
    """Crops with a known band that met a night, the tenderest first, at most six; of one crop the closest call."""
    best: dict[str, CropMargin] = {}
    for margin in review.frost.crops:
        if margin.coldest_c is None or margin.damage_high_c is None or margin.margin_k is None:
            continue
        held = best.get(margin.crop)
        if held is None or (held.margin_k or 0.0) > margin.margin_k:
            best[margin.crop] = margin
    return sorted(best.values(), key=lambda m: (m.margin_k or 0.0, m.crop))[:MOST_CROPS]


def _crop(margin: CropMargin, w: Wording) -> Crop:
    assert margin.coldest_c is not None and margin.damage_high_c is not None and margin.margin_k is not None
    low = margin.damage_low_c if margin.damage_low_c is not None else margin.damage_high_c - 2.0
    room = f"{number(abs(w.diff_value(margin.margin_k)), 1)}°"
    return Crop(
        name=margin.crop,
        met=w.temp_value(margin.coldest_c),
        low=w.temp_value(max(low, LEAST_BAND_C)),
        high=w.temp_value(max(margin.damage_high_c, LEAST_BAND_C)),
        said=(room, "too cold" if margin.margin_k < 0 else "to spare"),
        harmed=margin.margin_k < 0,
    )


def _more(review: Review) -> str:
    """Crops that stood without a known band."""
    names = {m.crop for m in review.frost.crops if m.damage_high_c is None}
    return f"No known line of damage: {', '.join(sorted(names))}." if names else ""


def _description(known: list[CropMargin], w: Wording) -> str:
    parts = []
    for m in known:
        assert m.coldest_c is not None and m.margin_k is not None
        room = w.diff(abs(m.margin_k))
        parts.append(f"{m.crop} met {w.temp(m.coldest_c)}, {room} {'past its line' if m.margin_k < 0 else 'to spare'}")
    return "; ".join(parts[:5]) + "." if parts else ""
