"""This winter beside last: raw and at equal weather, over the calendar days that both have."""

from __future__ import annotations

import math
from typing import Literal

import pandas as pd

from reportgen.effects.outcomes import DayTable, day_table
from reportgen.measures.days import LONG_NIGHT, enough, window_stats
from reportgen.measures.exposure import line
from reportgen.measures.places import coldest_crop_air, outdoor
from reportgen.readings.types import Readings
from reportgen.winters.books import diary_differences, logger_warnings
from reportgen.winters.common import moved, restrict, shared_days, years_between
from reportgen.winters.equal import Difference, differences
from reportgen.winters.lost import lost_shares
from reportgen.winters.rows import HEADLINES, reason_at, sections, value_at
from reportgen.winters.types import EqualWeather, Row, Winters

__all__ = ["EqualWeather", "Row", "Winters", "winters"]

Told = tuple[Row, dict[str, str]]  # a row and why its nulls are null: key within the row → words

# Outcomes of a garden day that can be had at equal weather: name → (words, unit suffix, better, headline).
NIGHTLY: dict[str, tuple[str, str, Literal["more", "less"], bool]] = {
    "lift": ("how much warmer than outdoors the nights were", "", "more", True),
    "night_minimum": ("how far the coldest of the night stayed above outdoors", "", "more", False),
    "heat": ("heat used in a day", " a day", "less", True),
    "watts_per_kelvin": ("night heat for each degree of lift", "", "less", False),
    "night_humidity": ("humidity at night", "", "less", True),
    "damp_hours": ("hours of a night above the high humidity line", " a night", "less", False),
    "soil_mean": ("soil temperature", "", "more", False),
    "soil_swing": ("daily swing of the soil", "", "less", False),
    "daily_light": ("light inside in a day", " a day", "more", False),
}
NO_EQUAL = "only what is known for every night can be set at equal weather"
NO_EQUAL_KG = "what a plant makes of weather is not known well enough to take the weather out of a harvest"


def winters(this: Readings, last: Readings | None) -> Winters:
    """Two winters side by side.

    Args:
        this: The season of the report.
        last: Another season, read the same way; None when none was named.
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
    told = [*_nightly_rows(*tables, years), *_raw_rows(mine, theirs)]
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


def _raw_rows(this: Readings, last: Readings) -> list[Told]:
    """Headlines that have no equal weather; rows that neither winter knows are left out."""
    mine, theirs = sections(this), sections(last)
    currency = this.season.currency if this.season.currency == last.season.currency else None
    rows = []
    for headline in HEADLINES:
        values = value_at(theirs, headline.path), value_at(mine, headline.path)
        if values == (None, None) or ("money" in headline.unit and currency is None):
            continue
        row = Row(
            what=headline.what,
            unit=headline.unit.replace("money", currency or ""),
            last=values[0],
            this=values[1],
            at_equal_weather=None,
            key=headline.key,
            headline=headline.headline,
            better=headline.better,
        )
        why = _missing(row, reason_at(mine, headline.path), reason_at(theirs, headline.path))
        rows.append((row, {"at_equal_weather": NO_EQUAL_KG if headline.path.startswith("harvest") else NO_EQUAL} | why))
    return rows


def _nights(this: Readings, last: Readings, years: int) -> pd.DataFrame:
    """Night minima inside and outside of both winters on this winter's dates [°C]; NaN where not logged."""
    columns = {}
    for name, readings, move in (("this", this, 0), ("last", last, years)):
        outside = outdoor(readings, "air_temperature")
        for place, curve in (
            ("inside", coldest_crop_air(readings)),
            ("outside", line(outside.values) if outside is not None and len(outside.values) > 1 else None),
        ):
            if curve is None or len(curve.values) < 2:
                continue
            series = enough(window_stats(curve, readings.season, LONG_NIGHT), "min")
            series.index = pd.Index([moved(day, move) if move else day for day in series.index], name="date")
            columns[f"{place}_{name}"] = series[~series.index.duplicated()]
    table = pd.DataFrame(columns)
    wanted = ["inside_this", "inside_last", "outside_this", "outside_last"]
    return table.reindex(columns=wanted).sort_index()
