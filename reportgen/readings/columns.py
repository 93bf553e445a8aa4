"""The declared columns of a logger file in their kept units, cell by cell coded."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.faults import Faults
from reportgen.readings.header_words import unit_in
from reportgen.readings.interpolated import interpolated
from reportgen.readings.marks import BLANK, NOT_A_READING, USED, Codes
from reportgen.readings.numbers import Floats, Numbers, to_numbers
from reportgen.readings.sentinels import sentinels
from reportgen.readings.table import Table
from reportgen.season import Logger, MeasureColumn
from reportgen.season.sources import shown
from reportgen.units import MEASURES, convert, of_kind

SWITCHES = of_kind("switch")
FEW = 24  # readings from which a level is judged
HALF = 0.5  # more than half of a column unreadable: the column is not what season.toml says; common practice


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """One declared column in its kept unit; `stray` counts cells that carry another unit of their own. `absent`: cells
    that say in a word that there is no reading."""

    values: Floats
    absent: NDArray[np.bool_]
    code: Codes
    sentinel: NDArray[np.bool_]
    zero: NDArray[np.bool_]
    interpolated: NDArray[np.bool_]
    stray: int


def read_columns(table: Table, logger: Logger, faults: Faults) -> dict[str, Column]:
    """Every declared column by its measure, with blank and unreadable cells coded."""
    found = {}
    for measure, column in logger.measures.items():
        numbers = to_numbers(table.columns[column.column], table.decimal, measure in SWITCHES)
        code = np.where(numbers.blank, np.uint8(BLANK), np.uint8(USED))
        code[np.isnan(numbers.values) & ~numbers.blank] = NOT_A_READING
        _tell_unread_values(table, column.column, numbers, faults)
        unit, stray = unit_of(measure, column), 0
        _tell_fractions(table, column.column, measure, unit, numbers.values, faults)
        values = convert(numbers.values + column.offset, unit, MEASURES[measure].kept)
        for own, rows in numbers.units.items():
            if own in MEASURES[measure].accepted and own != unit:
                values[rows] = convert(numbers.values[rows], own, MEASURES[measure].kept)
                stray += int(rows.sum())
        found[measure] = Column(
            values=values,
            absent=numbers.absent,
            code=code,
            sentinel=sentinels(numbers.values, measure, unit),
            zero=numbers.values == 0,
            interpolated=_computed(numbers.values, measure),
            stray=stray,
        )
    return found


def _computed(raw: Floats, measure: str) -> NDArray[np.bool_]:
    """Values that were computed; light, power and counters are written with any number of decimals by themselves."""
    asked = measure.endswith(("temperature", "humidity", "moisture"))
    return interpolated(raw) if asked else np.zeros(len(raw), dtype=bool)


def _tell_unread_values(table: Table, column: str | int, numbers: Numbers, faults: Faults) -> None:
    """A column of which most is no number; cells that say that there is no reading (N/A, --) are nobody's fault."""
    said = ~numbers.blank & ~numbers.absent
    wrong = said & np.isnan(numbers.values)
    filled, bad = int(said.sum()), int(wrong.sum())
    if bad > HALF * filled:
        row = int(np.flatnonzero(wrong)[0])
        faults.tell(
            "not-a-number",
            f"{table.columns[column].iloc[row]!r} ({bad} of {filled} cells)",
            "numbers",
            "name the right column in season.toml, or set `decimal` for this logger",
            line=int(table.lines[row]),
            column=shown(column),
        )


def _tell_fractions(table: Table, column: str | int, measure: str, unit: str, values: Floats, faults: Faults) -> None:
    """A humidity that never exceeds 1 % is one of 0 to 1: no air is that dry, and spreadsheets keep 80 % as 0.8."""
    known = values[~np.isnan(values)]
    if unit != "%" or len(known) < FEW or not 0 < known.max() <= 1:
        return
    share = "fraction" if "fraction" in MEASURES[measure].accepted else MEASURES[measure].kept
    faults.tell(
        "fraction-as-percent",
        f"no value above {known.max():g}, read as %",
        "percentages from 0 to 100",
        f'write unit = "{share}" beside this column in season.toml',
        line=table.header_line,
        column=shown(column),
    )


def header_unit(name: str) -> str | None:
    """The temperature unit that a column's name shows, if any."""
    return unit_in(name, "air_temperature")


def unit_of(measure: str, column: MeasureColumn) -> str:
    """The unit of a column: as declared, else as its header shows, else the unit in which the measure is kept."""
    if column.unit is not None:
        return column.unit
    named = header_unit(column.column) if isinstance(column.column, str) else None
    return named if named in MEASURES[measure].accepted else MEASURES[measure].kept
