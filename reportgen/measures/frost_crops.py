"""How close each crop came to the cold that harms it, only while it stood.

Bands of damage are rough: hardiness moves by 3 to 5 K within days of warmth or cold (spinach gains about 3 K in one
day at 5/2 °C: Fennell and Li 1985, J. Am. Soc. Hort. Sci.). The grower's own figure in season.toml comes first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType

import numpy as np
import pandas as pd

from reportgen.measures.days import LONG_NIGHT, window_stats
from reportgen.measures.exposure import Line, clip
from reportgen.measures.frost_limit import evening
from reportgen.measures.frost_types import CropMargin
from reportgen.readings.types import Channel, Planting, Readings
from reportgen.season import Season

TABLE = "table 2 of the open review PMC10202904 (frost resistance of temperate crops)"
MEMORY = "from memory: lists of growers and garden advisers"
OWN = "your own figure in season.toml"
_ROWS = (
    (0.0, 5.0, TABLE, "tomato, cucumber"),
    (-2.0, 0.0, TABLE, "potato, french bean, maize, melon"),
    (-4.0, -2.0, TABLE, "lettuce, spring lettuce, pea, peas, spring pea"),
    (-7.0, -4.0, TABLE, "winter lettuce, kale, carrot, carrots, onion, onions, cabbage, parsnip, parsnips"),
    (-16.0, -12.0, "Tamura 2002 (hardened spinach, 15 % leakage)", "spinach"),
    (-18.0, -12.0, MEMORY, "leek, leeks"),
    (-20.0, -14.0, MEMORY, "corn salad, mache, lamb's lettuce"),
    (-10.0, -5.0, MEMORY, "chard, swiss chard, silverbeet, silver beet"),
    (-5.0, -1.0, MEMORY, "beet, beetroot, beet tops"),
)
# name → colder end, warmer end [°C], source. Plain lettuce counts as spring lettuce: a mild house hardens nothing.
BANDS: Mapping[str, tuple[float, float, str]] = MappingProxyType(
    {name: (low, high, source) for low, high, source, names in _ROWS for name in names.split(", ")}
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Standing:
    """One crop in one bed from its first to its last night (evenings)."""

    crop: str
    bed: str | None
    first: date
    last: date
    lost: float | None
    assumed: bool


def band_of(readings: Readings, crop: str) -> tuple[float, float, str] | None:
    """Damage begins between these two [°C], and whose word it is: the grower's own band, else the tabled one, else
    None.
    """
    for declared in readings.season.crops:
        if declared.name.casefold() == crop.casefold() and declared.damage_below_c is not None:
            return (*declared.damage_below_c, OWN)
    return BANDS.get(crop.casefold())


def standing(readings: Readings) -> list[Standing]:
    """What stood when: by plantings.csv, else every crop named or picked, as if it stood all winter."""
    season = readings.season
    if readings.plantings:
        rows = [_stood(p, season.first_day, season.last_day) for p in readings.plantings]
        return [row for row in rows if row.first <= row.last]
    names = list(dict.fromkeys([c.name for c in season.crops] + [p.crop for p in readings.harvest]))
    return [
        Standing(crop=n, bed=None, first=season.first_day, last=season.last_day, lost=None, assumed=True) for n in names
    ]


def _stood(p: Planting, first_day: date, last_day: date) -> Standing:
    begun, cleared = p.planted or p.sown, p.cleared
    last = cleared - timedelta(days=1) if cleared is not None else last_day
    return Standing(
        crop=p.crop,
        bed=p.bed,
        first=max(begun or first_day, first_day),
        last=min(last, last_day),
        lost=p.lost,
        assumed=begun is None,
    )


def air_while(curve: Line, season: Season, first: date, last: date) -> Line:
    """The part of a crop's air [°C] from its first to its last night (evenings): from noon to noon, as neither the hour
    of planting nor that of clearing is booked; one that stood when the season began, from its beginning."""
    start = season.start if first <= season.first_day else _noon(season, first)
    return clip(curve, start, _noon(season, last + timedelta(days=1)))


def _noon(season: Season, day: date) -> pd.Timestamp:
    return season.midnight(day) + pd.Timedelta(hours=12)


def place_of(readings: Readings, airs: Sequence[tuple[Channel, Line]], bed: str | None) -> tuple[str, Line | None]:
    """The logger that stands for a bed and its air; "coldest place" and None where none does."""
    for channel, curve in airs:
        if bed is not None and bed in readings.season.logger(channel.logger).beds:
            return channel.logger, curve
    return "coldest place", None


def crop_margins(
    readings: Readings, airs: Sequence[tuple[Channel, Line]], coldest: Line | None, table: pd.DataFrame
) -> tuple[tuple[CropMargin, ...], pd.DataFrame]:
    """Every crop's margin, and by night the tenderest crop standing (columns tenderest, tenderest_margin_k)."""
    out = []
    nightly = pd.DataFrame({"tenderest": "", "tenderest_margin_k": np.nan}, index=table.index)
    minima: dict[str, pd.Series] = {}
    main = window_stats(airs[0][1], readings.season, LONG_NIGHT)["min"] if airs else pd.Series(np.nan, table.index)
    for row in standing(readings):
        place, own = place_of(readings, airs, row.bed)
        curve = own if own is not None else coldest
        if curve is not None and place not in minima:
            minima[place] = window_stats(curve, readings.season, LONG_NIGHT)["min"]
        lows = minima.get(place, pd.Series(np.nan, index=table.index))
        bare = table["without_heat_c"] + _usual_difference(lows, main)
        made = _margin(readings, row, place, curve, lows, bare)
        out.append(made)
        if made.damage_high_c is not None:
            _note_tenderest(nightly, row, lows - made.damage_high_c)
    return tuple(out), nightly


def _usual_difference(lows: pd.Series, main: pd.Series) -> float:
    """How much colder a place's nights usually are than the main logger's [K]; the house is told by the latter."""
    difference = (lows - main).dropna()
    return float(difference.median()) if len(difference) else 0.0


def _note_tenderest(nightly: pd.DataFrame, row: Standing, margin: pd.Series) -> None:
    days = [d for d in nightly.index if row.first <= d <= row.last]
    here = margin.reindex(days)
    closer = here.index[here.notna() & ~(nightly.loc[days, "tenderest_margin_k"] <= here)]
    nightly.loc[closer, "tenderest_margin_k"] = here.loc[closer]
    nightly.loc[closer, "tenderest"] = row.crop


def _margin(
    readings: Readings, row: Standing, place: str, curve: Line | None, lows: pd.Series, without_heat: pd.Series
) -> CropMargin:
    part = air_while(curve, readings.season, row.first, row.last) if curve is not None else None
    value = float(part.values.min()) if part is not None and len(part.values) else None
    at = part.stamp(part.seconds[int(part.values.argmin())]) if part is not None and len(part.values) else None
    known = band_of(readings, row.crop)
    low, high, source = known if known is not None else (None, None, "no band known for this crop")
    bare = without_heat.loc[[d for d in without_heat.index if row.first <= d <= row.last]]
    return CropMargin(
        crop=row.crop,
        bed=row.bed,
        from_=row.first,
        to=row.last,
        damage_low_c=low,
        damage_high_c=high,
        coldest_c=value,
        margin_k=value - high if value is not None and high is not None else None,
        assumed_standing=row.assumed,
        coldest_at=at,
        place=place,
        week_before_c=_week_before(lows, at),
        survived_c=value if row.lost == 0 else None,
        lost=row.lost,
        source=source,
        without_heat_c=float(bare.min()) if bare.notna().any() else None,
    )


def _week_before(lows: pd.Series, at: pd.Timestamp | None) -> float | None:
    """Mean night minimum of the seven nights before that night; None with fewer than four of them."""
    if at is None:
        return None
    night = evening(at)
    before = lows.reindex([night - timedelta(days=n) for n in range(1, 8)]).dropna()
    return float(before.mean()) if len(before) >= 4 else None
