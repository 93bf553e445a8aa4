"""What the method page tells of the dial is what its study found; and the study itself, on one house."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import pytest
from studies.dial import rows
from studies.dial_results import table

from reportgen.charts.method_dial import METHODS
from reportgen.measures.dial_measured import DIAL_RATES, HOUSES, STUDY_DATE

RESULTS = (Path(__file__).parent / "DIAL.md").read_text(encoding="utf-8")


def test_every_rate_stands_in_the_study_s_table() -> None:
    """Each row of the package is a row of DIAL.md, and of the same run."""
    frame = pd.DataFrame([{name: getattr(rate, name) for name in rate.__dataclass_fields__} for rate in DIAL_RATES])
    assert len(frame) == 6
    assert all(line in RESULTS for line in table(frame))
    assert f"Run on {STUDY_DATE}" in RESULTS
    assert f"{HOUSES} houses" in RESULTS
    assert str(HOUSES) in METHODS[0].measured


def test_the_rule_is_the_one_that_kept_the_nights_over_the_limit() -> None:
    """The coldest night and 1 K held in nine of ten cases or more, in either winter, and no rule held more often."""
    for winter in ("same winter", "another winter"):
        clear = {rate.rule: rate.clear_pct for rate in DIAL_RATES if rate.winter == winter}
        assert clear["the coldest night and 1 K"] >= 90.0
        assert clear["the coldest night and 1 K"] == max(clear.values())


@pytest.mark.study
def test_one_house_gives_every_setting() -> None:
    """1, 2 and 3 K lower in the same winter, one of them in another."""
    told = pd.DataFrame(rows(0, "large"))
    assert list(told["winter"]) == ["same winter"] * 3 + ["another winter"]
    assert (told["nights"] > 30).all()
