"""Houses: each one's row, and how cold it was where it stands."""

from __future__ import annotations

from collections.abc import Callable

import pandas as pd

from reportgen.charts.types import Drawing, Table
from reportgen.gather.pages import measure
from reportgen.gather.pages.damp import USUAL_HIGH
from reportgen.gather.pages.measure import Look, Point
from reportgen.gather.pages.money import by_currency
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.words import houses, kind_of, no_outdoors, unbroken, whole, winter_name
from reportgen.gather.types import House, Winter
from reportgen.wording import NBSP, count, number

MOST_OPEN = 16  # rows that stand open
MOST_ROWS = 200  # on the page; all are in the file
NOTHING = "–"


def page(told: Told) -> GroupPage:
    """How cold the nights were outdoors, and the table of all houses."""
    points = _points(told)
    table = table_of(told)
    lacking = measure.missing(
        measure.lacks(
            told,
            [("no logger outdoors, so the weather is not taken out of any change there",
              no_outdoors)],
        )
    )  # fmt: skip
    picture = _picture(points, told) if points else None
    open_ = picture is not None and len(table.rows) <= MOST_OPEN
    shown, folded = ((table,) if open_ else ()), ((table,) if picture is not None and not open_ else ())
    return GroupPage(
        slug="houses",
        headline=headline(told),
        picture=picture if picture is not None else table,
        blocks=(*shown, *lacking),
        rest=folded,
        full=frozenset({"houses"}),
    )


def headline(told: Told) -> str:
    """8 houses of 3 kinds, 11 winters."""
    kinds = len({kind_of(h.newest) for h in told.group.houses})
    n = len(told.group.houses)
    of = f" of {count(kinds, 'kind')}" if kinds > 1 else ""
    return f"{houses(n)}{of}, {count(told.winters, 'winter')} in all"


def _points(told: Told) -> list[Point]:
    w = told.w
    return [
        Point(house=house, value=w.temp_value(mean), said=w.temp(mean))
        for house in told.group.houses
        if (mean := house.newest.headlines.mean_night_outdoor_c) is not None
    ]


def _picture(points: list[Point], told: Told) -> Drawing:
    w = told.w
    ends = measure.spread_words([p.value for p in points], 1)
    apart = max(p.value for p in points) - min(p.value for p in points) > w.diff_value(2.0)
    weather = (
        " Nights were so far apart that heat and frost are not to be set side by side as they stand." if apart else ""
    )
    look = Look(token="neutral", unit="°", heavy=w.temp_value(0.0), heavy_word="freezing")  # fmt: skip
    return measure.drawing(
        "houses_outdoors",
        f"Outdoors the nights were {ends}{NBSP}{w.temp_unit} on average",
        f"Mean outdoor temperature of the nights of each house's newest winter, {w.temp_unit}",
        points,
        look,
        told,
        measure.only(frame(told), "first", "last", "kind", "mean night", "coldest outdoors"),
        said=(headline(told),),
        sure=f"{measure.differ(points)}{weather}".strip(),
    )


def table_of(told: Told) -> Table:
    """A row a house with its newest winter, the marked house with its word."""
    w = told.w
    rows = tuple(_cells(house, told) for house in told.group.houses[:MOST_ROWS])
    n = len(told.group.houses)
    cut = (f"The first {number(len(rows))} of {number(n)} houses; all are in the file.",) if n > len(rows) else ()
    return Table(
        uid="houses",
        title="Each house, its newest winter",
        subtitle="Figures as each house's own review told them; – is not known.",
        columns=(
            "house",
            "kind",
            "winter",
            "reviews",
            "outdoors, mean night",
            "coldest inside",
            "heat",
            "damp hours",
            f"picked, {w.mass_unit}",
        ),
        rows=rows,
        data=frame(told),
        notes=cut,
    )


def _cells(house: House, told: Told) -> tuple[str, ...]:
    w, x, h = told.w, house.newest, house.newest.headlines
    mark = "◆ your house: " if told.ours(house.label) else ""
    share = None
    if h.damp_hours_recorded and h.hours_above_high.estimate is not None:
        share = min(h.hours_above_high.estimate / h.damp_hours_recorded * 100, 100.0)
    line = "" if h.high_pct in (None, USUAL_HIGH) else f" over {number(h.high_pct or 0.0)}{NBSP}%"
    so_far = ", so far" if x.so_far else ""
    return (
        f"{mark}{whole(house.label)}",
        kind_of(x),
        f"{unbroken(winter_name(x))}{so_far}",
        number(len(house.winters)),
        NOTHING if h.mean_night_outdoor_c is None else w.temp(h.mean_night_outdoor_c),
        NOTHING if h.minimum_c is None else w.temp(h.minimum_c),
        NOTHING if h.heat_kwh is None else w.kwh(h.heat_kwh),
        NOTHING if share is None else f"{number(share)}{NBSP}%{line}",
        NOTHING if h.harvest_kg is None else w.mass(h.harvest_kg),
    )


def frame(told: Told) -> pd.DataFrame:
    """Every winter of every house: the figures that the pages show."""
    w = told.w

    def temp(value: float | None) -> float | None:
        return None if value is None else round(w.temp_value(value), 2)

    def text(value: str | None) -> str:
        return whole(value) if value else ""

    columns: dict[str, Callable[[House, Winter], object]] = {
        "first day": lambda h, x: x.first_day,
        "last day": lambda h, x: x.last_day,
        "still running": lambda h, x: x.so_far is not None,
        "kind": lambda h, x: kind_of(x),
        "cover": lambda h, x: text(x.glazing),
        "floor, m²": lambda h, x: x.floor_area_m2,
        "cover, m²": lambda h, x: x.glazing_area_m2,
        f"mean night outdoors {w.temp_unit}": lambda h, x: temp(x.headlines.mean_night_outdoor_c),
        f"coldest inside {w.temp_unit}": lambda h, x: temp(x.headlines.minimum_c),
        f"coldest outdoors {w.temp_unit}": lambda h, x: temp(x.headlines.outdoor_coldest_c),
        "heat, kWh": lambda h, x: x.headlines.heat_kwh,
        "currency": lambda h, x: by_currency(x),
        "money for heat": lambda h, x: x.headlines.heat_cost,
        "hours above the high line": lambda h, x: x.headlines.hours_above_high.estimate,
        "humidity hours recorded": lambda h, x: x.headlines.damp_hours_recorded,
        f"mean of the bed {w.temp_unit}": lambda h, x: temp(x.headlines.soil_mean_c),
        "picked, kg": lambda h, x: x.headlines.harvest_kg,
        "weeks at half or more": lambda h, x: x.headlines.weeks_at_half_or_more,
    }
    return measure.frame(told, columns)
