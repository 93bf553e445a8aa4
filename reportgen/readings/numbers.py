"""Cells of a column → numbers, whatever the decimal mark, thousands marks, or a unit written behind."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

_CELL = re.compile(r"(?P<number>[+-]?[\d.,'\u2019\u00a0\u202f ]*\d(?:[eE][+-]?\d{1,3})?)\s*(?P<unit>[^\d\s].{0,11})?")
# What programs write where there is no reading; from memory.
_ABSENT = (
    *("n/a", "na", "#n/a", "#na", "nan", "null", "none", "nil", "no data", "nodata"),
    *("-", "--", "---", "----", "-.-", "--.-", ".", "..", "...", "*", "**", "?", "??"),
)
_SWITCH = {"on": 1.0, "true": 1.0, "yes": 1.0, "off": 0.0, "false": 0.0, "no": 0.0}
_NEGATIVE = re.compile(r"\((\d[\d.,]*)\)|(\d[\d.,]*)-")
STRAY_UNITS = {
    "°c": "degC", "c": "degC", "degc": "degC", "℃": "degC", "°f": "degF", "f": "degF", "degf": "degF", "℉": "degF",
    "k": "K", "%": "%", "%rh": "%", "w": "W", "kw": "kW", "kwh": "kWh", "wh": "Wh", "mj": "MJ", "m/s": "m/s",
    "km/h": "km/h", "mph": "mph", "w/m²": "W/m²", "w/m2": "W/m²",
}  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Numbers:
    """`values`: NaN where there is none. `blank`: empty cells. `absent`: cells that say in a word that there is no
    reading. `units`: unit written in the cells → which cells."""

    values: Floats
    blank: Bools
    absent: Bools
    units: dict[str, Bools] = field(default_factory=dict)


def to_numbers(cells: pd.Series, decimal: str, switch: bool = False) -> Numbers:
    """The numbers of a column; `switch` reads on/off words as 1 and 0."""
    if pd.api.types.is_bool_dtype(cells.dtype):
        none = np.zeros(len(cells), dtype=bool)
        return Numbers(values=cells.to_numpy(dtype=np.float64), blank=none, absent=none)
    if pd.api.types.is_numeric_dtype(cells.dtype):
        values = cells.to_numpy(dtype=np.float64)
        return Numbers(values=values, blank=np.isnan(values), absent=np.zeros(len(cells), dtype=bool))
    texts = cells.fillna("").astype(str).str.strip()
    blank = (texts == "").to_numpy(dtype=bool)
    plain = texts.str.replace(",", ".", regex=False) if decimal == "," else texts
    values = np.array(pd.to_numeric(plain, errors="coerce"), dtype=np.float64)
    if decimal == ",":
        values[texts.str.contains(".", regex=False).to_numpy(dtype=bool)] = np.nan  # 1.234 is no 1,234: each by itself
    odd = np.flatnonzero(np.isnan(values) & ~blank)
    units: dict[str, Bools] = {}
    if len(odd):
        codes, kinds = pd.factorize(texts.iloc[odd])
        told = [_one(str(kind), decimal, switch) for kind in kinds]
        values[odd] = np.asarray([value for value, _ in told])[codes]
        for unit in {unit for _, unit in told if unit is not None}:
            units[unit] = np.zeros(len(cells), dtype=bool)
            units[unit][odd] = np.asarray([own == unit for _, own in told])[codes]
    values[np.isinf(values)] = np.nan
    absent = np.isnan(values) & texts.str.casefold().isin(_ABSENT).to_numpy(dtype=bool)
    return Numbers(values=values, blank=blank, absent=absent, units=units)


def _one(text: str, decimal: str, switch: bool) -> tuple[float, str | None]:
    """One odd cell: a switch word, a number with thousands marks, a number with its unit; NaN for anything else."""
    if switch and text.casefold() in _SWITCH:
        return _SWITCH[text.casefold()], None
    bare = text.replace("\u2212", "-").strip()
    behind = _NEGATIVE.fullmatch(bare)  # as book-keeping programs write what is below zero
    found = _CELL.fullmatch(f"-{behind[1] or behind[2]}" if behind is not None else bare)
    if found is None:
        return float("nan"), None
    unit = (found["unit"] or "").strip().casefold().replace("º", "°")
    if unit and unit not in STRAY_UNITS:
        return float("nan"), None
    return plain_number(found["number"], decimal), STRAY_UNITS.get(unit)


def plain_number(text: str, decimal: str) -> float:
    """A number with or without thousands marks; NaN when the marks fit no number."""
    text = re.sub("['\u2019\u00a0\u202f ]", "", text)
    thousands = "." if decimal == "," else ","
    if thousands in text:
        head, _, tail = text.partition(decimal)
        groups = head.lstrip("+-").split(thousands)
        grouped = all(len(group) == 3 for group in groups[1:]) and 1 <= len(groups[0]) <= 3
        if grouped and thousands not in tail and (decimal in text or len(groups) > 2):
            text = text.replace(thousands, "")
        elif not grouped and len(groups) == 2 and decimal not in text:
            text = text.replace(thousands, decimal)  # the other mark, used as the decimal mark in this one cell
        else:
            return float("nan")
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return float("nan")
