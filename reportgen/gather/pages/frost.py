"""Frost: each house's coldest against its coldest outdoors, and which kinds of house held what."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pandas as pd

from reportgen.charts.types import Drawing
from reportgen.drawing.pen import isolated
from reportgen.gather.pages import measure
from reportgen.gather.pages.measure import Look, Point
from reportgen.gather.pages.opened import unanswered
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.words import NONE_FOUND, houses, kind_of
from reportgen.gather.types import House, Winter
from reportgen.wording import NBSP, count, number

OTHER, MOST_KINDS = "Other kinds", 5


def page(told: Told) -> GroupPage:
    """The coldest of every house, by kind, and the nights under the frost line."""
    points = _points(told)
    if not points:
        return unanswered(
            "frost",
            "No house logged the air at the crop",
            "Hang one logger at the height of the crop and one outdoors in the shade: then this page shows how "
            "far each house's coldest stayed above its coldest outdoors.",
        )
    blocks = [one for one in (_kinds(told), _nights(told)) if one is not None]
    return GroupPage(
        slug="frost",
        headline=headline(told),
        picture=_picture(points, told),
        blocks=(*blocks, *measure.missing(measure.lacks(told, _reasons()))),
        full=frozenset({"frost_kinds"}) if len(blocks) == 1 else frozenset(),
    )


def frozen(winter: Winter) -> bool:
    """Whether the coldest reading lay under the house's own frost line."""
    h = winter.headlines
    return h.minimum_c is not None and h.minimum_c < (h.line_c or 0.0)


def headline(told: Told) -> str:
    """In how many houses it froze, of those that logged."""
    known = [h.newest for h in told.group.houses if h.newest.headlines.minimum_c is not None]
    n = sum(frozen(winter) for winter in known)
    of = houses(len(known))
    if _frost_lines(told) != {0.0}:
        return _by_own_line(n, len(known))
    if not n:
        return f"It froze in none of {of}" if len(known) > 1 else "It never froze inside"
    if n == len(known):
        return {1: "Frost came in", 2: "Frost came into both houses"}.get(n, f"Frost came into all {of}")
    return f"Frost came into {number(n)} of {of}"


def _by_own_line(n: int, known: int) -> str:
    """The same where a house draws its frost line elsewhere than at freezing: what fell under it need be no frost."""
    if known == 1:
        return "It fell under its frost line" if n else "It never fell under its frost line"
    if n in (0, known):
        return f"{'All' if n else 'None'} of {houses(known)} fell under {'their' if n else 'its'} frost line"
    return f"{number(n)} of {houses(known)} fell under {'their' if n > 1 else 'its'} frost line"


def _frost_lines(told: Told) -> set[float]:
    """Frost lines of the newest winters [°C]."""
    found = (h.newest.headlines for h in told.group.houses)
    return {h.line_c or 0.0 for h in found if h.minimum_c is not None}


def _points(told: Told) -> list[Point]:
    w, out = told.w, []
    for house in told.group.houses:
        h = house.newest.headlines
        if h.minimum_c is None:
            continue
        beside = None if h.outdoor_coldest_c is None else w.temp_value(h.outdoor_coldest_c)
        more = "" if h.outdoor_coldest_c is None else f"outdoors {w.temp(h.outdoor_coldest_c)}"
        out.append(
            Point(house=house, value=w.temp_value(h.minimum_c), said=w.temp(h.minimum_c), more=more, beside=beside)
        )
    return out


def _picture(points: list[Point], told: Told) -> Drawing:
    w, lines = told.w, _frost_lines(told)
    line = next(iter(lines)) if len(lines) == 1 else 0.0
    look = Look(
        token="cold",
        unit="°",
        value_word="coldest inside",
        beside_word="coldest outdoors",
        heavy=w.temp_value(line),
        heavy_word="frost line" if len(lines) == 1 else "freezing",
        joined=True,
    )
    return measure.drawing(
        "frost_coldest",
        _title(points, told),
        f"Coldest reading of each house's newest winter, {w.temp_unit}",
        points,
        look,
        told,
        measure.only(_table(told), "kind", "coldest", "frost", "failures"),
        said=(headline(told),),
        bars="dot: the crop air; ring: outdoors, not always in the same night",
        sure=f"{measure.differ(points)}The coldest carries no sensors' band; the nights under the line do.",
    )


def _title(points: list[Point], told: Told) -> str:
    ends = measure.spread_words([p.value for p in points], 0)
    return f"At the coldest the houses stood at {ends}{NBSP}{told.w.temp_unit}"


def _kinds(told: Told) -> Drawing | None:
    """How far the coldest inside stayed above the coldest outdoors, a row a kind of house."""
    w = told.w
    points = [
        Point(
            house=house,
            value=w.diff_value(h.minimum_c - h.outdoor_coldest_c),
            said=w.degrees(h.minimum_c - h.outdoor_coldest_c),
        )
        for house in told.group.houses
        if (h := house.newest.headlines).minimum_c is not None and h.outdoor_coldest_c is not None
    ]
    if len(points) < 2:
        return None
    kinds, ends = by_kind(points), measure.spread_words([p.value for p in points], 0)
    look = Look(token="cold", unit="°", heavy=0.0, heavy_word="as cold as outdoors")
    told_ = "; ".join(_kind_words(name, held, told) for name, held in list(kinds.items())[:3])
    label = "How far each house stayed above outdoors, a row a kind, a dot a house"
    description = measure.described(points, told, (told_,))
    wide, tall = measure.crowded("frost_kinds", dict(kinds), look, told, label, description)
    return Drawing(
        uid="frost_kinds",
        title=f"The coldest inside stayed {ends}{NBSP}degrees above outdoors",
        subtitle="Coldest inside less coldest outdoors, by kind of house; a dot a house.",
        label=label,
        description=description,
        wide=wide,
        narrow=tall,
        table=measure.only(_table(told), "kind", "coldest"),
        sure=f"{told_}.",
    )


def by_kind(points: list[Point]) -> dict[str, list[Point]]:
    """Points by the kind of their house, the kinds with most houses first, rare ones together."""
    many = Counter(kind_of(p.house.newest) for p in points)
    kept = [name for name, _ in sorted(many.items(), key=lambda item: (-item[1], item[0]))]
    first = kept if len(kept) <= MOST_KINDS else kept[: MOST_KINDS - 1]
    found: dict[str, list[Point]] = {name: [] for name in first}
    for p in points:
        name = kind_of(p.house.newest)
        found.setdefault(name if name in first else OTHER, []).append(p)
    return found


def _kind_words(name: str, points: list[Point], told: Told) -> str:
    return (
        f"{isolated(name)}: {measure.spread_words([p.value for p in points], 1)}{NBSP}degrees in {houses(len(points))}"
    )


def _nights(told: Told) -> Drawing | None:
    """Nights under the frost line, with the sensors' band."""
    points = []
    for house in told.group.houses:
        found = house.newest.headlines.nights_below_line
        if found.estimate is None:
            continue
        low, high = measure.band(found)
        points.append(Point(house=house, value=found.estimate, said=count(found.estimate, "night"), low=low, high=high))
    if len(points) < 2:
        return None
    look = Look(token="cold", heavy=0.0, band_word=measure.BAND_WORD, whole=True)
    some = sum(p.value > 0 for p in points)
    title = (
        f"Nights under the frost line: {measure.spread_words([p.value for p in points], 0)}"
        if some
        else "No house counted a night under its frost line"
    )
    return measure.drawing(
        "frost_nights",
        title,
        "Nights with a reading under each house's own frost line",
        points,
        look,
        told,
        measure.only(_table(told), "frost", "nights"),
        bars=measure.BARS,
        sure=f"{measure.other_days(points)}{measure.barless(points)} {_lines(told)}".strip(),
    )


def _lines(told: Told) -> str:
    lines = {h.newest.headlines.line_c for h in told.group.houses if h.newest.headlines.line_c is not None}
    return "" if len(lines) <= 1 else "Not all houses draw their frost line at the same temperature."


def _reasons() -> list[tuple[str, Callable[[Winter], bool]]]:
    return [
        ("no air logger at the crop; hang one there", lambda w: w.headlines.minimum_c is None),
        (
            "no logger outdoors; hang one in the shade, and the ring beside the dot is there too",
            lambda w: w.headlines.outdoor_coldest_c is None,
        ),
    ]


def _failures(winter: Winter) -> int | None:
    """Failures of the heat; None where there is no heat that could fail, or where it cannot be told."""
    h = winter.headlines
    unknown = any(path == "frost.failures" and words != NONE_FOUND for path, words in h.reasons)
    return None if winter.heated is False or (unknown and not h.failures) else h.failures


def _table(told: Told) -> pd.DataFrame:
    w = told.w

    def temp(value: float | None) -> float | None:
        return None if value is None else round(w.temp_value(value), 1)

    def of(house: House, winter: Winter) -> str:
        return kind_of(winter)

    unit = w.temp_unit
    return measure.frame(
        told,
        {
            "kind": of,
            f"coldest inside {unit}": lambda h, x: temp(x.headlines.minimum_c),
            f"coldest outdoors {unit}": lambda h, x: temp(x.headlines.outdoor_coldest_c),
            f"frost line {unit}": lambda h, x: temp(x.headlines.line_c),
            "nights under it": lambda h, x: x.headlines.nights_below_line.estimate,
            "nights, low": lambda h, x: x.headlines.nights_below_line.low,
            "nights, high": lambda h, x: x.headlines.nights_below_line.high,
            "failures of the heat": lambda h, x: _failures(x),
        },
    )
