"""What pages say of the study of changes is what the study's table says, and no word claims more."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.effects import measured
from reportgen.effects.verdict import JUDGED_ON

RESULTS = (Path(__file__).parents[1] / "studies" / "RESULTS.md").read_text(encoding="utf-8")


def line_of(heading: str, row: str) -> str:
    """The row of the first table after a heading."""
    after = RESULTS[RESULTS.index(heading) :]
    return next(line for line in after.splitlines() if line.startswith(f"| {row} |"))


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
    assert f"({counted.k} of {counted.n};" in line_of("# Honesty", row)
    assert f"({measured.FALSE_SIGNS_ALL.k} of {measured.FALSE_SIGNS_ALL.n};" in line_of("# Honesty", "all")


@pytest.mark.parametrize("outcome", sorted({name for pair in JUDGED_ON.values() for name in pair}))
def test_every_outcome_that_is_judged_has_its_own_counts(outcome: str) -> None:
    """False signs and coverage of each outcome stand in the table as on the pages."""
    false, held = measured.FALSE_SIGNS_BY_OUTCOME[outcome], measured.HELD_BY_OUTCOME[outcome]
    assert f"({false.k} of {false.n};" in line_of("## Changes that do nothing", outcome)
    assert f"({held.k} of {held.n};" in line_of("## Changes that do something", outcome)


@pytest.mark.parametrize(
    ("k", "n", "word"),
    [(90, 100, "Nine in ten"), (89, 100, "Fairly sure"), (80, 100, "Fairly sure"), (79, 100, "A hint")],
)
def test_no_word_claims_more_than_was_measured(k: int, n: int, word: str) -> None:
    """Nine in ten from 90 % on, fairly sure from 80 % on, below that a hint."""
    assert measured.confidence(measured.Counted(k=k, n=n)) == word
    assert measured.Counted(k=k, n=n).share == k / n


def test_the_date_and_the_number_of_winters_are_those_of_the_table() -> None:
    """Date, winters and changes of both halves."""
    assert measured.STUDY_DATE in RESULTS
    assert f"{measured.PLACEBO_WINTERS} winters with {measured.PLACEBO_CHANGES} changes" in RESULTS
    assert f"{measured.TRUE_WINTERS} winters with {measured.TRUE_CHANGES} changes" in RESULTS
