"""What the crops met in a cold happening, and what it took of them by the book's own cause."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen.counsel.events_books import lost_by_cold
from reportgen.counsel.events_spells import Airs, Happening, air_of, lowest
from reportgen.counsel.grounds import CropMet
from reportgen.counsel.results import Results
from reportgen.measures.exposure import Line
from reportgen.measures.frost_limit import evening
from reportgen.measures.frost_types import CropMargin
from reportgen.readings.types import Planting


@dataclass(frozen=True, kw_only=True, slots=True)
class Stand:
    """A crop of the frost page, and the number of its row among the plantings, where it has one."""

    crop: CropMargin
    number: int | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Met:
    """What every happening did to the crops, in their order; `told`: numbers of plantings whose loss stands there."""

    crops: tuple[tuple[CropMet, ...], ...]
    told: frozenset[int]


def met_by(r: Results, airs: Airs, coldest: Line, happened: Sequence[Happening]) -> Met:
    """The crops of every happening. A loss by cold that several could have caused belongs to the one in which that crop
    met the coldest air; it is told once."""
    stands = _stands(r)
    depths = [[_coldest(r, airs, coldest, stand, one) for one in happened] for stand in stands]
    owners = [_owner(r, stand, depth, happened) for stand, depth in zip(stands, depths, strict=True)]
    crops = tuple(
        tuple(
            _crop(r, stand, depth[i], one, owned=owner == i)
            for stand, depth, owner in zip(stands, depths, owners, strict=True)
            if not np.isinf(depth[i])
        )
        for i, one in enumerate(happened)
    )
    pairs = zip(stands, owners, strict=True)
    return Met(crops=crops, told=frozenset(s.number for s, o in pairs if o is not None and s.number is not None))


def _stands(r: Results) -> list[Stand]:
    """The crops of the frost page stand in the order of plantings.csv."""
    left = list(enumerate(r.readings.plantings))
    out = []
    for crop in r.frost.crops:
        found = next((pair for pair in left if _is(pair[1], crop)), None)
        if found is not None:
            left.remove(found)
        out.append(Stand(crop=crop, number=found[0] if found is not None else None))
    return out


def _is(row: Planting, crop: CropMargin) -> bool:
    begun = row.planted or row.sown
    stood = (begun is None or begun <= crop.to) and (row.cleared is None or row.cleared > crop.from_)
    return stood and (row.crop, row.bed) == (crop.crop, crop.bed)


def _coldest(r: Results, airs: Airs, coldest: Line, stand: Stand, one: Happening) -> float:
    """The coldest it met; NaN where nothing was logged, inf where it did not stand then."""
    first, last = evening(stamp(r, one.start_s)), evening(stamp(r, one.end_s))
    if stand.crop.from_ > last or stand.crop.to < first:
        return float("inf")
    return lowest(air_of(r, airs, coldest, stand.crop), one.start_s, one.end_s)[0]


def _owner(r: Results, stand: Stand, depth: Sequence[float], happened: Sequence[Happening]) -> int | None:
    """The happening that its loss by cold belongs to."""
    able = [i for i, one in enumerate(happened) if not np.isinf(depth[i]) and _lost(r, stand, one)]
    return min(able, key=lambda i: (np.nan_to_num(depth[i], nan=99.0), i), default=None)


def _lost(r: Results, stand: Stand, one: Happening) -> float | None:
    if stand.number is None:
        return None
    days = stamp(r, one.start_s).date(), stamp(r, one.end_s).date()
    return lost_by_cold(r.readings.plantings[stand.number], *days)


def _crop(r: Results, stand: Stand, coldest_c: float, one: Happening, *, owned: bool) -> CropMet:
    lost = _lost(r, stand, one)
    lost = 0.0 if lost and not owned else lost
    cause = r.readings.plantings[stand.number].cause if lost and stand.number is not None else None
    value = None if np.isnan(coldest_c) else coldest_c
    return CropMet(crop=stand.crop.crop, bed=stand.crop.bed, coldest_c=value, lost=lost, cause=cause)


def stamp(r: Results, second: float) -> pd.Timestamp:
    """An instant [s since 1970] in the season's zone, to the second."""
    return pd.Timestamp(round(second), unit="s", tz="UTC").tz_convert(r.season.zone)
