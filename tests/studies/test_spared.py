"""The study of spared heat: what the pages quote stands in its table, and its counting is right by hand."""

from __future__ import annotations

import re
from pathlib import Path

import pandas as pd
from studies.spared_results import held, line

from reportgen.effects import spared_measured as study
from reportgen.effects.measured import Counted

TABLE = (Path(__file__).parent / "SPARED.md").read_text(encoding="utf-8")
ROWS = {
    "heat for each degree": "by the heat for each degree",
    "days": "by days, where that was refused",
    "a weekly meter": "by a weekly meter",
}


def quoted(name: str) -> tuple[Counted, Counted]:
    """since held, winter held of a row of the table."""
    (row,) = [entry for entry in TABLE.splitlines() if entry.startswith(f"| {name} |")]
    counts = [tuple(map(int, re.findall(r"\d+", cell))) for cell in row.split("|")[3:5]]
    return tuple(Counted(k=k, n=n) for k, n in counts)  # type: ignore[return-value]


def test_the_pages_quote_the_table() -> None:
    """Houses, date and counts of SPARED.md are those of effects/spared_measured.py."""
    assert f"{study.SPARED_HOUSES} simulated houses, {study.SPARED_DATE}" in TABLE
    for way, name in ROWS.items():
        assert study.HELD_BY_WAY[way] == quoted(name)


def test_kinds_and_ways_count_the_same_houses() -> None:
    """Heat by the hour is told by nights or by days; the three kinds add up to both."""
    for which in (0, 1):
        ways = [study.HELD_BY_WAY[way][which] for way in ("heat for each degree", "days")]
        kinds = [study.HELD_BY_KIND[kind][which] for kind in ("cover", "gaps", "night curtain")]
        assert sum(c.n for c in ways) == sum(c.n for c in kinds)
        assert sum(c.k for c in ways) == sum(c.k for c in kinds)


def test_held_is_between_the_two_ends() -> None:
    """A truth of 5 lies between 4 and 6, not between 6 and 9; what was refused is not counted as told."""
    table = pd.DataFrame(
        {"truth_since": [5.0, 5.0, 5.0], "since_low": [4.0, 6.0, None], "since_high": [6.0, 9.0, None],
         "truth_winter": 5.0, "winter_low": [4.0, 6.0, None], "winter_high": [6.0, 9.0, None], "heat": 100.0}
    )  # fmt: skip
    assert held(table, "since").tolist()[:2] == [True, False]
    assert line("any", table) == "| any | 2 of 3 | 1 of 2 | 1 of 2 | 1.2 % | 1.2 % |"
