"""A column that counts the rows of a logger file, which no spreadsheet's way with dates can disturb."""

from __future__ import annotations

import numpy as np

from reportgen.readings.digits import Ints
from reportgen.readings.file_rows import Opened
from reportgen.readings.numbers import to_numbers
from reportgen.readings.table import read_table
from reportgen.readings.table_hints import hints_of
from reportgen.season import Logger

MOSTLY = 0.95  # of the steps of such a column are one; it may begin again or lack rows; common practice, no source


def row_counter(opened: Opened, logger: Logger) -> Ints | None:
    """The numbers of the first undeclared column that counts the rows up or down by one; None without any."""
    declared = {*logger.time_columns, *(column.column for column in logger.measures.values())}
    others = [name for name in dict.fromkeys(opened.table.header) if name and name not in declared]
    table = read_table(opened.found.path, logger.time_columns, others, hints_of(logger)) if others else None
    if table is None or len(table.lines) != len(opened.table.lines):
        return None
    for name in others:
        if name not in table.columns:
            continue
        values = to_numbers(table.columns[name], table.decimal, switch=False).values
        if len(values) > 2 and bool(np.isfinite(values).all()) and bool((values == np.round(values)).all()):
            steps = np.diff(values)
            if max(float(np.mean(steps == 1)), float(np.mean(steps == -1))) >= MOSTLY:
                return values.astype(np.int64)
    return None
