"""Tables on the page and as files."""

from __future__ import annotations

import csv
import datetime as dt
import io

import numpy as np
import pandas as pd
import pytest

from reportgen.site.tables import MOST_ROWS, csv_text, of_frame


def test_cells_are_words_with_real_minus_and_dashes_for_nothing() -> None:
    """Numbers share their decimals, dates are written out, missing is a dash, and numbers are told by their column."""
    frame = pd.DataFrame({"date": [dt.date(2026, 1, 14), dt.date(2026, 1, 15)], "°C": [-1.25, np.nan], "n": [3, 12]})
    view = of_frame(frame, uid="a", caption="c", whole=2)
    assert view.rows == (("14\u00a0January\u00a02026", "−1.25", "3"), ("15\u00a0January\u00a02026", "–", "12"))
    assert [column.numeric for column in view.columns] == [False, True, True]


def test_a_long_table_is_cut_and_says_so() -> None:
    """The page shows the first rows and names how many there are."""
    view = of_frame(pd.DataFrame({"n": range(1000)}), uid="a", caption="c", whole=1000)
    assert len(view.rows) == MOST_ROWS
    assert "1\u202f000" in view.cut


@pytest.mark.parametrize("cell", ["=1+1", "+SUM(A1)", "-cmd", "@x", "\tx", "=HYPERLINK(1)"])
def test_a_spreadsheet_takes_no_cell_for_a_formula(cell: str) -> None:
    """Words of the diary that begin like a formula stay words; a heading too."""
    rows = list(csv.reader(io.StringIO(csv_text(pd.DataFrame({cell: [cell]})))))
    assert rows == [[f"'{cell}"], [f"'{cell}"]]


def test_numbers_and_dates_stay_what_they_are() -> None:
    """A negative number, also one that is text, gets no apostrophe; dates are ISO 8601; floats come back exactly."""
    frame = pd.DataFrame({"a": [-1.1], "b": ["-3.5"], "c": [dt.date(2026, 1, 2)], "d": ["x, y"]})
    text = csv_text(frame)
    assert list(csv.reader(io.StringIO(text)))[1] == ["-1.1", "-3.5", "2026-01-02", "x, y"]
    assert text.endswith("\r\n")


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ((0.01, 0.02, 17.32), ("0.0", "0.0", "17.3")),  # beside a ten, hundredths are no news
        ((0.4, 1.6), ("0.4", "1.6")),  # no noughts that were not measured
        ((0.05, 0.125), ("0.050", "0.125")),
        ((3.0, 12.0), ("3", "12")),
    ],
)
def test_decimals_are_those_a_reader_can_use(values: tuple[float, ...], words: tuple[str, ...]) -> None:
    """A column's decimals follow its size, and never claim more than the numbers have."""
    view = of_frame(pd.DataFrame({"kWh": values}), uid="u", caption="c", whole=len(values))
    assert tuple(row[0] for row in view.rows) == words
