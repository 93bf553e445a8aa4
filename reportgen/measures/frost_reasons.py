"""Why a figure of the frost section is null, in words."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.measures.exposure import Band, Line
from reportgen.measures.frost_nights import unknown_accuracy
from reportgen.measures.frost_types import Frost
from reportgen.measures.places import outdoor, seldom_crop, seldom_outdoors, why_no
from reportgen.readings.types import Channel, Readings

NO_AIR = "no crop air temperature"
NO_OUTDOOR = "no outdoor temperature"


def null_reasons(
    found: Frost, readings: Readings, airs: Sequence[tuple[Channel, Line]], heated: bool, no_hot: str
) -> dict[str, str]:
    """Words for every null of the section, by its path.

    Args:
        airs: Crop air as `frost_nights.air_lines` gives it.
        heated: Any use of a heater is on record.
        no_hot: Why no hot hours can be told; empty where they can.
    """
    why: dict[str, str] = {}
    no_band = unknown_accuracy(airs)
    no_outdoor = why_no(seldom_outdoors(readings, "air_temperature"), NO_OUTDOOR)
    if not airs:
        no_air = why_no(seldom_crop(readings, "air_temperature"), NO_AIR)
        why |= {f"minimum.{key}": no_air for key in ("temperature_c", "margin_k", "at", "logger", "outdoor_c")}
        why |= {"alarms": no_air}
        no_band = no_air
    elif found.minimum.outdoor_c is None:
        why["minimum.outdoor_c"] = no_outdoor if outdoor(readings, "air_temperature") is None else "nothing logged then"
    bands = {f"nights_below.{k}": b for k, b in found.nights_below.items()}
    bands |= {f"hours_below.{k}": b for k, b in found.hours_below.items()}
    bands |= {"degree_hours_below": found.degree_hours_below}
    for path, band in bands.items():
        why |= _band_reasons(path, band, no_band)
    why |= _band_reasons("hot_hours", found.hot_hours, no_hot)
    if found.unrecorded_cold_hours is None:
        why["unrecorded_cold_hours"] = no_outdoor
    if found.could_have_been_c is None:
        why["could_have_been_c"] = _why_no_guess(found, no_outdoor)
    why |= _limit_reasons(found, heated)
    why |= _state_reasons(found, heated)
    why |= _ahead_reasons(found, heated)
    if not found.failures:
        why["failures"] = _no_failure(readings, heated)
    why |= {
        f"failures.{i}.line_crossed_after_min": "the air on record stayed above the frost line"
        for i, failure in enumerate(found.failures)
        if failure.line_crossed_after_min is None
    }
    why |= _crop_reasons(found)
    why |= {
        f"alarms.{i}.warning_h": "not needed in the hours on record"
        for i, a in enumerate(found.alarms)
        if a.warning_h is None
    }
    return why


def _why_no_guess(found: Frost, no_outdoor: str) -> str:
    """Why nothing can be said of the hours without a reading, or that there were no cold ones."""
    if found.unrecorded_cold_hours:
        return "too few nights are logged whole, or they are all alike outdoors, to tell one from the outdoor air"
    if found.unrecorded_unknown_hours < 1.0:
        return "no cold hour without a reading"
    return "it was not logged outdoors in those hours either" if found.unrecorded_cold_hours is not None else no_outdoor


def _band_reasons(path: str, band: Band, reason: str) -> dict[str, str]:
    return {f"{path}.{key}": reason for key in ("estimate", "low", "high") if pd.isna(getattr(band, key))}


def _ahead_reasons(found: Frost, heated: bool) -> dict[str, str]:
    told = found.ahead.reasons
    why: dict[str, str] = {}
    as_it_was = "no heater in season.toml: if none was lit, it was this winter as it stands"
    no_model = told.get("without_heat", "") if heated else as_it_was
    if np.isnan(found.without_heat_minimum_c.estimate):
        why |= {f"without_heat_minimum_c.{key}": no_model for key in ("estimate", "low", "high")}
    if not found.without_heat_nights:
        why["without_heat_nights"] = no_model
    if not found.after_failure:
        why["after_failure"] = told.get("after_failure", "") if heated else "no heater in season.toml"
    return why


def _limit_reasons(found: Frost, heated: bool) -> dict[str, str]:
    limit, why = found.holding_limit, {}
    if limit.outdoor_c is None:
        why["holding_limit.outdoor_c"] = limit.reason
    if limit.coldest_seen_c is None:
        why["holding_limit.coldest_seen_c"] = limit.reason
    if limit.heater_flat_out_c is None:
        told = found.ahead.reasons.get("heater_flat_out_c", "")
        why["holding_limit.heater_flat_out_c"] = told if heated else "no heater in season.toml"
    return why


def _state_reasons(found: Frost, heated: bool) -> dict[str, str]:
    if not found.limit_by_state:
        told = found.model.why if found.model is not None else ""
        return {"limit_by_state": told if heated and told else "no heater in season.toml"}
    why = {f"limit_by_state.{i}.holding_limit_c": s.why_no_limit for i, s in enumerate(found.limit_by_state)}
    why |= {f"limit_by_state.{i}.flat_out_c": s.why_no_flat_out for i, s in enumerate(found.limit_by_state)}
    return {path: words for path, words in why.items() if words}


def _no_failure(readings: Readings, heated: bool) -> str:
    if not heated:
        return "no heater in season.toml"
    by_hour = any(not supply.intervals["sparse"].all() for supply in readings.heating if len(supply.intervals))
    return "none in the record" if by_hour else "heat is not known by the hour"


def _crop_reasons(found: Frost) -> dict[str, str]:
    why = {} if found.crops else {"crops": "no crop in season.toml, plantings.csv or harvest.csv"}
    for i, crop in enumerate(found.crops):
        if crop.damage_high_c is None:
            why |= {f"crops.{i}.{key}": crop.source for key in ("damage_low_c", "damage_high_c", "margin_k")}
        if crop.coldest_c is None:
            why |= {f"crops.{i}.{key}": "no crop air logged while it stood" for key in ("coldest_c", "margin_k")}
        if crop.bed is None:
            why[f"crops.{i}.bed"] = "no bed given"
    return why
