"""Both winters as tables, in the units shown: the rows that matter, then all others, with what their dashes mean."""

from __future__ import annotations

import math

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.review import Review
from reportgen.units import FAHRENHEIT_K, POUND_KG
from reportgen.winters import Row as Compared
from reportgen.winters.apart import APART
from reportgen.winters.types import Ends
from reportgen.wording import NBSP, Wording, between, digits_for, listed, number

COLUMNS = ("what", "last winter", "this winter", "difference", "at equal weather")
COUNTED = {"nights", "weeks", "spells", "h", "kWh"}  # told without decimals


def shown_value(row: Compared, value: float | None, wording: Wording, difference: bool = False) -> tuple[float, str]:
    """A row's value in shown units (number, words); NaN and a dash where unknown."""
    if value is None or not math.isfinite(value):
        return float("nan"), "—"
    if row.unit == "°C" and not difference:
        return wording.temp_value(value), wording.temp(value)
    if row.unit in ("°C", "K"):
        return wording.diff_value(value), wording.diff(value)
    if row.unit == "kg":
        return wording.mass_value(value), wording.mass(value)
    if row.unit == "share":
        return 100 * value, f"{number(100 * value)}{NBSP}{'points' if difference else '%'}"
    if row.unit == "%":
        return value, f"{number(value, 1)}{NBSP}{'points' if difference else '%'}"
    if row.unit == wording.currency:
        return value, wording.money(value)
    shown = value * _factor(row.unit, wording)
    if row.unit == f"{wording.currency}/kg":
        return shown, wording.money(shown)
    digits = 0 if row.unit in COUNTED else digits_for(abs(shown) / 50) if shown else 0
    return shown, f"{number(shown, digits)}{NBSP}{_unit(row, shown, wording)}"


def _factor(unit: str, wording: Wording) -> float:
    """From a figure for each kilogram or kelvin to one for each pound or degree Fahrenheit, where those are shown."""
    if not wording.us:
        return 1.0
    return POUND_KG if unit.endswith("/kg") else FAHRENHEIT_K if unit.endswith("/K") else 1.0


def shown_unit(unit: str, wording: Wording) -> str:
    """The unit in which a row is shown: EUR/kg or EUR/lb, W/K or W/°F."""
    whole = {"°C": wording.temp_unit, "K": wording.diff_unit, "kg": wording.mass_unit, "share": "%"}
    if unit in whole:
        return whole[unit]
    if unit.endswith("/kg"):
        return f"{unit.removesuffix('kg')}{wording.mass_unit}"
    return f"{unit.removesuffix('K')}{wording.diff_unit}" if unit.endswith("/K") else unit


def _unit(row: Compared, value: float, wording: Wording) -> str:
    """The unit of a row, one of a thing in the singular."""
    unit = shown_unit(row.unit, wording)
    return unit[:-1] if unit in ("nights", "weeks", "spells") and round(abs(value)) == 1 else unit


def what(row: Compared, wording: Wording) -> str:
    """The name of a row, for each pound where pounds are shown."""
    return row.what.replace("each kilogram", "each pound") if wording.us else row.what


def data(review: Review) -> pd.DataFrame:
    """The whole table, in shown units; `key` names the row."""
    wording = Wording.of(review.season)
    rows = []
    for row in review.winters.rows:
        equal = row.at_equal_weather
        bounds = (equal.effect, equal.low, equal.high) if equal is not None else (None, None, None)
        least, most = row.difference_band or (None, None)
        rows.append(
            (
                row.key,
                what(row, wording),
                shown_unit(row.unit, wording),
                shown_value(row, row.last, wording)[0],
                shown_value(row, row.this, wording)[0],
                shown_value(row, row.difference, wording, difference=True)[0],
                *(shown_value(row, bound, wording, difference=True)[0] for bound in (*bounds, least, most)),
            )
        )
    names = ["key", "what", "unit", "last winter", "this winter", "difference", "equal weather", "low", "high"]
    names += ["difference at least", "difference at most"]
    return pd.DataFrame(rows, columns=names)


def rows_tables(review: Review, facts: Facts) -> list[Table]:
    """The headlines that matter, then all others; the first one's file holds every row."""
    rows, whole = review.winters.rows, data(review)
    told = {True: [row for row in rows if row.headline], False: [row for row in rows if not row.headline]}
    first = Table(
        uid="winters_rows",
        title="Both winters side by side",
        subtitle="Over the calendar days both have; the last column is this winter less last at equal weather, 95 % "
        "interval",
        columns=COLUMNS,
        rows=tuple(_cells(row, facts.w) for row in told[True]),
        data=whole,
        notes=_notes(review, told[True]),
    )
    if not told[False]:
        return [first]
    rest = Table(
        uid="winters_more",
        title="All other figures of both winters",
        subtitle="Over the same days",
        columns=COLUMNS,
        rows=tuple(_cells(row, facts.w) for row in told[False]),
        data=whole[~whole["key"].isin([row.key for row in told[True]])],
        notes=_notes(review, told[False]),
    )
    return [first, rest]


def _cells(row: Compared, wording: Wording) -> tuple[str, ...]:
    equal, cell = row.at_equal_weather, "—"
    if equal is not None:
        low, high = (shown_value(row, b, wording, difference=True)[1] for b in (equal.low, equal.high))
        cell = f"{low.partition(NBSP)[0]} to {high}"
    sides = (_banded(row, v, band, wording) for v, band in ((row.last, row.last_band), (row.this, row.this_band)))
    return what(row, wording), *sides, _banded(row, row.difference, row.difference_band, wording, difference=True), cell


def _banded(row: Compared, value: float | None, band: Ends | None, wording: Wording, difference: bool = False) -> str:
    """A figure with its band: 744 h (117 to 3 098 h)."""
    told = shown_value(row, value, wording, difference)[1]
    if value is None or band is None:
        return told
    low, high = (shown_value(row, end, wording, difference)[1] for end in band)
    if low == high == told:
        return told
    ends = between(low, high) if row.unit.startswith(wording.currency) else f"{low.partition(NBSP)[0]} to {high}"
    return f"{told} ({ends})"


def _notes(review: Review, rows: list[Compared]) -> tuple[str, ...]:
    """Why a cell is a dash, and which interval bears no verdict."""
    untried = [row.what for row in rows if row.at_equal_weather is not None and row.key not in APART]
    words = (f"No verdict: {what} was never tried on winters of known truth." for what in untried)
    dashes = (f"A dash at equal weather: {why}." for why in _whys(review, rows, "at_equal_weather"))
    banded = [row for row in rows if row.at_equal_weather is None and row.difference is not None]
    banded = [row for row in banded if row.this_band is None and row.last_band is None]
    bands = (f"No band of {what}: {why}." for what, why in _named(review, banded, "band"))
    bare = [row for row in rows if row.this is None and row.last is None]
    neither = (f"No figure of {what}: {why}." for what, why in _named(review, bare, "this"))
    return (*dashes, *neither, *_overlap(rows), *bands, *words)


def _named(review: Review, rows: list[Compared], key: str) -> list[tuple[str, str]]:
    """Each reason of these rows with the rows that it is the reason of."""
    reasons, found = review.winters.reasons, dict[str, list[str]]()
    for n, row in enumerate(review.winters.rows):
        if row in rows and (why := reasons.get(f"rows.{n}.{key}")):
            found.setdefault(why, []).append(what(row, Wording.of(review.season)))
    return [(listed(names), why) for why, names in found.items()]


def _overlap(rows: list[Compared]) -> tuple[str, ...]:
    """What to make of bands that overlap; empty where no row has such."""
    bands = [row.difference_band for row in rows if row.difference_band is not None]
    if not any(low < 0 < high for low, high in bands):
        return ()
    return (
        "In brackets what the accuracy of the sensors, or the fit, leaves: a difference whose band holds 0 is none.",
    )


def _whys(review: Review, rows: list[Compared], key: str) -> list[str]:
    """Why some of these rows have no equal weather, band or figure, each reason once."""
    places = {f"rows.{n}.{key}": row for n, row in enumerate(review.winters.rows)}
    found = {why for key, why in review.winters.reasons.items() if places.get(key) in rows}
    return sorted(found)
