"""A small, seeded part of the honesty study (tests/studies): nothing done must nearly always be called nothing."""

from __future__ import annotations

import pandas as pd
import pytest
from studies.changes import COLUMNS, run
from studies.results import told


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_winters_in_which_nothing_was_done_get_few_signs(seed: int) -> None:
    """Three do-nothing changes in simulated and real weather: at most one false sign on what was hoped for.

    The study's rate is about one in forty; two of three would come about once in 500 such winters.
    """
    rows = told(pd.DataFrame(run(seed, False), columns=list(COLUMNS)))
    assert len(rows) > 5
    assert rows.loc[rows["declared"], "sign"].sum() <= 1


def test_a_winter_with_true_changes_is_covered() -> None:
    """Three true changes, the truth from their twins: at least eight of ten intervals hold it (the study: 95 %)."""
    rows = told(pd.DataFrame(run(10_004, True), columns=list(COLUMNS)))
    assert len(rows) > 10
    assert rows["holds"].mean() >= 0.8
    assert rows["truth"].abs().max() > 0
