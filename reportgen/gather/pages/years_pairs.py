"""Each winter against the one before, as its own review told it: which headlines, and their differences."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing.ink import Token
from reportgen.gather.pages.told import Told
from reportgen.gather.types import Band, EqualWeather, House, Winter
from reportgen.winters import NIGHTLY
from reportgen.wording import Wording

OUTDOORS = "outdoor temperature at night"


@dataclass(frozen=True, kw_only=True, slots=True)
class Kind:
    """A headline that can be told at equal weather: its words, its unit and what more and less of it are called."""

    key: str
    title: str
    sub: str
    token: Token
    more: str
    less: str
    kelvin: bool = False
    share: bool = False  # told as a share of the winter before
    verbs: tuple[str, str] = ("was", "were")


KINDS = (
    Kind(key="lift", title="Warmth of the nights over outdoors", sub="Difference of the nights' warmth over outdoors",
         token="cold", more="warmer", less="cooler", kelvin=True),
    Kind(key="heat", title="Heat used in a day", sub="Difference of the heat of a day, as a share of the winter before",
         token="warm", more="more heat", less="less heat", share=True, verbs=("took", "took")),
    Kind(key="night_humidity", title="Humidity at night", sub="Difference of the humidity at night, in points",
         token="humid", more="damper", less="drier"),
    Kind(key="soil_mean", title="Warmth of the bed", sub="Difference of the bed's mean temperature",
         token="soil", more="warmer", less="cooler", kelvin=True),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Pair:
    """A winter against the one before, in the unit shown; `outdoors` is how much warmer its nights were outside."""

    house: House
    winter: Winter
    raw: float | None
    equal: Band
    outdoors: float | None


def pairs(kind: Kind, told: Told) -> list[Pair]:
    """Every winter that its own review set against the one before, for that headline."""
    what, w, out = NIGHTLY[kind.key][0], told.w, []
    for house in told.group.houses:
        if len(house.winters) < 2:
            continue
        for winter in house.winters[1:]:
            row = next((row for row in winter.against_last if row.what == what), None)
            if row is None or row.at_equal is None or row.at_equal.estimate is None:
                continue
            if kind.share and not (row.last and row.last > 0):
                continue
            scale = _scale(kind, row, w)
            raw = None if row.last is None or row.this is None else (row.this - row.last) * scale
            out.append(
                Pair(
                    house=house,
                    winter=winter,
                    raw=raw,
                    equal=_scaled(row.at_equal, scale),
                    outdoors=_outdoors(winter, w),
                )
            )
    return out


def _scale(kind: Kind, row: EqualWeather, w: Wording) -> float:
    if kind.share:
        assert row.last
        return 100.0 / row.last
    return w.diff_value(1.0) if kind.kelvin else 1.0


def _scaled(band: Band, scale: float) -> Band:
    ends = [None if v is None else v * scale for v in (band.estimate, band.low, band.high)]
    return Band(estimate=ends[0], low=ends[1], high=ends[2])


def _outdoors(winter: Winter, w: Wording) -> float | None:
    row = next((row for row in winter.against_last if row.what == OUTDOORS), None)
    if row is None or row.last is None or row.this is None:
        return None
    return w.diff_value(row.this - row.last)


def order(told: Told) -> list[Kind]:
    """Headlines that some winter can be told on, those with a difference for certain first."""
    known = [kind for kind in KINDS if pairs(kind, told)]
    return sorted(known, key=lambda kind: not any(sign(p) for p in pairs(kind, told)))


def sign(p: Pair) -> int:
    """1 more, −1 less for certain, 0 cannot tell."""
    return int((p.equal.low or 0.0) > 0) - int((p.equal.high or 0.0) < 0)
