"""The study of single houses: what the method page quotes stands in its table, and its counting is right by hand."""

from __future__ import annotations

import re
from pathlib import Path

import pandas as pd
import pytest
from studies.alone import COLUMNS
from studies.alone_results import SHARE, line, told

from reportgen.effects import alone_measured as study
from reportgen.effects.measured import Counted

TABLE = (Path(__file__).parent / "ALONE.md").read_text(encoding="utf-8")
ROWS = {
    "the warmth of nights without heat, with a probe in the bed": "warmth at night, unheated, with a probe in the bed",
    "the heat of a day with a probe": "heat a day, kWh, with a probe",
    "the heat of a day without one": "heat a day, kWh, without one",
    "its share with a probe": "heat a day as a share, with a probe",
    "its share without one": "heat a day as a share, without one",
}


def counted(heading: str, row: str, cell: int) -> Counted:
    """(k of n; …) of a cell of the row of the table after a heading."""
    after = TABLE[TABLE.index(f"## {heading}") :]
    (found,) = [entry for entry in after.split("\n## ")[0].splitlines() if entry.startswith(f"| {row} |")]
    k, n = re.search(r"\((\d+) of (\d+);", found.split("|")[cell]).groups()  # type: ignore[union-attr]
    return Counted(k=int(k), n=int(n))


def test_the_method_page_quotes_the_table() -> None:
    """Date, houses, what held before and now, false signs now."""
    without, heated = study.ALONE_HOUSES
    assert f"Run on {study.ALONE_DATE}: {without} unheated and {heated} heated simulated houses" in TABLE
    assert set(study.HELD) == set(ROWS)
    for words, (then, now) in study.HELD.items():
        assert now == counted("Something done, now", f"{ROWS[words]}, all", 2)
        assert then == counted("The same houses, before", f"{ROWS[words]}, all", 2)
    assert set(study.FALSE_SIGNS) == {words for words in ROWS if "share" not in words}
    for words, signs in study.FALSE_SIGNS.items():
        assert signs == counted("Nothing done", ROWS[words], 3)


def test_a_share_is_of_what_the_days_would_have_taken() -> None:
    """−5 (−8 to −2) of 20 kWh without it: −0.25 (−0.4 to −0.1); a true share of −0.3 lies in it, and so does −6 kWh."""
    row = dict.fromkeys(COLUMNS, "") | {
        "weather": "w", "heated": True, "house": 1, "probe": True, "season": "autumn", "when": "2025-11-05",
        "deed": "film", "outcome": "heat", "effect": -5.0, "low": -8.0, "high": -2.0, "before": 20.0, "truth": -6.0,
        "true_share": -0.3,
    }  # fmt: skip
    found = told(pd.DataFrame([row])).set_index("outcome")
    assert found.loc[SHARE, ["effect", "low", "high", "truth"]].tolist() == pytest.approx([-0.25, -0.4, -0.1, -0.3])
    assert found["holds"].all() and found["right"].all()
    assert line("all", found[found.index == "heat"])[2:] == ("-6.00", "-5.00", "3.00", "1 of 1")
