"""A column that does not hold one thing all along: another header further down, sensors that take turns, °F after °C.

Nothing can be reckoned from such a file as it stands: it is asked for anew. Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from reportgen.problems import Problem
from reportgen.readings.columns import header_unit, unit_of
from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import FileRows, Opened
from reportgen.readings.header_words import measure_of, names_time
from reportgen.readings.layout import bare, place_of
from reportgen.readings.marks import USED
from reportgen.readings.merge import Merged
from reportgen.readings.numbers import Floats
from reportgen.readings.stamps import DAY_MS, HOUR_MS
from reportgen.season import Logger
from reportgen.season.sources import shown
from reportgen.units import FAHRENHEIT_K, MEASURES, is_temperature, of_kind

ENOUGH = 100  # readings from which a run is judged
MOST_SENSORS = 8  # that take turns in one column
APART: Mapping[str, float] = (  # what two places differ by at least before it is said, in the kept unit
    dict.fromkeys(of_kind("air", "soil", "duct"), 1.5) | dict.fromkeys(of_kind("humidity"), 5.0)
)
TIMES_AS_FAR = 4.0  # the next reading lies this many times further off than the one a round later
LONGEST_ROUND_MS = 3 * HOUR_MS  # of all sensors; what comes back more slowly may be morning and afternoon
LEAP, WARM = (
    15.0,
    28.0,
)  # °F numbers lie so far above those of °C (above −20 °C), and this high where the °C are no frost
STEP, DAYS_APART, AFTER_GAP = (
    6.0,
    14.0,
    20.0,
)  # °F: how far the air may move from a reading to the next, by days, in a gap


def tell_other_header(opened: Opened, logger: Logger, faults: Faults) -> None:
    """A header further down whose columns stand elsewhere, or in another unit, than the first header says."""
    table = opened.table
    wordy = [row for row in np.flatnonzero(~opened.stamps.readable).tolist() if names_time(opened.texts[row])]
    declared = [column.column for column in logger.measures.values()]
    for row in wordy:
        for column in declared:
            place = column - 1 if isinstance(column, int) else place_of(column, table.header)
            first, cell = table.header[place or 0], table.columns[column].iloc[row]
            if isinstance(cell, str) and _another(cell.strip(), first, table.header):
                faults.tell(
                    "header-changes",
                    f"another header, in which {cell.strip()!r} stands where {first!r} stands in line "
                    f"{table.header_line}",
                    "one header for the whole file",
                    "part the file above this line into two files; where columns or units differ, give the second a "
                    "[[logger]] table of its own",
                    line=int(table.lines[row]),
                    column=shown(column),
                )
                return


def _another(cell: str, first: str, header: Sequence[str]) -> bool:
    """Whether a name means another column, measure or unit than the first."""
    if bare(cell) == bare(first) or not any(map(str.isalpha, cell)):
        return False
    units = header_unit(cell), header_unit(first)
    measures = measure_of(cell), measure_of(first)
    moved = place_of(cell, header) is not None
    return (
        moved or (None not in units and units[0] != units[1]) or (None not in measures and measures[0] != measures[1])
    )


def tell_turns(rows: FileRows, logger: Logger, faults: Faults) -> None:
    """Sensors whose readings stand in one column by turns: the next reading is far off, that of a round later near."""
    for measure, least in APART.items():
        if measure not in rows.values:
            continue
        used = _first_told(rows, measure)
        count = _turns(rows.utc[used], rows.values[measure][used], least) if len(used) >= ENOUGH else 0
        if count:
            unit = unit_of(measure, logger.measures[measure])
            one, two = (_as_written(value, measure, unit) for value in rows.values[measure][used[:2]].tolist())
            faults.tell(
                "sensors-in-turn",
                f"readings of {count} sensors by turns: {one}, then {two} in line {int(rows.lines[used[1]])}, and so "
                "on to the end",
                "the readings of one sensor in a column",
                "sort the rows by the column that names the sensor, save those of each as a file, and give each a "
                "[[logger]]",
                line=int(rows.lines[used[0]]),
                column=shown(logger.measures[measure].column),
            )
            return


def _first_told(rows: FileRows, measure: str) -> Ints:
    """The rows with a value, in the order of the file, without those whose time an earlier row bears (told there)."""
    used = np.flatnonzero(rows.codes[measure] == USED)
    return used[np.sort(np.unique(rows.utc[used], return_index=True)[1])]


def _as_written(value: float, measure: str, unit: str) -> str:
    kept = MEASURES[measure].kept
    return f"{_fahrenheit(value):.1f} °F" if unit == "degF" else f"{value:.1f} {kept.replace('deg', '°')}"


def _turns(utc: Ints, values: Floats, least: float) -> int:
    """How many sensors take turns; 0 where it is one, or where a round takes so long that the day itself turns."""
    off = [float(np.median(np.abs(values[k:] - values[:-k]))) for k in range(1, MOST_SENSORS + 1)]
    if off[0] < least:
        return 0
    near = [k + 1 for k in range(1, MOST_SENSORS) if off[0] > TIMES_AS_FAR * off[k]]
    if not near or float(np.median(utc[near[0] :] - utc[: -near[0]])) > LONGEST_ROUND_MS:
        return 0
    return near[0]


def unit_changes(logger: Logger, measure: str, merged: Merged, files: Sequence[str]) -> list[Problem]:
    """Where a temperature goes over from °C to °F or back: from one reading to the next the numbers move to 1.8 times
    as much and 32, and stay there."""
    if not is_temperature(measure):
        return []
    rows = merged.order[merged.codes[measure][merged.order] == USED]
    column = logger.measures[measure]
    unit = unit_of(measure, column)
    if unit not in ("degC", "degF") or len(rows) < ENOUGH:
        return []
    values = merged.values[measure][rows]
    written = values if unit == "degC" else values / FAHRENHEIT_K + 32.0
    found = _changes(merged.utc[rows], written)
    if found is None:
        return []
    row, before = int(rows[found]), written[found - 1]
    there = "°F" if written[found] > before else "°C"
    return [
        Problem(
            slug="unit-changes",
            file=files[int(np.searchsorted(merged.starts, row, side="right")) - 1],
            line=int(merged.lines[row]),
            column=shown(column.column),
            found=f"from {before:.1f} to {written[found]:.1f} at once and on from there, as °C and °F differ: from "
            f"this line on it seems to be {there}",
            expected="one unit for all readings of a logger",
            todo=f"export the readings in one unit; or part the file here and give the part in {there} a [[logger]] "
            f'table of its own with unit = "{there.replace("°", "deg")}"',
        )
    ]


def _changes(utc: Ints, written: Floats) -> int | None:
    """The first reading after such a change."""
    for place in np.flatnonzero(np.abs(np.diff(written)) >= LEAP) + 1:
        gap = int(utc[place] - utc[place - 1])
        near = _near(utc, int(place))
        if gap > DAY_MS or near is None:
            continue
        before, after = (written[part] for part in near)
        low, high = (before, after) if written[place] > written[place - 1] else (after, before)
        room = STEP if gap <= 3 * HOUR_MS else AFTER_GAP
        as_told = abs(_fahrenheit(min(written[place - 1 : place + 1])) - max(written[place - 1 : place + 1])) <= room
        stays = float(np.quantile(high, 0.1)) > float(np.quantile(low, 0.9))
        middle = float(np.median(high))
        alike = abs(_fahrenheit(float(np.median(low))) - middle) <= DAYS_APART
        if as_told and stays and alike and middle >= WARM:
            return int(place)
    return None


def _near(utc: Ints, place: int) -> tuple[NDArray[np.int64], NDArray[np.int64]] | None:
    """The readings of the day before and of the day after; None where there are few."""
    before = np.flatnonzero(utc[:place] >= utc[place - 1] - DAY_MS)
    after = place + np.flatnonzero(utc[place:] <= utc[place] + DAY_MS)
    return (before, after) if min(len(before), len(after)) >= 8 else None


def _fahrenheit(celsius: float) -> float:
    return celsius / FAHRENHEIT_K + 32.0
