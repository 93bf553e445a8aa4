"""What pages say of the study of two winters is what its table says."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.effects.measured import Counted
from reportgen.winters.apart import APART
from reportgen.winters.measured import STUDY, STUDY_DATE, Measured, totals, words

PAIRS = (Path(__file__).parents[1] / "studies" / "TWO_WINTERS.md").read_text(encoding="utf-8")
HEADINGS = {"missed": "## Nothing altered", "held": "## A better house: the interval holds"}


def cells(heading: str, outcome: str) -> tuple[str, str]:
    """All pairs and those far apart, of the first table after a heading."""
    after = PAIRS[PAIRS.index(heading) :]
    row = next(line for line in after.splitlines() if line.startswith(f"| {outcome} |"))
    _, _, every, far, _ = row.split("|")
    return every, far


def counts(of: Measured) -> dict[str, tuple[Counted, Counted]]:
    """By heading: of all pairs and of those far apart."""
    return {"missed": (of.missed_zero, of.far_missed_zero), "held": (of.held_truth, of.far_held_truth)}


@pytest.mark.parametrize("outcome", APART)
def test_the_figures_of_two_winters_are_those_of_their_table(outcome: str) -> None:
    """Signs with nothing altered and coverage of a better house, of all pairs and of those far apart."""
    for name, told in counts(STUDY[outcome]).items():
        for cell, counted in zip(cells(HEADINGS[name], outcome), told, strict=True):
            assert f"({counted.k} of {counted.n};" in cell
    assert STUDY_DATE in PAIRS


def test_the_words_carry_the_counts() -> None:
    """Heat: 1 of 37 left out zero, 35 of 37 held the truth: more than nine in ten."""
    assert words("heat") == (
        "Nine in ten: on simulated pairs of winters such an interval left out zero 1 of 37 times when nothing was "
        "altered, and held the truth 35 of 37 times when the house was."
    )


def test_totals_are_the_sums_of_the_table() -> None:
    """Over the eight outcomes, from the table's own cells: left out zero, of those far apart, held the truth."""

    def summed(heading: str, which: int) -> Counted:
        pairs = [cells(heading, outcome)[which].partition("(")[2].partition(";")[0].split(" of ") for outcome in APART]
        return Counted(k=sum(int(k) for k, _ in pairs), n=sum(int(n) for _, n in pairs))

    assert totals() == (summed(HEADINGS["missed"], 0), summed(HEADINGS["missed"], 1), summed(HEADINGS["held"], 0))
