"""This winter beside last: raw and at equal weather, over the calendar days that both have."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, Literal

import pandas as pd

from reportgen.effects.outcomes import DayTable, day_table
from reportgen.measures.days import LONG_NIGHT, enough, window_stats
from reportgen.measures.exposure import channel_line
from reportgen.measures.places import coldest_crop_air, outdoor
from reportgen.readings.types import Readings
from reportgen.winters.books import (
    diary_differences,
    logger_warnings,
    same_crop_loggers,
    with_air_of,
)
from reportgen.winters.common import moved, restrict, shared_days, years_between
from reportgen.winters.equal import Difference, differences
from reportgen.winters.grown import Alike, grown_alike
from reportgen.winters.headlines import (
    HEADLINES,
    Headline,
    Sections,
    band_at,
    reason_at,
    sections,
    value_at,
    why_no_band,
)
from reportgen.winters.lost import lost_shares
from reportgen.winters.types import EqualWeather, Row, Winters

__all__ = ["EqualWeather", "Row", "Winters", "winters"]

Told = tuple[Row, dict[str, str]]  # a row and why its nulls are null: key within the row → words

# Outcomes of a garden day that can be had at equal weather: name → (words, unit suffix, better, headline).
NIGHTLY: dict[str, tuple[str, str, Literal["more", "less"], bool]] = {
    "lift": ("how much warmer than outdoors the nights were", "", "more", True),
    "night_minimum": ("how far the coldest of the night stayed above outdoors", "", "more", False),
    "heat": ("heat used in a day", " a day", "less", True),
    "watts_per_kelvin": ("night heat for each degree", "", "less", False),
    "night_humidity": ("humidity at night", "", "less", True),
    "damp_hours": ("hours of a night above the high humidity line", " a night", "less", False),
    "soil_mean": ("soil temperature", "", "more", False),
    "soil_swing": ("daily swing of the soil", "", "less", False),
    "daily_light": ("light inside in a day", " a day", "more", False),
}
NO_EQUAL = "only what is known for every night can be set at equal weather"
PER_KG = ("harvest.kwh_per_kg", "harvest.cost_per_kg")
NO_SAME_LOGGER = "no crop logger stood in the same place in both winters"
NOT_ALIKE = "the winters did not grow the same crops from the same weeks, and one heat fed them all"
NO_EQUAL_KG = "what a plant makes of weather is not known well enough to take the weather out of a harvest"


def winters(this: Readings, last: Readings | None, known: Mapping[str, Any] | None = None) -> Winters:
    """Two winters side by side.

    Args:
        this: The season of the report.
        last: Another season, read the same way; None when none was named.
        known: Sections of this winter that are measured already, by their names.
    """
    if last is None:
        words = "no last winter was named: give its folder as [last_season] in season.toml, or with --against"
        return Winters(last=None, rows=(), reasons={"last": words, "rows": words})
    shared = shared_days(this.season, last.season)
    if shared is None:
        words = "the two winters share no calendar day"
        return Winters(last=last.season.title, rows=(), reasons={"rows": words})
    years = years_between(this.season, last.season)
    mine = restrict(this, *shared)
    theirs = restrict(last, moved(shared[0], -years), moved(shared[1], -years))
    tables = (day_table(mine), day_table(theirs))
    told = [*_nightly_rows(*tables, years), *_raw_rows(mine, theirs, years, known or {} if mine is this else {})]
    only_this, only_last = diary_differences(this, last)
    return Winters(
        last=last.season.title,
        rows=tuple(row for row, _ in told),
        reasons={f"rows.{n}.{key}": why for n, (_, reasons) in enumerate(told) for key, why in reasons.items()},
        first_day=shared[0],
        last_day=shared[1],
        only_this=only_this,
        only_last=only_last,
        warnings=logger_warnings(this, last),
        lost_last=lost_shares(last),
        nights=_nights(mine, theirs, years),
    )


def _nightly_rows(this: DayTable, last: DayTable, years: int) -> list[Told]:
    """Rows of what is known for every night: the weather's own first, then each outcome with its estimate."""
    found = differences(this, last, tuple(NIGHTLY), years)
    rows = [_weather_row(this, last)]
    for key in NIGHTLY:
        if _mean(this, key) is not None or _mean(last, key) is not None:
            rows.append(_nightly_row(this, last, key, found[key]))
    return rows


def _nightly_row(this: DayTable, last: DayTable, key: str, found: Difference | str) -> Told:
    what, suffix, better, headline = NIGHTLY[key]
    refused = isinstance(found, str)
    row = Row(
        what=what,
        unit="°C" if key == "soil_mean" else this.units[key] + suffix,
        last=_mean(last, key) if isinstance(found, str) else found.mean_last,
        this=_mean(this, key) if isinstance(found, str) else found.mean_this,
        at_equal_weather=None if isinstance(found, str) else _plain(found),
        key=key,
        headline=headline,
        better=better,
    )
    reasons = {"at_equal_weather": str(found)} if refused else {}
    return row, reasons | _missing(row, this.missing.get(key, ""), last.missing.get(key, ""))


def _missing(row: Row, this: str, last: str) -> dict[str, str]:
    found = {"this": (row.this, this), "last": (row.last, last)}
    return {side: why or "not known" for side, (value, why) in found.items() if value is None}


def _weather_row(this: DayTable, last: DayTable) -> Told:
    means = [float(t.weather["ton"].mean()) if "ton" in t.weather else math.nan for t in (last, this)]
    known = [None if math.isnan(value) else value for value in means]
    words = "outdoor temperature at night"
    row = Row(what=words, unit="°C", last=known[0], this=known[1], at_equal_weather=None, key="weather", headline=True)
    return row, {"at_equal_weather": "this is the weather itself"} | _missing(
        row, this.missing.get("weather", ""), last.missing.get("weather", "")
    )


def _mean(table: DayTable, outcome: str) -> float | None:
    if outcome not in table.outcomes or not table.outcomes[outcome].notna().any():
        return None
    return float(table.outcomes[outcome].mean())


def _plain(found: Difference) -> EqualWeather:
    return EqualWeather(
        effect=found.estimate.effect,
        low=found.estimate.low,
        high=found.estimate.high,
        days_last=found.days_last,
        days_this=found.days_this,
        columns=found.columns,
        smallest_visible=found.estimate.smallest_visible,
        apart_k=found.apart_k,
    )


def _raw_rows(this: Readings, last: Readings, years: int, known: Mapping[str, Any]) -> list[Told]:
    """Headlines that have no equal weather; rows that neither winter knows are left out."""
    names = same_crop_loggers(this, last)
    alone, beside = (with_air_of(book, names) if names else book for book in (this, last))
    mine, theirs = sections(alone, known if alone is this else {}), sections(beside, {})
    currency = this.season.currency if this.season.currency == last.season.currency else None
    alike = grown_alike(this, last, years)
    rows = []
    for headline in HEADLINES:
        if "money" in headline.unit and currency is None:
            continue
        if value_at(theirs, headline.path) is None and value_at(mine, headline.path) is None:
            continue
        told = _raw_row(headline, mine, theirs, currency or "")
        rows.append(_of_both(headline, told, alike, _margin_words(this, names)))
    return rows


def _raw_row(headline: Headline, mine: Sections, theirs: Sections, currency: str) -> Told:
    row = Row(
        what=headline.what,
        unit=headline.unit.replace("money", currency),
        last=value_at(theirs, headline.path),
        this=value_at(mine, headline.path),
        at_equal_weather=None,
        key=headline.key,
        headline=headline.headline,
        better=headline.better,
        last_band=band_at(theirs, headline),
        this_band=band_at(mine, headline),
    )
    reasons = {"at_equal_weather": NO_EQUAL_KG if headline.path.startswith("harvest") else NO_EQUAL}
    if row.difference_band is None:
        reasons["band"] = why_no_band(mine if row.this_band is None else theirs, headline)
    return row, reasons | _missing(row, reason_at(mine, headline.path), reason_at(theirs, headline.path))


def _of_both(headline: Headline, told: Told, alike: Alike, margin: str | None) -> Told:
    """The row with only what may be compared: the picking of crops that both winters sowed alike, heat by the kilogram
    where that is all they picked, the crop air of the loggers that both had."""
    row, reasons = told
    if headline.key == "kg" and (row.this is not None and row.last is not None):
        row = replace(row, this=alike.this, last=alike.last)
        return _without(row, reasons, alike.reason) if alike.reason else (row, reasons)
    if headline.path in PER_KG and row.difference is not None and not alike.whole:
        return _without(row, reasons, alike.reason or NOT_ALIKE)
    if headline.margin and margin is None:
        return _without(row, reasons, NO_SAME_LOGGER)
    return (replace(row, what=row.what + margin), reasons) if headline.margin and margin else (row, reasons)


def _without(row: Row, reasons: dict[str, str], why: str) -> Told:
    """The row without its figures, and why."""
    bare = replace(row, this=None, last=None, this_band=None, last_band=None)
    return bare, reasons | dict.fromkeys(("this", "last", "band"), why)


def _margin_words(this: Readings, names: Sequence[str]) -> str | None:
    """What to add to a row of the crop air: which loggers speak where not all do; None where no logger may."""
    crop = [logger.name for logger in this.season.loggers if logger.where == "crop"]
    if not names:
        return None if crop else ""
    return "" if set(names) == set(crop) else f", {' and '.join(names)} alone"


def _nights(this: Readings, last: Readings, years: int) -> pd.DataFrame:
    """Night minima inside and outside of both winters on this winter's dates [°C]; NaN where not logged."""
    columns = {}
    for name, readings, move in (("this", this, 0), ("last", last, years)):
        outside = outdoor(readings, "air_temperature")
        for place, curve in (
            ("inside", coldest_crop_air(readings)),
            ("outside", channel_line(outside) if outside is not None and len(outside.values) > 1 else None),
        ):
            if curve is None or len(curve.values) < 2:
                continue
            series = enough(window_stats(curve, readings.season, LONG_NIGHT), "min")
            series.index = pd.Index([moved(day, move) if move else day for day in series.index], name="date")
            columns[f"{place}_{name}"] = series[~series.index.duplicated()]
    table = pd.DataFrame(columns)
    wanted = ["inside_this", "inside_last", "outside_this", "outside_last"]
    return table.reindex(columns=wanted).sort_index()
