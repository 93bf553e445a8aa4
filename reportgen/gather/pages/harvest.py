"""Harvest: what each square metre gave, what a kilogram cost in all, and weeks in which half of it was ours."""

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
from reportgen.gather.pages.words import houses, kept_private, kind_of
from reportgen.gather.types import Winter
from reportgen.units import FOOT_M, POUND_KG
from reportgen.wording import NBSP, count, number

POUND_PER_FOOT2 = FOOT_M**2 / POUND_KG  # kg/m² → lb/ft²


def page(told: Told) -> GroupPage:
    """Weight for the floor, cost in all, weeks."""
    points = _points(told)
    others = [one for one in (*_cost(told), _weeks(told)) if one is not None]
    if not points and not others:
        return unanswered(
            "harvest",
            "No house weighed its harvest",
            "Weigh each picking and write it down with its day: then this page shows what each square metre "
            "gave and what a kilogram cost.",
        )
    drawings = [_picture(points, told), *others] if points else others
    return opened("harvest", headline(told, points), drawings, measure.missing(measure.lacks(told, _reasons())))


def headline(told: Told, points: list[Point]) -> str:
    """How far the houses lie apart."""
    if not points:
        return "What each square metre gave is not known"
    area, digits = ("square foot", 2) if told.w.us else ("square metre", 1)
    ends = measure.spread_words([p.value for p in points], digits)
    return f"A {area} of floor gave {ends}{NBSP}{told.w.mass_unit} in {houses(len(points))}"


def _points(told: Told) -> list[Point]:
    w, out = told.w, []
    for house in told.group.houses:
        value = house.newest.headlines.kg_per_m2
        if value is None:
            continue
        shown = value * POUND_PER_FOOT2 if w.us else value
        out.append(Point(house=house, value=shown, said=f"{number(shown, 2 if w.us else 1)}{NBSP}{w.mass_unit}"))
    return out


def _picture(points: list[Point], told: Told) -> Drawing:
    us = told.w.us
    look = Look(token="target", least=0.0)
    return measure.drawing(
        "harvest_floor",
        "What each house picked, for its floor",
        f"All that was weighed in the newest winter, {'lb for each ft²' if us else 'kg for each m²'} of floor",
        points,
        look,
        told,
        measure.only(_table(told), "kind", "picked", "for each"),
        said=(headline(told, points),),
        sure=f"{measure.differ(points)}Crops, sowing and light differ, and not every picking need have been weighed.",
    )


def _cost(told: Told) -> list[Drawing]:
    return money_pictures(
        told,
        "harvest_cost",
        lambda winter: winter.headlines.balance_per_kg,
        "In all a {unit} cost {ends}",
        "Heat, appliances, costs and a year's share of what was built, a {unit}, in houses that pay in {currency}",
        measure.only(_table(told), "currency", "cost", "picked"),
    )


def _weeks(told: Told) -> Drawing | None:
    points = [
        Point(house=house, value=float(weeks), said=count(weeks, "week"))
        for house in told.group.houses
        if (weeks := house.newest.headlines.weeks_at_half_or_more) is not None
    ]
    if len(points) < 2:
        return None
    look = Look(token="target", least=0.0, whole=True)
    ends = measure.spread_words([p.value for p in points], 0)
    said = {"0": "no week", "1": "1 week"}.get(ends, f"{ends} weeks")
    return measure.drawing(
        "harvest_weeks",
        f"Half of the household's vegetables or more in {said}",
        "Weeks of the newest winter in which at least half of what the household eats was picked",
        points,
        look,
        told,
        measure.only(_table(told), "weeks"),
        sure=f"{measure.other_days(points)}It takes the household's vegetables for a week; houses that do not say them "
        "are not shown.",
    )


def _reasons() -> list[tuple[str, Callable[[Winter], bool]]]:
    return [
        ("keeps its harvest to itself", lambda w: kept_private(w, "harvest.")),
        (
            "no weighed harvest handed in; weigh each picking, and allow the harvest under [share]",
            lambda w: w.headlines.harvest_kg is None,
        ),
        ("the area of the floor is not given", lambda w: w.headlines.kg_per_m2 is None),
        ("keeps its prices to itself", keeps_prices),
        ("no cost in all, since no prices are given", lambda w: w.headlines.balance_per_kg is None),
    ]


def _table(told: Told) -> pd.DataFrame:
    w = told.w

    def rounded(value: float | None, digits: int, scale: float = 1.0) -> float | None:
        return None if value is None else round(value * scale, digits)

    mass = 1 / POUND_KG if w.us else 1.0
    floor = POUND_PER_FOOT2 if w.us else 1.0
    return measure.frame(
        told,
        {
            "kind": lambda h, x: kind_of(x),
            f"picked, {w.mass_unit}": lambda h, x: rounded(x.headlines.harvest_kg, 1, mass),
            f"for each {'ft²' if w.us else 'm²'} of floor, {w.mass_unit}": lambda h, x: rounded(
                x.headlines.kg_per_m2, 2, floor
            ),
            "currency": lambda h, x: by_currency(x),
            "cost in all": lambda h, x: rounded(x.headlines.balance_total, 2),
            f"cost in all for each {w.mass_unit}": lambda h, x: rounded(x.headlines.balance_per_kg, 2, 1 / mass),
            "weeks at half or more": lambda h, x: x.headlines.weeks_at_half_or_more,
        },
    )
