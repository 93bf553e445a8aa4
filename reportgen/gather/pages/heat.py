"""Heat: what each house took for each square metre of cover and degree-day, what it loses, what a kilogram cost."""

from __future__ import annotations

from collections.abc import Callable

import pandas as pd

from reportgen.charts.types import Drawing
from reportgen.gather.pages import measure
from reportgen.gather.pages.measure import Look, Point
from reportgen.gather.pages.money import by_currency, keeps_prices, money_pictures
from reportgen.gather.pages.opened import opened, unanswered
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.words import houses, kind_of
from reportgen.gather.types import Winter
from reportgen.units import FAHRENHEIT_K, FOOT_M
from reportgen.wording import NBSP, number

FOOT2 = FOOT_M**2  # m² in a square foot
LOG_HEAT = "Log what the heater takes, by the day or the week"


def page(told: Told) -> GroupPage:
    """Heat for the cover, loss with its interval, heat money for a kilogram."""
    points = _points(told)
    loss, money = _loss(told), _money(told)
    drawn = [one for one in (loss, *money) if one is not None]
    if not points and not drawn and all(h.newest.heated is False for h in told.group.houses):
        return unanswered(
            "heat",
            "No house of this group is heated",
            "There is no heat to set side by side; how cold the houses became stands on the page Frost.",
        )
    if not points and not drawn:
        return unanswered(
            "heat",
            "What heat each house took is not known",
            f"{LOG_HEAT}, and measure the cover: then this page shows what each square metre of it took for each "
            "degree and day of cold.",
        )
    drawings = [_picture(points, told), *drawn] if points else drawn
    return opened("heat", headline(told, points), drawings, measure.missing(measure.lacks(told, _reasons(told))))


def per_cover(winter: Winter) -> float | None:
    """Wh for each m² of cover and each kelvin-day under the hold; None where an input is missing."""
    h = winter.headlines
    if not h.heat_kwh or not winter.glazing_area_m2 or not h.kelvin_hours_below_hold or h.kelvin_hours_below_hold <= 0:
        return None
    return h.heat_kwh * 1000 / winter.glazing_area_m2 / (h.kelvin_hours_below_hold / 24)


def unit(told: Told) -> str:
    """Wh for each of what."""
    return f"Wh for each {'ft²' if told.w.us else 'm²'} of cover and degree-day"


def headline(told: Told, points: list[Point]) -> str:
    """How far the houses lie apart, and how many they are."""
    if not points:
        return "What each square metre of cover took is not known"
    area = "square foot" if told.w.us else "square metre"
    ends = measure.spread_words([p.value for p in points], 0 if max(p.value for p in points) >= 10 else 1)
    return f"Each {area} of cover took {ends}{NBSP}Wh for each degree-day, in {houses(len(points))}"


def _shown(told: Told, value: float) -> float:
    return value * FOOT2 * FAHRENHEIT_K if told.w.us else value


def _points(told: Told) -> list[Point]:
    out = []
    for house in told.group.houses:
        value = per_cover(house.newest)
        if value is not None:
            shown = _shown(told, value)
            out.append(Point(house=house, value=shown, said=f"{number(shown, 0 if shown >= 10 else 1)}{NBSP}Wh"))
    return out


def _picture(points: list[Point], told: Told) -> Drawing:
    look = Look(token="warm", least=0.0)
    return measure.drawing(
        "heat_cover",
        "Heat for the cover, house by house",
        f"Heat of the newest winter in {unit(told)} under the temperature held",
        points,
        look,
        told,
        measure.only(_table(told), "kind", "heat", "cover", "Wh"),
        said=(headline(told, points),),
        sure=f"{measure.differ(points)}Meters and bought fuel have no sensors' band; sun and a warm bed help every "
        "house.",
    )


def _loss(told: Told) -> Drawing | None:
    """W for each K and m² of cover, by each house's own fit, with its interval."""
    us = told.w.us
    scale = FOOT2 * FAHRENHEIT_K if us else 1.0
    name = "W for each degree and square foot" if us else "W for each degree and square metre"
    points = []
    for house in told.group.houses:
        area, found = house.newest.glazing_area_m2, house.newest.headlines.loss_w_per_k
        if not area or found.estimate is None:
            continue
        low, high = measure.band(found, scale / area)
        value = found.estimate / area * scale
        points.append(
            Point(house=house, value=value, said=f"{number(value, 2 if us else 1)}{NBSP}W", low=low, high=high)
        )
    if len(points) < 2:
        return None
    look = Look(token="warm", least=0.0, band_word="a usual interval")
    ends = measure.spread_words([p.value for p in points], 2 if us else 1)
    return measure.drawing(
        "heat_loss",
        f"By each house's own nights the cover lost {ends}{NBSP}W",
        f"{name} of cover, from each house's own balance",
        points,
        look,
        told,
        measure.only(_table(told), "cover", "loss"),
        bars=f"bar: 95{NBSP}% of what may be",
        sure="Where bars overlap the houses cannot be told apart. Where a house was altered, as it stands now. Houses "
        "whose balance was refused are not shown.",
    )


def _money(told: Told) -> list[Drawing]:
    def value(winter: Winter) -> float | None:
        h = winter.headlines
        return h.heat_cost / h.harvest_kg if h.heat_cost is not None and h.harvest_kg else None

    return money_pictures(
        told,
        "heat_money",
        value,
        "The heat in a {unit} cost {ends}",
        "Money for heat, for each {unit} picked, in houses that pay in {currency}",
        measure.only(_table(told), "currency", "money", "picked"),
    )


def _reasons(told: Told) -> list[tuple[str, Callable[[Winter], bool]]]:
    return [
        ("not heated, so there is nothing to show", lambda w: w.heated is False and not w.headlines.heat_kwh),
        (f"no heat on record. {LOG_HEAT}", lambda w: w.headlines.heat_kwh is None),
        ("the area of the cover is not given; measure the glass or film", lambda w: w.glazing_area_m2 is None),
        ("no hold or no logger outdoors, so no degree-days", lambda w: not w.headlines.kelvin_hours_below_hold),
        ("keeps its prices to itself", keeps_prices),
    ]


def _table(told: Told) -> pd.DataFrame:
    w = told.w

    def rounded(value: float | None, digits: int) -> float | None:
        return None if value is None else round(value, digits)

    def cover(winter: Winter) -> float | None:
        value = per_cover(winter)
        return None if value is None else _shown(told, value)

    return measure.frame(
        told,
        {
            "kind": lambda h, x: kind_of(x),
            "heat, kWh": lambda h, x: rounded(x.headlines.heat_kwh, 1),
            f"cover, {'ft²' if w.us else 'm²'}": lambda h, x: rounded(
                None if x.glazing_area_m2 is None else x.glazing_area_m2 / (FOOT2 if w.us else 1), 1
            ),
            unit(told): lambda h, x: rounded(cover(x), 1),
            "loss, W/K": lambda h, x: rounded(x.headlines.loss_w_per_k.estimate, 1),
            "loss, low": lambda h, x: rounded(x.headlines.loss_w_per_k.low, 1),
            "loss, high": lambda h, x: rounded(x.headlines.loss_w_per_k.high, 1),
            "currency": lambda h, x: by_currency(x),
            "money for heat": lambda h, x: rounded(x.headlines.heat_cost, 2),
            f"picked, {w.mass_unit}": lambda h, x: rounded(
                None if x.headlines.harvest_kg is None else w.mass_value(x.headlines.harvest_kg), 1
            ),
        },
    )
