"""The rates that the pages tell of the holding limit are those of the study's table; and the study itself."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from studies.frost import HOLDS, JUST, LIMIT, NOW, run, table, true_limit

from reportgen.charts.method_cold import METHODS
from reportgen.counsel.frost_next import NO_PROMISE

RESULTS = (Path(__file__).parent / "FROST.md").read_text(encoding="utf-8")
COUNTED = re.compile(r"\((\d+) of (\d+)\)")


def rows(kind: str) -> list[list[str]]:
    """Cells of the lines of the final table that tell of one kind, now, in heated houses."""
    lines = [line for line in RESULTS.splitlines() if f"| {NOW} | {kind} |" in line]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if "| none" not in line]


def summed(kind: str, column: int) -> tuple[int, int]:
    """Nights that fell, and all, of every heater."""
    pairs = [found.groups() for row in rows(kind) if (found := COUNTED.search(row[column]))]
    return sum(int(some) for some, _ in pairs), sum(int(of) for _, of in pairs)


def test_the_rates_told_are_the_study_s() -> None:
    """Nights within 2 K of a limit and of the coldest that held, of every heater together."""
    told = next(method.measured for method in METHODS if method.slug == "holding").replace("\u202f", "")
    for kind in (LIMIT, HOLDS, JUST):
        some, of = summed(kind, 5)
        assert of > 100 and f"({some} of {of})" in told, (kind, some, of)


def test_what_is_said_of_houses_that_held_only_just() -> None:
    """“One of ten” is the share of the table, within a fiftieth."""
    some, of = summed(JUST, 5)
    assert "one of ten later nights" in NO_PROMISE
    assert some / of == pytest.approx(0.1, abs=0.02)


def test_the_truth_is_where_one_night_in_twenty_falls() -> None:
    """By hand: ten nights every half kelvin from 8 to −12 °C; at −6 °C and colder all fall, above none: the lowest
    1.5 K in which none fell begins at −5.5. Of a house that never falls there is no limit."""
    outdoor = np.repeat(np.arange(8.0, -12.01, -0.5), 10)
    assert true_limit(outdoor, np.where(outdoor <= -6.0, -1.0, 1.0), 0.0) == -5.5
    assert true_limit(outdoor, np.ones(len(outdoor)), 0.0) == -np.inf


@pytest.mark.study
def test_a_few_houses_run() -> None:
    """One seed gives a house of each heater and lines for each."""
    lines = table(run(1, 2))
    assert len(lines) > 8 and all(line.count("|") == 8 for line in lines)
