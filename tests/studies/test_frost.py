"""The bands that the frost page prints are those of the study's table; and the study itself, run by hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from studies.frost import run

from reportgen.measures.frost_failure import BALANCE_BAND_K, UNHEATED_BAND_K

RESULTS = (Path(__file__).parent / "FROST.md").read_text(encoding="utf-8")


def test_the_bands_printed_are_the_study_s() -> None:
    """Both stand in the table, each with at least nine in ten within."""
    for row, band in (("balance after 3 h", BALANCE_BAND_K), ("unheated relation", UNHEATED_BAND_K)):
        line = next(line for line in RESULTS.splitlines() if line.startswith(f"| {row}"))
        words = next(part for part in line.split(";") if "within" in part)
        share, _, rest = words.strip().partition(" % within ")
        assert int(share) >= 90
        assert rest.startswith(f"{band} K")


@pytest.mark.study
def test_a_few_houses_run() -> None:
    """Three houses give every line."""
    assert len(run(3)) == 6
