"""Did we keep the target, and what did each degree cost? Method: methods page, *Heat*."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

import pandas as pd

from reportgen.measures import hold_price
from reportgen.measures.exposure import Band
from reportgen.measures.harvest_heat import DailyHeat, daily_heat
from reportgen.measures.heat_books import appliances, dark_weeks, sources, weeks
from reportgen.measures.heat_house import above_aim, above_dated_aims, losses, needed
from reportgen.measures.heat_loss import air_w_per_k, expected_w_per_k
from reportgen.measures.heat_nights import heat_nights
from reportgen.measures.heat_reasons import null_reasons
from reportgen.measures.heat_sums import ALL_KNOWN, Sum, known_share
from reportgen.measures.heat_types import DegreePrice, Heat, HeaterNeeded, HoldPrice, PriceBasis, StateLoss, Stretch
from reportgen.measures.heating_hours import (
    HeatCurve,
    heat_by_day,
    heat_by_hour,
    heat_curves,
    hourly_mean,
)
from reportgen.measures.hold import Kept, hold_found, kept, stretches, with_heat
from reportgen.measures.hold_price import Paid
from reportgen.measures.house.season import HouseModel, house_model
from reportgen.measures.other_holds import other_holds
from reportgen.measures.places import main_crop, outdoor, seldom_crop, why_no
from reportgen.measures.weather import coldest_outdoors
from reportgen.problems import NotEnoughData
from reportgen.readings.types import Readings

# One hold all winter, every date's own hold moved, what they rest on, whether the house run again counted.
PriceOf = tuple[tuple[HoldPrice, ...], tuple[DegreePrice, ...], PriceBasis | None, bool]
NO_HEATER = "no heater is listed in season.toml"


@dataclass(frozen=True, kw_only=True, slots=True)
class _Parts:
    """What several figures of the page rest on."""

    readings: Readings
    curves: tuple[HeatCurve, ...]
    by_hour: pd.DataFrame = field(repr=False)
    by_day: pd.DataFrame = field(repr=False)
    nights: pd.DataFrame = field(repr=False)
    found: tuple[Stretch, ...]
    hold_c: float | None
    totals: DailyHeat
    house: HouseModel
    untold: str
    reasons: dict[str, str]


def heat(readings: Readings, house: HouseModel | None = None, *, untold: str = "") -> Heat:
    """All that the heaters, the meters and the weather tell.

    Args:
        house: The house of the season, where it is at hand.
        untold: Why other holds and the size of the heater are not asked for; "": they are.
    """
    parts = _parts(readings, house or house_model(readings), untold)
    aimed = kept(readings)
    loss, loss_nights, by_state = _loss(parts)
    listed = sources(readings, parts.by_hour)
    price, degrees, basis, by_run = _price(parts, flat_out=any((s.hours_flat_out or 0.0) >= 1.0 for s in listed))
    size = _needed(parts)
    _explain(parts, aimed)
    parts.reasons.update(null_reasons(readings, parts.by_hour, listed, price, degrees))
    return Heat(
        hold_c=_aim(readings, parts.reasons),
        share_at_or_above_hold=aimed.share,
        degree_hours_below_hold=aimed.degree_hours,
        kwh=parts.totals.kwh,
        appliances_kwh=float(parts.by_day["appliances_kwh"].sum()),
        cost=parts.totals.cost,
        co2_kg=parts.totals.co2_kg,
        loss_w_per_k=loss,
        loss_by_state=by_state,
        loss_expected_w_per_k=_expected(parts),
        hold_found_c=parts.hold_c,
        sources=listed,
        price_of_hold=price,
        price_of_degree=degrees,
        heater_needed_w=size,
        above_target_kwh=_above(parts, price),
        dark_weeks=dark_weeks(readings, parts.by_day, parts.totals, parts.reasons),
        reasons=parts.reasons,
        known_share=known_share(readings.heating, readings.season.hours),
        kwh_low=parts.totals.heat.low,
        kwh_high=parts.totals.heat.high,
        cost_low=parts.totals.money.low,
        cost_high=parts.totals.money.high,
        appliances=appliances(readings),
        holds=_holds(readings),
        months=aimed.months,
        hold_hours=aimed.hours,
        loss_nights=loss_nights,
        loss_with_air=air_w_per_k(readings.season.house) > 0,
        stretches=parts.found,
        basis=basis,
        priced_by_run=by_run,
        nights=parts.nights,
        by_hour=parts.by_hour,
        by_day=parts.by_day,
        weeks=weeks(readings, parts.curves),
        spread=parts.totals.spread,
    )


def _parts(readings: Readings, house: HouseModel, untold: str) -> _Parts:
    curves = heat_curves(readings)
    by_hour, by_day = heat_by_hour(readings, curves), heat_by_day(readings, curves)
    found = with_heat(stretches(readings, by_hour), by_day)
    return _Parts(
        readings=readings,
        curves=curves,
        by_hour=by_hour,
        by_day=by_day,
        nights=heat_nights(readings, by_hour),
        found=found,
        hold_c=hold_found(found),
        totals=daily_heat(readings),
        house=house,
        untold=untold,
        reasons={},
    )


def _explain(parts: _Parts, aimed: Kept) -> None:
    """Reasons of the totals, the kept aim and the hold found."""
    reasons = parts.reasons
    totals = dict(parts.totals.reasons)
    reasons |= {("co2_kg" if key == "co2" else key): words for key, words in totals.items()}
    for name in ("share_at_or_above_hold", "degree_hours_below_hold"):
        if aimed.reason:
            reasons |= {f"{name}.{end}": aimed.reason for end in ("estimate", "low", "high")}
        elif aimed.band_reason:
            reasons |= {f"{name}.{end}": aimed.band_reason for end in ("low", "high")}
    if parts.hold_c is None:
        reasons["hold_found_c"] = _why_no_hold(parts)
    if not parts.readings.heating:
        reasons["sources"] = reasons["known_share"] = NO_HEATER
    for key, one in (("kwh", parts.totals.heat), ("cost", parts.totals.money)):
        if one.low is None:
            reasons |= {f"{key}_{end}": one.reason or ALL_KNOWN for end in ("low", "high")}


def _why_no_hold(parts: _Parts) -> str:
    if not parts.readings.heating:
        return NO_HEATER
    if main_crop(parts.readings, "air_temperature") is None:
        seldom = seldom_crop(parts.readings, "air_temperature")
        return why_no(seldom, "no air temperature was logged beside the crop")
    return "too few heated night hours to tell what was held"


def _holds(readings: Readings) -> tuple[tuple[date, float], ...]:
    aims = readings.season.aims
    if aims.hold_c is not None:
        return ((readings.season.first_day, aims.hold_c),)
    return tuple((hold.start, hold.c) for hold in aims.hold)


def _aim(readings: Readings, reasons: dict[str, str]) -> float | None:
    """The one hold aimed for; several by date have no one figure."""
    holds = {hold for _, hold in _holds(readings)}
    if len(holds) == 1:
        return next(iter(holds))
    reasons["hold_c"] = "several holds by date" if holds else "no hold is named in season.toml"
    return None


def _loss(parts: _Parts) -> tuple[Band, int, tuple[StateLoss, ...]]:
    try:
        return losses(parts.house)
    except NotEnoughData as why:
        parts.reasons.update({f"loss_w_per_k.{end}": str(why) for end in ("estimate", "low", "high")})
        parts.reasons["loss_by_state"] = str(why)
        return Band(estimate=float("nan")), 0, ()


def _told(parts: _Parts) -> None:
    if parts.untold:
        raise NotEnoughData(parts.untold)


def _above(parts: _Parts, rows: tuple[HoldPrice, ...]) -> float | None:
    """Heat above the aim; None with its reason."""
    holds = {hold for _, hold in _holds(parts.readings)}
    try:
        _told(parts)
        if not parts.readings.heating:
            raise NotEnoughData(NO_HEATER)
        if not holds:
            raise NotEnoughData("no hold is named in season.toml")
        if len(holds) > 1:
            return above_dated_aims(parts.house, parts.found, parts.totals.kwh, parts.readings.season.hold_on)
        return above_aim(rows, parts.totals.kwh, parts.hold_c, next(iter(holds)))
    except NotEnoughData as why:
        parts.reasons["above_target_kwh"] = str(why)
        return None


def _expected(parts: _Parts) -> float | None:
    expected = expected_w_per_k(parts.readings.season.house)
    if expected is None:
        parts.reasons["loss_expected_w_per_k"] = "u_value_w_m2k or glazing_area_m2 is not given"
    return expected


def _price(parts: _Parts, flat_out: bool) -> PriceOf:
    """Other holds in this winter's weather; without logged heat what cover and air changes let expect."""
    totals = parts.totals
    try:
        _told(parts)
        if not parts.readings.heating:
            return _expected_price(parts)
        if totals.kwh is None:
            raise NotEnoughData(totals.reasons.get("kwh", "the heat of a source is not known"))
        if parts.hold_c is None:
            raise NotEnoughData(_why_no_hold(parts))
        paid = Paid(found=parts.found, kwh=totals.kwh, cost=totals.cost, unknown=_unknown(totals.heat))
        priced = other_holds(
            parts.readings, parts.by_hour, parts.curves, parts.house, paid, parts.hold_c, flat_out=flat_out
        )
        return priced.rows, priced.degrees, priced.basis, priced.by_run
    except NotEnoughData as why:
        parts.reasons["price_of_hold"] = parts.reasons["price_of_degree"] = str(why)
        return (), (), None, False


def _unknown(heat: Sum) -> float:
    """By how much the heat may have been more than is known, as a factor from 1 on."""
    return heat.high / heat.value if heat.high is not None and heat.value else 1.0


def _expected_price(parts: _Parts) -> PriceOf:
    house, season = parts.readings.season.house, parts.readings.season
    loss, channel = expected_w_per_k(house), outdoor(parts.readings, "air_temperature")
    if loss is None or channel is None:
        raise NotEnoughData(NO_HEATER)
    holds = [hold for _, hold in _holds(parts.readings)]
    middle = holds[-1] if holds else season.aims.frost_c + 5.0
    hours = pd.DatetimeIndex(parts.by_hour.index)
    rows = hold_price.expected_prices(
        loss, hourly_mean(channel.values, hours), hold_price.round_holds(middle, season.show == "us")
    )
    basis = PriceBasis(
        kind="expectation",
        periods=0,
        mean_days=0.0,
        balance_c=None,
        kwh_per_kh=loss / 1000.0,
        explained=None,
    )
    parts.reasons["price_of_degree"] = "no heat was logged to tell what a degree took"
    return rows, (), basis, False


def _needed(parts: _Parts) -> HeaterNeeded:
    """Heater size through the hardest hours of this winter and of one 5 K colder."""
    try:
        _told(parts)
        return needed(parts.house, parts.hold_c, _why_no_hold(parts), coldest_outdoors(parts.readings))
    except NotEnoughData as why:
        parts.reasons.update(
            {f"heater_needed_w.{name}": str(why) for name in ("coldest_hour", "five_colder", "to_buy")}
        )
        return HeaterNeeded(coldest_hour=None, five_colder=None, to_buy=None)
