"""The words of the study, its counting by hand, and the study itself, run by hand.

That pages quote its table: tests/effects/test_measured.py and tests/winters/test_measured.py.
"""

from __future__ import annotations

from itertools import pairwise

import pandas as pd
import pytest
from studies.changes import COLUMNS, run
from studies.results import design_effect, rate, told
from studies.winters import drawn, plan

from reportgen.counsel.winters import JUDGED
from reportgen.effects import measured
from reportgen.winters import measured as two


def test_what_is_told_as_fairly_sure_was_measured_so() -> None:
    """Every judged outcome, of changes and of winters, held the truth at least eight times in ten."""
    of_winters = {name: two.STUDY[name].held_truth for name in JUDGED}
    for held in (*measured.HELD_BY_OUTCOME.values(), *of_winters.values()):
        assert held.share >= measured.FAIRLY_SURE


def test_a_rate_carries_its_counts_and_interval() -> None:
    """5 of 100: exact binomial interval 1.6–11.3 % (Clopper and Pearson 1934; tabled value)."""
    assert rate(pd.Series([True] * 5 + [False] * 95)) == "5.0 % (5 of 100; 1.6–11.3)"


def test_rows_that_err_together_count_for_fewer() -> None:
    """Forty clusters of two rows alike, ten of them marked, on paper: the rate of 0.25 has the independent variance
    80 · 0.25 · 0.75 = 15; the clusters' sums of squares are 10 · 1.5² + 30 · 0.5² = 30, times 40/39."""
    marks = pd.Series(([True] * 10 + [False] * 30) * 2)
    names = pd.Series([str(n) for n in range(40)] * 2)
    assert design_effect(marks, names) == pytest.approx(30 * 40 / 39 / 15)
    assert design_effect(marks, pd.Series(range(80))) == pytest.approx(80 / 79)
    assert rate(marks, names).startswith("25.0 % (20 of 80; ")
    low, high = rate(marks, names).split("; ")[1].rstrip(")").split("–")
    plain_low, plain_high = rate(marks).split("; ")[1].rstrip(")").split("–")
    assert float(low) < float(plain_low) and float(high) > float(plain_high)


def test_the_dates_of_the_study_lie_all_over_the_season() -> None:
    """Of two hundred diaries every month from the last week of October to the first of April has its dates, none of
    them under 25 days apart."""
    days = [[change.at.toordinal() for change in plan(seed, False).told] for seed in range(6)]
    assert min(b - a for three in days for a, b in pairwise(three)) >= 25
    house = plan(0, False)
    months = {change.at.month for number in range(200) for change in drawn(house, number)}
    assert months == {10, 11, 12, 1, 2, 3, 4}


@pytest.mark.study
def test_study_of_false_alarms_and_coverage() -> None:
    """60 winters without and 20 with a true change: signs at most 6 %, coverage at least 93 %. About three minutes.

    The whole study: python tests/studies/changes.py rows.csv --placebo 120 --true 60 --write RESULTS.md --date …
    """
    rows = [row for seed in range(60) for row in run(seed, False)]
    rows += [row for seed in range(10_000, 10_020) for row in run(seed, True)]
    found = told(pd.DataFrame(rows, columns=list(COLUMNS)))
    true = found["true"].astype(bool)
    assert found.loc[~true, "sign"].mean() <= 0.06
    assert found.loc[true, "holds"].mean() >= 0.93
