"""A faulty season.toml hides nothing: its other faults and those of the other files are told in the same list."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from reportgen.inspection import inspect
from reportgen.problems import SeasonError
from reportgen.season import load_season

SAMPLE = Path(__file__).parents[2] / "sample_season"


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """The sample with a misspelt key, a wrong value, a wrong zone and a wrong date in the diary."""
    folder = Path(shutil.copytree(SAMPLE, tmp_path / "season"))
    text = (folder / "season.toml").read_text(encoding="utf-8")
    for right, wrong in (("\nsoil_c ", "\nsoli_c "), ('"metric"', '"metrik"'), ("Europe/", "Eurpe/")):
        assert right in text
        text = text.replace(right, wrong, 1)
    (folder / "season.toml").write_text(text, encoding="utf-8")
    return folder


def test_shape_and_meaning_are_told_together(season: Path) -> None:
    """An unknown key, a wrong word, and a zone that only a look at the whole finds wrong are one list."""
    with pytest.raises(SeasonError) as caught:
        load_season(season)
    assert sorted(problem.slug for problem in caught.value.problems) == [
        "unknown-key",
        "unknown-time-zone",
        "wrong-value",
    ]


def test_the_books_are_read_beside_a_faulty_key(season: Path) -> None:
    """With the zone right, the diary's wrong date is told beside the faults of season.toml."""
    toml = season / "season.toml"
    toml.write_text(toml.read_text(encoding="utf-8").replace("Eurpe/", "Europe/"), encoding="utf-8")
    (season / "diary.csv").write_text("date,kind,what\n2025-13-45,change,sealed\n", encoding="utf-8")
    problems = [(problem.file, problem.slug) for problem in inspect(season).problems]
    told = [one for one in problems if one[1] != "question-about-nothing"]
    assert len(problems) == len(told) + 2  # two of the sample's questions are about lines of the diary it had
    assert told == [("diary.csv", "not-a-date"), ("season.toml", "wrong-value"), ("season.toml", "unknown-key")]


def test_a_logger_that_is_wrong_through_and_through_is_left_out(season: Path) -> None:
    """A whole table that cannot be used is told once, and the rest is looked at all the same."""
    toml = season / "season.toml"
    text = toml.read_text(encoding="utf-8").replace("Eurpe/", "Europe/")
    toml.write_text(text.replace('where = "outdoor"', "where = 5"), encoding="utf-8")
    problems = inspect(season).problems
    assert [p.slug for p in problems if p.file == "season.toml"].count("wrong-value") == 2
    assert all(problem.file == "season.toml" for problem in problems)
