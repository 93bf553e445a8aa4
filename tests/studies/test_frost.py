"""The rates that the method page tells of the holding limit are those of the study's table; and the study itself."""

from __future__ import annotations

from pathlib import Path

import pytest
from studies.frost import run

from reportgen.charts.method_cold import METHODS

RESULTS = (Path(__file__).parent / "FROST.md").read_text(encoding="utf-8")


def test_the_rates_told_are_the_study_s() -> None:
    """Nights below the edge, inside the range seen and colder, stand in both."""
    told = next(method.measured for method in METHODS if method.slug == "holding").replace("\u202f", "")
    for row in ("in the range seen", "colder than all seen"):
        line = next(line for line in RESULTS.splitlines() if line.startswith("| nights below") and row in line)
        counted = line.split("(")[1].split(";")[0].split(")")[0]
        assert counted in told, row


@pytest.mark.study
def test_a_few_houses_run() -> None:
    """Three houses give every line."""
    assert len(run(3)) == 3
