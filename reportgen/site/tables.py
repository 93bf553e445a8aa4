"""A DataFrame as the text cells of a page's table, and as a CSV that a spreadsheet opens without harm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts.place import days
from reportgen.wording import clock, day, number

MOST_ROWS = 260  # on a page; a whole winter of days fits, the rest is in the CSV
NOTHING = "–"
MIDNIGHT = "00:00"


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """A heading, and whether its cells are numbers."""

    name: str
    numeric: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class TableView:
    """A table ready to print; `spots` are the rows' places on the time axis, for the day slider."""

    uid: str
    id: str
    caption: str
    summary: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    csv: str
    cut: str = ""
    spots: tuple[str, ...] = ()


def of_frame(frame: pd.DataFrame, *, uid: str, caption: str, whole: int, spots: bool = False) -> TableView:
    """The frame as text, cut after MOST_ROWS rows; `whole` is the number of rows of the CSV."""
    shown = frame.iloc[:MOST_ROWS]
    columns = tuple(Column(name=str(name), numeric=_numeric(frame[name])) for name in frame.columns)
    texts = [_texts(shown[name]) for name in frame.columns]
    rows = tuple(zip(*texts, strict=True)) if texts else ()
    cut = f"The first {number(len(shown))} of {number(len(frame))} rows. " if len(frame) > len(shown) else ""
    places = tuple(f"{float(at):.6g}" for at in days(shown.iloc[:, 0])) if spots and len(shown) else ()
    kind = "row" if len(shown) == 1 else "rows"
    part = "" if len(shown) == whole else f", in short; all {number(whole)} rows are in the file"
    return TableView(
        uid=uid,
        id=f"{uid}-t",
        caption=caption,
        summary=f"The same as a table of {number(len(shown))} {kind}{part}",
        columns=columns,
        rows=rows,
        csv=f"{uid}.csv",
        cut=cut,
        spots=places,
    )


def _numeric(column: pd.Series) -> bool:
    values = [value for value in column if not _missing(value)]
    return bool(values) and all(
        isinstance(value, int | float | np.number) and not isinstance(value, bool | np.bool_) for value in values
    )


def _missing(value: Any) -> bool:
    return value is None or value is pd.NaT or (isinstance(value, float | np.floating) and not math.isfinite(value))


def _texts(column: pd.Series) -> list[str]:
    digits = _digits(column) if _numeric(column) else 0
    return [_words(value, digits) for value in column]


def _digits(column: pd.Series) -> int:
    """Decimals of a column: none for whole numbers, else three figures of its typical size, at most three.

    One beside a number of ten and more; never more than the numbers themselves have.
    """
    values = np.asarray([float(value) for value in column if not _missing(value)])
    if np.all(values == np.round(values)):
        return 0
    typical = float(np.median(np.abs(values[values != 0])))
    if typical >= 2 or float(np.abs(values).max()) >= 10:
        return 1
    carried = next((n for n in (1, 2) if np.allclose(values, np.round(values, n), rtol=0.0, atol=1e-9)), 3)
    return min(carried, 2 if typical >= 0.2 else 3)


def _words(value: Any, digits: int) -> str:
    if _missing(value):
        return NOTHING
    if isinstance(value, bool | np.bool_):
        return "yes" if value else "no"
    if isinstance(value, int | float | np.number):
        return number(float(value), digits)
    if isinstance(value, datetime):
        stamp = pd.Timestamp(value)
        at = clock(stamp)
        return day(stamp, year=True) + ("" if at == MIDNIGHT else f", {at}")
    if isinstance(value, date):
        return day(value, year=True)
    return str(value)


def csv_text(frame: pd.DataFrame) -> str:
    """The frame as CSV (RFC 4180, UTF-8): ISO dates, full numbers, no cell a spreadsheet would take for a formula."""
    safe = frame.copy()
    for name in safe.columns:
        if not pd.api.types.is_numeric_dtype(safe[name]) and not pd.api.types.is_datetime64_any_dtype(safe[name]):
            safe[name] = safe[name].map(_harmless)
    safe.columns = pd.Index([_harmless(str(name)) for name in safe.columns])
    return safe.to_csv(index=False, lineterminator="\r\n")


def _harmless(value: Any) -> Any:
    """Words that begin like a formula get an apostrophe in front, as spreadsheets themselves do."""
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, str) and value[:1] in ("=", "+", "-", "@", "\t", "\r") and not _number(value):
        return f"'{value}"
    return value


def _number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
