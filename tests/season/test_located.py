"""Problems of later floors get their line of season.toml."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.problems import Problem
from reportgen.season.located import located

TEXT = """title = "A"
[place]
latitude = 50.0
[[logger]]
name = "bench"
files = ["a.csv"]
[logger.measures]
ppfd = { column = "P" }
[[heating]]
name = "one"
[[heating]]
name = "two"
price = 0.3
"""


@pytest.mark.parametrize(
    ("column", "line"),
    [
        ("[[heating]] 2 · price", 13),
        ("[[heating]] 1 · heat_kwh_per_unit", 9),  # a key that is missing: the line of its table
        ("[[heating]] two · price", 13),
        ("[[logger]] bench · files", 6),
        ("[[logger]] bench · ppfd", 8),
        ("[place] · latitude", 3),
        ("title", 1),
        ("[[heating]] 9 · price", None),
        ("[[crop]] kale · area_m2", None),
    ],
)
def test_a_key_is_found_by_its_address(tmp_path: Path, column: str, line: int | None) -> None:
    """By number or name of the entry; a missing key stands at its table; what is nowhere has no line."""
    (tmp_path / "season.toml").write_text(TEXT, encoding="utf-8")
    fault = Problem(slug="x", file="season.toml", column=column, found="f", expected="e", todo="t")
    assert located([fault], tmp_path)[0].line == line


def test_other_files_and_known_lines_stay(tmp_path: Path) -> None:
    """Only problems of season.toml without a line are looked up; a folder without the file changes nothing."""
    other = Problem(slug="x", file="a.csv", column="title", found="f", expected="e", todo="t")
    known = Problem(slug="x", file="season.toml", line=5, column="title", found="f", expected="e", todo="t")
    bare = Problem(slug="x", file="season.toml", column="title", found="f", expected="e", todo="t")
    assert located([other, known, bare], tmp_path) == [other, known, bare]
