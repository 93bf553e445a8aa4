"""What the method page tells of the balance is what its study found; and the study itself, on one house."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import pytest
from studies.house import rows
from studies.house_results import summary, table

from reportgen.measures.house.measured import RATES, STUDY_DATE

RESULTS = (Path(__file__).parent / "HOUSE.md").read_text(encoding="utf-8")


def test_every_rate_stands_in_the_study_s_table() -> None:
    """Each row of the package is a row of HOUSE.md, and of the same run."""
    frame = pd.DataFrame([{name: getattr(rate, name) for name in rate.__dataclass_fields__} for rate in RATES])
    assert all(line in RESULTS for line in table(frame))
    assert f"Run on {STUDY_DATE}" in RESULTS


def test_what_is_called_nine_in_ten_was_measured_so() -> None:
    """Pages say "about nine in ten" of these ranges: over all kinds and heaters they held 85 in 100 or more."""
    for figure in (
        "no heat, coldest fifth",
        "failure 3 h, ten coldest",
        "failure 8 h, ten coldest",
        "loss",
        "heater size",
    ):
        kept = [rate for rate in RATES if rate.figure == figure]
        assert sum(rate.inside * rate.values for rate in kept) >= 85 * sum(rate.values for rate in kept), figure


@pytest.mark.study
def test_one_house_gives_every_figure() -> None:
    """Large, small and no heater of one seed."""
    told = pd.DataFrame([row for heater in ("large", "small", "none") for row in rows(0, heater)])
    assert {"loss", "heater size", "failure 8 h, ten coldest", "no heat, season minimum"} <= set(
        summary(told)["figure"]
    )
