"""What pages say of the study is what the study's table says; and the study itself, run by hand."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import pytest
from studies.changes import COLUMNS, run
from studies.results import rate, told

from reportgen.effects import measured

RESULTS = (Path(__file__).parent / "RESULTS.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("row", "counted"),
    [
        ("the outcome hoped for", measured.FALSE_SIGNS_HOPED),
        ("false signs, outcome hoped for", measured.FALSE_SIGNS_HOPED),
        ("false signs of a plain before/after picture", measured.PLAIN_FALSE_SIGNS),
        ("coverage of the 95 % interval", measured.HELD_TRUTH),
    ],
)
def test_the_figures_on_the_pages_are_those_of_the_table(row: str, counted: measured.Counted) -> None:
    """Each count stands in its row of RESULTS.md."""
    line = next(line for line in RESULTS.splitlines() if line.startswith(f"| {row} |"))
    assert f"({counted.k} of {counted.n};" in line


def test_the_date_and_the_number_of_winters_are_those_of_the_table() -> None:
    """Date, winters and changes of both halves."""
    assert measured.STUDY_DATE in RESULTS
    assert f"{measured.PLACEBO_WINTERS} winters with {measured.PLACEBO_CHANGES} changes" in RESULTS
    assert f"{measured.TRUE_WINTERS} winters with {measured.TRUE_CHANGES} changes" in RESULTS


def test_a_rate_carries_its_counts_and_interval() -> None:
    """5 of 100: exact binomial interval 1.6–11.3 % (Clopper and Pearson 1934; tabled value)."""
    assert rate(pd.Series([True] * 5 + [False] * 95)) == "5.0 % (5 of 100; 1.6–11.3)"


@pytest.mark.study
def test_study_of_false_alarms_and_coverage() -> None:
    """60 winters without and 20 with a true change: signs at most 6 %, coverage at least 93 %. About three minutes.

    The whole study: python tests/studies/changes.py rows.csv --placebo 240 --true 100 --write RESULTS.md --date …
    """
    rows = [row for seed in range(60) for row in run(seed, False)]
    rows += [row for seed in range(10_000, 10_020) for row in run(seed, True)]
    found = told(pd.DataFrame(rows, columns=list(COLUMNS)))
    true = found["true"].astype(bool)
    assert found.loc[~true, "sign"].mean() <= 0.06
    assert found.loc[true, "holds"].mean() >= 0.93
