"""Damp: hours above the grower's lines, spells, dew on the glazing, leaf-wet hours, what airing could have done.

Method: methods page, *Moist air*. Humidity is over liquid water at every temperature (WMO-No. 8).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import pandas as pd

from reportgen import air
from reportgen.measures.damp_air import (
    Moist,
    glazing_excess_k,
    inside,
    local,
    mean_of,
    outdoor_at,
)
from reportgen.measures.damp_airing import Ends, airing_curve, airing_ends, airing_hours
from reportgen.measures.damp_dryers import Dryer, dryers
from reportgen.measures.damp_mould import WET_PCT, MouldSeen, WetSpell, mould_seen, wet_spells
from reportgen.measures.damp_tables import Airing, airing, by_clock, by_hour, by_month, by_night
from reportgen.measures.exposure import Band, Floats, Line, band, hours_above, hours_below, spells_above
from reportgen.measures.places import seldom_crop, seldom_outdoors, why_no
from reportgen.plain import PAGE_ONLY
from reportgen.readings.types import Readings

TOO_DRY_KPA = 1.4  # VPD above which crops tire; Konopacki, Treder and Klamkowski, Span. J. Agric. Res., art. 11484
SPREAD_K = 2.0  # dew-point depression taken as near-wet; common practice, no source
NO_RH = "no humidity at a crop logger"
NO_TEMP = "the humidity logger has no air temperature"


@dataclass(frozen=True, kw_only=True, slots=True)
class Spell:
    """The longest stretch strictly above the high line; None where there is none."""

    hours: float | None = None
    start: pd.Timestamp | None = None
    end: pd.Timestamp | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class GreyMould:
    """Wet spells by class; those colder than the equation was fitted for are counted apart."""

    low: int | None = None
    moderate: int | None = None
    high: int | None = None
    too_cold_for_equation: int | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Damp:
    """Damp in the house, at the main logger. Hours are of the whole season, day and night."""

    high_pct: float
    extreme_pct: float
    hours_recorded: float
    hours_above_high: Band
    hours_above_extreme: Band
    longest_spell: Spell
    glazing_dew_hours: Band
    leaf_wet_hours: Band
    airing_hours: float | None
    airing_band: Ends
    grey_mould_spells: GreyMould
    mean_dew_point_c: float | None
    mean_vpd_kpa: float | None
    reasons: Mapping[str, str]
    logger: str | None = field(metadata=PAGE_ONLY)
    wall_dew_hours: float | None = field(metadata=PAGE_ONLY)  # R_si 0.13
    glazing_frost_hours: float | None = field(metadata=PAGE_ONLY)  # of the dew hours, those with the pane below 0 °C
    near_wet_hours: float | None = field(metadata=PAGE_ONLY)  # dew-point depression under 2 K
    too_dry_hours: float | None = field(metadata=PAGE_ONLY)
    spells: tuple[tuple[pd.Timestamp, pd.Timestamp], ...] = field(metadata=PAGE_ONLY)  # above the high line
    wet_spells: tuple[WetSpell, ...] = field(metadata=PAGE_ONLY)
    mould: MouldSeen = field(metadata=PAGE_ONLY)
    carpet: pd.DataFrame = field(metadata=PAGE_ONLY)  # date, hour, value [%]
    months: pd.DataFrame = field(metadata=PAGE_ONLY)  # damp_tables.by_month
    clock: pd.DataFrame = field(metadata=PAGE_ONLY)  # damp_tables.by_clock
    table: pd.DataFrame = field(metadata=PAGE_ONLY)  # damp_tables.by_night
    airing: Airing = field(metadata=PAGE_ONLY)
    dryers: tuple[Dryer, ...] = field(metadata=PAGE_ONLY)


def damp(readings: Readings) -> Damp:
    """The damp section of one season."""
    aims = readings.season.aims
    moist = inside(readings)
    if moist is None or len(moist.rh.values) < 2:
        return _nothing(readings)
    rh, accuracy = moist.rh, moist.rh_accuracy
    outdoor_c, outdoor_rh = outdoor_at(readings, rh.seconds)
    dew, dew_why = _glazing(readings, moist, outdoor_c)
    dry, dry_why, dry_curve = _airing(readings, moist, outdoor_c, outdoor_rh)
    dry_ends, ends_why = airing_ends(readings, moist, outdoor_c, outdoor_rh, dry_why)
    lines = (aims.humidity_high_pct, aims.humidity_extreme_pct)
    spells = spells_above(rh, aims.humidity_high_pct)
    wet = wet_spells(moist)
    known = bool((~np.isnan(moist.temp_c)).any())
    point = moist.curve(air.dew_point_c(moist.temp_c, moist.humidity()))
    vpd = moist.curve(air.vpd_kpa(moist.temp_c, moist.humidity()))
    spread = moist.curve(moist.temp_c - air.dew_point_c(moist.temp_c, moist.humidity()))
    leaf = _at_least(rh, accuracy, WET_PCT)
    above = {
        "hours_above_high": band(rh, accuracy, lambda c: hours_above(c, aims.humidity_high_pct)),
        "hours_above_extreme": band(rh, accuracy, lambda c: hours_above(c, aims.humidity_extreme_pct)),
        "leaf_wet_hours": leaf,
    }
    why = {f"{name}.{end}": f"no accuracy given for {moist.logger}" for name in above for end in ("low", "high")}
    why = why if accuracy is None else {}
    why |= dew_why | dry_why | ends_why
    if not known:
        why |= dict.fromkeys(("mean_dew_point_c", "mean_vpd_kpa"), NO_TEMP)
        why |= {f"grey_mould_spells.{key}": NO_TEMP for key in GreyMould.__dataclass_fields__}
    if not spells:
        why |= {
            f"longest_spell.{key}": "not above the line in the hours on record" for key in ("hours", "start", "end")
        }
    pane = readings.season.house.u_value_w_m2k
    return Damp(
        high_pct=aims.humidity_high_pct,
        extreme_pct=aims.humidity_extreme_pct,
        hours_recorded=rh.hours_recorded,
        **above,
        longest_spell=_longest(spells, rh),
        glazing_dew_hours=dew,
        airing_hours=dry,
        airing_band=dry_ends,
        grey_mould_spells=_classes(wet) if known else GreyMould(),
        mean_dew_point_c=mean_of(point),
        mean_vpd_kpa=mean_of(vpd),
        reasons=why,
        logger=moist.logger,
        wall_dew_hours=_wall(moist, outdoor_c, pane),
        glazing_frost_hours=_frost_on_glass(moist, outdoor_c, pane),
        near_wet_hours=hours_below(spread, SPREAD_K) if known else None,
        too_dry_hours=hours_above(vpd, TOO_DRY_KPA) if known else None,
        spells=tuple((local(a, rh), local(b, rh)) for a, b in spells),
        wet_spells=wet,
        mould=mould_seen(wet, readings),
        carpet=by_hour(moist, readings),
        months=by_month(moist, readings, *lines, dry_curve),
        clock=by_clock(moist, readings, *lines),
        table=by_night(moist, readings, *lines, wet),
        airing=airing(moist, readings, dry_curve, outdoor_c, outdoor_rh),
        dryers=dryers(moist, readings),
    )


def _nothing(readings: Readings) -> Damp:
    """The section without a humidity sensor that writes often enough: every value null with its reason."""
    no_rh = why_no(seldom_crop(readings, "relative_humidity"), NO_RH)
    aims, none = readings.season.aims, Band(estimate=float("nan"))
    bands = ("hours_above_high", "hours_above_extreme", "glazing_dew_hours", "leaf_wet_hours")
    why = {f"{name}.{end}": no_rh for name in bands for end in ("estimate", "low", "high")}
    why |= {f"longest_spell.{key}": no_rh for key in Spell.__dataclass_fields__}
    why |= {f"grey_mould_spells.{key}": no_rh for key in GreyMould.__dataclass_fields__}
    why |= dict.fromkeys(
        ("airing_band.low", "airing_band.high", "airing_hours", "mean_dew_point_c", "mean_vpd_kpa"), no_rh
    )
    return Damp(
        high_pct=aims.humidity_high_pct,
        extreme_pct=aims.humidity_extreme_pct,
        hours_recorded=0.0,
        hours_above_high=none,
        hours_above_extreme=none,
        longest_spell=Spell(),
        glazing_dew_hours=none,
        leaf_wet_hours=none,
        airing_hours=None,
        airing_band=Ends(),
        grey_mould_spells=GreyMould(),
        mean_dew_point_c=None,
        mean_vpd_kpa=None,
        reasons=why,
        logger=None,
        wall_dew_hours=None,
        glazing_frost_hours=None,
        near_wet_hours=None,
        too_dry_hours=None,
        spells=(),
        wet_spells=(),
        mould=mould_seen((), readings),
        carpet=pd.DataFrame(),
        months=pd.DataFrame(),
        clock=pd.DataFrame(),
        table=pd.DataFrame(),
        airing=Airing(water_gm3=None, wh_per_m3=None, litres_a_day=None),
        dryers=(),
    )


def _at_least(rh: Line, accuracy: float | None, limit: float) -> Band:
    """Hours at or above a line: recorded less strictly below."""
    return band(rh, accuracy, lambda c: c.hours_recorded - hours_below(c, limit))


def _longest(spells: list[tuple[float, float]], rh: Line) -> Spell:
    if not spells:
        return Spell()
    start, end = max(spells, key=lambda s: (s[1] - s[0], -s[0]))
    return Spell(hours=(end - start) / 3600.0, start=local(start, rh), end=local(end, rh))


def _classes(wet: tuple[WetSpell, ...]) -> GreyMould:
    counts = {name: sum(s.klass == name for s in wet) for name in ("low", "moderate", "high", "too cold")}
    return GreyMould(
        low=counts["low"], moderate=counts["moderate"], high=counts["high"], too_cold_for_equation=counts["too cold"]
    )


def _glazing(readings: Readings, moist: Moist, outdoor_c: Floats) -> tuple[Band, dict[str, str]]:
    """Hours of dew on the glazing, the lower bound (R_si 0.10), with the band of both sensors."""
    u = readings.season.house.u_value_w_m2k
    ends = ("estimate", "low", "high")
    missing = "needs u_value_w_m2k of the glazing" if u is None else ""
    missing = missing or why_no(
        seldom_outdoors(readings, "air_temperature"),
        "needs outdoor air and the humidity logger's own air temperature at the same time",
    )
    nothing = Band(estimate=float("nan"))
    if u is None or np.isnan(outdoor_c + moist.temp_c).all():
        return nothing, {f"glazing_dew_hours.{end}": missing for end in ends}

    def hours(shift: tuple[float, float]) -> float:
        return hours_above(moist.curve(glazing_excess_k(moist, outdoor_c, u, air.R_SI_UP, shift)), 0.0)

    estimate, t, h = hours((0.0, 0.0)), moist.temp_accuracy, moist.rh_accuracy
    if t is None or h is None:
        why = f"no accuracy given for {moist.logger}"
        return Band(estimate=estimate), {f"glazing_dew_hours.{end}": why for end in ("low", "high")}
    all_ = [estimate, *(hours((a * t, b * h)) for a in (-1, 1) for b in (-1, 1))]
    return Band(estimate=estimate, low=min(all_), high=max(all_)), {}


def _wall(moist: Moist, outdoor_c: Floats, u: float | None) -> float | None:
    if u is None or np.isnan(outdoor_c + moist.temp_c).all():
        return None
    return hours_above(moist.curve(glazing_excess_k(moist, outdoor_c, u, air.R_SI_SIDE, (0.0, 0.0))), 0.0)


def _frost_on_glass(moist: Moist, outdoor_c: Floats, u: float | None) -> float | None:
    """Hours in which the pane was below 0 °C and under the frost point."""
    if u is None or np.isnan(outdoor_c + moist.temp_c).all():
        return None
    surface = air.glazing_inside_c(moist.temp_c, outdoor_c, u, air.R_SI_UP)
    excess = glazing_excess_k(moist, outdoor_c, u, air.R_SI_UP, (0.0, 0.0))
    return hours_above(moist.curve(np.where(surface < 0, excess, -1.0)), 0.0)


def _airing(
    readings: Readings, moist: Moist, outdoor_c: Floats, outdoor_rh: Floats
) -> tuple[float | None, dict[str, str], Line | None]:
    if np.isnan(outdoor_c + outdoor_rh + moist.temp_c).all():
        seldom = seldom_outdoors(readings, "relative_humidity") or seldom_outdoors(readings, "air_temperature")
        why = why_no(seldom, "needs outdoor temperature and humidity beside the inside ones")
        return None, {"airing_hours": why}, None
    curve = airing_curve(moist, outdoor_c, outdoor_rh, readings.season.aims.humidity_high_pct)
    return airing_hours(curve), {}, curve
