"""Damp: the share of hours above the high and the extreme humidity line, with the sensors' bands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pandas as pd

from reportgen.charts.types import Drawing
from reportgen.drawing.pen import isolated
from reportgen.gather.pages import measure
from reportgen.gather.pages.frost import by_kind
from reportgen.gather.pages.measure import Look, Point
from reportgen.gather.pages.opened import unanswered
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.words import houses, kind_of
from reportgen.gather.types import Band, Winter
from reportgen.wording import NBSP, number

USUAL_HIGH, USUAL_EXTREME = 80.0, 90.0


def page(told: Told) -> GroupPage:
    """Above high, above extreme, and by kind of house."""
    high, extreme = common_line(told, "high"), common_line(told, "extreme")
    points = shares(told, "high", high)
    if not points:
        return unanswered(
            "damp",
            "No house logged humidity beside the crop",
            "Hang a logger that writes humidity at the height of the crop: then this page shows for which "
            "share of the hours each house stood damp.",
        )
    blocks = [one for one in (_extreme(told, extreme), _kinds(points, told, high)) if one is not None]
    return GroupPage(
        slug="damp",
        headline=headline(points, high),
        picture=_picture("damp_high", points, told, high),
        blocks=(*blocks, *measure.missing(measure.lacks(told, _reasons(high)))),
        full=frozenset({blocks[0].uid}) if len(blocks) == 1 else frozenset(),
    )


def common_line(told: Told, which: str) -> float:
    """The line that most houses count by: houses with another line are not set beside them."""
    found: Counter[float] = Counter(
        value for house in told.group.houses if (value := getattr(house.newest.headlines, f"{which}_pct")) is not None
    )
    if not found:
        return USUAL_HIGH if which == "high" else USUAL_EXTREME
    return min(found, key=lambda value: (-found[value], value))


def shares(told: Told, which: str, line: float) -> list[Point]:
    """Each house's share of recorded hours above the line, with its band, in percent."""
    out = []
    for house in told.group.houses:
        h = house.newest.headlines
        found: Band = getattr(h, f"hours_above_{which}")
        hours = h.damp_hours_recorded
        if found.estimate is None or not hours or hours <= 0 or getattr(h, f"{which}_pct") not in (None, line):
            continue
        low, high = measure.band(found, 100 / hours)
        high = None if high is None else min(high, 100.0)
        value = min(found.estimate / hours * 100, 100.0)
        out.append(Point(house=house, value=value, said=f"{number(value)}{NBSP}%", low=low, high=high))
    return out


def headline(points: list[Point], line: float) -> str:
    """From the driest to the dampest share, and how many houses."""
    ends = measure.spread_words([p.value for p in points], 0)
    return f"Above {number(line)}{NBSP}% for {ends}{NBSP}% of the hours, in {houses(len(points))}"


def _picture(uid: str, points: list[Point], told: Told, line: float) -> Drawing:
    look = Look(
        token="humid",
        unit=f"{NBSP}%",
        least=0.0,
        most=100.0,
        band_word=measure.BAND_WORD,
    )
    return measure.drawing(
        uid,
        "How much of the winter the air stood damp",
        f"Share of recorded hours with humidity above {number(line)}{NBSP}%",
        points,
        look,
        told,
        measure.only(_table(told), "kind", "hours", "high", "share above high"),
        said=(headline(points, line),),
        bars=measure.BARS,
        sure=f"{measure.differ(points)}Where bars overlap the loggers cannot tell the houses apart."
        if len(points) > 1
        else "",
    )


def _extreme(told: Told, line: float) -> Drawing | None:
    points = shares(told, "extreme", line)
    if len(points) < 2:
        return None
    look = Look(token="humid", unit=f"{NBSP}%", least=0.0, band_word=measure.BAND_WORD)
    return measure.drawing(
        "damp_extreme",
        f"Above {number(line)}{NBSP}% for {measure.spread_words([p.value for p in points], 0)}{NBSP}% of the hours",
        f"Share of recorded hours above {number(line)}{NBSP}%",
        points,
        look,
        told,
        measure.only(_table(told), "hours", "extreme", "share above extreme"),
        bars=measure.BARS,
        sure=measure.barless(points),
    )


def _kinds(points: list[Point], told: Told, line: float) -> Drawing | None:
    kinds = by_kind(points)
    if len(kinds) < 2:
        return None
    look = Look(token="humid", unit=f"{NBSP}%", least=0.0, most=100.0)
    label = f"Share of hours above {number(line)} %, a row a kind of house, a dot a house"
    parts = [
        f"{isolated(name)}: {measure.spread_words([p.value for p in held], 0)}{NBSP}%" for name, held in kinds.items()
    ]
    wide, tall = measure.crowded(
        "damp_kinds", dict(kinds), look, told, label, measure.described(points, told, parts[:3])
    )
    return Drawing(
        uid="damp_kinds",
        title="The same by kind of house",
        subtitle=f"Share of recorded hours above {number(line)}{NBSP}%; a dot a house.",
        label=label,
        description=measure.described(points, told, parts[:3]),
        wide=wide,
        narrow=tall,
        table=measure.only(_table(told), "kind", "high", "share above high"),
        sure=f"{'; '.join(parts[:3])}.",
    )


def _reasons(line: float) -> list[tuple[str, Callable[[Winter], bool]]]:
    return [
        (
            "no humidity on record beside the crop; hang a logger that writes it",
            lambda w: w.headlines.hours_above_high.estimate is None or not w.headlines.damp_hours_recorded,
        ),
        (
            f"counts by another line than {number(line)}{NBSP}%",
            lambda w: w.headlines.high_pct not in (None, line),
        ),
    ]


def _table(told: Told) -> pd.DataFrame:
    def share(band: Band, end: str, hours: float | None) -> float | None:
        value = getattr(band, end)
        return None if value is None or not hours else round(min(value / hours, 1.0) * 100, 1)

    columns: dict[str, Callable[..., object]] = {
        "kind": lambda h, x: kind_of(x),
        "hours recorded": lambda h, x: x.headlines.damp_hours_recorded,
    }
    for which, name in (("high", "high"), ("extreme", "extreme")):
        columns[f"{name} line, %"] = lambda h, x, k=which: getattr(x.headlines, f"{k}_pct")
        for end, word in (("estimate", ""), ("low", ", low"), ("high", ", high")):
            columns[f"share above {name}, %{word}"] = lambda h, x, k=which, e=end: share(
                getattr(x.headlines, f"hours_above_{k}"), e, x.headlines.damp_hours_recorded
            )
    return measure.frame(told, columns)
