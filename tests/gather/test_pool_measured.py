"""What the pages quote of the study of pooling stands in its tables, and its counting is right by hand."""

from __future__ import annotations

import re
from pathlib import Path

import pandas as pd
from studies.pooling_results import marked, rates, shared_errors, summary

from reportgen.effects.measured import Counted
from reportgen.gather import pool_measured as study
from reportgen.gather.pool_recipe import SHARED_ERROR
from reportgen.gather.types import POOLED

TEXT = (Path(__file__).parents[1] / "studies" / "POOLING.md").read_text(encoding="utf-8")
ROWS = {
    "lift": "warmth at night",
    "heat": "heat",
    "watts_per_kelvin": "watts per kelvin",
    "night_humidity": "humidity at night",
    "soil_mean": "bed",
}


def quoted(name: str) -> list[Counted | None]:
    """The counts of the first row of that name: a summary."""
    row = next(line for line in TEXT.splitlines() if line.startswith(f"| {name} |"))
    cells = [re.findall(r"\d+", cell) for cell in row.split("|")[2:-1]]
    return [Counted(k=int(cell[0]), n=int(cell[1])) if len(cell) == 2 else None for cell in cells]


def test_the_pages_quote_the_tables() -> None:
    """Date, houses, weathers, groups and counts of POOLING.md are those of gather/pool_measured.py."""
    opening = f"Run on {study.STUDY_DATE}: {study.HOUSES} simulated houses ({study.HEATED_HOUSES} heated) under "
    assert f"{opening}{study.WEATHERS} weathers, {study.GROUPS} groups" in TEXT
    for told, names in (
        (study.BY_ARRANGEMENT, {name: name for name in study.BY_ARRANGEMENT}),
        (study.BY_OUTCOME, ROWS),
    ):
        for key, rates_ in told.items():
            assert [
                rates_.false_signs, rates_.false_verdicts, rates_.mean_held, rates_.next_there, rates_.next_anywhere,
                rates_.wrong_sign,
            ] == quoted(names[key])  # fmt: skip
    assert set(study.BY_OUTCOME) == set(POOLED)


def test_the_study_is_as_large_as_it_must_be() -> None:
    """240 houses and 200 groups at the least, as planned before it was run."""
    assert study.HOUSES >= 240 and study.GROUPS >= 200


def rows_under(heading: str) -> list[tuple[str, str, int, int, Counted]]:
    """What, arrangement, places, houses, count: every cell of the table under a heading."""
    section = next(part for part in TEXT.split("\n## ") if part.startswith(heading))
    lines = [line.strip("|").split("|") for line in section.splitlines() if line.startswith("|")][2:]
    found = []
    for what, arrangement, places, *cells in ([cell.strip() for cell in line] for line in lines):
        for houses, cell in zip((3, 5, 8, 12, 20), cells, strict=True):
            if counts := re.fullmatch(r"(\d+) of (\d+)", cell):
                count = Counted(k=int(counts[1]), n=int(counts[2]))
                found.append((what, arrangement, int(places), houses, count))
    return found


def test_aims_are_met_or_said_to_be_missed() -> None:
    """In every row and size false alarms at most 5 %, a next house held by 90 %; a mean held by under 95 % is named."""
    assert all(count.share <= 0.05 for *_, count in rows_under("Nothing done: the mean's interval leaves out 0"))
    for heading in ("Something done: the next house's interval", "The same for a next house under any weather"):
        assert all(count.share >= 0.90 for *_, count in rows_under(heading))
    missed = [
        (what, arrangement, places, houses, count)
        for what, arrangement, places, houses, count in rows_under("Something done: the mean's interval holds")
        if count.share < 0.95
    ]
    assert missed == [(m.what, m.arrangement, m.places, m.houses, m.held) for m in study.MISSED]


def test_marks_are_right_by_hand() -> None:
    """Zero outside 0.1 to 0.5; a truth of 0.2 inside it; a next house of 0.9 not inside 0 to 0.8, one of 0.7 inside."""
    one = {
        "outcome": "lift", "warmth": "heated", "deed": "film", "arrangement": "one fortnight", "k": 5, "cell": "a 24",
        "mean": 0.3, "low": 0.1, "high": 0.5, "next_low": 0.0, "next_high": 0.8, "verdict": "more", "truth": 0.2,
        "next_truth": 0.9, "next_elsewhere": 0.7,
    }  # fmt: skip
    nothing = one | {"deed": "nothing", "truth": 0.0, "low": -0.1, "verdict": "cannot tell", "mean": 0.2}
    found = marked(pd.DataFrame([one, one | {"truth": -0.2}, nothing]))
    assert found["sign"].tolist() == [True, True, False]
    assert found["held"].tolist() == [True, False, True]
    assert found["wrong"].tolist() == [False, True, False]
    assert found["next"].tolist()[0] is False and found["elsewhere"].tolist()[0] is True
    assert summary(found, "outcome") == [
        ("warmth at night", "0 of 1", "0 of 1", "1 of 2", "0 of 2", "2 of 2", "1 of 2")
    ]  # fmt: skip
    done = found[found["deed"] == "film"]
    assert rates(done, "held", (5, 8)) == [("warmth at night, heated, film", "one fortnight", "1", "1 of 2", "–")]


def test_shared_error_is_found_by_moments() -> None:
    """Three fortnights of three houses: own errors −1, 0, 1 about shared ones of −3, 0 and 3.

    By hand: own variance 1; mean square of the means (9 + 0 + 9)/3 = 6; less 1/3; √(5.667) = 2.380.
    """
    rows = [
        {"outcome": "heat", "heated": True, "deed": "nothing", "cell": str(shared), "effect": shared + own}
        for shared in (-3.0, 0.0, 3.0)
        for own in (-1.0, 0.0, 1.0)
    ]
    assert shared_errors(pd.DataFrame(rows)) == [("heat, heated", "3", "2.380", "1.000", f"{SHARED_ERROR['heat']:g}")]
