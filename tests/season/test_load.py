"""season.toml: read into a frozen Season, or refused with every fault at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from pydantic import ValidationError

from reportgen.problems import SeasonError
from reportgen.season import load_season

GOOD = """format = 1
title = "A winter"
first_day = 2025-10-01
last_day = 2026-03-31
time_zone = "Europe/Prague"
[[logger]]
name = "bench"
where = "crop"
files = ["loggers/bench.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "T" }
"""


def folder(tmp_path: Path, text: str) -> Path:
    (tmp_path / "season.toml").write_text(text, encoding="utf-8")
    return tmp_path


def test_ten_lines_are_a_season(tmp_path: Path) -> None:
    """The shortest season is read; what is left out has its documented default; nothing can be changed."""
    season = load_season(folder(tmp_path, GOOD))
    assert season.aims.frost_c == 0.0
    assert season.hours == 182 * 24  # 25 h on 26 October, 23 h on 29 March
    with pytest.raises(ValidationError):
        season.title = "other"


def test_every_fault_is_told_at_once_with_its_line(tmp_path: Path) -> None:
    """An unknown key, a wrong type and a path that leads out come together, each with its line."""
    text = GOOD.replace("title =", "titel =").replace('"crop"', '"crp"')
    with pytest.raises(SeasonError) as caught:
        load_season(folder(tmp_path, text))
    told = {(p.slug, p.line) for p in caught.value.problems}
    assert {("unknown-key", 2), ("missing-key", None), ("wrong-value", 8)} <= told


@pytest.mark.parametrize("path", ["../x.csv", "/etc/passwd", "C:/x.csv"])
def test_no_path_leads_out(tmp_path: Path, path: str) -> None:
    """All paths stay inside the folder."""
    with pytest.raises(SeasonError, match="path-leads-out"):
        load_season(folder(tmp_path, GOOD.replace("loggers/bench.csv", path)))
